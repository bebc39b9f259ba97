package flow

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/text"
)

func TestFigureParts(t *testing.T) {
	for _, c := range []struct{ mark, in, whole, decimals, rest string }{
		{".", "360 g", "360", "", " g"},
		{".", "4.8 g", "4", ".8", " g"},
		{",", "4,8 g", "4", ",8", " g"},
		{".", "1,200.5 g", "1,200", ".5", " g"},
		{",", "1.200,5 g", "1.200", ",5", " g"},
		{",", "1\u00a0200 g", "1\u00a0200", "", " g"},
		{".", "≈ 2½", "≈ 2½", "", ""},
		{".", "as needed", "", "", "as needed"},
		{".", "12.", "12", "", "."},
		{".", "2 × 85.5 g", "2", "", " × 85.5 g"},
		{".", "", "", "", ""},
	} {
		w, d, r := Figures{mark: c.mark}.parts(c.in)
		if w != c.whole || d != c.decimals || r != c.rest {
			t.Errorf("%q: %q %q %q, want %q %q %q", c.in, w, d, r, c.whole, c.decimals, c.rest)
		}
	}
}

// Decimal marks under each other, units under each other, nothing beyond the
// column: asked of figures in tables by Regulation (EU) No 1169/2011
// Art. 34(2) ("with the numbers aligned").
func TestFiguresAlign(t *testing.T) {
	amounts := []string{"360 g", "4.8 g", "0.31 g", "1,250.25 kg", "12 ml", "to taste"}
	for _, bold := range []bool{false, true} {
		p := pen(t)
		size, right := text.Hundredths(1100), 80*mm
		f := p.Figures(".", size, bold, amounts...)
		face := p.Faces.Of(bold)
		point := right - f.unit - f.decimals
		for i, a := range amounts {
			p.Items = nil
			para := note(a)
			para.Spans[0].Bold = bold
			if err := p.Figure(right, unit.Length(i+1)*5*mm, para, Style{Size: size}, f); err != nil {
				t.Fatal(err)
			}
			first, last := p.Items[0], p.Items[len(p.Items)-1]
			if first.Box.X < right-f.W()-1 || last.Box.Right() > right+1 {
				t.Errorf("%s: from %v to %v is not in its column", a, first.Box.X, last.Box.Right())
			}
			whole, _, rest := f.parts(a)
			if whole == "" {
				if d := last.Box.Right() - right; d < -1 || d > 1 {
					t.Errorf("%s: ends at %v, want %v", a, last.Box.Right(), right)
				}
				continue
			}
			if got := first.Box.X + face.Width(whole, size); got < point-2 || got > point+2 {
				t.Errorf("%s: decimal mark at %v, want %v", a, got, point)
			}
			unitAt := last.Box.Right() - face.Width(rest[1:], size)
			if want := right - f.unit + face.Width(" ", size); unitAt < want-2 || unitAt > want+2 {
				t.Errorf("%s: unit at %v, want %v", a, unitAt, want)
			}
		}
	}
}

func blocks(t *rapid.T) []Block {
	return rapid.Custom(func(t *rapid.T) []Block {
		out := make([]Block, rapid.IntRange(1, 40).Draw(t, "n"))
		for i := range out {
			h := unit.Length(rapid.Int64Range(1, int64(30*mm)).Draw(t, "h"))
			out[i] = Block{H: h, Tied: rapid.IntRange(0, 4).Draw(t, "tied") == 0, Src: diag.Pos{File: "x", Line: i + 1},
				Items: []page.Item{{Box: page.Rect{W: mm, H: h}, Src: diag.Pos{File: "x", Line: i + 1}}}}
		}
		return out
	}).Draw(t, "blocks")
}

