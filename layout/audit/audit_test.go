package audit_test

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/cost"
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/audit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
	"chablon/layout/stock"
	"chablon/layout/text"
	"chablon/samples"
)

func demo(t testing.TB) (*shop.Shop, *text.Faces) {
	t.Helper()
	return layouttest.Shop(t), layouttest.Faces(t)
}

func day(t testing.TB, s string) unit.Date {
	t.Helper()
	d, err := unit.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// of makes the audit of a product in its first pack, made on 17 March 2026.
func of(t testing.TB, sh *shop.Shop, id, marketCode, lang string) audit.Audit {
	t.Helper()
	var found diag.List
	p := sh.Products[id]
	m, _ := market.Get(marketCode)
	l, ok := words.Get(lang)
	if p == nil || m == nil || !ok {
		t.Fatal(id, marketCode, lang)
	}
	f := declare.Of(sh, p, &p.Packs[0], m, day(t, "2026-03-17"), &found)
	return audit.Audit{Shop: sh, Facts: f, Lang: l, Told: words.Tell(f, sh, l, &found), Today: f.Made, Dots: unit.Dots{N: 600, Per: unit.Inch}}
}

// rows gives the words of a page row by row, the columns parted by bars.
func rows(p *page.Page) []string {
	items := slices.DeleteFunc(p.All(), func(it page.Item) bool { return it.Run == nil })
	slices.SortStableFunc(items, func(a, b page.Item) int {
		return cmp.Or(cmp.Compare(a.Run.Baseline, b.Run.Baseline), cmp.Compare(a.Box.X, b.Box.X))
	})
	var out []string
	for i, it := range items {
		switch {
		case i == 0 || it.Run.Baseline != items[i-1].Run.Baseline:
			out = append(out, it.Run.Text)
		case it.Box.X > items[i-1].Box.Right()+unit.MM:
			out[len(out)-1] += " | " + it.Run.Text
		default:
			out[len(out)-1] += it.Run.Text
		}
	}
	return out
}

// bare is all words of the pages without white space, so that a word that runs
// over two lines of a column is found. Columns are read one after the other.
func bare(pages []*page.Page) string { return layouttest.Read(layouttest.Marks(pages)) }

// checked holds every page against preflight: nothing beyond the edge, nothing
// on anything else; and each has its head, the caution and its number.
func checked(t *testing.T, a audit.Audit, pages []*page.Page) {
	t.Helper()
	caution, _ := a.Lang.Word("audit.caution")
	layouttest.Passes(t, preflight.Sheet{What: "the sheet", Safe: pages[0].Area().Inset(8 * unit.MM)}, pages...)
	for i, p := range pages {
		number, _ := a.Lang.Fill("card.page", map[string]string{"n": fmt.Sprint(i + 1), "m": fmt.Sprint(len(pages))})
		layouttest.Has(t, bare([]*page.Page{p}), caution, number, a.Told.Name.Text, a.Facts.Digest(), strings.ToUpper(a.Facts.Market.Code))
	}
}

// Every demo product in three languages and five markets: all that went into
// the label stands on the sheet, with its file and line; two prints are the same.
func TestDemo(t *testing.T) {
	sh, faces := demo(t)
	for _, id := range sh.ProductIDs {
		for _, c := range []string{"eu en", "eu fr", "eu de", "gb en", "us en", "ca fr", "au en"} {
			t.Run(id+" "+c, func(t *testing.T) {
				mkt, lang, _ := strings.Cut(c, " ")
				a := of(t, sh, id, mkt, lang)
				var found diag.List
				pages := audit.Compose(a, faces, &found)
				if pages == nil {
					t.Fatal(found.All())
				}
				checked(t, a, pages)
				complete(t, a, bare(pages))
				if mkt != "eu" {
					return
				}
				again := audit.Compose(of(t, sh, id, mkt, lang), faces, &found)
				for i := range pages {
					if again[i].Dump() != pages[i].Dump() {
						t.Error("the second print differs")
					}
				}
			})
		}
	}
}

// complete looks for what the sheet is made from.
func complete(t *testing.T, a audit.Audit, all string) {
	t.Helper()
	at := func(p diag.Pos) { layouttest.Has(t, all, p.File+":"+strconv.Itoa(p.Line)) }
	for _, s := range a.Told.Lists {
		layouttest.Has(t, all, s.Text)
	}
	for _, s := range []words.Said{a.Told.Name, a.Told.May, a.Told.Net.Said, a.Told.Date, a.Told.Keep, a.Told.Operator} {
		layouttest.Has(t, all, s.Text)
	}
	for _, d := range a.Facts.Decisions {
		at(d.Pos)
	}
	for _, c := range scale.Expand(a.Shop, a.Facts.Product) {
		at(c.Line.Pos)
		for _, x := range slices.Concat(c.Ingredient.Contains, c.Ingredient.MayContain) {
			if _, known := a.Facts.Market.Allergens.Find(x.V); known {
				at(x.Pos)
			}
		}
		if s := c.Ingredient.Spec; s != nil {
			at(s.Pos)
			layouttest.Has(t, all, a.Lang.Date(s.Dated.V, words.Day))
		}
		for _, f := range c.Via {
			at(f.Pos)
		}
	}
	for _, l := range a.Facts.Lists {
		parts(t, a, l.Parts, all)
	}
}

func parts(t *testing.T, a audit.Audit, in []declare.Part, all string) {
	t.Helper()
	for _, p := range in {
		if len(p.Name) > 0 {
			n, _ := shop.In(p.Name, a.Lang.Code())
			layouttest.Has(t, all, n.V)
		}
		parts(t, a, p.Inner, all)
	}
}

var lineNumber = regexp.MustCompile(`\.yaml:[0-9]+`)

// A declaration for a portion has its columns on the sheet: of the market that
// declares for it alone as of the one that adds it.
func TestPortion(t *testing.T) {
	sh, faces := demo(t)
	p := sh.Products["lemon-thyme-marshmallow"]
	k, _ := p.Pack("bag-of-10-portions")
	en, _ := words.Get("en")
	for in, want := range map[string][]string{
		"eu": {"per portion (24 g)", "of which sugars | 61.015 g | 61 g | 15 g | 16 %", "* Reference intake of an average adult"},
		"us": {"Serving size 2 pieces (24 g)", "Total Sugars | 61.015 g | 61 g | 15 g", "Potassium | 9.26", "* The % Daily Value (DV)"},
	} {
		m, _ := market.Get(in)
		var found diag.List
		f := declare.Of(sh, p, k, m, day(t, "2026-03-17"), &found)
		a := audit.Audit{Shop: sh, Facts: f, Lang: en, Told: words.Tell(f, sh, en, &found), Today: f.Made, Dots: unit.Dots{N: 600, Per: unit.Inch}}
		var all string
		for _, pg := range audit.Compose(a, faces, &found) {
			all += strings.ReplaceAll(strings.Join(rows(pg), "\n"), "\u00a0", " ") + "\n"
		}
		for _, s := range want {
			if !strings.Contains(all, s) {
				t.Errorf("%s: %q is not on the sheet", in, s)
			}
		}
		if found.Errors() > 0 {
			t.Errorf("%s: %v", in, found.All())
		}
	}
}

func TestGolden(t *testing.T) {
	sh, faces := demo(t)
	for _, c := range []struct{ id, lang string }{
		{"pear-hazelnut-tartlet", "en"}, {"passion-caramel-bar", "de"}, {"bench-tin", "fr"},
	} {
		t.Run(c.id, func(t *testing.T) {
			a := of(t, sh, c.id, "eu", c.lang)
			var found diag.List
			var b strings.Builder
			for i, p := range audit.Compose(a, faces, &found) {
				fmt.Fprintf(&b, "--- page %d\n%s\n", i+1, strings.Join(rows(p), "\n"))
			}
			// Lines of the demo's files move; TestDemo holds the numbers to them.
			layouttest.Golden(t, c.id+"-"+c.lang+".txt", lineNumber.ReplaceAllString(b.String(), ".yaml:#"))
		})
	}
}

// The sheet says whether these facts are approved.
func TestApproval(t *testing.T) {
	sh, faces := demo(t)
	for _, c := range []struct {
		name, digest string
		want, not    []string
	}{
		{"nobody", "", []string{"NOT APPROVED", "signature"}, []string{"given for other facts"}},
		{"these facts", "same", []string{"approved", "Mara B.", "02.03.2026"}, []string{"NOT APPROVED", "signature"}},
		{"other facts", "F2-AAAA-BBBB-CCCC-DDDD", []string{"NOT APPROVED", "given for other facts: no longer valid", "F2-AAAA-BBBB-CCCC-DDDD"}, nil},
		{"an older form", "AAAA-BBBB-CCCC-DDDD", []string{"NOT APPROVED", "given under an older form: sign again", "AAAA-BBBB-CCCC-DDDD"}, []string{"given for other facts"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := of(t, sh, "pistachio-choux", "eu", "en")
			if c.digest == "same" {
				c.digest = a.Facts.Digest()
			}
			if c.digest != "" {
				a.Approval = &shop.Approval{Fingerprint: shop.Text{V: c.digest}, By: shop.Text{V: "Mara B."}, On: diag.At[unit.Date]{V: day(t, "2026-03-02")}}
			}
			var found diag.List
			pages := audit.Compose(a, faces, &found)
			all := bare(pages)
			checked(t, a, pages)
			for _, s := range c.want {
				layouttest.Has(t, all, s)
			}
			for _, s := range c.not {
				if strings.Contains(all, strings.Join(strings.Fields(s), "")) {
					t.Errorf("%q is on the sheet", s)
				}
			}
			if a.Approved() != (c.name == "these facts") {
				t.Errorf("approved: %v", a.Approved())
			}
		})
	}
}

// A specification to be reviewed before today is marked.
func TestOverdue(t *testing.T) {
	sh, faces := demo(t)
	rye := sh.Ingredients["rye-flour"].Spec
	rye.ReviewBy.V, rye.ReviewBy.Pos = day(t, "2031-01-31"), rye.Dated.Pos
	for today, want := range map[string]bool{"2031-01-31": false, "2031-02-01": true} {
		a := of(t, sh, "rye-shortbread-tin", "eu", "en")
		a.Today = day(t, today)
		var found diag.List
		if got := strings.Contains(bare(audit.Compose(a, faces, &found)), "OVERDUE"); got != want {
			t.Errorf("on %s a specification is overdue: %v", today, got)
		}
	}
}

// What became of each allergen that a file names.
func TestStates(t *testing.T) {
	sh, faces := demo(t)
	a := of(t, sh, "pear-hazelnut-tartlet", "eu", "en")
	state := func(change func(*declare.Facts)) string {
		f := *a.Facts
		change(&f)
		b := a
		b.Facts = &f
		var found diag.List
		var all []string
		for _, p := range audit.Compose(b, faces, &found) {
			all = append(all, rows(p)...)
		}
		return strings.Join(all, "\n")
	}
	for _, c := range []struct {
		name   string
		change func(*declare.Facts)
		want   string
	}{
		{"contained", func(*declare.Facts) {}, "wheat | contained | wheat flour | ingredients/wheat-flour.yaml:13"},
		{"anyway", func(*declare.Facts) {}, "almonds | contained anyway | hazelnuts | ingredients/ground-hazelnut.yaml:13"},
		{"may", func(*declare.Facts) {}, "pistachio nuts | may contain | almonds | ingredients/ground-almond.yaml:13"},
		{"below", func(*declare.Facts) {}, "sulphur dioxide and sulphites | below the limit | lemon juice › potassium | ingredients/lemon-juice.yaml:28"},
		{"ruled out", func(f *declare.Facts) {
			f.May, f.Ruled = nil, []declare.Ruled{{Allergen: "pistachio nuts", From: []string{"ground-almond"}}}
		}, "pistachio nuts | ruled out | almonds"},
		{"excepted", func(f *declare.Facts) { f.Contains = []string{"milk"} }, "wheat | excepted by law | wheat flour"},
	} {
		if all := state(c.change); !strings.Contains(all, c.want) {
			t.Errorf("%s: no row %q in\n%s", c.name, c.want, all)
		}
	}
}

func TestRefusals(t *testing.T) {
	sh, faces := demo(t)
	a := of(t, sh, "bench-tin", "eu", "en")
	a.Lang, _ = words.Get("pl") // has cards, but no words of an audit sheet
	var found diag.List
	if pages := audit.Compose(a, faces, &found); pages != nil || !strings.Contains(fmt.Sprint(found.All()), "there are no words for an audit sheet in polski [words]") {
		t.Error(found.All())
	}
	a = of(t, sh, "bench-tin", "eu", "en")
	a.Cautions = []diag.Diag{{Msg: "a snowman ☃"}}
	found = diag.List{}
	if pages := audit.Compose(a, faces, &found); pages != nil || !strings.Contains(fmt.Sprint(found.All()), "[glyph]") {
		t.Error(found.All())
	}
}

// Other papers: whatever does not fit is refused, never cut off.
func TestPapers(t *testing.T) {
	sh, faces := demo(t)
	for _, id := range []string{"card-letter", "card-a4-landscape", "card-a5", "card-a6"} {
		a := of(t, sh, "passion-caramel-bar", "eu", "fr")
		a.Stock, _ = stock.Get(id)
		var found diag.List
		pages := audit.Compose(a, faces, &found)
		if pages == nil {
			if id == "card-letter" || found.Errors() == 0 {
				t.Errorf("%s: %v", id, found.All())
			}
			continue
		}
		checked(t, a, pages)
		if pages[0].W != a.Stock.Width.V {
			t.Errorf("%s: the page is %s wide", id, pages[0].W)
		}
	}
}

// Any number of cautions of any length stand on the sheet, each in full.
func TestAnyCautions(t *testing.T) {
	sh, faces := demo(t)
	word := rapid.StringMatching(`[a-zäéß]{1,60}`)
	rapid.Check(t, func(r *rapid.T) {
		a := of(t, sh, "lemon-thyme-marshmallow", "eu", rapid.SampledFrom([]string{"en", "fr", "de"}).Draw(r, "language"))
		for _, w := range rapid.SliceOfN(rapid.SliceOfN(word, 1, 40), 0, 30).Draw(r, "cautions") {
			a.Cautions = append(a.Cautions, diag.Diag{Msg: strings.Join(w, " "), Rule: "rule"})
		}
		var found diag.List
		pages := audit.Compose(a, faces, &found)
		if pages == nil {
			r.Fatal(found.All())
		}
		all := bare(pages)
		checked(t, a, pages)
		for _, c := range a.Cautions {
			layouttest.Has(t, all, c.Msg+" [rule]")
		}
		if t.Failed() {
			r.FailNow()
		}
	})
}

func Example() {
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	faces, _ := text.Load()
	en, _ := words.Get("en")
	eu, _ := market.Get("eu")
	p := sh.Products["passion-caramel-bar"]
	f := declare.Of(sh, p, &p.Packs[0], eu, unit.Date{Year: 2026, Month: 3, Day: 17}, &found)
	a := audit.Audit{Shop: sh, Facts: f, Lang: en, Told: words.Tell(f, sh, en, &found), Cautions: found.All()}
	pages := audit.Compose(a, faces, &found)
	for _, s := range rows(pages[0])[1:3] {
		fmt.Println(strings.ReplaceAll(s, "\u00a0", " "))
	}
	fmt.Println(len(pages), "pages; approved:", a.Approved())
	// Output:
	// Passion fruit caramel bar
	// market: EU | pack: bar · 45 g | language: English
	// 4 pages; approved: false
}

// What a pack costs stands on the sheet where the shop names prices, and adds up:
// the rows of the ingredients to their sum, as far as each is rounded to a cent;
// that and the work to what is taken from the price.
func TestCost(t *testing.T) {
	sh, f := demo(t)
	a := of(t, sh, "pear-hazelnut-tartlet", "eu", "en")
	c, err := cost.Of(sh, a.Facts.Product, 48)
	if err != nil {
		t.Fatal(err)
	}
	a.Cost = c
	var found diag.List
	all := bare(audit.Compose(a, f, &found))
	price := a.Facts.Pack.Price.V
	pack := c.Together().Share(2, 48)
	left := unit.Money{Minor: (cost.Amount(price.Minor)*cost.One - pack).Minor(), Currency: "EUR"}
	layouttest.Has(t, all, "Cost and margin · 48 pieces", "price of the pack"+a.Lang.Money(price), "left of the price", a.Lang.Money(left),
		a.Lang.Money(unit.Money{Minor: pack.Minor(), Currency: "EUR"}), a.Lang.Span(c.Hands), "Not for the wall.")
	sh.Ingredients["butter"].Price.V.Currency = "GBP"
	sh.Profile.Hour = shop.Profile{}.Hour
	if a.Cost, err = cost.Of(sh, a.Facts.Product, 48); err != nil {
		t.Fatal(err)
	}
	all = bare(audit.Compose(a, f, &found))
	layouttest.Has(t, all, "no rate of an hour")
	if strings.Contains(all, layouttest.Bare("left of the price")) || found.Errors() > 0 {
		t.Errorf("a margin of what is not known, or %v", found.All())
	}
	for _, in := range sh.Ingredients {
		in.Price = shop.Ingredient{}.Price
	}
	if a.Cost, err = cost.Of(sh, a.Facts.Product, 48); err != nil {
		t.Fatal(err)
	}
	if all = bare(audit.Compose(a, f, &found)); strings.Contains(all, layouttest.Bare("Cost and margin")) {
		t.Error("a shop without prices has a section of costs")
	}
}
