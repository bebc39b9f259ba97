package market

import (
	"chablon/labels/role"
	"chablon/labels/unit"
)

// inForce is the day from which an act asks for a particular; zero where nobody
// here has read it. Regulation (EU) No 1169/2011 applies from 13 December 2014,
// its declaration of nutrition from 13 December 2016 (Art. 55, read on 28
// November 2026 in the pages of two authorities); the rule on food packed for
// direct sale in Great Britain from 1 October 2021 (food.gov.uk).
func inForce(act string, what role.Role) unit.Date {
	switch {
	case act != fic && act != ficGB && act != ppds:
		return unit.Date{}
	case act == ppds:
		return unit.Date{Year: 2021, Month: 10, Day: 1}
	case what == role.Nutrition:
		return unit.Date{Year: 2016, Month: 12, Day: 13}
	}
	return unit.Date{Year: 2014, Month: 12, Day: 13}
}
