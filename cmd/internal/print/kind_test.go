package print

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// strip is a kind of paper as somebody new would write it: one line of a
// product, and nothing that makes paper safe.
func strip() *Kind {
	return &Kind{
		Name: "strip", File: "strip", One: "strip", Many: "strips", SSCC: true,
		Paper: func(*Job) string { return "roll-100x60" },
		Judge: func(*Job) market.Pack { return market.Pack{Sale: market.Loose} },
		Compose: func(j *Job) (Set, error) {
			w, h := j.Stock.Size()
			pen := &flow.Pen{Faces: j.faces}
			var names, said []string
			for i, t := range j.Told {
				names, said = append(names, t.Name.Text), append(said, named(j.Langs[i], j.Facts.Contains))
			}
			room := page.Rect{X: 5 * unit.MM, Y: 5 * unit.MM, W: w - 10*unit.MM, H: h / 2}
			_, err := pen.Para(room, flow.Strong(role.Name, j.Product.Pos, strings.Join(names, " / ")), flow.Style{Size: 5 * unit.MM})
			if err == nil {
				room.Y += h / 2
				_, err = pen.Para(room, flow.Strong(role.Allergens, j.Product.Pos, strings.Join(said, " / ")), flow.Style{Size: 5 * unit.MM})
			}
			return Set{Arts: []*page.Art{{W: w, H: h, Items: pen.Items}}}, err
		},
	}
}

// withStrip is a shop that also prints strips.
func withStrip(t *testing.T, edits ...string) *Press {
	t.Helper()
	p := newShop(t, edits...)
	p.kinds = append(p.kinds, strip())
	return p
}

const choux = "pistachio-choux"

// A new kind is approved or a draft, without a word of its author's.
func TestNewKindIsApproved(t *testing.T) {
	p := withStrip(t)
	if b := asked(t, p, "strip", choux, Request{}); len(b.Papers) != 1 || strings.Contains(b.Papers[0].Name+b.Papers[0].About, "draft") {
		t.Fatal(b.Papers, b.Found.All())
	}
	p.Shop.Approvals = shop.Approvals{}
	if b := asked(t, p, "strip", choux, Request{}); len(b.Papers) != 0 || !slices.Contains(rules(b.Found), "not-approved") {
		t.Error("food that nobody approved was printed for sale")
	}
	j := sound(t, p, "strip", choux, Request{Draft: true})
	if n := marks(t, j.set.art(1), j.safe(j.set.art(1).Area())); n == 0 {
		t.Error("a draft bears no mark")
	}
	b := asked(t, p, "strip", choux, Request{Draft: true})
	if len(b.Papers) != 1 || !strings.HasPrefix(b.Papers[0].Name, "draft-strip-"+choux) || !strings.HasPrefix(b.Papers[0].About, "DRAFT, ") {
		t.Errorf("a draft is not said to be one: %+v", b.Papers)
	}
}

// It speaks what the market demands: Great Britain wants English (FIR 2014).
func TestNewKindSpeaks(t *testing.T) {
	const shopFile = "shop.yaml"
	p := withStrip(t, shopFile, "markets: [EU]", "markets: [GB, EU]")
	if _, err := p.Approve(ApproveRequest{All: true, By: "Ilo"}); err != nil || p.Found.Errors() > 0 {
		t.Fatal(err, p.Found.All())
	}
	for _, k := range p.kinds {
		if !k.sold() || k.Speaks == National {
			continue
		}
		for langs, ok := range map[string]bool{"fr": false, "fr,en": true, "en": true} {
			b := asked(t, p, k.Name, choux, Request{Languages: strings.Split(langs, ",")})
			if refused := slices.Contains(rules(b.Found), "language"); refused == ok || (len(b.Papers) > 0) != ok {
				t.Errorf("%s in %s alone for GB: %d papers, %v", k.Name, langs, len(b.Papers), b.Found.All())
			}
		}
	}
}

