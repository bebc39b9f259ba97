package market

import (
	"slices"

	"chablon/labels/unit"
)

// Change is a day from which the law of a market asks for something else. Key
// names what changes; the words are elsewhere. Touches is the allergen that
// food which it touches contains, or AnyFood; it is "" where the change is about
// food that a pastry kitchen buys and does not sell.
type Change struct {
	From    unit.Date
	Key     string
	Touches string
	Cite
}

// AnyFood is touched by a change whatever it is made of.
const AnyFood = "any"

// Between gives the changes that touch a food with these allergens and come
// into force after one day and up to another: a label that is made on the one
// and kept until the other crosses them.
func (m *Market) Between(after, until unit.Date, contains []string) (out []Change) {
	for _, c := range m.Changes {
		touched := c.Touches == AnyFood || slices.Contains(contains, c.Touches)
		if touched && after.Before(c.From) && !until.Before(c.From) {
			out = append(out, c)
		}
	}
	return out
}

// ficChanges are those of the Union. Each state writes the directives into its
// own law.
func ficChanges() []Change {
	breakfast := func(key, act string) Change {
		return Change{breakfastDay(), key, "", readIn(act+" as amended by (EU) 2024/1438", "Art. 1 and 3").via("notices of a national food authority")}
	}
	return []Change{breakfast("jam-fruit", "Directive 2001/113/EC"), breakfast("honey-origin", "Directive 2001/110/EC")}
}

func gbChanges() []Change {
	return []Change{{unit.Date{Year: 2026, Month: 12, Day: 13}, "flour-folic-acid", "wheat",
		readIn("SI 1998/141 as amended by SI 2024/1162", "reg. 4, Sch. 1").via("the Welsh act of the same words")}}
}

func caChanges() []Change {
	return []Change{{unit.Date{Year: 2026, Month: 1, Day: 1}, "front-symbol", AnyFood, readIn(fdr, "B.01.350 to B.01.353").via("notices on the day of coming into force")}}
}
