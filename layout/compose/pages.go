package compose

import (
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// Pages is how blocks are dealt out to the pages of one sheet. Only Paper has
// to be set.
type Pages struct {
	*Paper
	Area page.Rect   // where it stands; [Paper.Room] where it has no width
	Gap  unit.Length // white between blocks, and below the head

	// Head sets what stands at the top of page n of so many, Foot what stands
	// at its bottom; each returns its height, the same whatever the number of
	// pages.
	Head, Foot func(s *Setter, r page.Rect, n, of int) unit.Length

	// Again is what is said again above the block at, where a page begins
	// with that one: nothing, or a heading of an earlier page, continued.
	Again func(s *Setter, at int) []flow.Block

	Behind, Of int // pages in front of these, and in all; Of 0 counts these alone
}

// many is a number of pages that takes as much room as any.
const many = 99

// Deal deals blocks out to as many pages as they need. The error is a
// *flow.Overflow with the place of a block that no page is high enough for, or
// what went wrong in setting a head or a foot.
func (p Pages) Deal(blocks []flow.Block) ([]*page.Page, error) {
	if p.Area.W == 0 {
		p.Area = p.Room()
	}
	dealt, err := p.dealt(blocks)
	if err != nil {
		return nil, err
	}
	of := p.Of
	if of == 0 {
		of = len(dealt)
	}
	var out []*page.Page
	for i, items := range dealt {
		s := p.Setter()
		p.head(s, i, of)
		s.Add(items, 0, 0)
		p.foot(s, i, of)
		if s.err != nil {
			return nil, s.err
		}
		out = append(out, p.Page(s.Items))
	}
	return out, nil
}

// dealt are the marks of each page between its head and its foot.
func (p Pages) dealt(blocks []flow.Block) ([][]page.Item, error) {
	var out [][]page.Item
	for at := 0; at < len(blocks); {
		s := p.Setter()
		room, again := p.room(len(out)), p.again(s, at)
		rest := append(again, blocks[at:]...)
		if s.err != nil {
			return nil, s.err
		}
		n, _ := s.Stack(room, p.Gap, rest)
		if n <= len(again) { // not even one block: let the pen say why
			_, err := s.Pages(func(int) page.Rect { return room }, p.Gap, rest)
			return nil, err
		}
		out, at = append(out, s.Items), at+n-len(again)
	}
	return out, nil
}

func (p Pages) again(s *Setter, at int) []flow.Block {
	if p.Again == nil || at == 0 {
		return nil
	}
	return p.Again(s, at)
}

// room is what head and foot leave of page i, counted from 0.
func (p Pages) room(i int) page.Rect {
	r, of := p.Area, max(p.Of, many)
	if h := p.head(p.Setter(), i, of); h > 0 {
		r = r.Below(h + p.Gap)
	}
	if h := p.foot(p.Setter(), i, of); h > 0 {
		r.H -= h
	}
	return r
}

func (p Pages) head(s *Setter, i, of int) unit.Length {
	if p.Head == nil {
		return 0
	}
	return p.Head(s, p.Area, p.Behind+i+1, of)
}

// foot sets the foot at the lower edge and returns its height.
func (p Pages) foot(s *Setter, i, of int) unit.Length {
	if p.Foot == nil {
		return 0
	}
	b := s.Low(p.Area, func(in *Setter, r page.Rect) unit.Length { return p.Foot(in, r, p.Behind+i+1, of) })
	s.Add(b.Items, p.Area.X, p.Area.Bottom()-b.H)
	return b.H
}
