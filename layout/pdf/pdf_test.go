package pdf_test

import (
	"bytes"
	"errors"
	"fmt"
	"iter"
	"math"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode/utf8"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/pdf/pdftest"
)

func Example() {
	mark := page.Item{
		Box:  page.Rect{X: 4 * unit.MM, Y: 4 * unit.MM, W: 40 * unit.MM, H: 5 * unit.MM},
		Role: role.Batch,
		Run:  &page.Run{Text: "L26076A", Face: "bold", Size: unit.Pts(9), Baseline: 8 * unit.MM},
	}
	sheet := &page.Page{W: 50 * unit.MM, H: 20 * unit.MM, Items: []page.Item{mark}}
	var file bytes.Buffer
	err := pdf.Write(&file, pdf.Doc{Title: "Batch tickets", Lang: "en", Pages: slices.Values([]*page.Page{sheet})})
	fmt.Printf("%.8s %v\n", file.Bytes(), err)
	// Output: %PDF-1.7 <nil>
}

// near reports whether two lengths in mm are the same to the eye of a printer
// of 1200 dots per inch.
func near(a, b float64) bool { return math.Abs(a-b) < 0.02 }

func TestSizes(t *testing.T) {
	// ISO 216 A4, a 4 × 6 in carton label, a small and an odd label.
	sizes := []page.Rect{{W: 210 * unit.MM, H: 297 * unit.MM}, {W: 4 * unit.Inch, H: 6 * unit.Inch},
		{W: 100 * unit.MM, H: 60 * unit.MM}, {W: 37_290 * unit.UM, H: 25_930 * unit.UM}, {W: 210 * unit.MM, H: 297 * unit.MM}}
	var pages []*page.Page
	for _, s := range sizes {
		pages = append(pages, &page.Page{W: s.W, H: s.H, Items: []page.Item{run("regular", "x", 2, 10, 8)}})
	}
	got := pdftest.Pages(t, write(t, pdf.Doc{Pages: slices.Values(pages)}))
	if len(got) != len(sizes) {
		t.Fatalf("%d pages, want %d", len(got), len(sizes))
	}
	for i, s := range sizes {
		// The file states hundredths of a point; half of one is 1.8 µm.
		if math.Abs(got[i].W-s.W.MM()) > 0.0018 || math.Abs(got[i].H-s.H.MM()) > 0.0018 {
			t.Errorf("page %d: %.4f × %.4f mm, want %v × %v", i+1, got[i].W, got[i].H, s.W, s.H)
		}
		if l, ok := got[i].Line("x"); !ok || !near(l.X(), 2) || !near(l.Baseline(), 10) {
			t.Errorf("page %d: x at %v, want 2, 10", i+1, l)
		}
	}
}

func TestTextIsReadInOrder(t *testing.T) {
	d := labels(3)
	pages := pdftest.Pages(t, write(t, d))
	for i, p := range slices.Collect(d.Pages) {
		var want strings.Builder
		for _, it := range p.All() {
			if it.Run != nil {
				want.WriteString(it.Run.Text + "\n")
			}
		}
		if pages[i].Text != want.String() {
			t.Errorf("page %d reads\n%s\nwant\n%s", i+1, pages[i].Text, want.String())
		}
		for _, it := range p.All() {
			if it.Run != nil {
				checkRun(t, pages[i], it)
			}
		}
	}
}

func checkRun(t *testing.T, r pdftest.Read, it page.Item) {
	t.Helper()
	l, ok := r.Line(it.Run.Text)
	if !ok {
		t.Errorf("%q is not on the page as one line", it.Run.Text)
		return
	}
	font := map[string]string{"regular": "RobotoCondensed-Regular", "bold": "RobotoCondensed-Bold"}[it.Run.Face]
	if l.Font != font || math.Abs(l.Size-it.Run.Size.Pt()) > 0.001 {
		t.Errorf("%q is in %s %g pt, want %s %g pt", l.Text, l.Font, l.Size, font, it.Run.Size.Pt())
	}
	if !near(l.X(), it.Box.X.MM()) || !near(l.Baseline(), it.Run.Baseline.MM()) {
		t.Errorf("%q is at %.3f, %.3f, want %v, %v", l.Text, l.X(), l.Baseline(), it.Box.X, it.Run.Baseline)
	}
}

