// Package panel answers: how is the nutrition declaration drawn here?
//
// Where a market says how its panel looks (labels/market, Panel), [Set] draws it
// in one of the forms that the law lets the pack bear: a block of its own size,
// whatever the size of the words around it. The sizes are those of the law, not
// less and not more. Each mark tells which part of the panel it is, so that
// layout/preflight can hold it against the law again.
package panel

import (
	"errors"
	"fmt"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// Says is what the panel says: the declaration in each language of the label.
type Says struct {
	Facts *declare.Facts
	Told  []*words.Table
	Paper *compose.Paper
}

// Block is a panel that is set, from the corner (0, 0).
type Block struct {
	Form  market.PanelForm
	W, H  unit.Length
	Items []page.Item
}

// Forms are the forms that the pack may bear, the first to be taken where it
// fits; none where the market does not say how its declaration is drawn, or
// nothing is declared.
func Forms(f *declare.Facts) []market.PanelForm {
	if f.Nutrition == nil {
		return nil
	}
	return f.Market.Nutrition.Panel.For(f.Pack.Surface.V)
}

// Set draws the panel in one form, as narrow as its words allow and no wider
// than room. The error is why it does not go in there.
func Set(s Says, f market.PanelForm, room page.Rect) (*Block, error) {
	draw, ok := shapes()[f.Shape]
	if !ok || len(s.Told) == 0 {
		return nil, errors.New("nobody here knows how it is drawn")
	}
	b := &board{Says: s, Setter: s.Paper.Setter(), form: f}
	b.edge = b.Thick(f.Line(role.Box)) + pad
	b.inner = page.Rect{X: b.edge, Y: b.edge, W: room.W - 2*b.edge, H: room.H - 2*b.edge}
	draw(b)
	b.Must(b.inner.W+2*b.edge, room.W, s.Told[0].Src)
	b.Must(b.inner.H+2*b.edge, room.H, s.Told[0].Src)
	if b.Err() != nil {
		return nil, b.Err()
	}
	out := b.framed()
	if most := f.Most(s.Facts.Pack.Surface.V); most > 0 && unit.AreaOf(out.W, out.H) > most {
		return nil, fmt.Errorf("the panel takes %s, and may take %s of the surface, which is %s", unit.AreaOf(out.W, out.H), f.Part, most)
	}
	return out, nil
}

// shapes are the drawers, by shape.
func shapes() map[market.Shape]func(*board) {
	return map[market.Shape]func(*board){market.Upright: upright, market.SideNote: sideNote, market.Tabular: tabular, market.Linear: linear,
		market.ThreeCols: columns, market.Bilingual: bilingual, market.Lying: horizontal}
}

// pad is the white between the box and what is in it: the box lies within three
// points of the words (21 CFR part 101, appendix B, an illustration).
const pad = 3 * unit.Point

// indent is how far a nutrient that is part of another one is moved in, for each
// level; the laws say "indented" and no measure (house rule).
const indent = 7 * unit.Point

// board is a panel under way: y is how far down it is set. inner is the place
// inside its box; its width is set before its lines.
type board struct {
	Says
	*compose.Setter
	form  market.PanelForm
	edge  unit.Length
	inner page.Rect
	y     unit.Length
}

// first is what the first language says.
func (b *board) first() *words.Table { return b.Told[0] }

// framed is the finished block with its box.
func (b *board) framed() *Block {
	out := &Block{Form: b.form, W: b.inner.W + 2*b.edge, H: b.inner.H + 2*b.edge}
	b.mark(role.Box, "", func() { b.Frame(page.Rect{W: out.W, H: out.H}, b.form.Line(role.Box)) })
	out.Items = b.Items
	return out
}

// mark says of all that do sets which part of the panel it is.
func (b *board) mark(part, row string, do func()) {
	from := len(b.Items)
	do()
	for i := from; i < len(b.Items); i++ {
		b.Items[i].Panel = &page.PanelPart{Form: b.form.Key, Part: part, Row: row}
	}
}

// words is a paragraph of a part, in the weight that the law gives it.
func (b *board) words(part, s string) text.Para {
	return b.weighed(s, b.form.Type(part).Bold)
}

func (b *board) weighed(s string, bold bool) text.Para {
	if bold {
		return flow.Strong(role.Nutrition, b.first().Src, s)
	}
	return flow.Words(role.Nutrition, b.first().Src, s)
}

// width is how wide words of a part are.
func (b *board) width(part, s string) unit.Length {
	t := b.form.Type(part)
	return b.Faces.Of(t.Bold).Width(s, t.Least)
}

// pitch is the least distance of baselines of a part: its letters and the white
// between its lines.
func (b *board) pitch(part string) unit.Length {
	t := b.form.Type(part)
	return t.Least + t.Lead
}

// base is the baseline of a line of a part whose top is y.
func (b *board) base(part string, y unit.Length) unit.Length {
	t := b.form.Type(part)
	return y + (b.pitch(part)+b.Faces.Regular.CapHeight(t.Least))/2
}
