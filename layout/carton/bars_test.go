package carton

import (
	"image"
	"slices"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/pdf/pdftest"
)

// symbols are the symbols of label 1 from top to bottom.
func symbols(s *Set) []page.Item {
	var out []page.Item
	for _, it := range marks(s, 1) {
		if it.Symbol != nil {
			out = append(out, it)
		}
	}
	slices.SortFunc(out, func(a, b page.Item) int { return int(a.Box.Y/unit.UM - b.Box.Y/unit.UM) })
	return out
}

// barsOnly is c of a product whose customers' scanners read no matrix.
func barsOnly(c Carton) Carton {
	f, p, box := *c.Facts, *c.Facts.Product, *c.Facts.Product.Carton
	box.Bars.V = true
	p.Carton, f.Product, c.Facts = &box, &p, &f
	return c
}

// GTINs, batch, dates and SSCC of the demo shop, read by another decoder from
// a picture of the PDF that another reader drew.
func TestDecode(t *testing.T) {
	sh := layouttest.Shop(t)
	const sscc = "00095200010000000010"
	for _, c := range []struct {
		id   string
		dpi  int
		bars bool
		want []string
	}{
		{"pear-hazelnut-tartlet", 203, true, []string{"011952000100001717260319", "10L26076A", sscc}},
		{"pear-hazelnut-tartlet", 203, false, []string{"0119520001000017" + sscc + "1726031910L26076A", "011952000100001717260319", sscc}},
		{"pear-hazelnut-tartlet", 300, false, []string{"0119520001000017" + sscc + "1726031910L26076A", "011952000100001717260319", sscc}},
		{"pear-hazelnut-tartlet", 600, false, []string{"0119520001000017" + sscc + "1726031910L26076A", "011952000100001717260319", sscc}},
		{"passion-caramel-bar", 203, true, []string{"011952000100002415260512", "10L26076A", sscc}},
		{"pistachio-choux", 203, false, []string{"0119520001000048" + sscc + "1726031810L26076A", sscc}},
		{"lemon-thyme-marshmallow", 300, true, []string{"01195200010000551526041410L26076A", sscc}},
		{"bench-tin", 203, false, []string{"0119520001000062" + sscc + "1526041410L26076A", sscc}},
		{"rye-shortbread-tin", 203, false, []string{"0119520001000031" + sscc + "1526052610L26076A", sscc}},
	} {
		k := of(t, sh, c.id)
		k.Dots = unit.Dots{N: int64(c.dpi), Per: unit.Inch}
		if c.bars {
			k = barsOnly(k)
		}
		s := composed(t, k)
		img := pdftest.Raster(t, write(t, s), 0, c.dpi)
		var got []string
		for _, it := range symbols(s) {
			got = append(got, read(t, img, it, c.dpi)...)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s at %d dpi: read %q, want %q", c.id, c.dpi, got, c.want)
		}
	}
}

// read is what a decoder finds in a symbol's place: of a linear one in a slice
// as high as a scanner sees at once. The identifier in front says what kind it
// is (ISO/IEC 15424).
func read(t *testing.T, img image.Image, it page.Item, dpi int) (out []string) {
	t.Helper()
	place, id, keep := slice(it.Box), "]C1", dpi/200
	if it.Symbol.Kind == gs1.GS1DataMatrix {
		place, id, keep = it.Box, "]d2", 1
	}
	for _, d := range pdftest.Decode(t, coarse(pdftest.Crop(img, dpi, place), keep)) {
		if d.ID != id {
			t.Errorf("read %s, want %s", d, id)
		}
		out = append(out, d.Text)
	}
	return out
}

// slice is a part of a linear symbol as high as a scanner sees at once.
func slice(r page.Rect) page.Rect {
	return page.Rect{X: r.X, Y: r.Y + r.H/2, W: r.W, H: 2 * unit.MM}
}

// coarse keeps one of n dots each way: the decoder takes wide spaces between
// fine dots for the end of a symbol.
func coarse(img image.Image, n int) image.Image {
	b := img.Bounds()
	out := image.NewGray(image.Rect(0, 0, b.Dx()/n, b.Dy()/n))
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			out.Set(x, y, img.At(b.Min.X+x*n, b.Min.Y+y*n))
		}
	}
	return out
}