// Regulation (EU) No 1169/2011 Article 13(2) and Annex IV: the x-height is
// that of the letter x itself, at least 1.2 mm, or 0.9 mm on small packs. The
// letter has to come out as high as the page promises. The face has an
// sxHeight of 1082 and 2048 units in its em.
func TestXHeight(t *testing.T) {
	const dpi = 2400
	for _, x := range []unit.Length{1200 * unit.UM, 900 * unit.UM, 3 * unit.MM} {
		for _, face := range []string{"regular", "bold"} {
			it := run(face, "x", 3, 7, 1)
			it.Run.Size, it.Run.XHeight = x.Mul(2048, 1082), x
			sheet := &page.Page{W: 10 * unit.MM, H: 10 * unit.MM, Items: []page.Item{it}}
			ink := inked(pdftest.Raster(t, write(t, pdf.Doc{Pages: slices.Values([]*page.Page{sheet})}), 0, dpi), 128)
			high, foot := float64(ink.Dy())*25.4/dpi, float64(ink.Max.Y)*25.4/dpi
			if math.Abs(high-x.MM()) > 0.011 { // one dot
				t.Errorf("%s: the letter is %.4f mm high, want %v", face, high, x)
			}
			if math.Abs(foot-7) > 0.011 {
				t.Errorf("%s: the letter stands at %.4f mm, want 7", face, foot)
			}
		}
	}
}

func TestPlacedArt(t *testing.T) {
	a := &page.Art{W: 30 * unit.MM, H: 20 * unit.MM, Items: []page.Item{run("bold", "Pear tart", 3, 7, 9)}}
	b := &page.Art{W: 30 * unit.MM, H: 20 * unit.MM, Items: []page.Item{run("regular", "Rye bar", 3, 7, 9)}}
	sheet := &page.Page{W: 100 * unit.MM, H: 60 * unit.MM, Placed: []page.Placed{
		{Art: b, X: 10 * unit.MM, Y: 5 * unit.MM}, {Art: a, X: 60 * unit.MM, Y: 35 * unit.MM}, {Art: a, X: 10 * unit.MM, Y: 38 * unit.MM},
	}}
	file := write(t, pdf.Doc{Arts: []*page.Art{a, b, a}, Pages: slices.Values([]*page.Page{sheet, sheet})})
	if n := bytes.Count(file, []byte("/Subtype /Form")); n != 2 {
		t.Errorf("%d artworks in the file, want 2", n)
	}
	for _, p := range pdftest.Pages(t, file) {
		if p.Text != "Rye bar\nPear tart\nPear tart\n" {
			t.Fatalf("the page reads %q", p.Text)
		}
		for i, want := range [][2]float64{{13, 12}, {63, 42}, {13, 45}} {
			if l := p.Lines[i]; !near(l.X(), want[0]) || !near(l.Baseline(), want[1]) {
				t.Errorf("%q at %.3f, %.3f, want %v", l.Text, l.X(), l.Baseline(), want)
			}
		}
	}
}

