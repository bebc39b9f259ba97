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
// What has no number in it stands at the right end.
type Figures struct {
	mark                  string
	whole, decimals, unit unit.Length
	words                 unit.Length // the widest without a number
}

// W is the width of the column.
func (f Figures) W() unit.Length { return max(f.whole+f.decimals+f.unit, f.words) }

// with is room for both f and g.
func (f Figures) with(g Figures) Figures {
	return Figures{g.mark, max(f.whole, g.whole), max(f.decimals, g.decimals), max(f.unit, g.unit), max(f.words, g.words)}
}

// Figures measures amounts that will stand in one column. Mark is the decimal
// mark of the language, "." or ",".
func (p *Pen) Figures(mark string, size unit.Length, bold bool, amounts ...string) Figures {
	f := Figures{mark: mark}
	size = text.Whole(size)
	face := p.Faces.Of(bold)
	for _, a := range amounts {
		whole, decimals, rest := f.parts(a)
		if whole == "" && decimals == "" {
			f.words = max(f.words, face.Width(rest, size))
			continue
		}
		f = f.with(Figures{mark, face.Width(whole, size), face.Width(decimals, size), face.Width(rest, size), 0})
	}
	return f
}

// Figure sets one amount so that its column ends at right. The amount is one
// run where it fills its column, else its number and its unit are two.
func (p *Pen) Figure(right, baseline unit.Length, para text.Para, st Style, f Figures) error {
	st = st.whole()
	amount, bold := joined(para)
	whole, decimals, rest := f.parts(amount)
	face := p.Faces.Of(bold)
	if whole == "" && decimals == "" {
		st.Align = Right
		_, err := p.Line(right, baseline, para, st)
		return err
	}
	st.Align = Left
	x := right - f.decimals - f.unit - face.Width(whole, st.Size)
	if face.Width(decimals, st.Size) == f.decimals || rest == "" {
		_, err := p.Line(x, baseline, para, st)
		return err
	}
	if r, bad := face.Missing(rest); bad { // before the number is set
		return &text.NoGlyph{Rune: r, Src: para.Src}
	}
	if _, err := p.Line(x, baseline, retold(para, whole+decimals, bold), st); err != nil {
		return err
	}
	unit := strings.TrimLeft(rest, blanks)
	gap := face.Width(rest[:len(rest)-len(unit)], st.Size)
	_, err := p.Line(right-f.unit+gap, baseline, retold(para, unit, bold), st)
	return err
}

// joined is the words of para, and whether they are bold.
func joined(para text.Para) (s string, bold bool) {
	for i, span := range para.Spans {
		s, bold = s+span.Text, bold || i == 0 && span.Bold
	}
	return s, bold
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
