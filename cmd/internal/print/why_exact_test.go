package print

import (
	"encoding/json"
	"math/big"
	"testing"

	"chablon/labels/market"
)

// The exact value beside a declared one is in the unit that is printed, mg beside
// mg, and is what the facts hold: units by the SI (BIPM, SI Brochure, 9th
// edition, table 7), portions by the rule of three.
func TestWhyExactInTheUnitPrinted(t *testing.T) {
	grams := map[string]*big.Rat{"g": big.NewRat(1, 1), "mg": big.NewRat(1, 1000), "µg": big.NewRat(1, 1_000_000), "mcg": big.NewRat(1, 1_000_000)}
	units := map[string]int{}
	for _, m := range market.All() {
		p := demoPress(t)
		r := WhyRequest{ID: "lemon-thyme-marshmallow", Pack: "bag-of-10-portions", Market: m.Code, Word: "sodium"}
		d, err := p.Declare(DeclareRequest{ID: r.ID, Pack: r.Pack, Market: r.Market})
		if err != nil {
			t.Fatal(err)
		}
		if d.Facts == nil || d.Facts.Nutrition == nil {
			continue
		}
		for _, row := range d.Facts.Nutrition.Rows {
			if row.Shown.Unit == "kJ" || row.Shown.Unit == "kcal" {
				continue
			}
			r.Word = row.Key
			w, err := p.Why(r)
			if err != nil {
				t.Fatal(err)
			}
			data, err := w.JSON()
			if err != nil {
				t.Fatal(err)
			}
			var out struct {
				Reasons []struct {
					Reason string
					Values struct {
						Nutrient     struct{ ID string }
						Exact, Shown struct {
							Figure json.Number
							Unit   string
						}
						Of struct{ Grams json.Number }
					}
				}
			}
			if err := json.Unmarshal(data, &out); err != nil {
				t.Fatal(err)
			}
			found := false
			for _, x := range out.Reasons {
				v := x.Values
				if x.Reason != "nutrient" || v.Nutrient.ID != row.Key {
					continue
				}
				found = true
				worth := grams[v.Exact.Unit]
				if v.Exact.Unit != row.Shown.Unit || v.Shown.Unit != row.Shown.Unit || worth == nil {
					t.Errorf("%s %s: printed in %s, exact in %q", m.Code, row.Key, row.Shown.Unit, v.Exact.Unit)
					continue
				}
				units[v.Exact.Unit]++
				exact, ok := new(big.Rat).SetString(v.Exact.Figure.String())
				of, is := new(big.Rat).SetString(v.Of.Grams.String())
				if !ok || !is {
					t.Fatal(v)
				}
				// Exact of the row is for 100 g, in parts of a gram; one of the last
				// place is left to rounding.
				want := new(big.Rat).Mul(big.NewRat(int64(row.Exact), int64(100*market.One)), of)
				off := new(big.Rat).Sub(new(big.Rat).Mul(exact, worth), want)
				if off.Abs(off).Cmp(new(big.Rat).Mul(worth, big.NewRat(1, 1000))) > 0 {
					t.Errorf("%s %s: exact %s %s, want %s g", m.Code, row.Key, v.Exact.Figure, v.Exact.Unit, want.FloatString(6))
				}
			}
			if !found {
				t.Errorf("%s: why says nothing of %s", m.Code, row.Key)
			}
		}
	}
	for _, u := range []string{"g", "mg"} {
		if units[u] == 0 {
			t.Errorf("nothing is printed in %s: %v", u, units)
		}
	}
}
