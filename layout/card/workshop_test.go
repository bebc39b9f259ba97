package card

import (
	"io/fs"
	"math"
	"path"
	"strconv"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/samples"
)

func workshop(t testing.TB) *shop.Shop {
	t.Helper()
	var found diag.List
	sh := shop.Load(samples.Workshop(), &found)
	for _, d := range found.All() {
		t.Fatal(d)
	}
	return sh
}

// What each formula of the workshop says beside its sentences stands on both
// forms of its card, in both languages, and °F inside the limit: 82 to 85 °C are
// 179.6 to 185 °F, and whoever keeps to 180 to 185 °F keeps to them.
func TestWorkshopSaysIt(t *testing.T) {
	for id, want := range map[string][]string{
		"dark-ganache":    {"33 to 35 °C", "≤ 34 °C", "Do not whisk air in.", "Ne pas fouetter", "or: with the hand blender", "frame 300 × 300 × 8 mm", "humidity ≤ 60 %", "cut 25 × 25 mm", "12 to 16 h", "16 to 18 °C"},
		"dark-shell":      {"work with 3000 g at least", "travailler 3000 g au moins", "28.5 °C", "cooled · refroidie", "keep at 31 to 32 °C (87 to 90 °F)", "water bath", "Not a drop of water in it.", "20 to 30 min"},
		"laminated-dough": {"dough hook, speed 1: 4 min, speed 2: 6 min", "dough at 24 °C (75 °F): water at 64 °C", "with all at 20 °C (68 °F): 24 °C", "crochet, vitesse 1: 4 min", "double turn, 6 mm thick", "single turn, 4 mm thick, cut 90 × 250 mm", "humidity 75 to 80 %", "25 to 27 °C", "proofer", "190 °C", "4 min, door shut, vent shut, fan low, steam 3 s", "12 to 14 min, vent open, fan high", "a double turn, both ends folded"},
		"vanilla-custard": {"82 to 85 °C", "180 to 185 °F", "from 63 °C (145 °F)", "within 2 h", "≤ 10 °C", "Do not let it boil.", "85 g sugar"},
		"syrup-meringue":  {"hand 1", "hand 2", "personne 2", "start when step 1 is at 114 °C (237 °F)", "commencer quand l’étape 1 est à 114 °C", "Do not whisk once it is cold.", "288 g sugar", "32 g sugar", "whisk, speed 3: 2 min, speed 2: 8 to 10 min"},
	} {
		for _, form := range []Form{Full, Wall} {
			c := cardOf(t, workshop(t), id, "card-a4", "en+fr")
			c.Form = form
			pages := composed(t, c)
			all := readAll(pages)
			for _, s := range want {
				layouttest.Has(t, all, s)
			}
			shows := 0
			for _, it := range layouttest.Marks(pages) {
				if it.Picture != nil {
					shows++
				}
			}
			if (id == "laminated-dough") != (shows == 1) {
				t.Errorf("%s, form %v: %d pictures", id, form, shows)
			}
		}
		for _, lang := range []string{"en", "fr"} {
			composed(t, cardOf(t, workshop(t), id, "card-a4", lang))
		}
	}
}

// More liquid than 0.6 times the chocolate is too warm for 33 to 35 °C, and the
// card says by how much it must cool: here 410 g of cream and 40 g of
// invert sugar on 500 g (TestHowMuchLiquid in labels/heat has the figures).
func TestTooMuchLiquid(t *testing.T) {
	sh := workshop(t)
	sh.Formulas["dark-ganache"].Lines[0].Take.V = 410 * unit.Gram
	for _, form := range []Form{Full, Wall} {
		c := cardOf(t, sh, "dark-ganache", "card-a4", "en+fr")
		c.Form = form
		all := readAll(composed(t, c))
		for _, s := range []string{"too warm for 33 to 35 °C (92 to 95 °F): cool before going on", "de trop pour 33 à 35 °C"} {
			layouttest.Has(t, all, s)
		}
	}
}

