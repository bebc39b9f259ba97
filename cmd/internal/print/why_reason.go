package print

import (
	"fmt"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/unit"
)

// reason is a decision in words.
func reason(d declare.Decision) string {
	say := map[declare.Rule]string{
		declare.WaterLeftOut:       "left out of the list: {got} of the finished food, and up to {limit} need not be named",
		declare.InnerListRelieved:  "its inner list is left out, but for allergens and additives: it is {got} of the finished food, less than {limit}, and the law sets its composition, or it is a mixture of spices or herbs",
		declare.CarriedOver:        "left out of the list: carried over, without a function in the finished food",
		declare.QuantityDeclared:   "its quantity is declared, {got} before rounding: {limit}",
		declare.QuantityExempt:     "its quantity is not declared: {got}",
		declare.MayContain:         "declared as what it may contain, by the assessment {limit}",
		declare.RuledOut:           "the assessment {limit} found it to be kept out of {got}",
		declare.TrulyFree:          "its name speaks of {got}, and its specification says that there is none in it: {limit}",
		declare.Opened:             "not named itself: its parts stand in the list, as the product wants it",
		declare.Joined:             "declared together under one name: {limit}",
		declare.AndOr:              "declared with what may take its place: {limit}",
		declare.NoList:             "the food needs no list: {got}",
		declare.ProcessingAid:      "left out of the list: it helps in the making and does nothing in the finished food",
		declare.VolatileUnmeasured: "evaporates, but nobody measured what is left, so all of it counts",
		declare.VolatileLeft:       "evaporates: {got} of {limit} are left, as measured",
		declare.Reconstituted:      "counted by its mass before drying, {got} instead of {limit}",
		declare.DateLimited:        "its component decides the date: {got}, not {limit}",
		declare.DateLeftOut:        "no date is asked for",
		declare.Serving:            "a portion is {got}; hold it against the serving that the law means",
		declare.Sulphites:          "{got} of sulphur dioxide, limit {limit}",
		declare.StatementCalled:    "a statement is called for by {limit}",
		declare.NutritionLeftOut:   "no nutrition declaration: {got}",
	}[d.Rule]
	return strings.NewReplacer("{got}", value(d.Got), "{limit}", value(d.Limit)).Replace(say)
}

// value says a value of a decision.
func value(v declare.Value) string {
	switch v := v.(type) {
	case declare.Percent:
		return percent(unit.Share(v))
	case declare.MgPerKg:
		return mgPerKilo(unit.Share(v))
	case declare.Mass:
		return short(unit.Mass(v))
	case declare.Limit:
		return edge(v.Edge) + " " + value(v.Of)
	case declare.Key:
		return because(string(v))
	case declare.IDs:
		var all []string
		for _, id := range v {
			all = append(all, string(id))
		}
		return strings.Join(all, ", ")
	case nil:
		return ""
	}
	return fmt.Sprint(v)
}

// because says why a quantity is declared, or is not.
func because(key string) string {
	s, ok := map[string]string{
		"in-name":         "its name is in the name of the food",
		"emphasised":      "it is emphasised in words or pictures",
		"characterises":   "it is what the food is known by",
		"flavouring":      "it is there for its flavour, in a small quantity",
		"not-decisive":    "its quantity does not decide what the buyer chooses",
		"fixed-in-law":    "the law sets its quantity",
		"drained-weight":  "the drained weight is declared",
		"varying-mixture": "it is a mixture in varying proportions",

		"exempt-small-maker": "the maker is small and exempt",
		"exempt-small-pack":  "the pack is small and exempt",

		"single-ingredient": "it is made of one ingredient",
		"fresh-produce":     "it is fresh fruit or vegetables",
		"vinegar":           "it is vinegar by fermentation alone",
		"cultured-dairy":    "it is a cultured dairy product with nothing added",
		"carbonated-water":  "it is carbonated water",
	}[key]
	if !ok {
		return key
	}
	return s
}
