package print

import (
	"strings"

	"chablon/labels/declare"
	"chablon/labels/unit"
)

// reason is a decision in words.
func reason(d declare.Decision) string {
	say := map[string]string{
		"water-left-out":          "left out of the list: {got} of the finished food, and up to {limit} need not be named",
		"inner-list-relieved":     "its inner list is left out, but for allergens and additives: it is {got} of the finished food, less than {limit}, and the law sets its composition, or it is a mixture of spices or herbs",
		"carried-over":            "left out of the list: carried over, without a function in the finished food",
		"quid":                    "its quantity is declared, {got} before rounding: {why}",
		"quid-exempt":             "its quantity is not declared: {why not}",
		"may-contain":             "declared as what it may contain, by the assessment {limit}",
		"cross-contact-ruled-out": "the assessment {limit} found it to be kept out",
		"opened":                  "not named itself: its parts stand in the list, as the product wants it",
		"joined":                  "declared together under one name: {limit}",
		"and-or":                  "declared with what may take its place: {limit}",
		"no-list":                 "the food needs no list: {got}",
		"processing-aid":          "left out of the list: it helps in the making and does nothing in the finished food",
		"volatile-not-measured":   "evaporates, but nobody measured what is left, so all of it counts",
		"volatile-left":           "evaporates: {got} of {limit} are left, as measured",
		"reconstituted":           "counted by its mass before drying, {got} instead of {limit}",
		"date-limited":            "its component decides the date: {got}, not {limit}",
		"date-left-out":           "no date is asked for",
		"portion":                 "a portion is {got}; hold it against the serving that the law means",
		"nutrition-left-out":      "no nutrition declaration: {got}",
	}[d.Rule]
	if say == "" {
		return strings.TrimSpace(strings.ReplaceAll(d.Rule, "-", " ") + ": " + d.Got + " " + d.Limit)
	}
	return strings.NewReplacer("{got}", shortShare(d.Got), "{limit}", d.Limit, "{why}", because(d.Limit), "{why not}", because(d.Got)).Replace(say)
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
	}[key]
	if !ok {
		return key
	}
	return s
}

// shortShare is a share with two decimals; what is no share stays as it is.
func shortShare(s string) string {
	if v, err := unit.ParseShare(s); err == nil && strings.HasSuffix(s, "%") {
		return percent(v)
	}
	return s
}
