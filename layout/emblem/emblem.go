// Package emblem answers: what is on the shop's emblem, and can this printer draw it?
//
// [Read] takes a drawing (SVG, paths alone) or a picture (PNG, greys alone) that
// lies in the shop's folder and gives a plain value, or findings with the line
// and column in the file. [Emblem.Within] says how large it stands in a room,
// [Emblem.Check] whether its strokes and gaps survive the dots of the printer
// at that size, [Emblem.Item] is the mark for the page. How large a file is, and
// how many pixels it says it has, is asked before anything is unpacked.
package emblem

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// What an emblem may be at most.
const (
	MaxSVG    = 64 << 10 // bytes of a drawing
	MaxSteps  = 2000     // steps of its paths: moves, lines, curves, closings
	MaxPNG    = 1 << 20  // bytes of a picture
	MaxPixels = 4_000_000
	// MaxSide is the longest side that an emblem is printed at.
	MaxSide = 60 * unit.MM
	// LeastDPI is how many pixels of a picture stand on an inch of paper.
	LeastDPI = 600
)

// Emblem is one drawing or one picture. Either Steps or Gray is set.
type Emblem struct {
	Pos   diag.Pos // its file
	Title string   // what a drawing says that it shows, if it does

	// W and H are its proportions: of a drawing the viewBox in millionths of its
	// own unit, of a picture the pixels.
	W, H int64

	Steps  []page.Seg // a drawing, from the top left of its viewBox; filled, non-zero rule
	Gray   []byte     // a picture, W × H from the top left, 0 for black
	Digest string     // the same for two files that look the same
}

// Way is how a printer puts an emblem on paper.
type Way struct {
	Dots    unit.Dots // of the printer; the zero Dots are taken as fine enough
	Thermal bool      // it burns a dot or leaves it, and knows no greys: rolls
	Tones   bool      // greys of a picture become patterns of dots, where they may
}

// Read reads an emblem; file is its name for the findings. It tells a drawing
// from a picture by its first bytes, never by its name. It gives nil, and at
// least one error in found, for what cannot be printed as it is.
func Read(file string, data []byte, found *diag.List) *Emblem {
	e := &Emblem{Pos: diag.Pos{File: file}}
	ok := false
	switch {
	case bytes.HasPrefix(data, []byte(pngSign)):
		ok = e.readPNG(data, found)
	default:
		ok = e.readSVG(data, found)
	}
	if !ok {
		return nil
	}
	e.Digest = e.digest()
	return e
}

func (e *Emblem) digest() string {
	sum := sha256.New()
	fmt.Fprintf(sum, "%d %d %v ", e.W, e.H, e.Steps)
	sum.Write(e.Gray)
	return hex.EncodeToString(sum.Sum(nil)[:16])
}

// Within is the largest box of the emblem's proportions at the top left of
// room: on whole dots, and a whole number of dots wide and high, so that the
// printer draws the same on every label.
func (e *Emblem) Within(room page.Rect, dots unit.Dots) page.Rect {
	w, h := min(room.W, MaxSide), min(room.H, MaxSide)
	if fit := unit.MulDiv(int64(h), e.W, e.H); fit < int64(w) {
		w = unit.Length(fit)
	} else {
		h = unit.Length(unit.MulDiv(int64(w), e.H, e.W))
	}
	b := page.Rect{X: dots.Snap(room.X), Y: dots.Snap(room.Y), W: w, H: h}
	if dots.N > 0 {
		b.W, b.H = snapped(dots, b.X, w), snapped(dots, b.Y, h)
	}
	return b
}

// snapped is how long l is from at on, cut to whole dots; one dot at least.
func snapped(d unit.Dots, at, l unit.Length) unit.Length {
	first := d.Floor(at)
	return d.At(first+max(1, d.Floor(l))) - d.At(first)
}

// Item is the emblem as a mark of a page. A drawing is a path; a picture is its
// greys, or at the dots of a printer that knows none black and white, a pixel
// for each dot. The box is one of [Emblem.Within].
func (e *Emblem) Item(box page.Rect, way Way) page.Item {
	it := page.Item{Box: box, Role: role.Emblem, Src: e.Pos}
	switch {
	case e.Gray == nil:
		it.Shape = &page.Shape{Kind: page.Path, Fill: true, Segs: e.placed(box)}
	case way.Thermal && way.Dots.N > 0:
		it.Picture = e.dotted(box, way).picture(e)
	default:
		it.Picture = &page.Picture{W: int(e.W), H: int(e.H), Gray: e.Gray, Digest: e.Digest, Alt: e.alt()}
	}
	return it
}

// placed are the steps of a drawing on the page.
func (e *Emblem) placed(box page.Rect) []page.Seg {
	out := make([]page.Seg, len(e.Steps))
	for i, s := range e.Steps {
		for k, p := range s.Pts {
			s.Pts[k] = page.Pt{X: box.X + unit.Length(unit.MulDiv(int64(p.X), int64(box.W), e.W)), Y: box.Y + unit.Length(unit.MulDiv(int64(p.Y), int64(box.H), e.H))}
		}
		out[i] = s
	}
	return out
}

func (e *Emblem) alt() []string {
	if e.Title == "" {
		return nil
	}
	return []string{e.Title}
}