func TestFacts(t *testing.T) {
	d := labels(1)
	d.Title, d.Lang = "Crème brûlée 🍮", "fr-BE"
	d.Made = time.Date(2026, 3, 17, 1, 30, 0, 0, time.FixedZone("", 90*60))
	file := write(t, d)
	if got := pdftest.Info(t, file, "Title"); got != d.Title {
		t.Errorf("the title is %q, want %q", got, d.Title)
	}
	if got := pdftest.Info(t, file, "CreationDate"); got != "D:20260317000000Z" {
		t.Errorf("made %q, want midnight UTC", got)
	}
	if pdftest.Scaled(t, file) {
		t.Error("a viewer would scale the pages")
	}
	if !bytes.Contains(file, []byte("/Lang (fr-BE)")) {
		t.Error("the language is not stated")
	}
	d.Title, d.Lang, d.Made = "", "", time.Time{}
	file = write(t, d)
	for _, key := range []string{"/Lang", "/Title", "/CreationDate"} {
		if bytes.Contains(file, []byte(key)) {
			t.Errorf("%s is stated though it is not known", key)
		}
	}
}

func TestSameBytes(t *testing.T) {
	want := write(t, labels(20))
	other := labels(20)
	other.Title = "Others"
	if id := identifier(t, want); id == identifier(t, write(t, other)) {
		t.Errorf("two files share the identifier %s", id)
	}
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			var b bytes.Buffer
			if err := pdf.Write(&b, labels(20)); err != nil || !bytes.Equal(b.Bytes(), want) {
				t.Errorf("drawing again gave other bytes (error %v)", err)
			}
		})
	}
	wg.Wait()
}

func identifier(t *testing.T, file []byte) string {
	t.Helper()
	_, after, ok := bytes.Cut(file, []byte("/ID [<"))
	if !ok || len(after) < 32 {
		t.Fatal("the file has no identifier")
	}
	return string(after[:32])
}

