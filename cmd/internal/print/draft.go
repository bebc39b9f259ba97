package print

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/page"
	"chablon/layout/text"
)

// The mark of a draft: letters of a light grey that black words stay readable
// on, in rows across the whole label, so that no piece of it can be cut out
// without one. No rule sets the grey; marking proofs so is common practice.
const draftGray = 0xBE

// markWord says a mark such as "draft, not for sale" in the first language that
// has words for it. It is meant for the kitchen, so another language is better
// than none.
func (j *Job) markWord(key, otherwise string) string {
	langs := j.Langs
	for _, c := range j.Shop.Profile.CardLanguages {
		if l, ok := words.Get(c.V); ok {
			langs = append(langs[:len(langs):len(langs)], l)
		}
	}
	if en, ok := words.Get("en"); ok {
		langs = append(langs[:len(langs):len(langs)], en)
	}
	for _, l := range langs {
		if w, err := l.Word(key); err == nil {
			return w
		}
	}
	return otherwise
}

// draftRows sets the word as wide as the area, from top to bottom, and why in
// turn below each row.
func draftRows(face *text.Face, in page.Rect, word string, why []string, src diag.Pos) []page.Item {
	size := as(face, word, in.W)
	high := face.Leading(size)
	row := high.Mul(15, 10)
	n := max(1, int64(in.H/row))
	top := in.Y + (in.H-unit.Length(n-1)*row-high)/2
	var out []page.Item
	for i := range n {
		y := top + unit.Length(i)*row
		out = append(out, draftRow(face, size, page.Rect{X: in.X, Y: y, W: in.W, H: high}, word, src))
		if below := y + high; len(why) > 0 && below+(row-high) <= in.Bottom() {
			said := letters(face, why[int(i)%len(why)])
			small := min(as(face, said, in.W), size/3)
			out = append(out, draftRow(face, small, page.Rect{X: in.X, Y: below, W: in.W, H: face.Leading(small)}, said, src))
		}
	}
	return out
}

// as is the size at which words are as wide as w.
func as(face *text.Face, words string, w unit.Length) unit.Length {
	return text.Whole(unit.Inch.Mul(int64(w), int64(face.Width(words, unit.Inch))))
}

// letters is s without letters that the face lacks.
func letters(face *text.Face, s string) string {
	for {
		r, bad := face.Missing(s)
		if !bad {
			return s
		}
		s = strings.ReplaceAll(s, string(r), "?")
	}
}

func draftRow(face *text.Face, size unit.Length, at page.Rect, word string, src diag.Pos) page.Item {
	at.W = face.Width(word, size)
	return page.Item{Box: at, Role: role.Draft, Src: src,
		Run: &page.Run{Text: word, Face: face.Name(), Size: size, XHeight: face.XHeight(size), CapHeight: face.CapHeight(size),
			Baseline: at.Y + face.Ascent(size), Gray: draftGray}}
}
