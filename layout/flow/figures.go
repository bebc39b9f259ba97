package flow

import (
	"strings"
	"unicode/utf8"

	"chablon/labels/unit"
	"chablon/layout/text"
)

// Figures is the measure of a column of amounts ("360 g", "4.8 g"): room for
// the whole numbers, the decimals and the units. Decimal marks stand under
// each other, and so do the units. Get one from [Pen.Figures].
type Figures struct {
	mark                  string
	whole, decimals, unit unit.Length
}

// W is the width of the column.
func (f Figures) W() unit.Length { return f.whole + f.decimals + f.unit }

// Figures measures amounts that will stand in one column. Mark is the decimal
// mark of the language, "." or ",".
func (p *Pen) Figures(mark string, size unit.Length, bold bool, amounts ...string) Figures {
	f := Figures{mark: mark}
	face := p.Faces.Of(bold)
	for _, a := range amounts {
		whole, decimals, rest := f.parts(a)
		f.whole = max(f.whole, face.Width(whole, size))
		f.decimals = max(f.decimals, face.Width(decimals, size))
		f.unit = max(f.unit, face.Width(rest, size))
	}
	return f
}

// Figure sets one amount so that its column ends at right. The amount is one
// run where it fills its column, else its number and its unit are two.
func (p *Pen) Figure(right, baseline unit.Length, para text.Para, st Style, f Figures) error {
	var words strings.Builder
	for _, s := range para.Spans {
		words.WriteString(s.Text)
	}
	bold := len(para.Spans) > 0 && para.Spans[0].Bold
	whole, decimals, rest := f.parts(words.String())
	face := p.Faces.Of(bold)
	x := right - f.W() + f.whole - face.Width(whole, st.Size)
	st.Align = Left
	if face.Width(decimals, st.Size) == f.decimals || rest == "" {
		_, err := p.Line(x, baseline, para, st)
		return err
	}
	// Both pieces are checked before the first is set.
	if r, bad := face.Missing(words.String()); bad {
		return &text.NoGlyph{Rune: r, Src: para.Src}
	}
	if _, err := p.Line(x, baseline, retold(para, whole+decimals, bold), st); err != nil {
		return err
	}
	gap := rest[:len(rest)-len(strings.TrimLeft(rest, blanks))]
	_, err := p.Line(right-f.unit+face.Width(gap, st.Size), baseline, retold(para, rest[len(gap):], bold), st)
	return err
}

func retold(para text.Para, s string, bold bool) text.Para {
	para.Spans = []text.Span{{Text: s, Bold: bold}}
	return para
}

const (
	blanks = " \u00a0\u202f\u2009"
	digits = "0123456789½¼¾"
)

// parts cuts an amount after the whole number and after its decimals:
// "≈ 1 200.5 g" gives "≈ 1 200", ".5", " g". Without a number all is rest.
func (f Figures) parts(s string) (whole, decimals, rest string) {
	start := strings.IndexAny(s, digits)
	if start < 0 {
		return "", "", s
	}
	end, dot := start, -1
	for i := start; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case strings.ContainsRune(digits, r):
			end = i + n
		case !strings.ContainsRune(blanks+".,’'", r):
			i = len(s)
		case string(r) == f.mark && dot < 0:
			dot = i
		}
		i += n
	}
	if dot < 0 || dot > end {
		dot = end
	}
	return s[:dot], s[dot:end], s[end:]
}
