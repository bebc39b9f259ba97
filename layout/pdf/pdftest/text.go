package pdftest

import (
	"math"
	"strings"

	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/responses"
)

func mm(pt float64) float64 { return pt * 25.4 / 72 }

func (d document) count() int {
	d.t.Helper()
	return must[*responses.FPDF_GetPageCount](d.t)(d.FPDF_GetPageCount(
		&requests.FPDF_GetPageCount{Document: d.doc})).PageCount
}

func (d document) page(i int) Read {
	d.t.Helper()
	s := must[*responses.FPDF_GetPageSizeByIndexF](d.t)(d.FPDF_GetPageSizeByIndexF(
		&requests.FPDF_GetPageSizeByIndexF{Document: d.doc, Index: i})).Size
	out := Read{W: mm(float64(s.Width)), H: mm(float64(s.Height))}
	text := must[*responses.FPDFText_LoadPage](d.t)(d.FPDFText_LoadPage(
		&requests.FPDFText_LoadPage{Page: d.at(i)})).TextPage
	defer d.FPDFText_ClosePage(&requests.FPDFText_ClosePage{TextPage: text})
	n := must[*responses.FPDFText_CountChars](d.t)(d.FPDFText_CountChars(
		&requests.FPDFText_CountChars{TextPage: text})).Count
	out.Lines = d.lines(text, n, out.H)
	var b strings.Builder
	for _, l := range out.Lines {
		b.WriteString(l.Text + "\n")
	}
	out.Text = b.String()
	return out
}

// lines joins characters until the font, the size or the baseline changes, or
// a gap opens. Blanks and line feeds that the reader made up are left out.
func (d document) lines(text references.FPDF_TEXTPAGE, n int, high float64) []Line {
	var out []Line
	for i := range n {
		if must[*responses.FPDFText_IsGenerated](d.t)(d.FPDFText_IsGenerated(
			&requests.FPDFText_IsGenerated{TextPage: text, Index: i})).IsGenerated {
			continue
		}
		c := d.char(text, i, high)
		font := must[*responses.FPDFText_GetFontInfo](d.t)(d.FPDFText_GetFontInfo(
			&requests.FPDFText_GetFontInfo{TextPage: text, Index: i})).FontName
		size := must[*responses.FPDFText_GetFontSize](d.t)(d.FPDFText_GetFontSize(
			&requests.FPDFText_GetFontSize{TextPage: text, Index: i})).FontSize
		if _, after, ok := strings.Cut(font, "+"); ok {
			font = after
		}
		if len(out) == 0 || !out[len(out)-1].takes(c, font, size) {
			out = append(out, Line{Font: font, Size: size})
		}
		l := &out[len(out)-1]
		l.Text += string(c.R)
		l.Chars = append(l.Chars, c)
	}
	return out
}

func (l Line) takes(c Char, font string, size float64) bool {
	const close = 0.05 // mm
	return font == l.Font && size == l.Size &&
		math.Abs(c.Baseline-l.Baseline()) < close && math.Abs(c.X-l.Right()) < close
}

func (d document) char(text references.FPDF_TEXTPAGE, i int, high float64) Char {
	r := must[*responses.FPDFText_GetUnicode](d.t)(d.FPDFText_GetUnicode(
		&requests.FPDFText_GetUnicode{TextPage: text, Index: i})).Unicode
	at := must[*responses.FPDFText_GetCharOrigin](d.t)(d.FPDFText_GetCharOrigin(
		&requests.FPDFText_GetCharOrigin{TextPage: text, Index: i}))
	ink := must[*responses.FPDFText_GetCharBox](d.t)(d.FPDFText_GetCharBox(
		&requests.FPDFText_GetCharBox{TextPage: text, Index: i}))
	loose := must[*responses.FPDFText_GetLooseCharBox](d.t)(d.FPDFText_GetLooseCharBox(
		&requests.FPDFText_GetLooseCharBox{TextPage: text, Index: i})).Rect
	return Char{
		R: rune(r), X: mm(at.X), Next: mm(float64(loose.Right)), Baseline: high - mm(at.Y),
		Left: mm(ink.Left), Right: mm(ink.Right), Top: high - mm(ink.Top), Bottom: high - mm(ink.Bottom),
	}
}
