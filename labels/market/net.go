package market

import "chablon/labels/unit"

// Quantity is a net quantity: a mass, or a volume for a liquid.
type Quantity struct {
	Mass   unit.Mass
	Volume unit.Volume
}

// count is the number of billionths of a gram or of a millilitre: the law's
// thresholds are the same figures for both.
func (q Quantity) count() int64 {
	if q.Volume != 0 {
		return int64(q.Volume)
	}
	return int64(q.Mass)
}

// Net is the rule on the net quantity. Thresholds given as a mass stand for
// the same number of millilitres too.
type Net struct {
	Systems []string // "metric", "customary": pounds and ounces
	Digits  []DigitStep
	Errors  []Tolerance // tolerable negative errors, rising
	Step    unit.Mass   // the error is rounded up to this
	Sign    Min         // the e-mark, voluntary
	Cite                // of Step
}

// DigitStep is the least height of the figures up to a nominal quantity, or up
// to an area of the principal display panel; the last step has neither.
type DigitStep struct {
	Mass    unit.Mass
	Panel   unit.Area
	ByPanel bool
	Least   unit.Length
	Bold    bool
	Measure Measure
	Cite
}

// DigitHeight gives the least height of the figures of the net quantity. It
// reports false where the market sets none, or where it goes by the panel and
// the panel is not known (0).
func (n Net) DigitHeight(q Quantity, panel unit.Area) (Min, bool) {
	for i, s := range n.Digits {
		v, bound := q.count(), int64(s.Mass)
		if s.ByPanel {
			v, bound = int64(panel), int64(s.Panel)
		}
		if v <= 0 {
			return Min{}, false
		}
		if v <= bound || i == len(n.Digits)-1 {
			return Min{s.Least, s.Measure, 0, s.Cite}, true
		}
	}
	return Min{}, false
}

// Tolerance is the tolerable negative error of nominal quantities up to Upto:
// a share of the quantity, or a fixed amount. The first row also says where
// the rule begins.
type Tolerance struct {
	From, Upto unit.Mass
	Share      unit.Share
	Fixed      unit.Mass
	Cite
}

// Shortfall says how much a pack may hold less than its label says. For a
// volume the figures count millilitres in place of grams.
type Shortfall struct {
	TNE unit.Mass // tolerable negative error
	T1  unit.Mass // few packs of a batch may hold less than this
	T2  unit.Mass // no pack with an e-mark may hold less than this
	Cite
}

// Shortfall computes the tolerable negative error. It reports false where the
// market has no such table or the quantity lies outside it.
func (n Net) Shortfall(q Quantity) (Shortfall, bool) {
	v := unit.Mass(q.count())
	for _, t := range n.Errors {
		if v < t.From || v > t.Upto {
			continue
		}
		e := t.Fixed
		if t.Share > 0 {
			e = ceil(v, t.Share, n.Step)
		}
		return Shortfall{e, v - e, v - 2*e, t.Cite}, true
	}
	return Shortfall{}, false
}

// ceil is the share of v, rounded up to a whole number of steps.
func ceil(v unit.Mass, s unit.Share, step unit.Mass) unit.Mass {
	e := v.Of(s)
	if exact := unit.CmpProducts(int64(v), int64(s), int64(e), int64(unit.Whole)); exact > 0 {
		e++
	}
	return (e + step - 1) / step * step
}

// Avoirdupois and fluid units of the United States, exact by definition
// (NIST Handbook 44, Appendix C): 1 lb = 453.59237 g, 1 oz = 1/16 lb,
// 1 fl oz = 29.5735295625 ml.
const (
	Pound       unit.Mass = 453_592_370_000
	Ounce       unit.Mass = Pound / 16
	fluidHalves           = 59_147_059_125 // half picolitres in a fluid ounce
)

// InOunces gives m in ounces, as a count of 10^-decimals. It rounds down, so
// that neither system promises more than the pack holds; decimals is 0 to 3.
func InOunces(m unit.Mass, decimals int) int64 {
	return floorRatio(int64(m), pow10(decimals), int64(Ounce))
}

// InFluidOunces is InOunces for a volume.
func InFluidOunces(v unit.Volume, decimals int) int64 {
	return floorRatio(int64(v), 2*pow10(decimals), fluidHalves)
}

// floorRatio is a×b÷c rounded down; a must not be negative.
func floorRatio(a, b, c int64) int64 {
	q := unit.MulDiv(a, b, c)
	if unit.CmpProducts(q, c, a, b) > 0 {
		q--
	}
	return q
}

func pow10(n int) int64 {
	p := int64(1)
	for range n {
		p *= 10
	}
	return p
}
