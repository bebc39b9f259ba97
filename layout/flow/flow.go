// Package flow answers: does it fit, and where does each block go?
//
// A [Pen] puts words, rules, boxes, icons and bar codes at their places and
// gathers them as marks of a page. What does not fit is an error and leaves no
// marks, so that a composer can try another size ([Largest]) or another page
// ([Pages]).
package flow

import (
	"fmt"
	"strconv"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/text"
)

// Pen gathers marks. Rules and boxes are snapped to Dots where a printer is
// known. A Pen and its fresh ones are for one goroutine; the faces may be
// shared. They keep the words that were made ready, because a composer sets
// the same words at many sizes.
type Pen struct {
	Faces *text.Faces
	Dots  unit.Dots
	Items []page.Item

	ready map[string]*text.Copy
}

// Fresh is an empty pen with the same faces and dots.
func (p *Pen) Fresh() *Pen {
	if p.ready == nil {
		p.ready = map[string]*text.Copy{}
	}
	return &Pen{Faces: p.Faces, Dots: p.Dots, ready: p.ready}
}

// prepare makes words ready, once. The error is a *text.NoGlyph.
func (p *Pen) prepare(q text.Para) (*text.Copy, error) {
	k := key(q)
	if c := p.ready[k]; c != nil {
		return c, nil
	}
	c, err := p.Faces.Prepare(q)
	if err == nil && p.ready != nil {
		p.ready[k] = c
	}
	return c, err
}

// key is the same for paragraphs that are the same in every respect.
func key(q text.Para) string {
	var b strings.Builder
	place := func(p diag.Pos) {
		b.WriteString(p.File)
		b.WriteByte(0)
		b.WriteString(strconv.Itoa(p.Line))
		b.WriteByte(0)
		b.WriteString(strconv.Itoa(p.Col))
		b.WriteByte(0)
	}
	b.WriteString(string(q.Role))
	b.WriteString(strconv.FormatBool(q.Anywhere))
	place(q.Src)
	for _, s := range q.Spans {
		b.WriteString(strconv.FormatBool(s.Bold))
		place(s.Src)
		b.WriteString(s.Text)
		b.WriteByte(0)
	}
	return b.String()
}

// Add takes marks over, shifted by dx and dy.
func (p *Pen) Add(items []page.Item, dx, dy unit.Length) {
	for _, it := range items {
		p.Items = append(p.Items, it.Moved(dx, dy))
	}
}

// Align says where a line stands.
type Align int

// The alignments.
const (
	Left Align = iota
	Right
	Centre
)

// Style is how words are set. Leading is the distance of baselines; 0 is the
// one that the face was drawn for. Gray is 0 for black. Size is rounded down to hundredths of
// a point. With a Grid the baselines of a paragraph stand on whole steps of it,
// counted from the top of the page, and Leading has to be some of them.
type Style struct {
	Size, Leading unit.Length
	Align         Align
	Gray          uint8
	Grid          unit.Length
}

// Base is y moved down to a whole step of the grid.
func (st Style) Base(y unit.Length) unit.Length {
	if st.Grid == 0 {
		return y
	}
	return (y + st.Grid - 1) / st.Grid * st.Grid
}

// whole is st with a size in whole hundredths of a point, so that the size
// measured is the size drawn.
func (st Style) whole() Style {
	st.Size = text.Whole(st.Size)
	return st
}

// leading is the distance of baselines that st asks for.
func (p *Pen) leading(st Style) unit.Length {
	if st.Leading != 0 {
		return st.Leading
	}
	return p.Faces.Regular.Leading(st.Size)
}

// First is where the baseline of a line lies below its top.
func (p *Pen) First(leading, size unit.Length) unit.Length {
	f := p.Faces.Regular
	return (leading + f.Ascent(size) - f.Descent(size)) / 2
}

// Overflow says that something is taller or wider than its place.
type Overflow struct {
	Need, Have unit.Length
	Src        diag.Pos
}

func (e *Overflow) Error() string {
	if e.Have <= 0 {
		return fmt.Sprintf("it needs %.2f mm and no room is left", e.Need.MM())
	}
	return fmt.Sprintf("it needs %.2f mm and there are %.2f mm", e.Need.MM(), e.Have.MM())
}

// Diag is the finding for the shop.
func (e *Overflow) Diag() diag.Diag {
	return diag.Diag{Pos: e.Src, Rule: "overflow", Msg: e.Error(), Hint: "take a larger paper, or print less on it"}
}

// Words is a paragraph of plain words.
func Words(role role.Role, src diag.Pos, s string) text.Para {
	return text.Para{Role: role, Src: src, Spans: []text.Span{{Text: s}}}
}

// Strong is a paragraph of bold words.
func Strong(role role.Role, src diag.Pos, s string) text.Para {
	return text.Para{Role: role, Src: src, Spans: []text.Span{{Text: s, Bold: true}}}
}
