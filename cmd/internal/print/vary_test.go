package print

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"chablon/labels/trace"
	"chablon/labels/unit"
)

// planned is a new shop with a plan for a day, opened on that day.
func planned(t *testing.T, day, runs string) *Press {
	t.Helper()
	reopen := shopOf(t)
	dir := reopen("2026-03-17").Name
	if err := os.WriteFile(filepath.Join(dir, "plans", day+".yaml"), []byte("day: "+day+"\nruns:\n"+runs), 0o666); err != nil {
		t.Fatal(err)
	}
	return reopen(day)
}

const noAlmonds = `  - product: pear-hazelnut-tartlet
    pieces: 48
  - product: pear-hazelnut-tartlet
    pieces: 24
    letter: B
    instead:
      - of: ground-almond
        use: ground-hazelnut
        because: almonds did not come
`

// declaredOf is the declaration of a batch.
func declaredOf(t *testing.T, p *Press, id, batch string) *Declaration {
	t.Helper()
	d, err := p.Declare(DeclareRequest{ID: id, Batch: batch})
	if err != nil || p.Found.Errors() > 0 {
		t.Fatal(err, p.Found.All())
	}
	return d
}

// TestAlmondsDidNotCome is event E2 of the demo scenario: ground hazelnuts in
// the place of ground almonds, for one batch. Almonds leave what it contains and
// come into what it may contain, by the hazelnuts' specification; pistachios,
// which only the almonds' supplier could not keep out, are gone; hazelnuts are
// 11.72 g of a finished piece of 85.5 g, 13.7 % (computed by hand in the
// scenario: 28 g of pastry with 120 of 2308 parts, 30 g of cream with 200 of 826,
// and 3 g on top).
func TestAlmondsDidNotCome(t *testing.T) {
	p := planned(t, "2026-03-17", noAlmonds)
	usual, other := declaredOf(t, p, "pear-hazelnut-tartlet", ""), declaredOf(t, p, "pear-hazelnut-tartlet", "L26076B")
	for _, c := range []struct {
		what      string
		got, want []string
	}{
		{"usually contains", usual.Facts.Contains, []string{"wheat", "eggs", "milk", "almonds", "hazelnuts"}},
		{"contains", other.Facts.Contains, []string{"wheat", "eggs", "milk", "hazelnuts"}},
		{"usually may contain", usual.Facts.May, []string{"pistachio nuts"}},
		{"may contain", other.Facts.May, []string{"almonds"}},
	} {
		if !slices.Equal(c.got, c.want) {
			t.Errorf("%s %v, not %v", c.what, c.got, c.want)
		}
	}
	var used, of unit.Mass
	for _, q := range other.Facts.Lists[0].Parts {
		if q.Ref == "ground-hazelnut" || q.Ref == "chopped-hazelnut" {
			used, of = q.Quid.Used, q.Quid.Of
		}
	}
	if each := (used / 1000).Round(10 * unit.Milligram); each != 11720*unit.Milligram || (used*1000/of).String() == "" || used*1000/of != 137 {
		t.Errorf("hazelnuts %s a piece, %d ‰ of it; the scenario says 11.72 g and 13.7 %%", each, used*1000/of)
	}
}

// It goes the same road as all else: unsigned it is a draft, the signature of the
// usual batch is none for it, and one for it is none for the usual one.
func TestVariantIsSigned(t *testing.T) {
	p := planned(t, "2026-03-17", noAlmonds)
	for batch, sold := range map[string]bool{"": true, "L26076A": true, "L26076B": false, "L26076C": true} {
		b := asked(t, p, "label", "pear-hazelnut-tartlet", Request{Batch: batch})
		if (len(b.Papers) > 0) != sold {
			t.Errorf("batch %q: %d papers, %v", batch, len(b.Papers), b.Found.All())
		}
	}
	draft := sound(t, p, "label", "pear-hazelnut-tartlet", Request{Batch: "L26076B", Draft: true})
	if !draft.Draft {
		t.Error("nobody signed it, and it is no draft")
	}
	if _, err := p.Approve(ApproveRequest{ID: "pear-hazelnut-tartlet", Batch: "L26076B", By: "Ilo"}); err != nil || p.Found.Errors() > 0 {
		t.Fatal(err, p.Found.All())
	}
	if b := asked(t, p, "label", "pear-hazelnut-tartlet", Request{Batch: "L26076B"}); len(b.Papers) != 1 {
		t.Errorf("signed, and not printed: %v", b.Found.All())
	}
	if a := declaredOf(t, p, "pear-hazelnut-tartlet", "").Approval; !a.Valid || a.By != "Mara B." {
		t.Errorf("the usual batch is now %s", a)
	}
}

