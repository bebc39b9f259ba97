package ticket

import (
	"chablon/labels/unit"
	"chablon/layout/text"
)

// Sizes in points. The name at 24 and the allergens at 12 or more are our own
// judgement of what is read across a counter; the staff read the ticket in the
// hand, at 8 pt where there is room: capitals of 2.0 mm, 1/200 of 0.4 m, the
// fraction that the FAA uses for what must be read.
const (
	mostName       = 24
	leastName      = 14
	leastAllergens = 12
	leastMay       = 9
	leastSmall     = 8
	mostStaff      = 9
)

// sizes are those of one try, all following the size of the name.
type sizes struct{ name, second, about, price, small, allergens, may unit.Length }

func points(n int64) unit.Length { return text.Hundredths(100 * n) }

// sizesAt gives the sizes that go with a name of the given size.
func sizesAt(name unit.Length) sizes {
	of := func(n, least int64) unit.Length {
		return text.Whole(max(name*unit.Length(n)/mostName, points(least)))
	}
	return sizes{
		name: name, second: of(14, 10), about: of(11, leastSmall), price: of(28, 20), small: of(10, leastSmall),
		allergens: of(13, leastAllergens), may: of(10, leastMay),
	}
}