// Its numbers are claimed before it is written, and no second paper bears them.
func TestNewKindClaims(t *testing.T) {
	p := withStrip(t)
	if err := p.Begin(t.Context()); err != nil {
		t.Fatal(err)
	}
	b := asked(t, p, "strip", choux, Request{SSCCFrom: "7"})
	if err := saved(t, p, b); err != nil || len(b.Claims) != 1 {
		t.Fatal(err, b.Claims)
	}
	if b := asked(t, p, "strip", "bench-tin", Request{SSCCFrom: "7"}); len(b.Papers) > 0 || !slices.Contains(rules(b.Found), "sscc") {
		t.Error("one number is on two papers")
	}
	if b := asked(t, p, "carton", choux, Request{SSCCFrom: "7"}); len(b.Papers) > 0 || !slices.Contains(rules(b.Found), "sscc") {
		t.Error("one number is on papers of two kinds")
	}
}

// Of a batch that was withdrawn, or is made of what was, it prints nothing, not
// even a draft; of another batch it does.
func TestNewKindIsWithdrawn(t *testing.T) {
	p := planned(t, "2026-03-17", noAlmonds)
	p.kinds = append(p.kinds, strip())
	if err := p.Begin(t.Context()); err != nil {
		t.Fatal(err)
	}
	paste := trace.Thing{Kind: trace.Batch, ID: "choux-paste", Code: "L26076A"}
	for _, e := range []trace.Event{
		{Kind: trace.Make, Made: "2026-03-17", Out: []trace.Part{{Thing: paste}}},
		{Kind: trace.Make, Made: "2026-03-17", In: []trace.Part{{Thing: paste}}, Out: []trace.Part{{Thing: trace.Thing{Kind: trace.Batch, ID: choux, Code: "L26076A"}}}},
		{Kind: trace.Withdraw, Why: "glass", In: []trace.Part{{Thing: paste}}},
	} {
		e.At, e.Noted = p.Clock, p.Clock
		if _, err := book(t, p).(trace.Books).Note(t.Context(), e); err != nil {
			t.Fatal(err)
		}
	}
	for _, k := range []string{"strip", "label", "carton"} {
		for _, draft := range []bool{false, true} {
			if b := asked(t, p, k, choux, Request{Draft: draft}); len(b.Papers) > 0 || !slices.Contains(rules(b.Found), "withdrawn") {
				t.Errorf("%s of what was withdrawn, draft %v: %v", k, draft, b.Found.All())
			}
		}
		if b := asked(t, p, k, choux, Request{Batch: "L26076B"}); len(b.Papers) != 1 {
			t.Errorf("%s of another batch: %v", k, b.Found.All())
		}
	}
}

// What is wrong with its page is found by the check of the shop, and by the
// check of the page, without being asked for.
func TestNewKindIsChecked(t *testing.T) {
	p := withStrip(t)
	k := p.KindOf("strip")
	set := k.Compose
	k.Compose = func(j *Job) (Set, error) {
		s, err := set(j)
		s.Arts[0].Items[0].Box.X = -unit.MM
		return s, err
	}
	if b := asked(t, p, "strip", choux, Request{}); len(b.Papers) > 0 {
		t.Error("a line beyond the edge was printed")
	}
	_, b, err := p.Check()
	if err != nil || b.Found.Errors() == 0 || !slices.ContainsFunc(rules(b.Found), func(r string) bool { return r == "outside" || r == "off-paper" }) {
		t.Errorf("the check says nothing of it: %v, %v", rules(b.Found), err)
	}
}

// A change of what it says is told by diff, one that it does not say is not.
func TestNewKindInDiff(t *testing.T) {
	for _, c := range []struct {
		edits []string
		told  bool
	}{
		{[]string{"products/" + choux + ".yaml", "en: Pistachio", "en: Green"}, true},
		{[]string{"products/" + choux + ".yaml", "price: ", "price: 1"}, false},
	} {
		if got := flat(difference(t, withStrip(t), withStrip(t, c.edits...))); strings.Contains(got, "strips") != c.told || !strings.Contains(got, "tickets") {
			t.Errorf("%v: %s", c.edits, got)
		}
	}
}