// Each block is printed once, in order, whole, in the room of its page, with
// those it is tied to.
func TestPages(t *testing.T) {
	p := &Pen{Dots: unit.Dots{N: 300, Per: unit.Inch}}
	rapid.Check(t, func(t *rapid.T) {
		all := blocks(t)
		gap := unit.Length(rapid.Int64Range(0, int64(3*mm)).Draw(t, "gap"))
		room := func(n int) page.Rect {
			return page.Rect{X: mm, Y: unit.Length(n+1) * mm, W: 50 * mm, H: 70*mm - unit.Length(n)}
		}
		pages, err := p.Pages(room, gap, all)
		var over *Overflow
		if errors.As(err, &over) {
			if over.Need <= over.Have || !over.Src.Known() {
				t.Fatalf("refused: %+v", over)
			}
			return
		}
		next, where := 0, map[int]int{}
		for n, items := range pages {
			bottom := room(n).Y
			for _, it := range items {
				next++
				where[next] = n
				if it.Src.Line != next || !room(n).Contains(it.Box) || it.Box.Y < bottom {
					t.Fatalf("page %d: %+v after %v", n, it, bottom)
				}
				if d := p.Dots.Snap(it.Box.Y-room(n).Y) - (it.Box.Y - room(n).Y); it.Box.Y != room(n).Y && p.Dots.Snap(it.Box.Y) != it.Box.Y && d != 0 {
					t.Fatalf("block at %v is not on a dot", it.Box.Y)
				}
				bottom = it.Box.Bottom()
			}
		}
		if next != len(all) {
			t.Fatalf("%d of %d blocks printed", next, len(all))
		}
		for i, b := range all[:len(all)-1] {
			if b.Tied && where[i+1] != where[i+2] {
				t.Fatalf("block %d and the next are torn apart", i)
			}
		}
	})
}

func TestStack(t *testing.T) {
	p := pen(t)
	b := func(h unit.Length, tied bool) Block { return Block{H: h, Tied: tied} }
	for _, c := range []struct {
		name   string
		blocks []Block
		placed int
		used   unit.Length
	}{
		{"none", nil, 0, 0},
		{"all", []Block{b(4*mm, false), b(5*mm, false)}, 2, 10 * mm},
		{"some", []Block{b(4*mm, false), b(5*mm, false), b(5*mm, false)}, 2, 10 * mm},
		{"tied goes on", []Block{b(4*mm, false), b(2*mm, true), b(5*mm, false)}, 1, 4 * mm},
		{"last tied", []Block{b(4*mm, false), b(2*mm, true)}, 2, 7 * mm},
		{"too high", []Block{b(11*mm, false)}, 0, 0},
		{"tied too high", []Block{b(6*mm, true), b(6*mm, false)}, 0, 0},
	} {
		n, used := p.Stack(page.Rect{W: 10 * mm, H: 10 * mm}, mm, c.blocks)
		if n != c.placed || used != c.used {
			t.Errorf("%s: %d blocks, %v; want %d, %v", c.name, n, used, c.placed, c.used)
		}
	}
}

func TestBlock(t *testing.T) {
	p := pen(t)
	b, err := p.Block(30*mm, func(q *Pen, r page.Rect) (unit.Length, error) {
		return q.Para(r, note("one two three four five six seven"), Style{Size: 4 * mm})
	})
	if err != nil || len(b.Items) < 2 || len(p.Items) != 0 {
		t.Fatalf("%v, %d marks in the block, %d on the page", err, len(b.Items), len(p.Items))
	}
	p.Stack(page.Rect{X: 7 * mm, Y: 9 * mm, W: 30 * mm, H: 50 * mm}, 0, []Block{b})
	if got := p.Items[0].Box; got != b.Items[0].Box.Moved(7*mm, 9*mm) {
		t.Errorf("placed at %+v", got)
	}
	if b.Items[0].Run.Baseline == p.Items[0].Run.Baseline {
		t.Error("the block itself was moved")
	}
}

func TestLargest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		least := text.Hundredths(rapid.Int64Range(100, 900).Draw(t, "least"))
		most := text.Hundredths(rapid.Int64Range(1, 4000).Draw(t, "most"))
		limit := text.Hundredths(rapid.Int64Range(50, 4500).Draw(t, "limit"))
		step := rapid.Int64Range(1, 100).Draw(t, "step")
		asked := 0
		got, ok := Largest(least, most, step, func(s unit.Length) bool { asked++; return s <= limit })
		want, fits := unit.Length(0), false
		for n := text.InHundredths(least); ; n += step {
			s := text.Hundredths(n)
			if s > limit || s > most && s != least {
				break
			}
			want, fits = s, true
		}
		if got != want || ok != fits {
			t.Fatalf("got %v %v, want %v %v", got, ok, want, fits)
		}
		if asked > 14 {
			t.Fatalf("asked %d times", asked)
		}
	})
}

