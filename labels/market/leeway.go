package market

import (
	"slices"

	"chablon/labels/unit"
)

// Leeway is by how much what is in the food may part, either way, from a figure
// of the nutrition declaration, the uncertainty of measuring included. It is no
// law: a guide by which authorities judge.
type Leeway struct {
	Of    []string // keys of nutrients
	From  Amount   // figures from this on, for 100 g
	Fixed Amount   // by so much; 0 where it goes by Share
	Share unit.Share
	Cite
}

// Spread is a leeway for one figure.
type Spread struct {
	Amount Amount
	Cite
}

// Leeway gives by how much the food may part from a printed figure for 100 g;
// false where nobody here knows.
func (m *Market) Leeway(key string, printed Amount) (Spread, bool) {
	for _, l := range slices.Backward(m.Leeways) {
		switch {
		case !slices.Contains(l.Of, key) || printed < l.From:
		case l.Fixed > 0:
			return Spread{l.Fixed, l.Cite}, true
		default:
			return Spread{Amount(unit.MulDiv(int64(printed), int64(l.Share), int64(unit.Whole))), l.Cite}, true
		}
	}
	return Spread{}, false
}

// euLeeways are those of the guide, each from its lowest figures up. That of salt
// was not read, and is left out; for energy there is none.
func euLeeways() []Leeway {
	c := readOnDay("2026-11-28", guidance, "Table 1").via("a trade page that quotes its table, and for fat a forum of consumers")
	most := []string{"carbohydrate", "sugars", "protein", "fibre"}
	fat, saturates := []string{"fat"}, []string{"saturates"}
	fifth := 20 * unit.Percent
	return []Leeway{
		{most, 0, 2 * One, 0, c}, {most, 10 * One, 0, fifth, c}, {most, 40 * One, 8 * One, 0, c},
		{fat, 0, One * 3 / 2, 0, c}, {fat, 10 * One, 0, fifth, c}, {fat, 40 * One, 8 * One, 0, c},
		{saturates, 0, One * 4 / 5, 0, c}, {saturates, 4 * One, 0, fifth, c},
	}
}
