// Package outline answers: which shape has a letter?
//
// Letters are handed out as outlines of the shipped faces, so that whoever
// draws them needs no face of his own and cannot pick a wrong one.
package outline

import (
	"errors"
	"fmt"
	"sync"
	"unicode/utf8"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"chablon/fonts"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// Glyph is the shape of a letter in design units, X to the right from where the
// letter begins and Y down from the baseline. It is filled by the non-zero rule.
type Glyph struct {
	Advance int64 // to where the next letter begins
	Segs    []Seg
}

// Seg is one step along an outline, the letters of which are those of a path in
// SVG: M move, L line, Q curve with one control point, C curve with two. Each
// contour ends where it began.
type Seg struct {
	Op  byte
	Pts [3]Pt // M, L: Pts[0]; Q: two of them; C: all three
}

// Points are those that the step uses.
func (s Seg) Points() []Pt {
	switch s.Op {
	case 'Q':
		return s.Pts[:2]
	case 'C':
		return s.Pts[:]
	}
	return s.Pts[:1]
}

// Pt is a point in design units.
type Pt struct{ X, Y int64 }

// Face is one typeface, read once. Any number of goroutines may use it.
type Face struct {
	Name string // as pages say it
	Em   int64  // design units of one em

	font   *sfnt.Font
	glyphs sync.Map // *Glyph by rune
}

// faces are read once in the life of a program.
var faces = sync.OnceValues(func() ([]*Face, error) {
	if err := fonts.Check(); err != nil {
		return nil, err
	}
	regular, err := parse("regular", fonts.Regular())
	if err != nil {
		return nil, err
	}
	bold, err := parse("bold", fonts.Bold())
	return []*Face{regular, bold}, err
})

func parse(name string, file []byte) (*Face, error) {
	f, err := sfnt.Parse(file)
	if err != nil {
		return nil, fmt.Errorf("reading the %s face: %w", name, err)
	}
	return &Face{Name: name, Em: int64(f.UnitsPerEm()), font: f}, nil
}

// Of finds a typeface by the name that pages use.
func Of(name string) (*Face, error) {
	all, err := faces()
	if err != nil {
		return nil, fmt.Errorf("loading the typefaces: %w", err)
	}
	for _, f := range all {
		if f.Name == name {
			return f, nil
		}
	}
	return nil, fmt.Errorf("there is no typeface %q", name)
}

// Glyph is the shape of r. A face that has none gives an error, never a blank.
func (f *Face) Glyph(r rune) (*Glyph, error) {
	if g, ok := f.glyphs.Load(r); ok {
		return g.(*Glyph), nil
	}
	g, err := f.read(r)
	if err == nil {
		f.glyphs.Store(r, g)
	}
	return g, err
}

// errNone is what a face says of a letter that it does not have.
var errNone = errors.New("has no sign for it")

// read reads one outline. At one pixel for each design unit nothing is rounded.
func (f *Face) read(r rune) (*Glyph, error) {
	var buf sfnt.Buffer
	n, err := f.font.GlyphIndex(&buf, r)
	if err == nil && (n == 0 || r == utf8.RuneError) {
		err = errNone
	}
	if err != nil {
		return nil, err
	}
	ppem := fixed.I(int(f.Em))
	adv, err := f.font.GlyphAdvance(&buf, n, ppem, font.HintingNone)
	if err != nil {
		return nil, err
	}
	segs, err := f.font.LoadGlyph(&buf, n, ppem, nil)
	if err != nil {
		return nil, err
	}
	g := &Glyph{Advance: int64(adv.Round())}
	for _, s := range segs {
		g.Segs = append(g.Segs, seg(s))
	}
	return g, nil
}

func seg(s sfnt.Segment) (out Seg) {
	out.Op = map[sfnt.SegmentOp]byte{sfnt.SegmentOpMoveTo: 'M', sfnt.SegmentOpLineTo: 'L', sfnt.SegmentOpQuadTo: 'Q', sfnt.SegmentOpCubeTo: 'C'}[s.Op]
	for i, p := range s.Args {
		out.Pts[i] = Pt{int64(p.X.Round()), int64(p.Y.Round())}
	}
	return out
}

// Letter is one letter of a run where it stands.
type Letter struct {
	*Glyph
	X, Y unit.Length // of its beginning on the baseline
	Size unit.Length // of one em
	Em   int64
}

// At is a point of the letter on its page.
func (l Letter) At(p Pt) page.Pt {
	return page.Pt{X: l.X + l.Size.Mul(p.X, l.Em), Y: l.Y + l.Size.Mul(p.Y, l.Em)}
}

// of finds the face of a run.
func of(r *page.Run) (*Face, error) {
	if r.Font == nil {
		return Of(r.Face)
	}
	return parse(r.Font.Name, r.Font.File)
}

// Run calls letter for each letter of a run whose first one begins at x. The
// error names the letter that the face does not have.
func Run(x unit.Length, r *page.Run, letter func(Letter)) error {
	f, err := of(r)
	if err != nil {
		return fmt.Errorf("%q: %w", r.Text, err)
	}
	units := int64(0)
	for _, c := range r.Text {
		g, err := f.Glyph(c)
		if err != nil {
			return fmt.Errorf("the %s typeface: %q (%U) in %q: %w", f.Name, c, c, r.Text, err)
		}
		letter(Letter{g, x + r.Size.Mul(units, f.Em), r.Baseline, r.Size, f.Em})
		units += g.Advance
	}
	return nil
}