// Every kind that says what is in the batch says it of the batch that varies: a
// new one has to do nothing for it.
func TestNewKindVaries(t *testing.T) {
	p := planned(t, "2026-03-17", noAlmonds)
	p.kinds = append(p.kinds, strip())
	k := p.KindOf("strip")
	k.Bears = ItsBatch
	if b := asked(t, p, "strip", "pear-hazelnut-tartlet", Request{Batch: "L26076B"}); len(b.Papers) > 0 {
		t.Error("the strip of a batch that nobody signed is sold")
	}
	j := sound(t, p, "strip", "pear-hazelnut-tartlet", Request{Batch: "L26076B", Draft: true})
	if slices.Contains(j.Facts.Contains, "almonds") || !j.Draft {
		t.Errorf("it says %v", j.Facts.Contains)
	}
}

// What the book notes as made otherwise has no usual label, nor has what is made
// of it; the plan must say what went in. A label of the batch that varies shows
// in the trace why.
func TestUsualLabelIsRefused(t *testing.T) {
	p := planned(t, "2026-03-17", noAlmonds)
	if err := p.Begin(t.Context()); err != nil {
		t.Fatal(err)
	}
	if _, err := p.Approve(ApproveRequest{ID: "pear-hazelnut-tartlet", Batch: "L26076B", By: "Ilo"}); err != nil {
		t.Fatal(err)
	}
	if err := saved(t, p, asked(t, p, "label", "pear-hazelnut-tartlet", Request{Batch: "L26076B", Count: 3})); err != nil {
		t.Fatal(err)
	}
	desk := book(t, p).(trace.Books)
	all, err := desk.Events(t.Context())
	if err != nil || len(all) != 1 || !strings.Contains(all[0].Why, "ground-hazelnut instead of ground-almond: almonds did not come") {
		t.Errorf("the trace says %+v, %v", all, err)
	}
	pastry := trace.Thing{Kind: trace.Batch, ID: "sweet-pastry", Code: "L26076A"}
	tart := trace.Thing{Kind: trace.Batch, ID: "pear-hazelnut-tartlet", Code: "L26076A"}
	for _, e := range []trace.Event{
		{Kind: trace.Make, Made: "2026-03-17", Why: "almonds did not come", Out: []trace.Part{{Thing: pastry}}},
		{Kind: trace.Make, Made: "2026-03-17", In: []trace.Part{{Thing: pastry}}, Out: []trace.Part{{Thing: tart}}},
	} {
		e.At, e.Noted = p.Clock, p.Clock
		if _, err := desk.Note(t.Context(), e); err != nil {
			t.Fatal(err)
		}
	}
	b := asked(t, p, "label", "pear-hazelnut-tartlet", Request{})
	if len(b.Papers) > 0 || !slices.Contains(rules(b.Found), "instead") {
		t.Errorf("the usual label of a batch that was made otherwise: %v", b.Found.All())
	}
	// The plan loses the run: its batch has no usual label either.
	p.Shop.Plans = nil
	b = asked(t, p, "label", "pear-hazelnut-tartlet", Request{Batch: "L26076B"})
	if len(b.Papers) > 0 {
		t.Error("the usual label of the batch that varied is printed")
	}
}

