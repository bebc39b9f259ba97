package market_test

import (
	"slices"
	"testing"

	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
)

// Every row of the matrix says where it stands; a pack that nothing relieves
// must bear what the matrix calls due.
func TestMatrix(t *testing.T) {
	for _, m := range market.All() {
		for _, s := range market.Sales() {
			rows, known := m.Matrix(s)
			needs, asked := m.Needs(market.Pack{Sale: s, Face: 200 * unit.CM2})
			if known != asked {
				t.Errorf("%s %s: the matrix knows it: %v, a pack does: %v", m.Code, s, known, asked)
			}
			due := map[role.Role]market.Duty{}
			for _, r := range rows {
				if r.Act == "" || r.Article == "" || r.Sale != s {
					t.Errorf("%s %s %s: a row without its place in the law", m.Code, s, r.Role)
				}
				if r.Why == "" {
					due[r.Role] = r.Duty
				}
			}
			for _, n := range needs {
				if due[n.Role] != n.Duty {
					t.Errorf("%s %s %s: %s in the matrix, %s for a pack", m.Code, s, n.Role, due[n.Role], n.Duty)
				}
			}
		}
	}
}

func TestStale(t *testing.T) {
	eu, _ := market.Get("eu")
	if old := eu.Stale(unit.Date{Year: 2026, Month: 11, Day: 1}); len(old) > 0 {
		t.Errorf("read in November 2026, and old on the 1st of it: %v", old[0])
	}
	next := eu.Stale(unit.Date{Year: 2027, Month: 11, Day: 29})
	for _, c := range next {
		if c.Memory || c.Read == "" {
			t.Errorf("%v was never read", c)
		}
	}
	if len(next) < 20 {
		t.Errorf("a year later %d places are old", len(next))
	}
}

// The days on which the law changes: Directive (EU) 2024/1438 applies from
// 14 June 2026; C.R.C., c. 870, B.01.350 from 1 January 2026; the fortification
// of flour in Great Britain from 13 December 2026 (SI 2024/1162).
func TestBetween(t *testing.T) {
	day := func(y, m, d int) unit.Date {
		return unit.DateOf(unit.Date{Year: y, Month: 1, Day: 1}.Time().AddDate(0, m-1, d-1))
	}
	for _, c := range []struct {
		market      string
		made, until unit.Date
		want        int
	}{
		{"eu", day(2026, 6, 13), day(2026, 6, 14), 0}, // of jam and honey, which no pastry is
		{"gb", day(2026, 11, 28), day(2026, 12, 12), 0},
		{"gb", day(2026, 11, 28), day(2026, 12, 13), 1},
		{"gb", day(2026, 12, 13), day(2027, 12, 13), 0},
		{"ca", day(2025, 12, 31), day(2026, 1, 1), 1},
	} {
		m, _ := market.Get(c.market)
		if got := m.Between(c.made, c.until, []string{"eggs", "wheat"}); len(got) != c.want {
			t.Errorf("%s, %s to %s: %v, want %d", c.market, c.made, c.until, got, c.want)
		}
	}
	gb, _ := market.Get("gb")
	if got := gb.Between(day(2026, 11, 28), day(2027, 11, 28), []string{"milk"}); len(got) > 0 {
		t.Errorf("food without wheat is touched by %v", got)
	}
}

// A year after it was read, every row of every form of sale is listed to be read
// again, and every rule that a market's paper rests on, of a country too; what
// was written from memory is listed as unread instead.
func TestStaleInEverySale(t *testing.T) {
	for _, m := range market.All() {
		all := []*market.Market{m}
		for _, c := range m.Places {
			all = append(all, m.In(c))
		}
		for _, m := range all {
			old := m.Stale(unit.Date{Year: 2027, Month: 12, Day: 31})
			for _, s := range market.Sales() {
				rows, _ := m.Matrix(s)
				for _, r := range rows {
					if r.Memory == slices.Contains(old, r.Cite) && !r.House {
						t.Errorf("%s %s %s: from memory: %v, and to be read again: %v (%s)", m.Code, s, r.Role, r.Memory, !r.Memory, r.Cite)
					}
				}
				places, _ := m.RestsOn(market.Pack{Sale: s})
				for _, q := range places {
					if q.Memory == slices.Contains(old, q.Cite) && !q.House {
						t.Errorf("%s %s rests on %s: from memory: %v, and to be read again: %v", m.Code, s, q.Cite, q.Memory, !q.Memory)
					}
				}
			}
		}
	}
}
