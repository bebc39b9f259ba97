package print

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// facing is a kind that somebody new writes, with the nutrition declaration on it,
// for food that is sold loose: no law asks for one there.
func facing() *Kind {
	k := strip()
	k.Name, k.File, k.One, k.Many = "facing", "facing", "facing", "facings"
	compose := k.Compose
	k.Compose = func(j *Job) (Set, error) {
		set, err := compose(j)
		pen := &flow.Pen{Faces: j.faces}
		if err == nil && j.Told[0].Table != nil {
			at := page.Rect{X: 5 * unit.MM, Y: 25 * unit.MM, W: set.Arts[0].W - 10*unit.MM, H: 8 * unit.MM}
			_, err = pen.Para(at, flow.Words(role.Nutrition, j.Pack.Pos, j.Told[0].Table.Heading), flow.Style{Size: 4 * unit.MM})
			set.Arts[0].Items = append(set.Arts[0].Items, pen.Items...)
		}
		return set, err
	}
	return k
}

// edited is the demo shop, its files edited by threes, all of it approved, with
// two kinds of paper that somebody new wrote.
func edited(t *testing.T, edits ...string) *Press {
	t.Helper()
	p := withStrip(t, edits...)
	p.kinds = append(p.kinds, facing())
	if _, err := p.Approve(ApproveRequest{All: true, By: "Ilo"}); err != nil || p.Found.Errors() > 0 {
		t.Fatal(err, p.Found.All())
	}
	return p
}

const (
	chouxFile  = "products/" + choux + ".yaml"
	butterFile = "ingredients/butter.yaml"
	butterFrom = "  source: CIQUAL 2020, 16400\n"
)

// Approved paper of every kind that bears a nutrition declaration is a draft
// where the figures of an ingredient are a guess, or are for a portion that
// nobody weighed; a kind that somebody adds too. What bears none is printed for
// sale. Regulation (EU) No 1169/2011 Art. 31(4): an analysis, a calculation from
// known values, or accepted data.
func TestFigures(t *testing.T) {
	portion := func(says string) []string {
		return []string{chouxFile, "    nutrition: declared\n", "    nutrition: declared\n    portion: " + says + "\n",
			chouxFile, "languages: [en, fr]\n    largest", "languages: [en]\n    largest"}
	}
	for _, c := range []struct {
		what  string
		edits []string
		why   string
	}{
		{"as it is", nil, ""},
		{"no source", []string{butterFile, butterFrom, ""}, "no source: butter"},
		{"a guess", []string{butterFile, butterFrom, "  source: estimated\n"}, "no source: butter"},
		{"further figures by a guess", []string{butterFile, butterFrom, butterFrom + "  more-from: internet\n"}, "no source: butter"},
		{"not declared", []string{butterFile, butterFrom, "", chouxFile, "nutrition: declared", "nutrition: exempt-small-maker"}, ""},
		{"a slice", portion("40 g"), "portion not weighed"},
		{"a slice that was weighed", portion("40 g\n    portion-weighed: 2026-03-10"), ""},
		{"a piece", portion("70 g"), ""},
		{"the pack", portion("280 g"), ""},
	} {
		p := edited(t, c.edits...)
		for _, k := range p.kinds {
			if !k.sold() || !slices.Contains(k.IDs(p), choux) {
				continue
			}
			j := sound(t, p, k.Name, choux, Request{})
			want := c.why != "" && (k.Name == "label" || k.Name == "facing")
			if j.Draft != want || cautioned(j, "draft") != want || want && !slices.Equal(j.Why, []string{c.why}) {
				t.Errorf("%s, %s: a draft: %v, because of %v", c.what, k.Name, j.Draft, j.Why)
			}
			if want && len(claimsOf([]*Job{j})) > 0 {
				t.Errorf("%s, %s: a draft claims numbers", c.what, k.Name)
			}
		}
	}
}

// Food made with what a supplier has not specified is sold under no kind of
// paper, as a draft neither; the kitchen's own paper is printed. The supplier
// gives what the next in the chain needs: Regulation (EU) No 1169/2011 Art. 8(7).
func TestUnspecified(t *testing.T) {
	p := withStrip(t, "ingredients/salt.yaml", "spec:\n  version: \"3\"\n  dated: 2026-01-15\n", "")
	if i := p.Shop.Ingredients["salt"]; i.Spec != nil || !i.Supplier.Set() || p.Found.Errors() > 0 {
		t.Fatal(p.Found.All())
	}
	held, printed := 0, 0
	for _, k := range p.kinds {
		if !k.ofID() || !slices.Contains(k.IDs(p), choux) || k.Name == "audit" { // it tells of the label
			continue
		}
		for _, draft := range []bool{false, true} {
			j := job(t, p, k.Name, choux, Request{Draft: draft})
			refused := slices.Contains(rules(j.Found), "no-spec")
			if refused != k.sold() {
				t.Errorf("%s, draft %v: refused: %v; %v", k.Name, draft, refused, j.Found.All())
			}
			if refused {
				held++
			} else if len(j.set.Pages)+len(j.set.Arts) > 0 {
				printed++
			}
		}
	}
	if held == 0 || printed == 0 {
		t.Errorf("%d refused, %d printed", held, printed)
	}
}