// Rules of the GS1 logistic label (GGS release 18, 5.4.4.3 and 6.6; size
// guide and label rules of GS1 Sweden, read November 2026).
func TestLogisticLabel(t *testing.T) {
	sh := layouttest.Shop(t)
	f := layouttest.Faces(t)
	for _, id := range sh.ProductIDs {
		s := composed(t, of(t, sh, id))
		all := marks(s, 1)
		bars := symbols(s)
		last := bars[len(bars)-1]
		if !strings.HasPrefix(last.Symbol.Data, "00") {
			t.Errorf("%s: the lowest symbol is %q, not the SSCC", id, last.Symbol.Data)
		}
		if last.Symbol.Cols != 156 {
			t.Errorf("%s: the SSCC has %d modules, want 156 (GGS figure 5.4.2-1)", id, last.Symbol.Cols)
		}
		top := s.Art.H
		for _, it := range bars {
			y := it.Symbol
			if y.Kind == gs1.GS1DataMatrix { // (GGS release 18, p. 321: 1.5 times the 0.495 of the bars; white of one module)
				if y.Module < 743*unit.UM || y.Module > 1500*unit.UM || it.Box.W < y.Bars.W+2*y.Module || it.Box.H < y.Bars.H+2*y.Module {
					t.Errorf("%s: the matrix has a module of %s", id, y.Module)
				}
				continue
			}
			top = min(top, it.Box.Y)
			if y.Module < 495*unit.UM || y.Module > 1016*unit.UM || y.Bars.H < 31_750*unit.UM {
				t.Errorf("%s: %q has a module of %s and is %s high", id, y.Data, y.Module, y.Bars.H)
			}
			if it.Box.W > 165_100*unit.UM || len(y.Data) > 48 {
				t.Errorf("%s: %q is %s wide", id, y.Data, it.Box.W)
			}
			if left := y.Bars.X; left < 10*y.Module || s.Art.W-y.Bars.Right() < 10*y.Module {
				t.Errorf("%s: the white beside %q leaves the label", id, y.Data)
			}
		}
		for _, it := range all {
			if it.Run == nil {
				continue
			}
			if it.Run.CapHeight < 3*unit.MM {
				t.Errorf("%s: %q is %s high, under 3 mm", id, it.Run.Text, it.Run.CapHeight)
			}
			if it.Role != role.Digits && it.Box.Bottom() > top {
				t.Errorf("%s: %q is not over the bars", id, it.Run.Text)
			}
			if it.Run.Face == "bold" && f.Bold.CapHeight(it.Run.Size) != it.Run.CapHeight {
				t.Errorf("%s: %q states a wrong height", id, it.Run.Text)
			}
		}
	}
}

// Every linear symbol has its figures below it, AIs in brackets (GGS 4.14); what
// the matrix says stands in the text.
func TestEveryCodeIsReadable(t *testing.T) {
	sh := layouttest.Shop(t)
	for _, id := range sh.ProductIDs {
		s := composed(t, of(t, sh, id))
		for _, it := range symbols(s) {
			if it.Symbol.Kind == gs1.GS1DataMatrix {
				continue
			}
			els, err := gs1.ParseElementString(it.Symbol.Data)
			if err != nil {
				t.Fatal(err)
			}
			below := slices.IndexFunc(marks(s, 1), func(m page.Item) bool {
				return m.Role == role.Digits && m.Run.Text == gs1.HRI(els) && m.Box.Y >= it.Symbol.Bars.Bottom() && m.Box.Y < it.Symbol.Bars.Bottom()+6*unit.MM
			})
			if below < 0 {
				t.Errorf("%s: nothing under %q", id, it.Symbol.Data)
			}
		}
	}
}

// GGS 6.6.4.2: the data of the text should be at least 7 mm high. On A5 in
// one language there is room for that.
func TestFiguresAreLarge(t *testing.T) {
	s := composed(t, of(t, layouttest.Shop(t), "pear-hazelnut-tartlet"))
	for _, what := range []role.Role{role.Name, role.Net, role.Batch, role.Date, role.Key} {
		for _, it := range marks(s, 1) {
			if it.Role == what && it.Run.CapHeight < 7*unit.MM {
				t.Errorf("%s %q is %s high", what, it.Run.Text, it.Run.CapHeight)
			}
		}
	}
	for what, want := range map[role.Role]string{role.Net: "12 × 170 g", role.Batch: "L26076A", role.Date: "Use by 19.03.2026", role.Name: "Pear and hazelnut tartlet"} {
		if got := saidBy(s, 1, what); got != want {
			t.Errorf("%s: %q, want %q", what, got, want)
		}
	}
	if got := saidBy(s, 1, role.Keep); got != "CHILLED ≤ 5 °C Keep refrigerated at ≤ 5 °C." {
		t.Errorf("keep: %q", got)
	}
	// 12 × 170 g and a tare of 240 g.
	if got := saidBy(s, 1, role.Note); !strings.Contains(got, "NET 2.04 kg") || !strings.Contains(got, "GROSS ≈ 2.28 kg") || saidBy(s, 1, role.Key) != "19520001000017 095200010000000010" || !strings.HasPrefix(got, "SSCC GTIN COUNT BATCH/LOT USE BY or EXPIRY") {
		t.Errorf("notes: %q", got)
	}
}

