package pdf

import (
	"fmt"
	"strconv"
	"unicode/utf8"

	"chablon/labels/unit"
	"chablon/layout/page"
)

const hex = "0123456789ABCDEF"

// Run implements [marks.Pen].
func (p *pen) Run(x unit.Length, r *page.Run) error {
	f, err := p.inks.of(r)
	if err != nil {
		return err
	}
	if f < 0 {
		return fmt.Errorf("there is no typeface %q for %q", r.Face, r.Text)
	}
	p.setFill(r.Gray)
	p.op("BT")
	if size := milli(r.Size); p.face != f || p.size != size {
		p.face, p.size = f, size
		p.op(" /F")
		p.out = strconv.AppendInt(p.out, int64(f), 10)
		p.num(size)
		p.op(" Tf")
	}
	p.at(x, r.Baseline)
	p.op(" Td <")
	if err := p.glyphs(f, r.Text); err != nil {
		return err
	}
	p.op("> Tj ET\n")
	return p.took()
}

// glyphs writes the glyph numbers of s; a character that the face does not
// have is an error, never a blank.
func (p *pen) glyphs(f int, s string) error {
	k := &p.inks.used[f]
	for i, r := range s {
		g := k.glyph(r)
		if g == 0 || r == utf8.RuneError {
			return p.missing(f, s, s[i:])
		}
		p.out = append(p.out, hex[g>>12], hex[g>>8&15], hex[g>>4&15], hex[g&15])
	}
	return nil
}

func (p *pen) missing(f int, s, rest string) error {
	r, n := utf8.DecodeRuneInString(rest)
	switch {
	case r == utf8.RuneError && n == 1:
		return fmt.Errorf("%q is not text: it holds a byte that is no character", s)
	case r == utf8.RuneError:
		return fmt.Errorf("%q holds the sign that stands for a character lost in reading (%U)", s, r)
	}
	return fmt.Errorf("the %s typeface has no sign for %q (%U) in %q", p.inks.used[f].name, r, r, s)
}