// A specification past its review keeps every kind of paper from being sold,
// from the day after it, and after the days that the shop lets it lie.
func TestLapsedOfEveryKind(t *testing.T) {
	at := diag.Pos{File: "ingredients/butter.yaml", Line: 1, Col: 1}
	day := unit.Date{Year: 2026, Month: 3, Day: 17}
	p := withStrip(t)
	for _, c := range []struct {
		by   unit.Date
		held bool
	}{{day, false}, {day.AddDays(-1), true}} {
		p.Shop.Ingredients["butter"].Spec.ReviewBy = diag.At[unit.Date]{V: c.by, Pos: at}
		for _, k := range p.kinds {
			if !k.ofID() || !slices.Contains(k.IDs(p), choux) {
				continue
			}
			j := job(t, p, k.Name, choux, Request{})
			if got := slices.Contains(rules(j.Found), "overdue"); got != (c.held && k.sold()) {
				t.Errorf("to be reviewed by %s, %s: refused: %v", c.by, k.Name, got)
			}
			if j = job(t, p, k.Name, choux, Request{Draft: true}); k.sold() && j.Draft != c.held {
				t.Errorf("to be reviewed by %s, %s asked for as a draft: a draft: %v", c.by, k.Name, j.Draft)
			}
		}
	}
}

// A label whose food is still sold when the law changes is cautioned in every
// form of sale and in the declaration for a shop at a distance: the flour of
// Great Britain, from 13 December 2026 (SI 2024/1162).
func TestLawChangesInEverySale(t *testing.T) {
	last := unit.Date{Year: 2026, Month: 12, Day: 12}
	for _, sale := range []string{"prepacked", "direct"} {
		p := withStrip(t, "shop.yaml", "markets: [EU]", "markets: [GB, EU]", chouxFile, "    nutrition: declared\n", "    nutrition: declared\n    sale: "+sale+"\n")
		var sales []market.Sale
		for made, want := range map[unit.Date]bool{last: true, last.AddDays(1): false} {
			p.Today = made
			for _, k := range p.kinds {
				if !k.sold() || !slices.Contains(k.IDs(p), choux) {
					continue
				}
				j := job(t, p, k.Name, choux, Request{Languages: []string{"en"}, Made: made, Draft: true})
				if cautioned(j, "law-changes") != want {
					t.Errorf("%s sold %s, made %s: cautioned: %v, want %v; %v", k.Name, sale, made, !want, want, j.Found.All())
				}
				sales = append(sales, j.asPack().Sale)
			}
			q := p.About(choux)
			if _, err := q.Declare(DeclareRequest{ID: choux, Made: made}); err != nil {
				t.Fatal(err)
			}
			told := slices.ContainsFunc(q.Found.All(), func(d diag.Diag) bool { return d.Rule == "law-changes" && d.Warning })
			if told != want {
				t.Errorf("declared, made %s: cautioned: %v", made, told)
			}
		}
		for _, s := range []market.Sale{market.Sale(sale), market.Loose, market.Case} {
			if !slices.Contains(sales, s) {
				t.Errorf("nothing was tried that is sold %s", s)
			}
		}
	}
}

// The example that a shop begins with prints: what it sells as a draft, and the
// kitchen's paper.
func TestFirstShopStillPrints(t *testing.T) {
	p, err := Open("../../../samples/first-shop", unit.Date{Year: 2026, Month: 3, Day: 17}, unit.Date{Year: 2026, Month: 3, Day: 17}.Time())
	if err != nil || p.Found.Errors() > 0 {
		t.Fatal(err, p.Found.All())
	}
	for _, id := range p.Shop.ProductIDs {
		for _, kind := range []string{"label", "card"} {
			j := sound(t, p, kind, id, Request{Draft: true})
			if len(j.set.Pages)+len(j.set.Arts) == 0 {
				t.Errorf("no %s of %s", kind, id)
			}
			for _, w := range j.Why {
				if strings.Contains(w, "source") || strings.Contains(w, "portion") {
					t.Errorf("%s of %s: %s", kind, id, w)
				}
			}
		}
	}
}
