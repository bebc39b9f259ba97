package sale

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/pdf/pdftest"
	"chablon/layout/preflight"
	"chablon/layout/stock"
	"chablon/layout/text"
	"chablon/samples"
)

// labelOf makes the label of one pack of the demo shop, ready to be composed.
func labelOf(t testing.TB, sh *shop.Shop, id, pack, on string, dots unit.Dots, langs ...string) Label {
	p := sh.Products[id]
	k, ok := p.Pack(pack)
	if !ok {
		t.Fatalf("%s has no pack %q", id, pack)
	}
	var found diag.List
	l := Label{Facts: declare.Of(sh, p, k, layouttest.Market(t, "eu"), layouttest.Day(), &found), Pack: k, LinkStem: sh.Profile.LinkStem.V, Batch: "L26076A", Batched: p.Pos, Digits: 4, Dots: dots}
	if len(langs) == 0 {
		for _, c := range sh.LanguagesOf(k) {
			langs = append(langs, c.V)
		}
	}
	if n, err := sh.CounterNumber(k); err != nil {
		t.Fatal(err)
	} else if n != "" {
		l.Number = n
	}
	l.Langs = layouttest.Langs(t, langs...)
	for _, lang := range l.Langs {
		l.Told = append(l.Told, words.Tell(l.Facts, sh, lang, &found))
	}
	if on == "" {
		on = k.Paper.V
	}
	l.Stock = layouttest.Paper(t, on)
	if found.Errors() > 0 {
		t.Fatal(found.All())
	}
	return l
}

// rules is what a label of the demo shop is held to.
func rules(l Label, s *Set) preflight.Sheet {
	return preflight.Sheet{What: l.Facts.Product.ID, Src: l.Facts.Product.Pos, Safe: s.Safe, Market: l.Facts.Market, Use: gs1.Retail,
		Pack: market.Pack{Sale: market.Prepacked, Face: l.Pack.Face.V, Net: market.Quantity{Mass: l.Pack.Net.V},
			UseBy: l.Facts.Date.Kind == "use-by", DayMonth: true, Local: l.Pack.Nutrition.V == "exempt-small-maker"},
		Today: layouttest.Day(), Date: l.Facts.Date.End, Dots: l.Dots}
}

func dotsOf(s string) unit.Dots {
	if strings.HasPrefix(s, "a4") {
		return layouttest.Office()
	}
	return layouttest.Desk()
}

// TestDemoLabels sets every label of the demo shop, holds it to preflight, and
// compares it with the reviewed dump.
func TestDemoLabels(t *testing.T) {
	sh, f := layouttest.Shop(t), layouttest.Faces(t)
	seen := 0
	for _, id := range sh.ProductIDs {
		for _, k := range sh.Products[id].PackIDs() {
			pk, _ := sh.Products[id].Pack(k)
			l := labelOf(t, sh, id, k, "", dotsOf(pk.Paper.V))
			var found diag.List
			s := Compose(l, f, &found)
			if s == nil {
				t.Errorf("%s %s: %v", id, k, found.All())
				continue
			}
			seen++
			layouttest.Passes(t, rules(l, s), first(s))
			if found.Len() > 0 {
				t.Errorf("%s %s: %v", id, k, found.All())
			}
			layouttest.Golden(t, id+"-"+k+".dump", first(s).Dump())
		}
	}
	if seen != 10 {
		t.Errorf("%d labels set, not 10", seen)
	}
}

// first is the first label on a page of its own.
func first(s *Set) *page.Page {
	return &page.Page{W: s.Art.W, H: s.Art.H, Placed: []page.Placed{{Art: s.Art}}, Items: s.Own(1)}
}

// TestEverythingSaid: all words of the label stand on it, in their order.
func TestEverythingSaid(t *testing.T) {
	sh, f := layouttest.Shop(t), layouttest.Faces(t)
	for _, id := range sh.ProductIDs {
		l := labelOf(t, sh, id, "", "", layouttest.Desk())
		var found diag.List
		s := Compose(l, f, &found)
		all := layouttest.Read(s.Art.Items)
		for _, told := range l.Told {
			for _, said := range slices.Concat(told.Lists, told.Statements, []words.Said{told.Name, told.May, told.Date, told.Keep, told.Operator}) {
				layouttest.Has(t, all, said.Text)
			}
		}
	}
}

