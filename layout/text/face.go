// Package text answers: how wide is it, and where may it break?
//
// A [Face] measures words from the font file itself: nothing here knows a
// width or an x-height by heart. A [Para] is prepared once ([Copy]) and set
// into lines of any size and width. Words are never hyphenated.
package text

import (
	"math"

	"chablon/labels/unit"
	"chablon/layout/page"
)

// Face is one face of the shipped fonts, read once and never changed, so that
// any number of goroutines may use it.
type Face struct {
	name            string
	font            *page.Font // nil for a shipped one
	em              int64      // design units of one em
	xHeight, caps   int64
	ascent, descent int64
	glyphs          [1 << 16]glyph // by rune, basic plane
}

// glyph is what a letter takes, in design units: advance, and how far its ink
// reaches above and below the baseline.
type glyph struct {
	adv      uint16
	up, down int16
}

// noGlyph stands in glyph.up where the font has no such letter.
const noGlyph = math.MinInt16

// Name is "regular" or "bold", as page.Run.Face wants it.
func (f *Face) Name() string { return f.name }

// Font is the file of a face of a shop's own, nil for a shipped one.
func (f *Face) Font() *page.Font { return f.font }

// Width is the advance of s on one line at the given size (the em), without
// kerning. Letters that the face does not have count nothing; see [Face.Missing].
// The PDF states widths in whole thousandths of an em, rounded down, so the
// drawn text is never wider than this.
func (f *Face) Width(s string, size unit.Length) unit.Length {
	return f.scaled(f.units(s), size)
}

func (f *Face) units(s string) int64 {
	var sum int64
	for _, r := range s {
		sum += int64(f.glyph(r).adv)
	}
	return sum
}

func (f *Face) scaled(units int64, size unit.Length) unit.Length { return size.Mul(units, f.em) }

// glyph is that of r; what is invisible or missing has no width and no ink.
func (f *Face) glyph(r rune) glyph {
	if r < 0 || r >= 1<<16 || invisible(r) {
		return glyph{}
	}
	if g := f.glyphs[r]; g.up != noGlyph {
		return g
	}
	return glyph{}
}

// Ink is how far s reaches above and below the baseline at the given size;
// both are at least 0, so that the baseline always belongs to it.
func (f *Face) Ink(s string, size unit.Length) (up, down unit.Length) {
	var u, d int16
	for _, r := range s {
		g := f.glyph(r)
		u, d = max(u, g.up), max(d, g.down)
	}
	return f.scaled(int64(u), size), f.scaled(int64(d), size)
}

// XHeight is the height of a small x: sxHeight of the font's OS/2 table over
// its units per em, times size.
func (f *Face) XHeight(size unit.Length) unit.Length { return f.scaled(f.xHeight, size) }

// CapHeight is the height of a capital: sCapHeight of the OS/2 table.
func (f *Face) CapHeight(size unit.Length) unit.Length { return f.scaled(f.caps, size) }

// Ascent is the ascender of the hhea table. A few letters (Å, Ģ) reach a
// little beyond ascent and descent; [Face.Ink] tells what is really covered.
func (f *Face) Ascent(size unit.Length) unit.Length { return f.scaled(f.ascent, size) }

// Descent is the descender of the hhea table, counted downwards.
func (f *Face) Descent(size unit.Length) unit.Length { return f.scaled(f.descent, size) }

// Leading is the distance of baselines that the face was drawn for.
func (f *Face) Leading(size unit.Length) unit.Length { return f.scaled(f.ascent+f.descent, size) }

// SizeForX is the smallest size, in hundredths of a point, at which a small x
// is at least x high.
func (f *Face) SizeForX(x unit.Length) unit.Length { return f.sizeFor(x, f.xHeight) }

// SizeForCap is the smallest size, in hundredths of a point, at which a
// capital is at least h high.
func (f *Face) SizeForCap(h unit.Length) unit.Length { return f.sizeFor(h, f.caps) }

func (f *Face) sizeFor(h unit.Length, part int64) unit.Length {
	n, d := int64(h)*f.em*7200, part*int64(unit.Inch)
	return Hundredths((n + d - 1) / d)
}

// Missing tells the first letter of s that the face cannot draw. Marks that
// are never drawn (soft hyphen, word joiner, direction marks) are not missing;
// a combining accent is, because nothing would put it over its letter.
func (f *Face) Missing(s string) (rune, bool) {
	for _, r := range s {
		if !f.has(r) {
			return r, true
		}
	}
	return 0, false
}

func (f *Face) has(r rune) bool {
	switch {
	case invisible(r):
		return true
	case r < ' ' || r >= 1<<16 || combining(r) || r == '\uFFFD':
		return false
	}
	return f.glyphs[r].up != noGlyph
}
