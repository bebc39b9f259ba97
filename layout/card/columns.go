package card

import "chablon/labels/unit"

// span is a column.
type span struct{ X, W unit.Length }

// columns of the steps table. A language that is written from right to left is
// not set yet; for it the columns change places here, and words begin at the
// right end of theirs (flow.Align), while figures keep their order. Nothing else
// knows where a column stands. On a narrow paper the ingredients stand below
// what is done (Stacked).
type columns struct {
	no, do, put, stop span
	stacked           bool
}

// columns shares out the width: numbers and temperatures take what they need,
// ingredients and words the rest. Where that is too little, the ingredients
// stand below. Other shares, tried by the height of all steps, won nothing on
// the cards of the demo shop.
func (s *sheet) columns() columns {
	u, w := s.z.small, s.area.W
	no, gap := u*21/10, u*9/10
	stop := min(max(w*21/100, u*79/10), u*10)
	put := min(max(w*36/100, u*13), u*21)
	if len(s.said.Hours) > 0 {
		no = u * 29 / 10 // a time of day stands under the number
	}
	var c columns
	c.no = span{0, no}
	c.stop = span{w - stop, stop}
	rest := w - no - stop - gap
	if rest-put-gap < u*95/10 {
		c.stacked = true
		c.do = span{no, rest}
		c.put = span{no, min(rest, u*17*unit.Length(len(s.Langs)))}
		return c
	}
	c.put = span{w - stop - gap*4/3 - put, put}
	c.do = span{no, c.put.X - gap - no}
	return c
}
