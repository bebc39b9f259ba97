package samples_test

import (
	"encoding/csv"
	"os"
	"regexp"
	"strings"
	"testing"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// figures are the values of a composition in the order of ciqual-2020.csv.
func figures(c *shop.Composition) []unit.Mass {
	return []unit.Mass{c.Fat.V, c.Saturates.V, c.Carbohydrate.V, c.Sugars.V, c.Polyols.V,
		c.Fibre.V, c.Protein.V, c.Salt.V, c.Alcohol.V, c.Acids.V}
}

// ciqual reads the table of ANSES (Ciqual 2020, Etalab open licence 2.0) by
// code. A bound counts as the bound and what is unknown as nothing, as the
// comments in the shop's files say.
func ciqual(t *testing.T) map[string][]unit.Mass {
	t.Helper()
	b, err := os.Open("testdata/ciqual-2020.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	r := csv.NewReader(b)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) < 20 {
		t.Fatalf("%d rows: %v", len(rows), err)
	}
	all := map[string][]unit.Mass{}
	for _, row := range rows {
		for _, v := range row[1:] {
			if v = strings.TrimPrefix(v, "<"); v == "" {
				v = "0"
			}
			all[row[0]] = append(all[row[0]], grams(t, v))
		}
	}
	return all
}

var (
	oneRow = regexp.MustCompile(`^CIQUAL 2020, (\d+)(?:: .*)?$`)
	shares = regexp.MustCompile(`([\d.]+ %) CIQUAL 2020 (\d+)`)
)

// Whatever names the table agrees with it: a row as it is, a mixture to a
// milligram.
func TestCompositionAgreesWithTheTable(t *testing.T) {
	sh, tab := demo(t), ciqual(t)
	rows := 0
	for _, id := range sh.IngredientIDs {
		c := sh.Ingredients[id].Per100
		want := make([]unit.Mass, 10)
		switch m := oneRow.FindStringSubmatch(c.Source.V); {
		case m != nil:
			want = tab[m[1]]
		case strings.HasPrefix(c.Source.V, "computed: "):
			for _, part := range shares.FindAllStringSubmatch(c.Source.V, -1) {
				share, err := unit.ParseShare(part[1])
				if err != nil || tab[part[2]] == nil {
					t.Fatalf("%s: %s: %v", id, part[0], err)
				}
				for i, v := range tab[part[2]] {
					want[i] += v.Of(share)
				}
			}
		default:
			continue
		}
		rows++
		if len(want) != 10 {
			t.Fatalf("%s: no row for %s", id, c.Source.V)
		}
		for i, got := range figures(c) {
			if d := got - want[i]; d > unit.Milligram || d < -unit.Milligram {
				t.Errorf("%s: figure %d is %s, the table has %s", id, i+1, got, want[i])
			}
		}
	}
	if rows != 23 {
		t.Errorf("%d ingredients name the table, want 23", rows)
	}
}

// A rum of 40 % vol has 33.3 g of alcohol in 100 g: ethanol 0.7893 kg/l at
// 20 °C (handbook value, from memory), the rum 0.948 kg/l.
func TestAlcohol(t *testing.T) {
	rum := demo(t).Ingredients["rum"]
	in100 := unit.MulDiv(7893*40, 1000, int64(rum.Density.V)/1_000_000) // 0.1 mg
	if got := unit.Mass(in100) * 100 * unit.Microgram; !near(t, got, "33.3") || rum.Per100.Alcohol.V != grams(t, "33.3") {
		t.Errorf("computed %s, written %s", got, rum.Per100.Alcohol.V)
	}
}

// 100 g hold 100 g. Water comes from the specification and the rest from the
// table, so they may miss by as much as one food differs from the next; the
// ash that no label names is in the gap.
func TestCompositionAddsUp(t *testing.T) {
	sh := demo(t)
	for _, id := range sh.IngredientIDs {
		ing := sh.Ingredients[id]
		c := ing.Per100
		for _, v := range []bool{c.Fat.Set(), c.Saturates.Set(), c.Carbohydrate.Set(), c.Sugars.Set(), c.Polyols.Set(),
			c.Fibre.Set(), c.Protein.Set(), c.Salt.Set(), c.Alcohol.Set(), c.Acids.Set(), ing.Water.Set(), ing.SO2.Set()} {
			if !v {
				t.Errorf("%s: a figure is missing", id)
			}
		}
		sum := (100 * unit.Gram).Of(ing.Water.V) + c.Fat.V + c.Carbohydrate.V + c.Fibre.V + c.Protein.V + c.Salt.V + c.Alcohol.V + c.Acids.V
		if sum < 93*unit.Gram || sum > 104*unit.Gram {
			t.Errorf("%s: 100 g hold %s", id, sum)
		}
		if c.Saturates.V > c.Fat.V || c.Sugars.V+c.Polyols.V > c.Carbohydrate.V {
			t.Errorf("%s: a part is more than the whole", id)
		}
	}
}

// The parts of a compound make 100 %, and stand in falling order where none
// is an additive.
func TestMadeOf(t *testing.T) {
	sh, compounds := demo(t), 0
	for _, id := range sh.IngredientIDs {
		var sum unit.Share
		last := unit.Whole
		for _, in := range sh.Ingredients[id].MadeOf {
			sum += in.Share.V
			if in.Share.V > last {
				t.Errorf("%s: %s stands too far down", id, in.Share.V)
			}
			last = in.Share.V
		}
		if len(sh.Ingredients[id].MadeOf) == 0 {
			continue
		}
		if compounds++; sum != unit.Whole {
			t.Errorf("%s: the parts make %s", id, sum)
		}
	}
	if compounds != 13 {
		t.Errorf("%d compounds, want 13", compounds)
	}
}