// TestAllergensBold: every allergen that the food contains stands in bold in
// the list: Reg. (EU) 1169/2011 Art. 21(1)(b).
func TestAllergensBold(t *testing.T) {
	sh, f := layouttest.Shop(t), layouttest.Faces(t)
	for _, id := range sh.ProductIDs {
		l := labelOf(t, sh, id, "", "", layouttest.Desk(), "en")
		l.Stock, _ = stock.Get("roll-100x150")
		var found diag.List
		s := Compose(l, f, &found)
		var bold []string
		for _, it := range s.Art.Items {
			if it.Role == role.List && it.Run != nil && it.Run.Face == "bold" {
				bold = append(bold, it.Run.Text)
			}
		}
		said := strings.ToLower(strings.Join(bold, " "))
		for _, a := range l.Facts.Contains {
			_, stems, _ := l.Langs[0].Allergen(a)
			if !slices.ContainsFunc(stems, func(s string) bool { return strings.Contains(said, strings.ToLower(s)) }) {
				t.Errorf("%s: %s is not in bold: %s", id, a, said)
			}
		}
	}
}

// TestRefusedOnSmallSticker: the list of the caramel bar does not fit on
// 40 × 30 mm at the least legal height; it is refused with remedies, and not
// set smaller.
func TestRefusedOnSmallSticker(t *testing.T) {
	l := labelOf(t, layouttest.Shop(t), "passion-caramel-bar", "", "roll-40x30", layouttest.Desk(), "en")
	var found diag.List
	if s := Compose(l, layouttest.Faces(t), &found); s != nil {
		t.Fatal("set all the same")
	}
	d := found.All()[0]
	if d.Rule != "does-not-fit" || !strings.Contains(d.Hint, "larger paper") || !strings.HasPrefix(d.Pos.File, "products/") {
		t.Errorf("found %v", d)
	}
}

// TestLargestThatFits: at the size chosen the label fits, and no arrangement
// that is as good fits with letters larger by more than a twentieth.
func TestLargestThatFits(t *testing.T) {
	l := labelOf(t, layouttest.Shop(t), "pear-hazelnut-tartlet", "", "", layouttest.Desk())
	f := layouttest.Faces(t)
	var found diag.List
	s := Compose(l, f, &found)
	var size unit.Length
	for _, it := range s.Art.Items {
		if it.Role == role.List && it.Run != nil {
			size = it.Run.Size
		}
	}
	c := &label{Label: l, paper: compose.On(l.Stock, l.Dots, f)}
	var err error
	if c.forms, err = c.together(); err != nil {
		t.Fatal(err)
	}
	for _, how := range c.ways()[0] {
		if _, err := c.try(how, text.Hundredths(text.InHundredths(size*21/20)+10)); err == nil {
			t.Errorf("%+v fits with letters much larger than %v", how, size)
		}
	}
}

// TestBarsDecoded renders the label as printers of 8 and 12 dots per mm and of
// 600 dots per inch would, and reads the bar code with another decoder.
func TestBarsDecoded(t *testing.T) {
	sh, f := layouttest.Shop(t), layouttest.Faces(t)
	for _, c := range []struct {
		dots unit.Dots
		dpi  int
	}{{unit.Dots{N: 8, Per: unit.MM}, 203}, {layouttest.Desk(), 305}, {unit.Dots{N: 300, Per: unit.Inch}, 300}, {layouttest.Office(), 600}} {
		l := labelOf(t, sh, "pear-hazelnut-tartlet", "", "roll-100x100", c.dots)
		var found diag.List
		s := Compose(l, f, &found)
		if s == nil {
			t.Fatal(found.All())
		}
		i := slices.IndexFunc(s.Art.Items, func(it page.Item) bool { return it.Symbol != nil })
		seen := pdftest.Crop(pdftest.Raster(t, layouttest.PDF(t, first(s)), 0, c.dpi), c.dpi, s.Art.Items[i].Box)
		codes := pdftest.Decode(t, seen)
		if len(codes) != 1 || codes[0].Text != "9520001000010" || !strings.HasPrefix(codes[0].ID, "]E0") {
			t.Errorf("%s: decoded %+v", c.dots, codes)
		}
	}
}