// Lines are at least a dot thick and begin and end on dots.
func TestRulesOnDots(t *testing.T) {
	for _, dots := range []unit.Dots{{N: 8, Per: mm}, {N: 300, Per: unit.Inch}, {N: 600, Per: unit.Inch}} {
		p := &Pen{Dots: dots}
		p.Rule(1_234_567, 7_654_321, 33_333_333, unit.UM)
		p.Upright(1_234_567, 7_654_321, 33_333_333, 400*unit.UM)
		p.Frame(page.Rect{X: 1_111_111, Y: 2_222_222, W: 30 * mm, H: 20 * mm}, 300*unit.UM)
		p.Tint(page.Rect{X: 1_111_111, Y: 2_222_222, W: 30 * mm, H: 20 * mm}, 230)
		p.Hatch(page.Rect{X: 1_111_111, Y: 2_222_222, W: 30 * mm, H: 20 * mm}, 300*unit.UM)
		p.TickBox(1_111_111, 2_222_222, 5*mm)
		for _, it := range p.Items {
			edges := []unit.Length{it.Box.X, it.Box.Y, it.Box.Right(), it.Box.Bottom()}
			if it.Shape.Stroke > 0 {
				edges = append(edges, it.Shape.Stroke)
			}
			for _, e := range edges {
				if d := dots.Snap(e) - e; d < -2 || d > 2 {
					t.Errorf("%s: %v of %+v is not on a dot", dots, e, it.Box)
				}
			}
			if it.Box.W < dots.At(1) || it.Box.H < dots.At(1) {
				t.Errorf("%s: %+v vanishes", dots, it.Box)
			}
		}
	}
	free := &Pen{}
	free.Rule(1, 2, 3*mm, 170*unit.UM)
	if got := free.Items[0].Box; got != (page.Rect{X: 1, Y: 2, W: 3 * mm, H: 170 * unit.UM}) {
		t.Errorf("without dots: %+v", got)
	}
}

func TestBoxed(t *testing.T) {
	p := pen(t)
	used, err := p.Boxed(page.Rect{X: 5 * mm, Y: 5 * mm, W: 40 * mm, H: 40 * mm}, mm, 500*unit.UM, func(q *Pen, r page.Rect) (unit.Length, error) {
		return q.Para(r, note("LIMIT ≤ 5 °C"), Style{Size: 5 * mm})
	})
	if err != nil || len(p.Items) != 2 {
		t.Fatal(err, len(p.Items))
	}
	frame, words := p.Items[0], p.Items[1]
	if frame.Box.H-used > 100*unit.UM || !frame.Box.Inset(mm+500*unit.UM).Contains(words.Box) {
		t.Errorf("frame %+v, words %+v, used %v", frame.Box, words.Box, used)
	}
}

// Drawings of our own: every part lies in its box and can be drawn.
func TestIcons(t *testing.T) {
	box := page.Rect{X: 10 * mm, Y: 20 * mm, W: 9 * mm, H: 5 * mm}
	var names []string
	for _, k := range Icons() {
		p := &Pen{}
		p.Icon(k, box, role.Furniture)
		names = append(names, k.String())
		if len(p.Items) == 0 {
			t.Errorf("%v draws nothing", k)
		}
		for _, it := range p.Items {
			if it.Box.W != 5*mm || it.Box.X != 12*mm || !box.Contains(it.Box) {
				t.Errorf("%v: box %+v", k, it.Box)
			}
			if s := it.Shape.Stroke; !it.Shape.Fill && s < 300*unit.UM {
				t.Errorf("%v: a line of %v is lost in a copy", k, s)
			}
			if len(it.Shape.Segs) < 2 || it.Shape.Segs[0].Op != page.Move {
				t.Errorf("%v: does not begin with a move", k)
			}
			for _, s := range it.Shape.Segs {
				for _, pt := range s.Pts[:map[page.SegOp]int{page.Move: 1, page.Line: 1, page.Curve: 3}[s.Op]] {
					if margin := it.Shape.Stroke / 2; !it.Box.Inset(margin).Contains(page.Rect{X: pt.X, Y: pt.Y}) && s.Op != page.Curve {
						t.Errorf("%v: %+v reaches out of %+v", k, pt, it.Box)
					}
				}
			}
		}
	}
	want := []string{"warning", "limit", "probe", "oven", "pan", "cold", "whisk", "clock", "scale", "arrow", "tick"}
	if !slices.Equal(names, want) || Tick.String() != "tick" {
		t.Errorf("icons %v", names)
	}
	p := &Pen{}
	for _, k := range []Icon{-1, Icon(len(want))} {
		if p.Icon(k, box, role.Furniture); len(p.Items) != 0 || k.String() != fmt.Sprintf("icon %d", int(k)) {
			t.Errorf("%v is drawn", k)
		}
	}
}