func TestRefusals(t *testing.T) {
	with := func(change func(*page.Item)) iter.Seq[*page.Page] {
		it := run("regular", "Rye bar", 4, 10, 8)
		change(&it)
		return one(it)
	}
	sym := func(change func(*page.Symbol)) iter.Seq[*page.Page] {
		it := bars(ean13, fine, 3, 30, 30, 100)
		change(it.Symbol)
		return one(it)
	}
	box := func(s page.Shape, w unit.Length) iter.Seq[*page.Page] {
		return one(page.Item{Box: page.Rect{W: w, H: w}, Shape: &s})
	}
	line := page.Seg{Op: page.Line}
	move := page.Seg{Op: page.Move}
	tests := []struct {
		name string
		doc  pdf.Doc
		want string
	}{
		{"no pages", pdf.Doc{}, "without pages"},
		{"zero pages", pdf.Doc{Pages: slices.Values([]*page.Page{})}, "without pages"},
		{"nil page", pdf.Doc{Pages: slices.Values([]*page.Page{nil})}, "page 1: the page is missing"},
		{"bare page", pdf.Doc{Pages: one()}, "page 1: there is nothing on it"},
		{"no size", pdf.Doc{Pages: slices.Values([]*page.Page{{}})}, "a sheet of 0 mm by 0 mm"},
		{"vast", pdf.Doc{Pages: slices.Values([]*page.Page{{W: 1e18, H: 1e18}})}, "cannot be drawn"},
		{"tag", pdf.Doc{Lang: "en) /X (", Pages: one()}, "is not a language tag"},
		{"year", pdf.Doc{Made: time.Date(12026, 1, 1, 0, 0, 0, 0, time.UTC), Pages: one()}, "in the year 12026"},
		{"nil art", pdf.Doc{Arts: []*page.Art{nil}, Pages: one()}, "artwork 1 is missing"},
		{"art without size", pdf.Doc{Arts: []*page.Art{{}}, Pages: one()}, "artwork 1 has no size"},
		{"art unlisted", pdf.Doc{Pages: numbered(label(), 1)}, "does not list"},
		{"sign", pdf.Doc{Pages: with(func(i *page.Item) { i.Run.Text = "Rye 你" })}, `shop.yaml:4:7: the regular typeface has no sign for '你' (U+4F60) in "Rye 你"`},
		{"sign beyond", pdf.Doc{Pages: with(func(i *page.Item) { i.Run.Text = "🍮" })}, "U+1F36E"},
		{"line feed", pdf.Doc{Pages: with(func(i *page.Item) { i.Run.Text = "a\nb" })}, "U+000A"},
		{"not text", pdf.Doc{Pages: with(func(i *page.Item) { i.Run.Text = "a\xffb" })}, "is not text"},
		{"lost", pdf.Doc{Pages: with(func(i *page.Item) { i.Run.Text = "a\uFFFDb" })}, "lost in reading (U+FFFD)"},
		{"face", pdf.Doc{Pages: with(func(i *page.Item) { i.Run.Face = "italic" })}, `no typeface "italic"`},
		{"empty run", pdf.Doc{Pages: with(func(i *page.Item) { i.Run.Text = "" })}, "shop.yaml:4:7: a run of text is empty"},
		{"size", pdf.Doc{Pages: with(func(i *page.Item) { i.Run.Size = 0 })}, "has no size"},
		{"far off", pdf.Doc{Pages: with(func(i *page.Item) { i.Box.X = 1 << 60 })}, "lies off any sheet"},
		{"no mark", pdf.Doc{Pages: with(func(i *page.Item) { i.Run = nil })}, `"note" has nothing to draw`},
		{"modules", pdf.Doc{Pages: sym(func(s *page.Symbol) { s.Cols++ })}, "95 modules for 96 × 1"},
		{"no modules", pdf.Doc{Pages: sym(func(s *page.Symbol) { s.Cols, s.Dark = 0, nil })}, "0 modules"},
		{"half dark", pdf.Doc{Pages: sym(func(s *page.Symbol) { s.Dark[3] = 255 })}, "neither light nor dark"},
		{"inset", pdf.Doc{Pages: sym(func(s *page.Symbol) { s.Inset = s.Module / 2 })}, "too small for an inset"},
		{"flat", pdf.Doc{Pages: sym(func(s *page.Symbol) { s.Bars.H = 0 })}, "has no height"},
		{"blank", pdf.Doc{Pages: sym(func(s *page.Symbol) { s.Dark = make([]byte, s.Cols) })}, "no dark module"},
		{"stretched", pdf.Doc{Pages: sym(func(s *page.Symbol) { s.Bars.W += unit.MM })}, "does not fill its box"},
		{"flat box", pdf.Doc{Pages: box(page.Shape{}, 0)}, "cannot be filled"},
		{"thin outline", pdf.Doc{Pages: box(page.Shape{Kind: page.Outlined}, unit.MM)}, "cannot have an outline of 0 mm"},
		{"thick outline", pdf.Doc{Pages: box(page.Shape{Kind: page.Hatched, Stroke: unit.MM}, unit.MM)}, "cannot have an outline"},
		{"vast hatch", pdf.Doc{Pages: box(page.Shape{Kind: page.Hatched, Stroke: unit.UM}, 4000*unit.MM)}, "too large to hatch"},
		{"kind", pdf.Doc{Pages: box(page.Shape{Kind: 9}, unit.MM)}, "no shape of kind 9"},
		{"no move", pdf.Doc{Pages: box(page.Shape{Kind: page.Path, Fill: true, Segs: []page.Seg{line}}, 0)}, "begin with a move"},
		{"no paint", pdf.Doc{Pages: box(page.Shape{Kind: page.Path, Segs: []page.Seg{move, line}}, 0)}, "neither a fill nor a stroke"},
		{"step", pdf.Doc{Pages: box(page.Shape{Kind: page.Path, Fill: true, Segs: []page.Seg{move, {Op: 'Q'}}}, 0)}, "cannot go 'Q'"},
		{"too many", labels(pdf.MaxPages + 1), "more than 10000 pages"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var b bytes.Buffer
			err := pdf.Write(&b, tt.doc)
			if err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("got %v, want an error with %q", err, tt.want)
			}
			if b.Len() > 0 {
				t.Errorf("%d bytes were written all the same", b.Len())
			}
		})
	}
}