// A carton that is not full is no trade item with a number of its own: its
// bars name the GTIN of the packs (02) and their count (37), in the order of
// GGS figure 6.6.5-4: contents, date, batch, count.
func TestPartFilledCarton(t *testing.T) {
	c := of(t, layouttest.Shop(t), "pear-hazelnut-tartlet")
	c.Packs = 7
	s := composed(t, barsOnly(c))
	var got []string
	for _, it := range symbols(s) {
		got = append(got, it.Symbol.Data)
	}
	want := []string{"020952000100001017260319", "10L26076A\x1d377", "00095200010000000010"}
	if !slices.Equal(got, want) {
		t.Errorf("bars %q, want %q", got, want)
	}
	if n := saidBy(s, 1, role.Net); n != "7 × 170 g" {
		t.Errorf("contents %q", n)
	}
	if n := saidBy(s, 1, role.Note); !strings.Contains(n, "SSCC CONTENT COUNT") || !strings.Contains(saidBy(s, 1, role.Key), "09520001000010") {
		t.Errorf("notes %q", n)
	}
}

// Without an SSCC the carton is a trade item only.
func TestWithoutSSCC(t *testing.T) {
	sh := layouttest.Shop(t)
	c := on(t, of(t, sh, "pear-hazelnut-tartlet"), "roll-a6")
	c.SSCCs = nil
	var found diag.List
	s := Compose(c, layouttest.Faces(t), &found)
	if s == nil || found.Len() > 0 {
		t.Fatal(found.All())
	}
	if got := say(s); got != "01195200010000171726031910L26076A 011952000100001717260319" {
		t.Errorf("bars %q", got)
	}
	if len(s.Own(1)) != 1 {
		t.Errorf("%d own marks", len(s.Own(1)))
	}
}

// A food without a date has none in its bars either.
func TestWithoutDate(t *testing.T) {
	c := of(t, layouttest.Shop(t), "pear-hazelnut-tartlet")
	c.Facts.Date.Kind, c.Told[0].Date = "none", words.Said{}
	s := composed(t, barsOnly(c))
	if bars := symbols(s); bars[0].Symbol.Data != "011952000100001710L26076A" || saidBy(s, 1, role.Date) != "" {
		t.Errorf("bars %q, date %q", bars[0].Symbol.Data, saidBy(s, 1, role.Date))
	}
	if p := c.Pack(); p.UseBy || p.DayMonth {
		t.Errorf("the law takes it for %+v", p)
	}
}

// On A6 three symbols of 31.75 mm leave no room for the words: a matrix then says
// all, and the bars of the SSCC stay (GGS release 18, 6.6). Where there is no
// room for that either, or no matrix is wanted, the label is refused: no data
// are ever in words alone.
func TestNothingIsInWordsAlone(t *testing.T) {
	for _, paper := range []string{"roll-a6", "roll-100x150", "roll-a5", "a4-2", "a4-carton"} {
		for _, id := range layouttest.Shop(t).ProductIDs {
			c := on(t, of(t, layouttest.Shop(t), id), paper)
			var found diag.List
			s := Compose(c, layouttest.Faces(t), &found)
			if s == nil {
				if found.Errors() != 1 || found.All()[0].Rule != "does-not-fit" {
					t.Errorf("%s on %s: %v", id, paper, found.All())
				}
				continue
			}
			if found.Len() > 0 {
				t.Errorf("%s on %s: %v", id, paper, found.All())
			}
			bars := symbols(s)
			if last := bars[len(bars)-1].Symbol; last.Kind != gs1.GS1128 || last.Data != "00"+c.SSCCs[0] {
				t.Errorf("%s on %s: the lowest is %s %s", id, paper, last.Kind, last.Data)
			}
			for _, want := range []string{"01" + c.Facts.Product.Carton.GTIN.V, "10" + c.Batch, gs1.Date(c.Facts.Date.End)} {
				if !strings.Contains(say(s), want) {
					t.Errorf("%s on %s: %s is in no bars: %s", id, paper, want, say(s))
				}
			}
		}
	}
	var found diag.List
	if s := Compose(barsOnly(on(t, of(t, layouttest.Shop(t), "pear-hazelnut-tartlet"), "roll-a6")), layouttest.Faces(t), &found); s != nil || found.Errors() != 1 {
		t.Errorf("without a matrix there is room on A6: %v", found.All())
	}
}

