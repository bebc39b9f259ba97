package card

import (
	"io/fs"
	"math"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/samples"
)

// demo works the demo shop out again from its files, with another reader and
// plain floating point: what a yield is, and that losses are chained, is from
// W. Gisslen, Professional Baking (yield and trim); the root rule of gelatine is
// the one that the formula names.
type demo struct {
	t    *testing.T
	made map[string]map[string]float64 // formula, line → grams
}

type rawLine struct {
	Use, As, Take string
	Lost          string `yaml:"lost-in-handling"`
	WeighedFor    *struct {
		Bloom float64
		Rule  string
	} `yaml:"weighed-for"`
}

func (l rawLine) ref() string {
	if l.As != "" {
		return l.As
	}
	return l.Use
}

type rawFormula struct {
	Lines    []rawLine
	CookedIn *struct {
		Use, Make string
		SoakedUp  string `yaml:"soaked-up"`
	} `yaml:"cooked-in"`
	Losses []struct {
		WaterLost  string `yaml:"water-lost"`
		LeftBehind string `yaml:"left-behind"`
	}
}

type rawProduct struct {
	Parts []struct {
		Add       []rawLine
		WaterLost string `yaml:"water-lost"`
	}
	CutTo string `yaml:"cut-to"`
	Lost  string `yaml:"lost-in-handling"`
}

func (d *demo) read(name string, into any) {
	d.t.Helper()
	data, err := fs.ReadFile(samples.Demo(), name)
	if err == nil {
		err = yaml.Unmarshal(data, into)
	}
	if err != nil {
		d.t.Fatal(err)
	}
}

// less is what is left of m after a loss in grams or per cent; nothing written
// is no loss.
func (d *demo) less(m float64, loss string) float64 {
	switch {
	case loss == "":
		return m
	case strings.HasSuffix(loss, "%"):
		return m * (1 - number(d.t, loss)/100)
	}
	return m - number(d.t, loss)
}

func (d *demo) formula(id string) (f rawFormula, out float64) {
	d.read("formulas/"+id+".yaml", &f)
	for _, l := range f.Lines {
		out += number(d.t, l.Take)
	}
	if f.CookedIn != nil {
		out += number(d.t, f.CookedIn.SoakedUp)
	}
	for _, l := range f.Losses {
		out = d.less(d.less(out, l.WaterLost), l.LeftBehind)
	}
	return f, out
}

// line adds grams of a line of id, and makes the formula that it uses.
func (d *demo) line(id string, l rawLine, grams float64) {
	if d.made[id] == nil {
		d.made[id] = map[string]float64{}
	}
	if w := l.WeighedFor; w != nil {
		grams *= math.Sqrt(w.Bloom / 220) // the demo's gelatine; its formula names the root rule
	}
	d.made[id][l.ref()] += grams
	if _, err := fs.Stat(samples.Demo(), "formulas/"+l.Use+".yaml"); err == nil {
		d.make(l.Use, grams)
	}
}

func (d *demo) make(id string, grams float64) {
	f, out := d.formula(id)
	for _, l := range f.Lines {
		d.line(id, l, number(d.t, l.Take)*grams/out)
	}
	if c := f.CookedIn; c != nil {
		_, all := d.formula(c.Use)
		if c.Make != "" {
			all = number(d.t, c.Make)
		}
		d.line(id, rawLine{Use: c.Use}, all*grams/out)
	}
}

// pieces makes n good pieces of a product.
func (d *demo) pieces(id string, n float64) {
	var p rawProduct
	d.read("products/"+id+".yaml", &p)
	slab := 0.0
	for _, st := range p.Parts {
		for _, l := range st.Add {
			slab += number(d.t, l.Take)
		}
		slab = d.less(slab, st.WaterLost)
	}
	if p.CutTo != "" {
		n *= number(d.t, p.CutTo) / slab
	}
	n /= d.less(1, p.Lost)
	for _, st := range p.Parts {
		for _, l := range st.Add {
			d.line("", l, number(d.t, l.Take)*n/d.less(1, l.Lost))
		}
	}
}

// Every amount on every card of the demo products, at four sizes, is within a
// step of the scale of what is worked out here, and every column within two of
// its sum.
func TestDemoIsRecalculated(t *testing.T) {
	sh := layouttest.Shop(t)
	for _, id := range []string{"pear-hazelnut-tartlet", "passion-caramel-bar", "rye-shortbread-tin", "pistachio-choux", "lemon-thyme-marshmallow"} {
		for _, n := range []unit.Count{24, 48, 96, 480} {
			c := cardOf(t, sh, id, "card-a4", "en")
			b, err := scale.Pieces(sh, c.Product, n)
			if err != nil {
				t.Fatal(err)
			}
			c.Batch = b
			d := &demo{t, map[string]map[string]float64{}}
			d.pieces(id, float64(n))
			seen := 0
			for _, l := range tell(c, &diag.List{}).Lanes {
				of := ""
				if l.make != nil {
					of = l.make.Formula.ID
				}
				for _, p := range l.puts {
					want, got := d.made[of][p.ref], number(t, plain(p.Amount))
					if math.Abs(got-want) > stepAt(want) {
						t.Errorf("%s, %d pieces, %s: %s is %v g, worked out %.2f g", id, n, of, p.ref, got, want)
					}
					seen++
				}
			}
			want := 0
			for _, lines := range d.made {
				want += len(lines)
			}
			if seen != want {
				t.Errorf("%s: %d amounts on the card, %d worked out", id, seen, want)
			}
		}
	}
}

// stepAt is the step of the demo's scale that bears so many grams.
func stepAt(grams float64) float64 {
	switch {
	case grams < 50:
		return 0.1
	case grams < 5000:
		return 1
	}
	return 5
}
