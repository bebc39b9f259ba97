package text

import (
	"encoding/binary"
	"errors"
	"fmt"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"chablon/fonts"
	"chablon/layout/page"
)

// Faces are the two faces that everything is set in.
type Faces struct{ Regular, Bold *Face }

// Of picks the face.
func (f *Faces) Of(bold bool) *Face {
	if bold {
		return f.Bold
	}
	return f.Regular
}

// Load checks and reads the shipped fonts; it takes a few milliseconds, so do
// it once. An error means that the program itself is damaged.
func Load() (*Faces, error) {
	if err := fonts.Check(); err != nil {
		return nil, fmt.Errorf("loading fonts: %w", err)
	}
	regular, err := parse("regular", fonts.Regular())
	if err != nil {
		return nil, err
	}
	bold, err := parse("bold", fonts.Bold())
	if err != nil {
		return nil, err
	}
	if regular.em != bold.em {
		return nil, errors.New("the two faces do not share one em")
	}
	return &Faces{regular, bold}, nil
}

// Own are faces of a shop's own font: there is no other beside it, so bold words
// are set in the same.
func Own(f *page.Font) (*Faces, error) {
	face, err := parse(f.Name, f.File)
	if err != nil {
		return nil, err
	}
	face.font = f
	return &Faces{face, face}, nil
}

func parse(name string, file []byte) (*Face, error) {
	f := &Face{name: name}
	for _, step := range []func([]byte) error{f.readFont, f.readInk} {
		if err := step(file); err != nil {
			return nil, fmt.Errorf("reading the %s face: %w", name, err)
		}
	}
	return f, nil
}

// readFont takes metrics and advances. At one pixel per design unit nothing
// is rounded.
func (f *Face) readFont(file []byte) error {
	s, err := sfnt.Parse(file)
	if err != nil {
		return err
	}
	var buf sfnt.Buffer
	ppem := fixed.I(int(s.UnitsPerEm()))
	m, err := s.Metrics(&buf, ppem, font.HintingNone)
	if err != nil {
		return err
	}
	f.em = int64(s.UnitsPerEm())
	f.xHeight, f.caps = int64(m.XHeight.Round()), int64(m.CapHeight.Round())
	f.ascent, f.descent = int64(m.Ascent.Round()), int64(m.Descent.Round())
	if f.xHeight <= 0 || f.caps <= f.xHeight {
		return errors.New("the OS/2 table states no usable x-height")
	}
	return f.readAdvances(s, &buf, ppem)
}

// readAdvances fills the table of glyphs; up holds the glyph's number until
// readInk replaces it.
func (f *Face) readAdvances(s *sfnt.Font, buf *sfnt.Buffer, ppem fixed.Int26_6) error {
	for r := range f.glyphs {
		g, err := s.GlyphIndex(buf, rune(r))
		if err != nil {
			return err
		}
		if g == 0 {
			f.glyphs[r].up = noGlyph
			continue
		}
		adv, err := s.GlyphAdvance(buf, g, ppem, font.HintingNone)
		if err != nil {
			return err
		}
		f.glyphs[r] = glyph{adv: uint16(adv.Round()), up: int16(g)}
	}
	return nil
}

// readInk looks up how high and low each outline reaches. The glyf table
// states it at the head of each outline, so nothing has to be drawn.
func (f *Face) readInk(file []byte) error {
	glyf, loca, head := fonts.Table(file, "glyf"), fonts.Table(file, "loca"), fonts.Table(file, "head")
	if len(head) < 54 || len(glyf) == 0 || len(loca) == 0 {
		return errors.New("it has no TrueType outlines")
	}
	long := binary.BigEndian.Uint16(head[50:]) == 1
	for r := range f.glyphs {
		g := &f.glyphs[r]
		if g.up == noGlyph {
			continue
		}
		from, to, ok := span(loca, int(g.up), long)
		g.up, g.down = 0, 0
		switch {
		case !ok || to > len(glyf) || from > to:
			return errors.New("an outline lies outside its table")
		case to-from >= 10:
			g.down = -int16(binary.BigEndian.Uint16(glyf[from+4:]))
			g.up = int16(binary.BigEndian.Uint16(glyf[from+8:]))
		}
	}
	return nil
}

// span is where outline g begins and ends in the glyf table.
func span(loca []byte, g int, long bool) (from, to int, ok bool) {
	if long {
		if len(loca) < 4*g+8 {
			return 0, 0, false
		}
		return int(binary.BigEndian.Uint32(loca[4*g:])), int(binary.BigEndian.Uint32(loca[4*g+4:])), true
	}
	if len(loca) < 2*g+4 {
		return 0, 0, false
	}
	return 2 * int(binary.BigEndian.Uint16(loca[2*g:])), 2 * int(binary.BigEndian.Uint16(loca[2*g+2:])), true
}
