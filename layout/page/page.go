// Package page answers: what exactly stands on this sheet?
//
// A finished page is a plain value: boxes in nanometres from the top left
// corner, each with its role and the place in the shop's files that it came
// from. Whoever reads it (layout/preflight) need not know who made it; whoever
// draws it (layout/pdf) decides nothing.
package page

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
)

// Rect is a box: X to the right and Y down from the top left corner of its
// page or artwork.
type Rect struct{ X, Y, W, H unit.Length }

// Right is the right edge.
func (r Rect) Right() unit.Length { return r.X + r.W }

// Bottom is the lower edge.
func (r Rect) Bottom() unit.Length { return r.Y + r.H }

// Inset returns r made smaller by d on all four sides.
func (r Rect) Inset(d unit.Length) Rect { return Rect{r.X + d, r.Y + d, r.W - 2*d, r.H - 2*d} }

// Below returns r without its first d, counted from its top.
func (r Rect) Below(d unit.Length) Rect { return Rect{r.X, r.Y + d, r.W, r.H - d} }

// Moved returns r shifted.
func (r Rect) Moved(dx, dy unit.Length) Rect { return Rect{r.X + dx, r.Y + dy, r.W, r.H} }

// Overlaps reports whether r and s share more than an edge.
func (r Rect) Overlaps(s Rect) bool {
	return r.X < s.Right() && s.X < r.Right() && r.Y < s.Bottom() && s.Y < r.Bottom()
}

// InColumn reports whether r and s share some of their width: one stands above
// the other, or upon it.
func (r Rect) InColumn(s Rect) bool { return r.X < s.Right() && s.X < r.Right() }

// Common is what r and s share; its width or height is 0 or less when they
// share no more than an edge.
func (r Rect) Common(s Rect) Rect {
	x, y := max(r.X, s.X), max(r.Y, s.Y)
	return Rect{x, y, min(r.Right(), s.Right()) - x, min(r.Bottom(), s.Bottom()) - y}
}

// Contains reports whether s lies in r, edges included.
func (r Rect) Contains(s Rect) bool {
	return s.X >= r.X && s.Y >= r.Y && s.Right() <= r.Right() && s.Bottom() <= r.Bottom()
}

// Item is one mark. Exactly one of Run, Symbol, Shape and Picture is set. Box is
// what the mark covers: for a run its advance width and its ascent to descent,
// for a symbol the bars with their quiet zone, for a shape its outline, for a
// picture all of it.
type Item struct {
	Box    Rect
	Role   role.Role
	Src    diag.Pos
	Run    *Run
	Symbol *Symbol
	Shape  *Shape

	Picture *Picture
	Panel   *PanelPart // of a mark of a nutrition panel, beside one of these
}

// PanelPart tells which part of a nutrition panel a mark is: the form in which
// the panel is drawn, the part as labels/role names it, and the nutrient of its
// row, or "".
type PanelPart struct{ Form, Part, Row string }

// String is "vertical/nutrient/fat".
func (p PanelPart) String() string { return strings.TrimRight(p.Form+"/"+p.Part+"/"+p.Row, "/") }

// Picture is W × H greys from the top left, 0 for black, stretched over the Box
// of its item. Alt says what can be seen on it, in each language of the page.
type Picture struct {
	W, H   int
	Gray   []byte
	Digest string // the same for pictures that look the same
	Alt    []string
}

// Run is a piece of text in one face on one line; it never wraps. Size is the
// em; XHeight and CapHeight are those of the face at that size; Baseline is
// measured from the top of the page. Gray is 0 for black, 255 for white.
type Run struct {
	Text      string
	Face      string // "regular" or "bold", or the name of Font
	Font      *Font  // of a shop's own; nil for the faces of the house
	Size      unit.Length
	XHeight   unit.Length
	CapHeight unit.Length
	Baseline  unit.Length
	Gray      uint8
}

// Font is a face of a shop's own with its file, so that whoever draws a page has
// it at hand. Two fonts of one document have different names, of the letters A to
// Z, digits and hyphens.
type Font struct {
	Name  string
	File  []byte // TrueType
	Whole bool   // its licence asks that it is embedded whole
}