func TestFindings(t *testing.T) {
	sh := layouttest.Shop(t)
	small := on(t, of(t, sh, "rye-shortbread-tin"), "roll-100x60")
	for _, c := range []struct {
		name, rule, say string
		change          func(*Carton)
	}{
		{"no cartons", "carton", "not shipped in cartons", func(c *Carton) {
			p := *c.Facts.Product
			p.Carton = nil
			c.Facts.Product = &p
		}},
		{"no language", "carton", "has no language", func(c *Carton) { c.Told, c.Langs = nil, nil }},
		{"another pack", "carton", "holds the pack box-of-2, not single", func(c *Carton) {
			k, _ := c.Facts.Product.Pack("single")
			c.Facts.Pack = k
		}},
		{"too many packs", "carton", "13 packs do not go into a carton that holds 12", func(c *Carton) { c.Packs = 13 }},
		{"no packs", "carton", "-1 packs", func(c *Carton) { c.Packs = -1 }},
		{"too many cartons", "carton", "at most 10000", func(c *Carton) { c.Of, c.SSCCs = 10_001, nil }},
		{"check digit", "sscc", "last digit is 0, not 1", func(c *Carton) { c.SSCCs = []string{"095200010000000011", "095200010000000027"} }},
		{"a number twice", "sscc", "two cartons", func(c *Carton) { c.SSCCs = []string{"095200010000000010", "095200010000000010"} }},
		{"too few numbers", "sscc", "1 numbers for 2 cartons", func(c *Carton) { c.SSCCs = c.SSCCs[:1] }},
		{"a GTIN mistyped", "carton", "the last digit is 7, not 8", func(c *Carton) { c.Facts.Product.Carton.GTIN.V = "19520001000018" }},
		{"batch of odd letters", "carton", "BATCH/LOT", func(c *Carton) { c.Batch = "Lö26076A" }},
		{"batch too long", "carton", "BATCH/LOT", func(c *Carton) { c.Batch = "L26076A-SECOND-OVEN-LEFT" }},
		{"part-filled, without SSCCs", "carton", "COUNT", func(c *Carton) { c.Packs, c.SSCCs = 7, nil }},
		{"part-filled, pack without a number", "carton", "named by the GTIN of the pack", func(c *Carton) {
			k := *c.Facts.Pack
			k.GTIN = shop.Text{}
			c.Facts.Pack, c.Packs = &k, 7
		}},
		{"small label", "does-not-fit", "100 mm × 60 mm", func(c *Carton) { *c = small }},
		{"long name", "does-not-fit", "roll-a5", func(c *Carton) {
			l := *c.Told[0]
			l.Name.Text = strings.Repeat("pear and hazelnut ", 160)
			c.Told = []*words.Label{&l}
		}},
		{"a letter that no face has", "glyph", "U+68A8", func(c *Carton) {
			l := *c.Told[0]
			l.Name.Text = "梨"
			c.Told = []*words.Label{&l}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := of(t, layouttest.Shop(t), "pear-hazelnut-tartlet")
			c.change(&k)
			var found diag.List
			if s := Compose(k, layouttest.Faces(t), &found); s != nil {
				t.Error("a label was set")
			}
			all := found.All()
			if len(all) == 0 || all[0].Rule != c.rule || !strings.Contains(all[0].Msg, c.say) || all[0].Hint == "" {
				t.Fatalf("found %v, want %q [%s]", all, c.say, c.rule)
			}
		})
	}
}

// Heads are set in the first language that has them, else in English, as GS1
// has it for data titles; the particulars of the law never fall back.
func TestHeads(t *testing.T) {
	for codes, want := range map[string]string{"fr": "fr", "et": "en", "et de": "de", "it": "it", "en fr": "en"} {
		if got := titles(layouttest.Langs(t, strings.Fields(codes)...)).Code(); got != want {
			t.Errorf("%s: heads in %s, want %s", codes, got, want)
		}
	}
}

// What was written from memory is told, so that a native reader checks it.
func TestKeysFromMemory(t *testing.T) {
	s := composed(t, of(t, layouttest.Shop(t), "rye-shortbread-tin"))
	for code, keys := range s.Keys {
		l, _ := words.Get(code)
		for _, k := range keys {
			if !l.FromMemory(k) {
				t.Errorf("%s: %s was checked", code, k)
			}
		}
	}
	c := of(t, layouttest.Shop(t), "rye-shortbread-tin")
	c.Langs, c.Told = c.Langs[1:], c.Told[1:] // French leads
	if keys := composed(t, c).Keys["fr"]; !slices.Contains(keys, "carton.of") {
		t.Errorf("French heads are from memory, but only %v are told", keys)
	}
}
