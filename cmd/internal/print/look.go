package print

import (
	"cmp"

	"chablon/labels/online"
	"chablon/layout/look"
	"chablon/layout/sale"
)

// lookOf is the shop's look where that kind of paper bears it, else nil.
func (p *Press) lookOf(what string) *look.Look {
	if !p.Shop.Brand.Uses(what) {
		return nil
	}
	return p.brand
}

// ownLook is the shop's look on the labels of a pack: as brand.yaml says for its
// paper, unless the pack says otherwise; nil where they are plain.
func (j *Job) ownLook() *sale.Look {
	if j.lookOf("labels") == nil || own[LabelOptions](j).Look == "plain" {
		return nil
	}
	on := j.Shop.Brand.On(j.Stock.ID)
	if j.Pack.Arrange.Set() {
		on.Arrange = j.Pack.Arrange
	}
	if j.Pack.OnLabel.Set() {
		on.Price = j.Pack.OnLabel
	}
	if on.Arrange.V == "plain" {
		return nil
	}
	return &sale.Look{Look: j.brand, Arrange: on.Arrange.V, Price: on.Price.V, About: on.About.V, Larger: on.Letters.V == "larger"}
}

// pageLook is the shop's look at the head of the pages behind its links; nil for
// none.
func (p *Press) pageLook() *online.Brand {
	l := p.lookOf("pages")
	if l == nil {
		return nil
	}
	b := &online.Brand{Under: l.Brand.Under.V, Divider: cmp.Or(l.Brand.Divider.V, "stone")}
	for _, t := range l.Brand.Written {
		b.Written = append(b.Written, t.V)
	}
	switch e := l.Emblem(); {
	case e == nil:
	case e.Gray == nil:
		b.Drawing = &online.Drawing{}
		b.Drawing.Path, b.Drawing.W, b.Drawing.H = e.Data()
	default:
		b.Picture = l.Brand.Files[e.Pos.File]
	}
	if !l.Has() && len(b.Written) == 0 && b.Under == "" {
		return nil
	}
	return b
}
