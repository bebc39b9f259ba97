package print

import (
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

// draftRows sets the word as wide as the area, from top to bottom.
func draftRows(face *text.Face, in page.Rect, word string, src diag.Pos) []page.Item {
	size := unit.Inch
	size = text.Whole(size.Mul(int64(in.W), int64(face.Width(word, size))))
	high := face.Leading(size)
	row := high.Mul(15, 10)
	n := max(1, int64(in.H/row))
	top := in.Y + (in.H-unit.Length(n-1)*row-high)/2
	var out []page.Item
	for i := range n {
		y := top + unit.Length(i)*row
		out = append(out, page.Item{
			Box:  page.Rect{X: in.X, Y: y, W: face.Width(word, size), H: high},
			Role: role.Draft,
			Src:  src,
			Run: &page.Run{Text: word, Face: face.Name(), Size: size, XHeight: face.XHeight(size), CapHeight: face.CapHeight(size),
				Baseline: y + face.Ascent(size), Gray: draftGray},
		})
	}
	return out
}
