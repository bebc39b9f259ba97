package shop

import "chablon/labels/unit"

// MaxMass is the largest mass that one line may have; a check refuses more,
// and the sums here count no more, so that they cannot overflow.
const MaxMass = 1000 * unit.Kilogram

// Taken is the mass of the line, between nothing and MaxMass.
func (l Line) Taken() unit.Mass { return bounded(l.Take.V) }

func bounded(m unit.Mass) unit.Mass { return min(max(m, 0), MaxMass) }

// In is what goes into the formula as written: its lines, and what it takes
// up from its medium.
func (f *Formula) In() unit.Mass {
	var sum unit.Mass
	for _, l := range f.Lines {
		sum += l.Taken()
	}
	if f.CookedIn != nil {
		sum += bounded(f.CookedIn.SoakedUp.V)
	}
	return sum
}

// Out is what the formula as written gives once all losses are off, stage by
// stage; never less than nothing.
func (f *Formula) Out() unit.Mass {
	m := f.In()
	for _, l := range f.Losses {
		m -= l.Of(m)
	}
	return m
}

// Of is how much is lost of m at this stage; never more than there is.
func (l Loss) Of(m unit.Mass) unit.Mass {
	return min(l.WaterLost.V.of(m)+l.LeftBehind.V.of(m), m)
}

// of is Of, kept between nothing and all of m.
func (p Portion) of(m unit.Mass) unit.Mass {
	p.Mass, p.Share = bounded(p.Mass), min(max(p.Share, 0), unit.Whole)
	return min(p.Of(m), m)
}

// Off is the water lost at the end of the stage, out of m.
func (st Stage) Off(m unit.Mass) unit.Mass { return st.WaterLost.V.of(m) }

// MaxPieces is the largest number of pieces that a run, a pack or a line of an
// assortment may have.
const MaxPieces unit.Count = 1_000_000

// Made is the mass of the product's make-up after its losses: of one piece,
// or of the slab that is cut.
func (s *Shop) Made(p *Product) unit.Mass {
	return (&weigher{s, map[*Product]unit.Mass{}}).made(p)
}

// Finished is the mass of one finished piece: its make-up after its losses,
// or the mass it is cut to.
func (s *Shop) Finished(p *Product) unit.Mass {
	return (&weigher{s, map[*Product]unit.Mass{}}).finished(p)
}

// A weigher weighs each product of an assortment once. One that is still being
// weighed (a circle) weighs nothing.
type weigher struct {
	shop *Shop
	done map[*Product]unit.Mass
}

func (w *weigher) finished(p *Product) unit.Mass {
	if p.CutTo.V > 0 {
		return bounded(p.CutTo.V)
	}
	return w.made(p)
}

func (w *weigher) made(p *Product) unit.Mass {
	if m, ok := w.done[p]; ok {
		return m
	}
	w.done[p] = 0
	var m unit.Mass
	for _, st := range p.Parts {
		for _, l := range st.Add {
			m = min(m+w.line(l), MaxMass)
		}
		m -= st.Off(m)
	}
	w.done[p] = m
	return m
}

func (w *weigher) line(l Line) unit.Mass {
	q := w.shop.Products[l.Use.V]
	if q == nil {
		return l.Taken()
	}
	n, each := l.Counted(), w.finished(q)
	if n > 0 && each > MaxMass/unit.Mass(n) {
		return MaxMass
	}
	return each * unit.Mass(n)
}

// Counted is the number of pieces of the line, between none and MaxPieces.
func (l Line) Counted() unit.Count { return min(max(l.Pieces.V, 0), MaxPieces) }
