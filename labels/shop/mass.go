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
	if f.Medium != nil {
		sum += bounded(f.Medium.TakenUp.V)
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
	return min(l.WaterOff.V.of(m)+l.LeftBehind.V.of(m), m)
}

// of is Of, kept between nothing and all of m.
func (p Portion) of(m unit.Mass) unit.Mass {
	p.Mass, p.Share = bounded(p.Mass), min(max(p.Share, 0), unit.Whole)
	return min(p.Of(m), m)
}

// Off is the water lost at the end of the stage, out of m.
func (st Stage) Off(m unit.Mass) unit.Mass { return st.WaterOff.V.of(m) }

// MaxPieces is the largest number of pieces that a run, a pack or a line of an
// assortment may have.
const MaxPieces unit.Count = 1_000_000