// TestMarksDecoded renders labels with a batch mark, in one bit at the dots of
// the printer and at 300 and 600 dots per inch, and reads each mark with
// another decoder: GTIN, date, batch and the label's own number.
func TestMarksDecoded(t *testing.T) {
	sh, f := layouttest.Shop(t), layouttest.Faces(t)
	for _, c := range []struct {
		product, paper, id string
		says               func(n int) string
	}{
		{"pear-hazelnut-tartlet", "", "]d2", func(n int) string {
			return fmt.Sprintf("01095200010000101726031910L26076A\x1d21%04d", n)
		}},
		{"pistachio-choux", "", "", func(int) string { return "https://label.example/01/09520001000041/10/L26076A?17=260318" }},
	} {
		for _, p := range []struct {
			dots unit.Dots
			dpi  int
		}{{unit.Dots{N: 8, Per: unit.MM}, 203}, {layouttest.Desk(), 305}, {unit.Dots{N: 300, Per: unit.Inch}, 300}, {layouttest.Office(), 600}} {
			l := labelOf(t, sh, c.product, "", "roll-100x100", p.dots)
			var found diag.List
			s := Compose(l, f, &found)
			if s == nil {
				t.Fatal(found.All())
			}
			for _, n := range []int{1, 9999} {
				pg := &page.Page{W: s.Art.W, H: s.Art.H, Items: slices.Concat(s.Art.Items, s.Own(n))}
				i := slices.IndexFunc(pg.Items, func(it page.Item) bool {
					return it.Symbol != nil && (it.Symbol.Kind == gs1.GS1DataMatrix || it.Symbol.Kind == gs1.QR)
				})
				if i < 0 {
					t.Fatalf("%s bears no mark", c.product)
				}
				codes := pdftest.Decode(t, pdftest.Crop(pdftest.Raster(t, layouttest.PDF(t, pg), 0, p.dpi), p.dpi, pg.Items[i].Box))
				if len(codes) != 1 || strings.TrimPrefix(codes[0].Text, "\x1d") != c.says(n) || !strings.HasPrefix(codes[0].ID, c.id) {
					t.Errorf("%s at %s: decoded %+v, not %q", c.product, p.dots, codes, c.says(n))
				}
			}
		}
	}
}

// TestPacksOfEveryLength: a pack bears the bars that its number has digits for,
// EAN-8, UPC-A or EAN-13, with their own white (GGS 5.2.3.4: 7 and 7, 9 and 9, 11
// and 7 modules) and digits below them; another decoder reads the number back
// from the page, in one bit at the printer's dots and at 300 and 600 dots per
// inch.
func TestPacksOfEveryLength(t *testing.T) {
	sh, f := layouttest.Shop(t), layouttest.Faces(t)
	for _, c := range []struct {
		gtin, kind, scanned string
		white               [2]int
		digits              string
	}{
		{"95200019", gs1.EAN8, "95200019", [2]int{7, 7}, "9520 0019"},
		{"012345678905", gs1.UPCA, "0012345678905", [2]int{9, 9}, "0 12345 67890 5"},
		{"9520001000010", gs1.EAN13, "9520001000010", [2]int{11, 7}, "9 520001 000010"},
	} {
		for _, p := range []struct {
			dots unit.Dots
			dpi  int
		}{{unit.Dots{N: 8, Per: unit.MM}, 203}, {layouttest.Desk(), 305}, {unit.Dots{N: 300, Per: unit.Inch}, 300}, {layouttest.Office(), 600}} {
			l := labelOf(t, sh, "pear-hazelnut-tartlet", "", "roll-100x100", p.dots)
			pack := *l.Pack
			pack.GTIN.V, pack.Mark.V = c.gtin, "none"
			l.Pack = &pack
			var found diag.List
			s := Compose(l, f, &found)
			if s == nil {
				t.Fatal(found.All())
			}
			i := slices.IndexFunc(s.Art.Items, func(it page.Item) bool { return it.Symbol != nil })
			it := s.Art.Items[i]
			y := it.Symbol
			if y.Kind != c.kind || y.Bars.X-it.Box.X < y.Module*unit.Length(c.white[0]) || it.Box.Right()-y.Bars.Right() < y.Module*unit.Length(c.white[1]) {
				t.Errorf("%s at %s: %s in %v, bars in %v", c.gtin, p.dots, y.Kind, it.Box, y.Bars)
			}
			var digits []string
			for _, d := range s.Art.Items {
				if d.Role == role.Digits {
					digits = append(digits, d.Run.Text)
				}
			}
			if got := strings.Join(digits, " "); got != c.digits {
				t.Errorf("%s: digits %q, want %q", c.gtin, got, c.digits)
			}
			bars := y.Bars.Inset(-7 * y.Module)
			bars.Y, bars.H = y.Bars.Y, y.Bars.H
			codes := pdftest.Decode(t, pdftest.Crop(pdftest.Raster(t, layouttest.PDF(t, first(s)), 0, p.dpi), p.dpi, bars))
			if !slices.ContainsFunc(codes, func(d pdftest.Code) bool { return d.Text == c.scanned || d.Text == c.gtin }) {
				t.Errorf("%s at %s: decoded %v", c.gtin, p.dots, codes)
			}
			layouttest.Passes(t, rules(l, s), first(s))
		}
	}
}

