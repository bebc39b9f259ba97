package compose

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/symbol"
)

// Stack is the bars of a logistic label, one symbol over the other from its
// lower edge, each in the middle with its words below it (GGS release 18, 6.6:
// the bars are the lowest part, the SSCC the lowest of them). Make one with
// [Paper.Stack].
type Stack struct {
	bars []bars
	dots unit.Dots
	src  diag.Pos
}

// bars is one symbol and where its corner lies, quiet zone included.
type bars struct {
	els    []gs1.Element
	symbol *page.Symbol
	x, y   unit.Length
}

// apart is the white between a symbol and what stands over or under it.
const apart = 1500 * unit.UM

// sscc is the application identifier of the number that every unit has of its
// own.
const sscc = "00"

// wrongData is data that no bars can say.
type wrongData struct {
	error
	src diag.Pos
}

// Diag is the finding for the shop.
func (e wrongData) Diag() diag.Diag {
	return diag.Diag{Pos: e.src, Rule: "bars", Msg: "the bars cannot say this: " + e.Error(), Hint: "write it as GS1 has it"}
}

// sound tells what is wrong with elements, each by itself and together.
func sound(els []gs1.Element) error {
	for _, e := range els {
		if err := gs1.Check(e); err != nil {
			return err
		}
	}
	return gs1.Together(els)
}

// Stack parts elements, in the order in which they are to be read, over
// symbols that are no wider than the paper. Also are elements in other symbols
// of the unit, such as a [Matrix]. The error is what keeps them from being
// encoded, or from fitting.
func (p *Paper) Stack(els []gs1.Element, src diag.Pos, also ...gs1.Element) (*Stack, error) {
	k := &Stack{dots: p.Dots, src: src}
	all := slices.Concat(els, also)
	if err := sound(all); err != nil {
		return nil, wrongData{err, src}
	}
	if err := k.spread(p, els, all); err != nil {
		return nil, err
	}
	room := p.Room()
	y := room.Bottom()
	for i := len(k.bars) - 1; i >= 0; i-- {
		b, in := &k.bars[i], p.Setter()
		b.x = (room.X + room.Right() - b.symbol.Bars.W) / 2
		b.x -= b.symbol.Module * unit.Length(b.symbol.Quiet[0])
		box := in.Bars(b.x, 0, b.symbol, gs1.HRI(b.els), 0, src)
		if in.err != nil {
			return nil, in.err
		}
		y -= box.Bottom() + p.Dots.At(1)
		b.y = y
		y -= apart
	}
	return k, nil
}

// spread makes the symbols. Quiet zones may reach into the margins.
func (k *Stack) spread(p *Paper, els, all []gs1.Element) error {
	x, high, err := symbol.Choose(gs1.GS1128, gs1.Trade, p.Dots)
	if err != nil {
		return err
	}
	w, _ := p.Stock.Size()
	size, _ := gs1.SizeOf(gs1.GS1128, gs1.Trade)
	room := min(w, p.Room().W+x*unit.Length(size.Quiet[0]+size.Quiet[2])) - 2*p.Dots.At(1)
	groups, err := symbol.Spread(els, x, room, all...)
	if err != nil {
		return err
	}
	for _, g := range groups {
		s, err := encode(g, all, symbol.Module{X: x, Height: high, Dots: p.Dots})
		if err != nil {
			return err
		}
		k.bars = append(k.bars, bars{els: g, symbol: s})
	}
	return nil
}

func encode(group, all []gs1.Element, m symbol.Module) (*page.Symbol, error) {
	s, err := gs1.Encode(group, all...)
	if err != nil {
		return nil, err
	}
	return symbol.GS1128(s, m)
}

// own reports whether a symbol differs from one unit to the next.
func (b bars) own() bool { return b.els[0].AI == sscc }

// Top is the lower end of what may stand over the bars.
func (k *Stack) Top() unit.Length { return k.bars[0].y - apart }

// Shared sets the bars that all units share.
func (k *Stack) Shared(s *Setter) {
	for _, b := range k.bars {
		if !b.own() {
			s.Bars(b.x, b.y, b.symbol, gs1.HRI(b.els), 0, k.src)
		}
	}
}

// Own sets the bars of one unit: those of its SSCC, which comes from src.
func (k *Stack) Own(s *Setter, number string, src diag.Pos) {
	for _, b := range k.bars {
		if !b.own() {
			continue
		}
		els := []gs1.Element{{AI: sscc, Value: number}}
		y, err := encode(els, els, symbol.Module{X: b.symbol.Module, Height: b.symbol.Bars.H, Dots: k.dots})
		if err != nil {
			s.Fail(err)
			return
		}
		s.Bars(b.x, b.y, y, gs1.HRI(els), 0, src)
	}
}
