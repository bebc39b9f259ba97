package pdf

import (
	"fmt"

	"chablon/labels/unit"
	"chablon/layout/page"
)

// An album keeps the pictures of a document, each once, however often it is
// shown.
type album struct {
	place map[string]int // of a digest in all
	all   []*page.Picture
}

// Picture implements [marks.Pen], 8.9.5: an image is a square of one unit that
// the matrix stretches.
func (p *pen) Picture(box page.Rect, pic *page.Picture) error {
	n, ok := p.shown.place[pic.Digest]
	if !ok {
		n = len(p.shown.all)
		p.shown.place[pic.Digest] = n
		p.shown.all = append(p.shown.all, pic)
	}
	p.op("q")
	for _, v := range []unit.Length{box.W, 0, 0, box.H} {
		p.num(milli(v))
	}
	p.at(box.X, box.Bottom())
	p.op(fmt.Sprintf(" cm /P%d Do Q\n", n))
	return p.took()
}

// imageObject adds the pixels of a picture, 8.9.5: greys of eight bits.
func (u *update) imageObject(pic *page.Picture) int {
	dict := fmt.Sprintf("/Type /XObject /Subtype /Image /Width %d /Height %d /ColorSpace /DeviceGray /BitsPerComponent 8 ", pic.W, pic.H)
	return u.add(u.stream(dict, pic.Gray))
}
