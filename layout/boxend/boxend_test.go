package boxend

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// of is the box end of a demo product on the paper of its carton, in some
// languages; in those of its pack without any.
func of(t testing.TB, id string, langs ...string) End {
	t.Helper()
	var found diag.List
	sh := layouttest.Shop(t)
	p := sh.Products[id]
	k, ok := p.Pack(p.Carton.Pack.V)
	if !ok {
		t.Fatalf("%s: no pack", id)
	}
	if len(langs) == 0 {
		for _, l := range sh.LanguagesOf(k) {
			langs = append(langs, l.V)
		}
	}
	e := End{Facts: declare.Of(sh, p, k, layouttest.Market(t, "eu"), layouttest.Day(), &found), Batch: "L26076A",
		Langs: layouttest.Langs(t, langs...), Stock: layouttest.Paper(t, p.Carton.Paper.V), Dots: layouttest.Coarse()}
	if e.Stock.Kind.V == "sheet" {
		e.Dots = layouttest.Office()
	}
	for _, l := range e.Langs {
		e.Told = append(e.Told, words.Tell(e.Facts, sh, l, &found))
	}
	if found.Errors() > 0 {
		t.Fatal(found.All())
	}
	return e
}

func composed(t testing.TB, e End) *page.Page {
	t.Helper()
	var found diag.List
	art := Compose(e, layouttest.Faces(t), &found)
	if art == nil || found.Len() > 0 {
		t.Fatal(e.Facts.Product.ID, found.All())
	}
	return &page.Page{W: art.W, H: art.H, Placed: []page.Placed{{Art: art}}}
}

func TestGolden(t *testing.T) {
	for _, id := range []string{"pear-hazelnut-tartlet", "rye-shortbread-tin"} {
		layouttest.Golden(t, id+".dump", composed(t, of(t, id)).Dump())
	}
}

// What is read at 1.5 m is at least 16 minutes of arc high (NUREG-0700,
// 1.3.1-4): 1500 mm × tan 16′ = 6.98 mm, worked out by hand here. Nothing at all
// is under 3 mm (GS1 Sweden, rules for the logistic label), and the page is good
// for outer packaging by Regulation (EU) No 1169/2011 Art. 8(7).
func TestLegible(t *testing.T) {
	const figures = 6981 * unit.UM
	for _, id := range layouttest.Shop(t).ProductIDs {
		e := of(t, id)
		pg := composed(t, e)
		had := map[role.Role]bool{}
		for _, it := range pg.All() {
			if it.Run == nil {
				if it.Symbol != nil {
					t.Errorf("%s: bars", id)
				}
				continue
			}
			had[it.Role] = true
			if slices.Contains([]role.Role{role.Name, role.Net, role.Batch, role.Date, role.Keep}, it.Role) && it.Run.CapHeight < figures {
				t.Errorf("%s: %q is %s high", id, it.Run.Text, it.Run.CapHeight)
			}
		}
		for _, r := range []role.Role{role.Name, role.Net, role.Batch, role.Date, role.Keep, role.Key} {
			if !had[r] {
				t.Errorf("%s: no %s", id, r)
			}
		}
		layouttest.Capitals(t, 3*unit.MM, pg.All())
		d := e.Facts.Date
		layouttest.Passes(t, preflight.Sheet{What: id, Safe: page.Rect{W: pg.W, H: pg.H}.Inset(e.Stock.Safe.V), Market: e.Facts.Market, Use: gs1.Trade, Heights: Heights(), Dots: e.Dots,
			Pack: market.Pack{Sale: market.Case, Net: market.Quantity{Mass: e.Facts.Pack.Net.V}, UseBy: d.Kind == "use-by", DayMonth: true}, Today: layouttest.Day(), Date: d.End}, pg)
	}
}

// The carton label says the same: packs and net of the product's file, the
// batch, the date with its words, the GTIN of the carton, two languages.
func TestWords(t *testing.T) {
	e := of(t, "pear-hazelnut-tartlet", "en", "fr")
	said := layouttest.Read(composed(t, e).All())
	layouttest.Has(t, said, "Pear and hazelnut tartlet", "Tartelette aux poires et aux noisettes", "12 × 170 g", "L26076A", "Use by 19.03.2026", "À consommer jusqu’au 19.03.2026", "CHILLED ≤ 5 °C", "GTIN 19520001000017", "Quoin & Crumb")
}

// A carton that is not full is not what the number of the full one stands for
// (GS1 General Specifications, 2.1.7: a trade item has a fixed count).
func TestPart(t *testing.T) {
	e := of(t, "pear-hazelnut-tartlet")
	e.Packs = 7
	said := layouttest.Read(composed(t, e).All())
	layouttest.Has(t, said, "7 × 170 g")
	if strings.Contains(said, "19520001000017") {
		t.Error("a part-filled carton has the number of a full one")
	}
	var found diag.List
	e.Packs = 13
	if Compose(e, layouttest.Faces(t), &found) != nil || found.Errors() != 1 {
		t.Error("13 packs in a carton of 12", found.All())
	}
}

// Where figures that are read at 1.5 m have no room the label is refused, with
// what to do; it is not set smaller.
func TestRefused(t *testing.T) {
	e := of(t, "pear-hazelnut-tartlet")
	e.Stock = layouttest.Paper(t, "roll-40x30")
	var found diag.List
	if Compose(e, layouttest.Faces(t), &found) != nil {
		t.Fatal("set on 40 × 30 mm")
	}
	layouttest.Refused(t, &found)
	if d := found.All()[0]; !strings.Contains(d.Msg, "read at 1.5 m") || !strings.Contains(d.Hint, "--paper") {
		t.Error(d)
	}
}

func ExampleLeast() {
	fmt.Println(Least() > 698*unit.MM/100, Least() < 7*unit.MM)
	// Output: true true
}
