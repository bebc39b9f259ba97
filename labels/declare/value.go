package declare

import (
	"fmt"
	"strings"

	"chablon/labels/market"
	"chablon/labels/unit"
)

// Value is a value that decided, or that one was held against. Whoever shows
// it says it in a language, by its type; the texts that String gives are for
// messages, and nobody reads a value out of them. The types below are those
// that decisions hold.
type Value interface {
	Kind() string // stable name of the type
}

// Percent is a share that is said as per cent.
type Percent unit.Share

// Kind is "percent".
func (Percent) Kind() string { return "percent" }

// String gives all its figures: "40.9356725 %".
func (v Percent) String() string { return unit.Share(v).String() }

// MgPerKg is a share that is said as milligrams in a kilogram.
type MgPerKg unit.Share

// Kind is "mg-per-kg".
func (MgPerKg) Kind() string { return "mg-per-kg" }

// String gives all its figures: "10.8161 mg/kg".
func (v MgPerKg) String() string {
	return strings.TrimSuffix((unit.Share(v)*(unit.Percent/unit.MgPerKg)).String(), "%") + "mg/kg"
}

// Mass is a mass.
type Mass unit.Mass

// Kind is "mass".
func (Mass) Kind() string { return "mass" }

// String gives grams.
func (v Mass) String() string { return unit.Mass(v).String() }

// Day is a day.
type Day unit.Date

// Kind is "day".
func (Day) Kind() string { return "day" }

// String gives the ISO form.
func (v Day) String() string { return unit.Date(v).String() }

// Limit is a value with the side of it that is meant: "more than 10 mg/kg".
type Limit struct {
	Edge market.Edge
	Of   Value
}

// Kind is "limit".
func (Limit) Kind() string { return "limit" }

// String gives the sign and the value: "> 10 mg/kg".
func (v Limit) String() string { return fmt.Sprint(string(v.Edge)+" ", v.Of) }

// Key is a word of a closed list, such as "in-name", whose meaning every
// language has words for.
type Key string

// Kind is "key".
func (Key) Kind() string { return "key" }

// ID names an ingredient, a formula, a product, an allergen or a category.
type ID string

// Kind is "id".
func (ID) Kind() string { return "id" }

// IDs are several.
type IDs []ID

// Kind is "ids".
func (IDs) Kind() string { return "ids" }

func named(ids []string) IDs {
	var out IDs
	for _, id := range ids {
		out = append(out, ID(id))
	}
	return out
}

// Text is what somebody wrote, such as the reference of an assessment, or the
// article of an act; it is the same in all languages.
type Text string

// Kind is "text".
func (Text) Kind() string { return "text" }
