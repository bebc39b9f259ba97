package sale

import (
	"fmt"
	"slices"

	"chablon/labels/gs1"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/page"
	"chablon/layout/symbol"
)

// codes is what stands in the corner of the label: the bar code of the pack
// and, where it bears one, the batch mark beside or over it, both in one field
// of view.
type codes struct {
	ean, mark *page.Symbol
	at        page.Rect   // the mark within the block, with its quiet zone
	under     unit.Length // where the bar code begins within the block
	w, h      unit.Length // of the block, with quiet zones and digits
}

// together lists the forms in which the codes can stand together, the best
// first; there is one form, nil, of a label without codes.
func (c *label) together() ([]*codes, error) {
	if c.number() == "" {
		return []*codes{nil}, nil
	}
	ean, err := c.bars()
	if err != nil || !c.Pack.Marked() {
		return []*codes{ean}, err
	}
	mark, err := c.mark(0)
	if err != nil {
		return nil, err
	}
	w, h := symbol.Room(mark)
	beside := codes{ean: ean.ean, mark: mark, w: ean.w + w, h: max(ean.h, h)}
	beside.at, beside.under = page.Rect{X: ean.w, Y: beside.h - h, W: w, H: h}, beside.h-ean.h
	over := codes{ean: ean.ean, mark: mark, at: page.Rect{W: w, H: h}, under: h, w: max(ean.w, w), h: ean.h + h}
	return []*codes{&beside, &over}, nil
}

// codes sets the block with its corner at (x, y). A mark that carries the
// running number is only given its place.
func (l *layout) codes(s *compose.Setter, x, y unit.Length) {
	if m := l.code.mark; m != nil {
		l.mark = symbol.Place(m, x+l.code.at.X, y+l.code.at.Y)
		l.mark.Src = l.Pack.Mark.Pos
		if !l.numbered() {
			s.Items = append(s.Items, l.mark)
		}
	}
	s.Bars(x, y+l.code.under, l.code.ean, "", 0, l.barred())
}

// numbered reports whether the mark carries the running number of its label.
func (c *label) numbered() bool {
	return c.Pack.Marked() && c.Digits > 0 && slices.Contains(c.Pack.Says(), "number")
}

// mark makes the batch mark of the label with the running number n.
func (c *label) mark(n int) (*page.Symbol, error) {
	els, err := Elements(c.Label, n)
	if err != nil {
		return nil, err
	}
	kind, encode := gs1.GS1DataMatrix, func(els []gs1.Element) (string, error) { return gs1.Encode(els) }
	if c.linked() {
		kind, encode = gs1.QR, c.link
	}
	data, err := encode(els)
	if err != nil {
		return nil, err
	}
	x, err := c.module(kind)
	if err != nil {
		return nil, err
	}
	m := symbol.Module{X: x, Dots: c.Dots}
	if kind == gs1.QR {
		return symbol.QR(data, symbol.M, m)
	}
	return symbol.GS1DataMatrix(data, m)
}

// module is how wide a module of the batch mark is: near the target of GS1, but
// the least whole number of dots in range where the shop's look needs the room.
func (c *label) module(kind string) (unit.Length, error) {
	most := unit.Length(1 << 62)
	if s, ok := gs1.SizeOf(kind, gs1.Retail); ok && c.small && c.Dots.N > 0 {
		most = s.X[0] + c.Dots.At(1) - 1
	}
	x, _, err := symbol.Fit(kind, gs1.Retail, c.Dots, 1, most)
	return x, err
}

// Elements is what the batch mark of label number n says: (01) GTIN, (17) or
// (15) the date on the label, (10) the batch, (21) the running number, as the
// pack asks for (GS1 General Specifications, 3.2 to 3.5).
func Elements(l Label, n int) ([]gs1.Element, error) {
	gtin, err := gs1.Pad(l.Pack.GTIN.V)
	if err != nil {
		return nil, err
	}
	els := []gs1.Element{{AI: "01", Value: gtin}}
	for _, what := range l.Pack.Says() {
		switch what {
		case "date":
			if ai := dateAI(l); ai != "" {
				els = append(els, gs1.Element{AI: ai, Value: gs1.Date(l.Facts.Date.Shown.Last)})
			}
		case "batch":
			els = append(els, gs1.Element{AI: "10", Value: l.Batch})
		case "number":
			if l.Digits > 0 {
				els = append(els, gs1.Element{AI: "21", Value: fmt.Sprintf("%0*d", l.Digits, n)})
			}
		}
	}
	return els, nil
}

// dateAI is the Application Identifier of the date on the label, or "".
func dateAI(l Label) string {
	return map[string]string{"use-by": "17", "best-before": "15"}[l.Facts.Date.Kind]
}

// Scans is what a scanner must show of label number n: the data of its batch
// mark in brackets, or its link; "" where it bears none.
func Scans(l Label, n int) string {
	if !l.Pack.Marked() {
		return ""
	}
	els, err := Elements(l, n)
	if err != nil {
		return ""
	}
	if !l.linked() {
		return gs1.HRI(els)
	}
	link, _ := l.link(els) // one that cannot be made is refused where the mark is made
	return link
}

// linked reports whether the batch mark is a link.
func (l Label) linked() bool { return l.Pack.Mark.V == "link" }

// link is the link that the batch mark carries.
func (l Label) link(els []gs1.Element) (string, error) { return gs1.Link(l.LinkStem, els) }
