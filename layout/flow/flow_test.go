package flow

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/text"
)

const mm = unit.MM

func pen(tb testing.TB) *Pen {
	tb.Helper()
	f, err := text.Load()
	if err != nil {
		tb.Fatal(err)
	}
	return &Pen{Faces: f, Dots: unit.Dots{N: 12, Per: mm}}
}

func note(s string) text.Para { return Words(role.Note, diag.Pos{}, s) }

func Example() {
	faces, err := text.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	p := &Pen{Faces: faces, Dots: unit.Dots{N: 12, Per: mm}}
	room := page.Rect{X: 4 * mm, Y: 4 * mm, W: 32 * mm, H: 22 * mm}
	list := text.Para{Role: role.List, Spans: []text.Span{
		{Text: "Ingredients: butter ("}, {Text: "milk", Bold: true}, {Text: "), sugar, "}, {Text: "egg", Bold: true}, {Text: "."}}}
	size, ok := Largest(faces.Regular.SizeForX(900*unit.UM), 12*mm, 10, func(size unit.Length) bool {
		_, err := p.Fresh().Para(page.Rect{W: room.W, H: 7 * mm}, list, Style{Size: size})
		return err == nil
	})
	used, err := p.Para(room, list, Style{Size: size})
	fmt.Printf("%.2f pt %v, %.2f mm used, %v\n", size.Pt(), ok, used.MM(), err)
	sheet := page.Page{W: 40 * mm, H: 30 * mm, Items: p.Items}
	fmt.Print(sheet.Dump())
	// Output:
	// 8.43 pt true, 6.97 mm used, <nil>
	// page 40.00 × 30.00
	// [   4.00    4.37   23.14    3.07] list      regular x=1.57 base=6.76 "Ingredients: butter ("
	// [  27.14    4.53    5.13    2.23] list      bold x=1.57 base=6.76 "milk"
	// [  32.27    4.37    1.53    3.07] list      regular x=1.57 base=6.76 "),"
	// [   4.00    8.64    7.86    2.22] list      regular x=1.57 base=10.24 "sugar, "
	// [  11.86    8.64    4.42    2.22] list      bold x=1.57 base=10.24 "egg"
	// [  16.28    9.94    0.78    0.32] list      regular x=1.57 base=10.24 "."
}

func TestParaPlaces(t *testing.T) {
	p := pen(t)
	r := page.Rect{X: 10 * mm, Y: 20 * mm, W: 50 * mm, H: 30 * mm}
	src := diag.Pos{File: "formulas/a.yaml", Line: 4, Col: 2}
	st := Style{Size: text.Hundredths(900), Gray: 80}
	used, err := p.Para(r, Words(role.Step, src, "Melt the butter."), st)
	if err != nil || len(p.Items) != 1 {
		t.Fatal(err, len(p.Items))
	}
	it := p.Items[0]
	face := p.Faces.Regular
	want := page.Run{Text: "Melt the butter.", Face: "regular", Size: st.Size, XHeight: face.XHeight(st.Size),
		CapHeight: face.CapHeight(st.Size), Baseline: r.Y + face.Ascent(st.Size), Gray: 80}
	if *it.Run != want || it.Role != role.Step || it.Src != src {
		t.Errorf("got %+v\nwant %+v", *it.Run, want)
	}
	// At its own leading a line is as high as ascent and descent together.
	if d := used - face.Leading(st.Size); d < -1 || d > 1 {
		t.Errorf("used %v, want %v", used, face.Leading(st.Size))
	}
	if it.Box.W != face.Width("Melt the butter.", st.Size) || !r.Contains(it.Box) {
		t.Errorf("box %+v", it.Box)
	}
	if up, down := face.Ink("Melt the butter.", st.Size); it.Box.Y != want.Baseline-up || it.Box.H != up+down {
		t.Errorf("box %+v, ink %v %v", it.Box, up, down)
	}
}

func TestAlign(t *testing.T) {
	for _, c := range []struct {
		align      Align
		left, word unit.Length // where the box begins and its middle or end lies, of a column 10 to 40 mm
	}{{Left, 10 * mm, 0}, {Right, 40 * mm, 2}, {Centre, 25 * mm, 1}} {
		p := pen(t)
		st := Style{Size: 3 * mm, Align: c.align}
		if _, err := p.Para(page.Rect{X: 10 * mm, W: 30 * mm, H: 9 * mm}, note("sugar"), st); err != nil {
			t.Fatal(err)
		}
		b := p.Items[0].Box
		if got := b.X + b.W*c.word/2; got < c.left-1 || got > c.left+1 {
			t.Errorf("align %d: at %v, want %v", c.align, got, c.left)
		}
		box, err := p.Line(c.left, 20*mm, note("sugar"), st)
		if err != nil || box.X < b.X-1 || box.X > b.X+1 || box.W != b.W {
			t.Errorf("align %d: line at %+v, paragraph at %+v (%v)", c.align, box, b, err)
		}
	}
}

