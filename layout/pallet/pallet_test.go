package pallet

import (
	"fmt"
	"image"
	"slices"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/pdf/pdftest"
	"chablon/layout/preflight"
)

// loaded is a pallet of the demo shop: twelve cartons of tartlets for its
// wholesaler, eight in a layer.
func loaded(t testing.TB) Pallet {
	t.Helper()
	sh := layouttest.Shop(t)
	q := sh.Products["pear-hazelnut-tartlet"]
	return Pallet{SSCC: "095200010000000072", Shop: sh, Goes: shop.Consignment{To: sh.Customers["ossel-larder"], Order: "OL-4711", Made: layouttest.Day(), Packed: layouttest.Day()},
		Lines: []Line{{Product: q, Batch: "L26076A", Cartons: 12, Packs: 144, Net: 144 * 170 * unit.Gram, Full: true}},
		Gross: 12 * (12*170 + 240) * unit.Gram, Keep: q.Keep, Earliest: layouttest.Day().AddDays(2), UseBy: true, Tie: 8,
		Langs: layouttest.Langs(t, "en"), Stock: layouttest.Paper(t, "roll-a5"), Dots: layouttest.Coarse()}
}

func composed(t testing.TB, p Pallet) *page.Page {
	t.Helper()
	var found diag.List
	art := Compose(p, layouttest.Faces(t), &found)
	if art == nil || found.Len() > 0 {
		t.Fatal(found.All())
	}
	return &page.Page{W: art.W, H: art.H, Placed: []page.Placed{{Art: art}}}
}

// The order of GGS figure 6.6.5-4 and what goes together in the Syntax
// Dictionary: (02) asks for (37) and (00); (330n) and (410) stand beside them.
func TestElements(t *testing.T) {
	p := loaded(t)
	want := "(00)095200010000000072(02)19520001000017(17)260319(3301)000274(410)9520002000002(10)L26076A(37)12(400)OL-4711"
	if got := gs1.HRI(p.Elements()); got != want {
		t.Errorf("%s, not %s", got, want)
	}
	if err := gs1.Together(p.Elements()); err != nil {
		t.Error(err)
	}
	mixed := p
	mixed.Lines = append(slices.Clone(p.Lines), Line{Product: p.Shop.Products["pistachio-choux"], Batch: "L26076A", Cartons: 1, Packs: 6, Net: 1680 * unit.Gram, Full: true})
	if got := gs1.HRI(mixed.Elements()); strings.Contains(got, "(02)") || strings.Contains(got, "(37)") || !strings.HasPrefix(got, "(00)") {
		t.Errorf("of a pallet of two kinds the bars say %s", got)
	}
	part := p
	part.Lines = slices.Clone(p.Lines)
	part.Lines[0].Full = false
	if got := gs1.HRI(part.Elements()); strings.Contains(got, "(02)") {
		t.Errorf("of a pallet with a part-filled carton the bars say %s", got)
	}
}

// The words say what the bars say, and the sums: cartons, layers, gross mass.
func TestWords(t *testing.T) {
	var all []string
	for _, it := range composed(t, loaded(t)).All() {
		if it.Run != nil {
			all = append(all, it.Run.Text)
		}
	}
	said := layouttest.Bare(strings.Join(all, " "))
	for _, want := range []string{"Ship to Ossel Larder Trade, Unit 3, Ropewalk", "ORDER NUMBER OL-4711", "cartons: 12", "layers of 8: 2", "CHILLED ≤ 5 °C", "Earliest date 19.03.2026",
		"12 × Pear and hazelnut tartlet · L26076A · 24.48 kg", "GROSS ≈ 27.36 kg", "SSCC 095200010000000072"} {
		if !strings.Contains(said, layouttest.Bare(want)) {
			t.Errorf("%q does not say %q", said, want)
		}
	}
}

// What is read from a picture of the label, by another decoder: the SSCC in
// bars, and all data in the matrix; and the page passes preflight, with letters
// of 3 mm at least (GS1 Sweden, rules for the logistic label).
func TestDecode(t *testing.T) {
	p := loaded(t)
	pg := composed(t, p)
	layouttest.Passes(t, preflight.Sheet{What: "the pallet label", Safe: page.Rect{W: pg.W, H: pg.H}.Inset(p.Stock.Safe.V), Use: gs1.Trade, Today: layouttest.Day(), Date: p.Earliest}, pg)
	var b strings.Builder
	if err := pdf.Write(&b, pdf.Doc{Title: "pallet", Lang: "en", Arts: []*page.Art{pg.Placed[0].Art}, Pages: slices.Values([]*page.Page{pg})}); err != nil {
		t.Fatal(err)
	}
	const dpi = 203
	img := pdftest.Raster(t, []byte(b.String()), 0, dpi)
	var got []string
	for _, it := range pg.All() {
		if it.Run != nil && it.Role != role.Digits && it.Run.CapHeight < leastText {
			t.Errorf("%q is %s high", it.Run.Text, it.Run.CapHeight)
		}
		if it.Symbol != nil {
			got = append(got, decoded(t, img, dpi, it)...)
		}
	}
	slices.Sort(got)
	if len(got) != 2 || got[0] != "00095200010000000072" || !strings.Contains(got[1], "0219520001000017") || !strings.Contains(got[1], "400OL-4711") {
		t.Errorf("read %q", got)
	}
}

func decoded(t *testing.T, img image.Image, dpi int, it page.Item) (out []string) {
	box := it.Box
	if it.Symbol.Kind == gs1.GS1128 {
		box = page.Rect{X: box.X, Y: box.Y + box.H/2, W: box.W, H: 2 * unit.MM}
	}
	for _, d := range pdftest.Decode(t, pdftest.Crop(img, dpi, box)) {
		out = append(out, d.Text)
	}
	return out
}

// More kinds than a label has room for are refused.
func TestRefused(t *testing.T) {
	p := loaded(t)
	for i := range 60 {
		l := p.Lines[0]
		l.Batch = fmt.Sprintf("L%d", i)
		p.Lines = append(p.Lines, l)
	}
	var found diag.List
	if art := Compose(p, layouttest.Faces(t), &found); art != nil || found.Errors() != 1 || found.All()[0].Rule != "does-not-fit" {
		t.Errorf("60 batches on one label: %v", found.All())
	}
}

func ExampleCompose() {
	fmt.Println(Pallet{Lines: []Line{{Cartons: 8}, {Cartons: 4}}, Tie: 8}.High())
	// Output: 2
}
