package typeface

import (
	"chablon/fonts"
	"encoding/binary"
	"slices"

	"golang.org/x/image/font/sfnt"
)

const asTTF = "save it as TrueType (.ttf), one face a file"

// whole asks that the file is one TrueType face with all of the tables that are
// read of it, each inside the file.
func (r *reader) whole() bool {
	switch head := string(r.Data[:min(4, len(r.Data))]); {
	case len(r.Data) > MaxFace:
		return r.refuse("take one with fewer letters", "has more than %d MB", MaxFace>>20)
	case head == "OTTO":
		return r.refuse(asTTF, "has outlines of another kind (CFF)")
	case head == "ttcf":
		return r.refuse(asTTF, "is a collection of faces")
	case head == "wOFF" || head == "wOF2":
		return r.refuse(asTTF, "is packed for web pages")
	case head != "\x00\x01\x00\x00":
		return r.refuse(asTTF, "is no TrueType face")
	}
	for tag, least := range map[string]int{"OS/2": 78, "cmap": 4, "glyf": 1, "head": 54, "hhea": 36, "hmtx": 4, "loca": 4, "maxp": 6, "name": 6, "post": 32} {
		if len(fonts.Table(r.Data, tag)) < least {
			return r.refuse(asTTF, "is broken: its table %s is missing or cut short", tag)
		}
	}
	if fonts.Table(r.Data, "fvar") != nil {
		return r.refuse("save the one weight that is wanted as a face of its own", "is of many weights in one")
	}
	if n := binary.BigEndian.Uint16(fonts.Table(r.Data, "maxp")[4:]); n < 2 || n > 32_000 {
		return r.refuse("take one with fewer letters", "has %d letters", n)
	}
	return r.rising()
}

// rising asks that the map from characters to glyphs has ranges that rise, as
// OpenType asks of format 4; ranges on each other would be read for ever.
func (r *reader) rising() bool {
	cmap := fonts.Table(r.Data, "cmap")
	n := int(binary.BigEndian.Uint16(cmap[2:]))
	found := false
	for i := 4; i < 4+8*n && i+8 <= len(cmap); i += 8 {
		at := int64(binary.BigEndian.Uint32(cmap[i+4:]))
		if at+14 > int64(len(cmap)) || binary.BigEndian.Uint16(cmap[at:]) != 4 {
			continue
		}
		found = true
		if !segmentsRise(cmap[at:]) {
			return r.refuse(asTTF, "is broken: its map of characters runs over itself")
		}
	}
	return found || r.refuse(asTTF, "has no map of characters that is read (format 4)")
}

func segmentsRise(sub []byte) bool {
	n := int(binary.BigEndian.Uint16(sub[6:])) / 2
	if n < 1 || len(sub) < 16+8*n {
		return false
	}
	last := -1
	for i := range n {
		end, start := int(binary.BigEndian.Uint16(sub[14+2*i:])), int(binary.BigEndian.Uint16(sub[16+2*n+2*i:]))
		if start <= last || end < start {
			return false
		}
		last = end
	}
	return last == 0xFFFF
}

// outlines opens the face and draws every letter that it says it has, once:
// what is broken comes to light here and not on a label. The library that does
// it says that it is not hardened, so what it stumbles over is a finding.
func (r *reader) outlines() (ok bool) {
	defer func() {
		if recover() != nil {
			ok = r.refuse(asTTF, "is broken")
		}
	}()
	font, err := sfnt.Parse(r.Data)
	if err != nil {
		return r.refuse(asTTF, "is broken: %v", err)
	}
	r.font, r.Em, r.letters, r.ink = font, int64(font.UnitsPerEm()), map[rune]sfnt.GlyphIndex{}, map[rune]outline{}
	if r.Em < 16 || r.Em > 16_384 {
		return r.refuse(asTTF, "is broken: its em has %d units", r.Em)
	}
	var buf sfnt.Buffer
	for c := rune(' '); c < 1<<16; c++ {
		g, err := font.GlyphIndex(&buf, c)
		if err != nil {
			return r.refuse(asTTF, "is broken: %v", err)
		}
		if g != 0 && !r.draw(&buf, c, g) {
			return false
		}
	}
	return true
}

// mostDrawn is how many points all letters of a face may have together; a face
// of 3,000 letters has a few hundred thousand.
const mostDrawn = 4_000_000

// draw keeps the outline of a letter. One that has none is missing, unless it
// is a blank.
func (r *reader) draw(buf *sfnt.Buffer, c rune, g sfnt.GlyphIndex) bool {
	segs, err := r.load(buf, g)
	if err == nil {
		r.drawn += points(segs)
	}
	switch {
	case r.drawn > mostDrawn:
		return r.refuse("take a plainer one", "has too many strokes")
	case err != nil:
		return r.refuse(asTTF, "is broken: its letter %q (U+%04X): %v", c, c, err)
	case len(segs) == 0 && !blank(c):
		return true
	}
	r.letters[c] = g
	if slices.Contains(looked(), c) {
		o := lines(segs)
		r.ink[c] = o
		return o.usual(r.Em) || r.refuse("take a plainer one", "has a letter %q of no usual form", c)
	}
	return true
}

func blank(c rune) bool {
	return c == ' ' || c == 0xA0 || c >= 0x2000 && c <= 0x200A || c == 0x202F || c == 0x205F || c == 0x3000
}
