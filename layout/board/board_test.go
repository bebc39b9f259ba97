package board

import (
	"fmt"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/plan"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
	"chablon/layout/stock"
	"chablon/layout/text"
	"chablon/samples"
)

// demo is the board of the demo day; change sees the shop and its plan first.
func demo(lang string, change func(*shop.Shop, *shop.Plan)) (Board, error) {
	date := unit.Date{Year: 2026, Month: 3, Day: 17}
	sh := shop.Load(samples.Demo(), &diag.List{})
	l, _ := words.Get(lang)
	a3, _ := stock.Get("board-a3")
	b := Board{Shop: sh, Lang: l, Date: date, Stock: a3, Dots: unit.Dots{N: 600, Per: unit.Inch}}
	of, ok := sh.PlanFor(date)
	if !ok {
		return b, fmt.Errorf("no plan for %s", date)
	}
	if change != nil {
		change(sh, of)
	}
	var err error
	if b.Day, err = scale.PlanDay(sh, of); err != nil {
		return b, err
	}
	b.Plan, _, err = plan.OfDay(sh, b.Day)
	return b, err
}

func pagesOf(t *testing.T, b Board, err error) []*page.Page {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	var found diag.List
	pages := Compose(b, layouttest.Faces(t), &found)
	for _, d := range found.All() {
		t.Fatal(d)
	}
	layouttest.Passes(t, preflight.Sheet{What: "the board", Safe: pages[0].Area().Inset(b.Stock.Safe.V), Heights: Heights()}, pages...)
	return pages
}

// said is all words of the pages without white space.
func said(pages []*page.Page) string { return layouttest.Read(layouttest.Marks(pages)) }

func Example() {
	f, err := text.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := demo("en", nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	pages := Compose(b, f, &diag.List{})
	fmt.Println(len(pages), "sheets: the day before, and the day")
	// Output:
	// 2 sheets: the day before, and the day
}

// Every step with hands stands on the board with its time and whose it is, and
// every product with when it is ready; in each language that has the words.
func TestAllIsOnIt(t *testing.T) {
	for _, lang := range []string{"en", "fr"} {
		b, err := demo(lang, nil)
		all := said(pagesOf(t, b, err))
		k := teller{compose.Tell("day board", diag.Pos{}, &diag.List{}, b.Lang), b}
		for _, h := range b.Plan.Held {
			if h.By == plan.Person && !strings.Contains(all, layouttest.Bare(clock(h.From)+k.label(h.Job, h.Task))) {
				t.Errorf("%s: %s at %s is not on the board", lang, k.label(h.Job, h.Task), clock(h.From))
			}
		}
		for _, r := range b.Day.Plan.Runs {
			if !strings.Contains(all, r.Ready.V.String()) && r.Ready.Set() {
				t.Errorf("%s: %s is not ready at %s", lang, r.Product.V, r.Ready.V)
			}
		}
	}
}

// A plan that nobody can do says so on top, with the nearest that works.
func TestSaysWhatNobodyCanDo(t *testing.T) {
	b, err := demo("en", func(_ *shop.Shop, of *shop.Plan) {
		for i := range of.Runs {
			of.Runs[i].Ready.V = unit.Clock(9 * unit.Hour)
		}
	})
	all := said(pagesOf(t, b, err))
	for _, want := range []string{"Not all can be ready as asked.", "not 09:00", "Oven 3 wanted, 1 there"} {
		if !strings.Contains(all, layouttest.Bare(want)) {
			t.Errorf("%q is not on the board", want)
		}
	}
}

// A kitchen with many people and ovens has a row for each, and further sheets.
func TestLargeKitchen(t *testing.T) {
	b, err := demo("en", func(sh *shop.Shop, of *shop.Plan) {
		sh.Profile.Kitchen.People.V = 9
		for range 4 {
			of.Runs = append(of.Runs, of.Runs[0], of.Runs[3])
		}
	})
	all := said(pagesOf(t, b, err))
	if !strings.Contains(all, layouttest.Bare("Person 9")) {
		t.Error("the ninth person has no row")
	}
}
