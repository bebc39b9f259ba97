package declare

import (
	"reflect"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Decision is one choice that the rules made, kept for whoever asks why.
type Decision struct {
	Rule  Rule
	Part  string     // what it was about: an id, or the key of a statement
	Name  shop.Words // of an inner ingredient, which has no id, or nil
	Got   Value      // what decided, or nil
	Limit Value      // what it was held against, or why; or nil
	Pos   diag.Pos   // where the value comes from
}

// Rule is the stable name of a rule that decided something.
type Rule string

// The rules, each with the values that its decisions hold.
const (
	RuledOut           Rule = "cross-contact-ruled-out" // ID: whose; Text: the assessment
	TrulyFree          Rule = "truly-free"              // ID: the allergen; Text: the reason
	MayContain         Rule = "may-contain"             // nil; Text: the assessment
	Sulphites          Rule = "sulphites"               // MgPerKg; Limit
	Opened             Rule = "opened"                  // Percent of the finished food; nil
	Joined             Rule = "joined"                  // Percent of the finished food; IDs
	AndOr              Rule = "and-or"                  // Percent of the finished food; ID of the other
	CarriedOver        Rule = "carried-over"            // nil; nil
	InnerListRelieved  Rule = "inner-list-relieved"     // Percent of the finished food; Percent
	DateLimited        Rule = "date-limited"            // Day; Day it would have been
	DateLeftOut        Rule = "date-left-out"           // Day; nil
	KeptBecause        Rule = "keep-reason"             // Text: why; nil
	NutritionLeftOut   Rule = "nutrition-left-out"      // Key: why; nil
	NoList             Rule = "no-list"                 // Key: why; nil
	ProcessingAid      Rule = "processing-aid"          // nil; nil
	WaterLeftOut       Rule = "water-left-out"          // Percent of the finished food; Percent
	VolatileUnmeasured Rule = "volatile-not-measured"   // nil; nil
	VolatileLeft       Rule = "volatile-left"           // Mass; Mass that went in
	Reconstituted      Rule = "reconstituted"           // Mass before drying; Mass
	Serving            Rule = "portion"                 // Mass; nil
	QuantityExempt     Rule = "quid-exempt"             // Key: why; nil
	QuantityDeclared   Rule = "quid"                    // Percent before rounding; Key: why
	StatementCalled    Rule = "statement"               // Percent; Text: the article
)

// Rules lists them.
func Rules() []Rule {
	return []Rule{RuledOut, TrulyFree, MayContain, Sulphites, Opened, Joined, AndOr, CarriedOver, InnerListRelieved, DateLimited, DateLeftOut, KeptBecause,
		NutritionLeftOut, NoList, ProcessingAid, WaterLeftOut, VolatileUnmeasured, VolatileLeft, Reconstituted, Serving,
		QuantityExempt, QuantityDeclared, StatementCalled}
}

// decide records a decision, once.
func (w *work) decide(rule Rule, part string, got, limit Value, pos diag.Pos) {
	w.record(Decision{Rule: rule, Part: part, Got: got, Limit: limit, Pos: pos})
}

func (w *work) record(d Decision) {
	if !slices.ContainsFunc(w.facts.Decisions, func(o Decision) bool { return reflect.DeepEqual(o, d) }) {
		w.facts.Decisions = append(w.facts.Decisions, d)
	}
}

// ofFinished is a mass as per cent of the finished food.
func (f *food) ofFinished(m unit.Mass) Percent { return Percent(m.In(f.finished)) }
