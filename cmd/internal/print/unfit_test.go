package print

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/unit"
	"chablon/layout/pdf/pdftest"
)

// britain is the demo shop as it sells in Great Britain, all of it approved, with
// a shop.yaml that ends with sign.
func britain(t *testing.T, sign string) *Press {
	t.Helper()
	p := withStrip(t, "shop.yaml", "markets: [EU]", sign+"markets: [GB, EU]")
	if _, err := p.Approve(ApproveRequest{All: true, By: "Ilo"}); err != nil || p.Found.Errors() > 0 {
		t.Fatal(err, p.Found.All())
	}
	return p
}

// allRows is a signature for every row that nobody has read, but for some.
func allRows(without ...string) string {
	gb, _ := market.Get("gb")
	var rows []string
	for _, q := range gb.UnreadPlaces() {
		if !slices.Contains(without, q.Mark()) {
			rows = append(rows, q.Mark())
		}
	}
	return "accept-unread:\n  - {market: GB, rows: [" + strings.Join(rows, ", ") + "], by: Ilo, on: 2026-03-17, until: 2026-12-31}\n"
}

// Approved paper of every kind that goes to a buyer is a draft while it rests on
// a place in the law that nobody has read; one that nobody has written yet too.
// With a signature it is printed for sale, on the last day of it, and not after.
func TestUnread(t *testing.T) {
	gb, _ := market.Get("gb")
	for _, c := range []struct {
		what, sign string
		today      unit.Date
		draft      bool
	}{
		{"unsigned", "", unit.Date{Year: 2026, Month: 3, Day: 17}, true},
		{"signed", allRows(), unit.Date{Year: 2026, Month: 3, Day: 17}, false},
		{"on the last day", allRows(), unit.Date{Year: 2026, Month: 12, Day: 31}, false},
		{"when it ran out", allRows(), unit.Date{Year: 2027, Month: 1, Day: 1}, true},
	} {
		p := britain(t, c.sign)
		p.Today = c.today
		for _, k := range p.kinds {
			if !k.sold() || !slices.Contains(k.IDs(p), choux) {
				continue
			}
			j := sound(t, p, k.Name, choux, Request{Languages: []string{"en"}, Made: c.today})
			rests := len(gb.UnreadOf(j.asPack())) > 0
			if want := c.draft && rests; j.Draft != want || cautioned(j, "draft") != want || len(j.Why) > 0 != want {
				t.Errorf("%s, %s: a draft: %v, because of %v; %v", c.what, k.Name, j.Draft, j.Why, rules(j.Found))
			}
			art := j.set.art(1)
			if n := marks(t, art, j.safe(art.Area())); (n > 0) != (j.Draft || j.Demo) {
				t.Errorf("%s, %s: %d marks", c.what, k.Name, n)
			}
			if (len(j.Accepted) > 0) != (rests && !c.draft) {
				t.Errorf("%s, %s: relies on %v", c.what, k.Name, j.Accepted)
			}
		}
	}
}

// A signature covers no other row: one that is missing is named, on the label too.
func TestUnreadRowIsNamed(t *testing.T) {
	gb, _ := market.Get("gb")
	var lang string
	for _, q := range gb.UnreadPlaces() {
		if q.Role == "language" {
			lang = q.Mark()
		}
	}
	p := britain(t, allRows(lang))
	j := sound(t, p, "label", choux, Request{Languages: []string{"en"}})
	if !j.Draft || len(j.Why) != 1 || j.Why[0] != "GB: "+lang {
		t.Errorf("a draft: %v, because of %v, not of %s", j.Draft, j.Why, lang)
	}
	found := false
	for _, it := range j.set.art(1).Items {
		found = found || it.Run != nil && it.Run.Text == "GB: "+lang
	}
	if !found {
		t.Error("the label does not say which row")
	}
	if len(claimsOf([]*Job{j})) > 0 {
		t.Error("a draft claims numbers")
	}
}

// In the Union all has been read: paper of the demo needs nobody's signature.
func TestUnionNeedsNoSignature(t *testing.T) {
	p := demoPress(t)
	j := sound(t, p, "label", choux, Request{})
	if j.Draft || len(j.Accepted) > 0 {
		t.Errorf("a draft: %v; relies on %v", j.Draft, j.Accepted)
	}
}

// The run sheet says who signed, until when, and for what.
func TestUnreadStandsOnRunSheet(t *testing.T) {
	for sign, want := range map[string]bool{"": false, allRows(): true} {
		p := britain(t, sign)
		b, err := p.Day(DayOptions{})
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range b.Papers {
			if !strings.HasPrefix(q.Name, "run-sheet") {
				if strings.HasPrefix(q.Name, "labels") != want && strings.Contains(q.Name, "labels-") {
					t.Errorf("signed %v: %s", want, q.Name)
				}
				continue
			}
			said := flat(allText(t, q))
			if got := strings.Contains(said, "GB: Ilo signed on 17.03.2026, until 31.12.2026"); got != want {
				t.Errorf("signed %v, and the run sheet says so: %v\n%s", want, got, said)
			}
		}
	}
}

// cautioned reports whether a job has a caution of a rule.
func cautioned(j *Job, rule string) bool {
	return slices.ContainsFunc(j.Found.All(), func(d diag.Diag) bool { return d.Warning && d.Rule == rule })
}

// allText is what another reader finds on a paper.
func allText(t *testing.T, q Paper) string {
	t.Helper()
	var b strings.Builder
	for _, pg := range pdftest.Pages(t, bytesOf(t, q)) {
		b.WriteString(pg.Text + "\n")
	}
	return b.String()
}
