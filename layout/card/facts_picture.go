package card

import (
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// A picture on a card is no larger than this: it helps, and leaves the room to
// the work.
const (
	pictureWide = 60 * unit.MM
	pictureHigh = 40 * unit.MM
)

// shown is a picture beside a step, and what can be seen on it.
type shown struct {
	*page.Picture
	Says told
}

// picture gives the picture of a step, or nil.
func (t *teller) picture(s *shop.Step) *shown {
	if s.Picture == nil {
		return nil
	}
	says := t.own(s.Picture.Shows, s.Picture.Pos, "what the picture of step "+s.ID.V+" shows")
	p := t.Shop.Pictures[s.Picture.File.V]
	if p == nil {
		t.Found().Errorf(s.Picture.Pos, "picture", "see check", "the picture of step %s was not read", s.ID.V)
		return nil
	}
	return &shown{&page.Picture{W: p.W, H: p.H, Gray: p.Gray, Digest: p.Digest, Alt: says.In}, says}
}

// fitted is the size of the picture on paper: as large as it may be, in its own
// proportions.
func (p *shown) fitted(most unit.Length) (w, h unit.Length) {
	w = min(pictureWide, most)
	h = w.Mul(int64(p.H), int64(p.W))
	if h > pictureHigh {
		h = pictureHigh
		w = h.Mul(int64(p.W), int64(p.H))
	}
	return w, h
}

// hungPicture is a picture on the wall, below what is weighed, behind the number
// of its step; it returns the height.
func (s *sheet) hungPicture(h *setter, c span, y unit.Length, st *step) unit.Length {
	in := s.mm(9)
	y += s.z.pad
	h.line(c.X, y+h.up(s.z.key), role.Figure, st.Src, s.Langs[0].Plain(int64(st.No), 0), s.z.big())
	return s.z.pad + s.picture(h, c.X+in, c.W-in, y, st.Picture)
}

// picture sets the picture of a step below what is done, and beside it what it
// shows, or below it where there is no room; it returns the height.
func (s *sheet) picture(h *setter, x, wide, y unit.Length, p *shown) unit.Length {
	w, high := p.fitted(wide)
	h.Items = append(h.Items, page.Item{Box: page.Rect{X: x, Y: y + s.z.pad/2, W: w, H: high}, Role: role.Note, Src: p.Says.Src, Picture: p.Picture})
	beside := x + w + s.z.gap
	used := high
	if room := x + wide - beside; room > 12*s.z.small {
		used = max(used, h.told(beside, y+s.z.pad/2, room, role.Note, p.Says, s.z.note()))
	} else {
		used += h.told(x, y+s.z.pad/2+high, wide, role.Note, p.Says, s.z.note())
	}
	return used + s.z.pad
}