// A leaky writer takes some bytes and then fails for good.
type leaky struct{ left int }

var errFull = errors.New("the disk is full")

func (l *leaky) Write(p []byte) (int, error) {
	n := min(len(p), l.left)
	if l.left -= n; n < len(p) {
		return n, errFull
	}
	return n, nil
}

func TestWriterFails(t *testing.T) {
	whole := len(write(t, labels(300)))
	for _, room := range []int{0, 1, 1000, whole / 2, whole - 1} {
		if err := pdf.Write(&leaky{room}, labels(300)); !errors.Is(err, errFull) {
			t.Errorf("room for %d of %d bytes: got %v, want %v", room, whole, err, errFull)
		}
	}
	if err := pdf.Write(&leaky{whole}, labels(300)); err != nil {
		t.Errorf("room for all: %v", err)
	}
}

// checkUpdate follows the last cross reference table of a file: each entry has
// to lead to its object (ISO 32000-1, 7.5.4).
func checkUpdate(t *testing.T, file []byte) {
	t.Helper()
	tail := file[bytes.LastIndex(file, []byte("startxref\n")):]
	var at, id, n, entry int
	fmt.Sscanf(string(tail), "startxref\n%d", &at)
	table := bytes.NewReader(file[at:])
	if _, err := fmt.Fscanf(table, "xref\n"); err != nil {
		t.Fatalf("no cross reference table at %d: %v", at, err)
	}
	seen := 0
	for {
		if _, err := fmt.Fscanf(table, "%d %d\n", &id, &n); err != nil {
			break // the trailer
		}
		for i := range n {
			fmt.Fscanf(table, "%d 00000 n \n", &entry)
			if want := fmt.Sprintf("%d 0 obj\n", id+i); !bytes.HasPrefix(file[entry:], []byte(want)) {
				t.Errorf("the entry of object %d leads to %.20q", id+i, file[entry:])
			}
			seen++
		}
	}
	if seen < 4 {
		t.Errorf("only %d objects in the update", seen)
	}
}

func TestUpdate(t *testing.T) {
	checkUpdate(t, write(t, labels(3)))
}

func TestTitles(t *testing.T) {
	for title, want := range map[string]string{
		"(a) \\ <b>":   "(a) \\ <b>",
		"\x1bde\x1b a": " de  a", // the code of a language, 7.9.2.2
		"a\xffb":       "a\uFFFDb",
		"Ελληνικά 🍮":   "Ελληνικά 🍮",
	} {
		d := labels(1)
		d.Title = title
		if got := pdftest.Info(t, write(t, d), "Title"); got != want {
			t.Errorf("title %q came back as %q, want %q", title, got, want)
		}
	}
}

func FuzzWrite(f *testing.F) {
	f.Add("Almond crescents", "Labels", "en", int64(2_000_000), int64(0))
	f.Add("Crème ½ ℮ − \u00a0\u202f“”", "🍮", "", int64(1), int64(1<<62))
	f.Add("\xff\x00(\\)>", ") /Type (", "de-AT", int64(-5), int64(-1<<62))
	f.Fuzz(func(t *testing.T, text, title, lang string, size, x int64) {
		it := run("bold", text, 1, 10, 8)
		it.Run.Size, it.Box.X = unit.Length(size), unit.Length(x)
		var b bytes.Buffer
		if err := pdf.Write(&b, pdf.Doc{Title: title, Lang: lang, Pages: one(it)}); err != nil {
			return
		}
		file := b.Bytes()
		if !bytes.HasPrefix(file, []byte("%PDF-1.7\n")) || !bytes.HasSuffix(file, []byte("\n%%EOF\n")) {
			t.Errorf("%q in a file without head or foot", text)
		}
		if !utf8.ValidString(text) || bytes.Contains(file, []byte("NaN")) {
			t.Errorf("%q was drawn", text)
		}
		checkUpdate(t, file)
	})
}
