package market

import "chablon/labels/unit"

// Reading is a rule on the size of letters that are read from a distance: the
// capital height as minutes of arc, or as a fraction of the distance.
type Reading struct {
	Key      string
	Minutes  int64 // of arc
	Fraction int64 // 1/Fraction of the distance; used when Minutes is 0
	Cite
}

// Readings gives the rules for posted cards, from the least to the largest.
func Readings() []Reading {
	const nureg, hfds = "NUREG-0700", "Human Factors Design Standard"
	return []Reading{
		{"least", 16, 0, readIn(nureg, "1.3.1-4")},
		{"preferred", 20, 0, readIn(nureg, "1.3.1-4")},
		{"preferred-high", 22, 0, readIn(nureg, "1.3.1-4")},
		{"most-running-text", 24, 0, readIn(nureg, "1.3.1-4")},
		{"most-grouped", 45, 0, readIn(nureg, "1.3.1-4")},
		{"display-least", 16, 0, readIn("ISO 9241-3", "as quoted by a maker of displays")},
		{"design-least", 16, 0, readIn(hfds, "character height")},
		{"aviation", 0, 200, readIn("FAA", "1/200 of the distance")},
		{"military-least", 15, 0, memory("MIL-STD-1472", "character height")},
	}
}

// FindReading gives one of the rules.
func FindReading(key string) (Reading, bool) {
	for _, r := range Readings() {
		if r.Key == key {
			return r, true
		}
	}
	return Reading{}, false
}

// CapHeight is the capital height that the rule asks for at a distance,
// rounded up to the nanometre.
func (r Reading) CapHeight(distance unit.Length) unit.Length {
	if r.Minutes == 0 {
		return (distance + unit.Length(r.Fraction) - 1) / unit.Length(r.Fraction)
	}
	return ArcHeight(distance, r.Minutes)
}

// ArcHeight is the height that an angle of so many minutes spans at a
// distance: H = 2π × D × minutes ÷ 21600 (NUREG-0700, 1.3.1-4, with π to ten
// figures), rounded up to the nanometre. The exact H = 2·D·tan(θ/2) is larger
// by less than one part in 50,000 for angles up to 45 minutes.
func ArcHeight(distance unit.Length, minutes int64) unit.Length {
	const pi, scale = 3_141_592_654, 1_000_000_000
	h := unit.MulDiv(int64(distance)*minutes, pi, 10_800*scale)
	if unit.CmpProducts(h, 10_800*scale, int64(distance)*minutes, pi) < 0 {
		h++
	}
	return unit.Length(h)
}

// LowSight is the factor on letters for a reader with 20/70 sight, in tenths.
func LowSight() (tenths int64, c Cite) {
	return 35, readIn("Georgia Tech Research Institute", "type for 20/70 sight")
}

// Distance is how far a card of some kind is read from.
type Distance struct {
	Key string
	At  unit.Length
	Cite
}

// Distances gives the reading distances of the cards: design choices of ours,
// with no legal source.
func Distances() []Distance {
	at := func(key string, cm int64) Distance {
		return Distance{key, unit.Length(cm) * unit.CM, house("reading distance of a posted card", key)}
	}
	return []Distance{at("a6", 40), at("a5", 50), at("a4", 70), at("a3", 100), at("key-numbers", 100), at("title", 200)}
}