// TestReadBack reads the PDF with another reader: page size, words in order,
// and x-heights are what the page value says.
func TestReadBack(t *testing.T) {
	l := labelOf(t, layouttest.Shop(t), "pear-hazelnut-tartlet", "", "", layouttest.Desk())
	var found diag.List
	s := Compose(l, layouttest.Faces(t), &found)
	got := pdftest.Pages(t, layouttest.PDF(t, first(s)))
	if len(got) != 1 || fmt.Sprintf("%.1f × %.1f", got[0].W, got[0].H) != "100.0 × 60.0" {
		t.Fatalf("%d pages, the first %.2f × %.2f", len(got), got[0].W, got[0].H)
	}
	// The reader puts the digits under the bars and the running number where
	// they lie, not where they come.
	plain := strings.NewReplacer("9520001000010", "", "0001", "").Replace
	if have, want := plain(layouttest.Bare(got[0].Text)), plain(layouttest.Read(s.Art.Items)); have != want {
		t.Errorf("read back %q\nnot %q", have, want)
	}
	for _, it := range slices.Concat(s.Art.Items, s.Own(1)) {
		if it.Run == nil {
			continue
		}
		line, ok := got[0].Line(it.Run.Text)
		if ok && (line.Size-it.Run.Size.Pt() > 0.01 || it.Run.Size.Pt()-line.Size > 0.01) {
			t.Errorf("%q has %.2f pt, not %.2f", it.Run.Text, line.Size, it.Run.Size.Pt())
		}
	}
}

// TestAnyLabel sets labels of random words: whatever is set passes preflight,
// and what cannot be set says so.
func TestAnyLabel(t *testing.T) {
	sh, f := layouttest.Shop(t), layouttest.Faces(t)
	base := labelOf(t, sh, "rye-shortbread-tin", "", "roll-100x100", layouttest.Desk())
	rapid.Check(t, func(r *rapid.T) {
		l := base
		l.Told = nil
		for i := range rapid.IntRange(1, 3).Draw(r, "languages") {
			told := *base.Told[i]
			told.Lists = []words.Said{{Role: role.List, Text: chatter(r, 1, 120)}}
			told.Name.Text = chatter(r, 1, 12)
			told.Keep.Text = chatter(r, 1, 20)
			if rapid.Bool().Draw(r, "no table") {
				told.Table = nil
			}
			l.Told = append(l.Told, &told)
		}
		for _, told := range l.Told {
			if l.Told[0].Table == nil {
				told.Table = nil
			} else if told.Table == nil {
				told.Table = base.Told[0].Table
			}
		}
		l.Stock, _ = stock.Get(rapid.SampledFrom([]string{"roll-100x100", "roll-100x60", "roll-40x30", "roll-100x150"}).Draw(r, "stock"))
		var found diag.List
		s := Compose(l, f, &found)
		if s == nil {
			if found.Errors() == 0 {
				r.Fatal("refused without a finding")
			}
			return
		}
		sheet := rules(l, s)
		sheet.Pack.Local = l.Told[0].Table == nil
		preflight.Label(sheet, slices.Concat(s.Art.Items, s.Own(1)), &found)
		if found.Errors() > 0 {
			r.Fatal(found.All()[0])
		}
	})
}

func chatter(r *rapid.T, least, most int) string {
	return strings.Join(rapid.SliceOfN(rapid.StringMatching(`[a-zäöüéèß]{1,14}`), least, most).Draw(r, "words"), " ")
}

func ExampleCompose() {
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	p := sh.Products["passion-caramel-bar"]
	m, _ := market.Get("eu")
	en, _ := words.Get("en")
	facts := declare.Of(sh, p, &p.Packs[0], m, layouttest.Day(), &found)
	small, _ := stock.Get("roll-40x30")
	f, _ := text.Load()
	set := Compose(Label{Facts: facts, Pack: &p.Packs[0], Told: []*words.Label{words.Tell(facts, sh, en, &found)},
		Langs: []*words.Lang{en}, Batch: "L26076A", Stock: small, Dots: layouttest.Desk()}, f, &found)
	fmt.Println(set == nil, found.All()[0].Rule)
	// Output: true does-not-fit
}