// TestHalfADough is event E5 of the demo scenario: choux dough of 17 March, half
// of it baked on the 18th as L26077B with a use-by date of its own, one day after
// baking; the trace leads back to the dough.
func TestHalfADough(t *testing.T) {
	p := planned(t, "2026-03-18", `  - product: pistachio-choux
    pieces: 20
    letter: B
    made-before:
      - use: choux-paste
        batch: L26076A
        made: 2026-03-17
`)
	if err := p.Begin(t.Context()); err != nil {
		t.Fatal(err)
	}
	b := asked(t, p, "label", "pistachio-choux", Request{Batch: "L26077B", Count: 5})
	if len(b.Papers) != 1 || !strings.Contains(b.Papers[0].About, "Use by 19.03.2026") {
		t.Fatal(b.Papers, b.Found.All()) // what is said is as signed, so nobody has to sign again
	}
	if err := saved(t, p, b); err != nil {
		t.Fatal(err)
	}
	tree, err := trace.Walk(t.Context(), book(t, p).(trace.Books), trace.Thing{Kind: trace.Batch, ID: "pistachio-choux", Code: "L26077B"}, trace.Back)
	if err != nil || len(tree.Found) != 2 || tree.Found[1].ID != "choux-paste" || tree.Found[1].Code != "L26076A" {
		t.Errorf("it leads back to %+v, %v", tree.Found, err)
	}
	// More labels of it note nothing twice.
	if err := saved(t, p, asked(t, p, "label", "pistachio-choux", Request{Batch: "L26077B"})); err != nil {
		t.Fatal(err)
	}
	if all, err := book(t, p).(trace.Books).Events(t.Context()); err != nil || len(all) != 2 {
		t.Errorf("%d events, %v", len(all), err)
	}
}

// What is left of yesterday's dough goes into today's: the date is no later than
// yesterday's would be, and what yesterday's batch was made of instead joins the
// declaration.
func TestRework(t *testing.T) {
	runs := `  - product: pear-hazelnut-tartlet
    pieces: 24
    rework:
      - use: sweet-pastry
        batch: L26076B
        made: 2026-03-17
        take: 100 g
        in: sweet-pastry
`
	reopen := shopOf(t)
	dir := reopen("2026-03-17").Name
	for day, plan := range map[string]string{"2026-03-17": strings.ReplaceAll(noAlmonds, "use: ground-hazelnut", "use: pistachio-paste"), "2026-03-18": runs} {
		if err := os.WriteFile(filepath.Join(dir, "plans", day+".yaml"), []byte("day: "+day+"\nruns:\n"+plan), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	p := reopen("2026-03-18")
	usual, other := declaredOf(t, p, "pear-hazelnut-tartlet", "L26077C"), declaredOf(t, p, "pear-hazelnut-tartlet", "L26077A")
	if usual.Facts.Date.End.String() != "2026-03-20" || other.Facts.Date.End.String() != "2026-03-19" || other.Facts.Date.Limit != "sweet-pastry" {
		t.Errorf("kept until %s, usually %s", other.Facts.Date.End, usual.Facts.Date.End)
	}
	if slices.Contains(usual.Facts.Contains, "pistachio nuts") || !slices.Contains(other.Facts.Contains, "pistachio nuts") || !slices.Contains(other.Facts.Contains, "almonds") {
		t.Errorf("the offcuts hold pistachios, the batch is said to contain %v", other.Facts.Contains)
	}
	if other.Approval.Valid {
		t.Error("nobody signed it")
	}
	// 100 g of offcuts hold 100 × 120/2308 = 5.20 g of pistachio paste, which is
	// 5.20 g of what 24 pieces take.
	var paste unit.Mass
	for _, q := range other.Facts.Lists[0].Parts {
		if q.Ref == "pistachio-paste" {
			paste = q.Mass
		}
	}
	made := paste * 24 / 1000 * 100 / 97 // what is weighed for 24, of which 3 % is lost
	if made < 5190*unit.Milligram || made > 5210*unit.Milligram {
		t.Errorf("%s of pistachio paste in 24 pieces, not 5.20 g", made)
	}
}