// What does not fit leaves no marks and says what is missing.
func TestNothingIsHalfSet(t *testing.T) {
	src := diag.Pos{File: "a.yaml", Line: 2, Col: 1}
	r := page.Rect{W: 20 * mm, H: 5 * mm}
	var over *Overflow
	var wide *text.TooWide
	var missing *text.NoGlyph
	for _, c := range []struct {
		name string
		do   func(p *Pen) error
		as   any
	}{
		{"too many lines", func(p *Pen) error {
			_, err := p.Para(r, Words(role.Note, src, "a long text that does not fit here"), Style{Size: 3 * mm})
			return err
		}, &over},
		{"long word", func(p *Pen) error {
			_, err := p.Para(r, note("Haselnusskrokantüberzugsmasse"), Style{Size: 3 * mm})
			return err
		}, &wide},
		{"strange letter", func(p *Pen) error { _, err := p.Line(0, 0, note("梨"), Style{Size: 3 * mm}); return err }, &missing},
		{"two lines", func(p *Pen) error { _, err := p.Line(0, 0, note("a\nb"), Style{Size: 3 * mm}); return err }, &over},
		{"no size", func(p *Pen) error { _, err := p.Para(r, note("a"), Style{}); return err }, &wide},
		{"strange unit", func(p *Pen) error {
			return p.Figure(r.W, 0, note("1 梨"), Style{Size: mm}, p.Figures(".", mm, false, "1.5 g"))
		}, &missing},
		{"boxed", func(p *Pen) error {
			_, err := p.Boxed(r, 2*mm, mm, func(q *Pen, in page.Rect) (unit.Length, error) { return 3 * mm, nil })
			return err
		}, &over},
	} {
		p := pen(t)
		if err := c.do(p); err == nil || !errors.As(err, c.as) {
			t.Errorf("%s: got %v", c.name, err)
		}
		if len(p.Items) != 0 {
			t.Errorf("%s: %d marks are left", c.name, len(p.Items))
		}
	}
	if d := (&Overflow{2 * mm, mm, src}).Diag(); d.Pos != src || d.Rule != "overflow" || d.Hint == "" {
		t.Errorf("finding %+v", d)
	}
}

// However tight the leading, no letter touches another, nothing leaves its
// room, and no word is lost.
func TestLettersNeverTouch(t *testing.T) {
	p := pen(t)
	word := rapid.SampledFrom([]string{"Ģģ", "ÅŐ", "ķļ,", "(41 %)", "butter", "Ä|{", "μέλι", "Ђурђ", "—", "\n"})
	rapid.Check(t, func(t *rapid.T) {
		q := p.Fresh()
		var para text.Para
		for i, s := range rapid.SliceOfN(word, 1, 30).Draw(t, "words") {
			para.Spans = append(para.Spans, text.Span{Text: s + " ", Bold: i%3 == 0})
		}
		size := text.Hundredths(rapid.Int64Range(300, 3000).Draw(t, "size"))
		st := Style{Size: size, Leading: size.Mul(rapid.Int64Range(1, 15).Draw(t, "leading"), 10)}
		r := page.Rect{X: mm, Y: mm, W: 60 * mm, H: 500 * mm}
		used, err := q.Para(r, para, st)
		if err != nil {
			t.Skip()
		}
		var out strings.Builder
		for i, a := range q.Items {
			out.WriteString(a.Run.Text)
			if room := (page.Rect{X: r.X, Y: r.Y, W: r.W, H: used}); !room.Contains(a.Box) {
				t.Fatalf("%q at %+v leaves %+v", a.Run.Text, a.Box, room)
			}
			for _, b := range q.Items[:i] {
				if a.Box.Overlaps(b.Box) {
					t.Fatalf("%q %+v touches %q %+v", a.Run.Text, a.Box, b.Run.Text, b.Box)
				}
			}
		}
		in := ""
		for _, s := range para.Spans {
			in += s.Text
		}
		if squash(in) != squash(out.String()) {
			t.Fatalf("%q became %q", in, out.String())
		}
	})
}

func squash(s string) string { return strings.Join(strings.Fields(s), "") }

func TestWidth(t *testing.T) {
	p := pen(t)
	for s, want := range map[string]unit.Length{"": 0, "360 g": p.Faces.Regular.Width("360 g", text.Hundredths(1000))} {
		if got, err := p.Width(note(s), text.Hundredths(1000)); err != nil || got != want {
			t.Errorf("%q: %v %v, want %v", s, got, err, want)
		}
	}
}

func TestOverflowSays(t *testing.T) {
	tests := []struct {
		have unit.Length
		want string
	}{
		{unit.MM, "it needs 2.50 mm and there are 1.00 mm"},
		{0, "it needs 2.50 mm and no room is left"},
		{-3 * unit.MM, "it needs 2.50 mm and no room is left"}, // nobody has −3 mm
	}
	for _, c := range tests {
		e := &Overflow{Need: 2500 * unit.UM, Have: c.have}
		if e.Error() != c.want {
			t.Errorf("%s of room: %q, want %q", c.have, e.Error(), c.want)
		}
	}
}

// TestFrameAllEdge: a frame too narrow for two edges is filled, so that it can
// be drawn; one with room between its edges is outlined.
func TestFrameAllEdge(t *testing.T) {
	p := &Pen{Dots: unit.Dots{N: 600, Per: unit.Inch}}
	for _, c := range []struct {
		wide unit.Length
		kind page.ShapeKind
	}{{0, page.Filled}, {unit.MM / 2, page.Filled}, {unit.MM, page.Filled}, {4 * unit.MM, page.Outlined}} {
		p.Items = nil
		p.Frame(page.Rect{W: c.wide, H: 4 * unit.MM}, unit.MM)
		got := p.Items[0]
		if got.Shape.Kind != c.kind || got.Box.W < unit.MM*9/10 {
			t.Errorf("%s wide: kind %d in a box of %s", c.wide, got.Shape.Kind, got.Box.W)
		}
	}
}