// The largest figure of a step is what it is done at, never a side condition:
// 60 °C of the gelatine stands smaller than anything that ends a step.
func TestSideConditionsAreSmaller(t *testing.T) {
	c := cardOf(t, layouttest.Shop(t), "pistachio-pastry-cream", "card-a4", "en")
	var side, end unit.Length
	runs(composed(t, c), func(it page.Item) {
		switch bare := layouttest.Bare(it.Run.Text); {
		case strings.Contains(bare, layouttest.Bare("60 °C")):
			side = max(side, it.Run.Size)
		case strings.Contains(bare, layouttest.Bare("93 °C")):
			end = max(end, it.Run.Size)
		}
	})
	if side == 0 || side >= end {
		t.Errorf("the side condition is %s high, the limit %s", side, end)
	}
}

// raw is a file of the workshop, read by another reader than the program's.
type raw struct {
	Lines []struct{ Use, As, Take, At string }
	Loss  []struct {
		WaterLost  string `yaml:"water-lost"`
		LeftBehind string `yaml:"left-behind"`
	} `yaml:"losses"`
}

// plain is an amount with plain blanks, and none between thousands.
func plain(s string) string { return strings.NewReplacer("\u00a0", " ", "\u202f", "").Replace(s) }

// number is the figure before a unit, in grams where that is kg.
func number(t *testing.T, s string) float64 {
	t.Helper()
	f, u, _ := strings.Cut(s, " ")
	v, err := strconv.ParseFloat(f, 64)
	if err != nil {
		t.Fatal(err)
	}
	if u == "kg" {
		v *= 1000
	}
	return v
}

// The amounts and totals of every formula of the workshop that holds no other,
// at three sizes, worked out here again from the files, without the program's
// reader, its formulas or its fractions: each amount is within a step of the
// scale, and the column adds up to its total within one.
func TestWorkshopIsRecalculated(t *testing.T) {
	names, err := fs.Glob(samples.Workshop(), "formulas/*.yaml")
	if err != nil || len(names) != 5 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		data, _ := fs.ReadFile(samples.Workshop(), name)
		var f raw
		if err := yaml.Unmarshal(data, &f); err != nil {
			t.Fatal(err)
		}
		in := 0.0
		for _, l := range f.Lines {
			in += number(t, l.Take)
		}
		out := in
		for _, l := range f.Loss {
			for _, s := range []string{l.WaterLost, l.LeftBehind} {
				switch {
				case strings.HasSuffix(s, "%"):
					out *= 1 - number(t, s)/100
				case s != "":
					out -= number(t, s)
				}
			}
		}
		for _, times := range []float64{1, 2.5, 7} {
			id := strings.TrimSuffix(path.Base(name), ".yaml")
			c := cardOf(t, workshop(t), id, "card-a4", "en")
			b, err := scale.Mass(c.Shop, c.Formula, unit.Mass(math.Round(out*times*float64(unit.Gram))))
			if err != nil {
				t.Fatal(err)
			}
			c.Batch = b
			said := tell(c, &diag.List{})
			if len(said.Lanes) != 1 || len(said.Lanes[0].puts) != len(f.Lines) {
				t.Fatalf("%s: %d lanes", id, len(said.Lanes))
			}
			sum := 0.0
			for i, p := range said.Lanes[0].puts {
				want, got := number(t, f.Lines[i].Take)*times, number(t, plain(p.Amount))
				step := 1.0
				if want < 50 {
					step = 0.1
				}
				if math.Abs(got-want) > step {
					t.Errorf("%s × %v: %s is %v g, worked out %v g", id, times, p.ref, got, want)
				}
				sum += got
			}
			if math.Abs(sum-in*times) > 1 {
				t.Errorf("%s × %v: the column adds up to %v g, worked out %v g", id, times, sum, in*times)
			}
			layouttest.Has(t, readAll(composed(t, c)), said.Size.first())
		}
	}
}