// Symbol is a bar code as modules, not as a picture. Linear symbols have one
// row. Module (i, row) is dark when Dark[row*Cols+i] is 1. Bars is where the
// modules lie, inside the item's Box by the quiet zone. Inset is taken off
// each dark run on both sides, so that ink does not spread into the next dot.
type Symbol struct {
	Kind   string // "EAN-13", "EAN-8", "GS1-128", "ITF-14", "GS1 DataMatrix", "QR"
	Data   string // the digits, or the element string with FNC1 as \x1d
	Cols   int
	Rows   int
	Dark   []byte
	Module unit.Length // width of one module (X)
	Bars   Rect
	Inset  unit.Length
	Dots   unit.Dots   // of the printer that Module was chosen for
	Dot    unit.Length // one printer dot, 0 when not known
	Quiet  [4]int      // quiet zone in modules asked for: left, top, right, bottom
}

// ShapeKind says what a shape is.
type ShapeKind int

// The shapes.
const (
	Filled   ShapeKind = iota // Box filled with Gray
	Outlined                  // Box outlined with Stroke
	Hatched                   // Box outlined and hatched with Stroke
	Path                      // Segs, filled when Fill, stroked when Stroke > 0
)

// Shape is a line drawing. Gray is 0 for black, 255 for white. Segs are used
// by Path only; their points are absolute on the page.
type Shape struct {
	Kind   ShapeKind
	Gray   uint8
	Stroke unit.Length
	Fill   bool
	Segs   []Seg
}

// Seg is one step of a path: a move, a line, or a cubic Bézier curve with two
// control points and an end point.
type Seg struct {
	Op  SegOp
	Pts [3]Pt // Move, Line: Pts[0]; Curve: all three; Close: none
}

// SegOp is what a segment does.
type SegOp byte

// The steps of a path.
const (
	Move  SegOp = 'M'
	Line  SegOp = 'L'
	Curve SegOp = 'C'
	Close SegOp = 'Z'
)

// Pt is a point.
type Pt struct{ X, Y unit.Length }

// Art is what stands still from label to label: it is drawn once in a
// document and placed many times. Items are relative to its own corner.
type Art struct {
	W, H  unit.Length
	Items []Item
}

// Placed is an artwork on a page, X and Y being its top left corner.
type Placed struct {
	Art  *Art
	X, Y unit.Length
}

// Page is one finished sheet: artwork and the page's own marks. A page has at
// least one mark.
type Page struct {
	W, H   unit.Length
	Placed []Placed
	Items  []Item
}

// Area is the sheet as a box.
func (p *Page) Area() Rect { return Rect{0, 0, p.W, p.H} }

// Area is the artwork as a box.
func (a *Art) Area() Rect { return Rect{0, 0, a.W, a.H} }

// Moved returns a copy of it shifted by dx and dy, sharing nothing that the
// shift changes.
func (it Item) Moved(dx, dy unit.Length) Item {
	it.Box = it.Box.Moved(dx, dy)
	switch {
	case it.Run != nil:
		r := *it.Run
		r.Baseline += dy
		it.Run = &r
	case it.Symbol != nil:
		s := *it.Symbol
		s.Bars = s.Bars.Moved(dx, dy)
		it.Symbol = &s
	case it.Shape != nil && it.Shape.Kind == Path:
		it.Shape = it.Shape.moved(dx, dy)
	}
	return it
}

func (s *Shape) moved(dx, dy unit.Length) *Shape {
	c := *s
	c.Segs = make([]Seg, len(s.Segs))
	for i, g := range s.Segs {
		for j := range g.Pts {
			g.Pts[j].X += dx
			g.Pts[j].Y += dy
		}
		c.Segs[i] = g
	}
	return &c
}

// All returns every mark of the page, artwork first, at its place on the page.
func (p *Page) All() []Item {
	var out []Item
	for _, a := range p.Placed {
		for _, it := range a.Art.Items {
			out = append(out, it.Moved(a.X, a.Y))
		}
	}
	return append(out, p.Items...)
}
