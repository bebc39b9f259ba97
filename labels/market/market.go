// Package market answers: what does the law here ask?
//
// One file per market holds its numbers; each stands beside its act, its
// article and the day it was read. There are no sentences here, only numbers
// and keys; the keys of the particulars are the roles of a finished page. The
// few rules that compute something (type size by face, rounding, dates,
// tolerances) are methods on that data.
//
// What the law leaves open, or what nobody here has read, is absent: the
// method then reports false, and the caller prints nothing. These tables are a
// help for a competent person. The authentic texts and the local authority
// decide.
package market

import (
	"slices"
	"strings"
)

// Cite says where a number stands. A number that was read has the day in Read;
// Via then names the page it was read on, when that was not a copy of the act
// itself. Memory marks a number that has not been read yet and must be checked
// before anyone relies on it; House marks a rule of our own, where no law was
// found. Exactly one of Read, Memory and House is set.
type Cite struct {
	Act     string // with its consolidation or edition
	Article string
	Read    string // "2026-11" or "2026-11-25"
	Via     string
	Memory  bool
	House   bool
}

// String gives act and article.
func (c Cite) String() string { return c.Act + ", " + c.Article }

// Market is everything that one market asks for. Get hands out a fresh one
// each time, so a caller cannot change what the next one sees.
type Market struct {
	Code      string   // "eu"
	Places    []string // ISO 3166 codes, or names of organisations
	Languages Languages
	Operator  Operator  // where who stands behind the food must be
	Kinds     []Kind    // what must stand on which kind of pack
	Reliefs   []Relief  // what small or plain packs may leave out
	Heights   []Height  // of type
	Lot       Lot       // the batch mark
	Net       Net       // net quantity
	List      List      // ingredients
	Quid      Quid      // percentages; zero where the market has no such rule
	Allergens Allergens // and sulphites
	Dates     Dates
	Nutrition Nutrition
	Triggers  []Trigger // statements that an ingredient or a share calls for
	Kitchen   []Limit   // temperatures and times
	Forbidden []Forbidden
	Names     []Composition // names whose composition the law sets
	Promises  []Promise     // words that a name may only bear where the food keeps them
	Changes   []Change      // days from which the law asks for something else
	Leeways   []Leeway      // of the figures of a nutrition declaration
	Colours   Colours       // the sentence beside certain colours
	// National is what the country asks where the food is sold; nil where nobody
	// here knows, or the market is one country.
	National *National
	// Fahrenheit is why a temperature on a label is given in °F too; zero where
	// °C alone is usual.
	Fahrenheit Cite
	// Fortified is what has flour of wheat fortified; zero where nothing does.
	Fortified Cite
	// Animal is what wants certain facts with each lot of food of animal origin;
	// zero where nothing is known to.
	Animal Cite
}

// Colours is what asks for the sentence on activity and attention in children
// beside certain colours; it is zero where nothing does.
type Colours struct{ Cite }

// Asked reports whether the sentence is asked for.
func (c Colours) Asked() bool { return c.Act != "" }

// Forbidden is an additive that may not be in food, by its E number: "E 171".
type Forbidden struct {
	Number string
	Cite
}

// Name is the code in capitals, as people write it.
func (m *Market) Name() string { return strings.ToUpper(m.Code) }

// BothScales reports whether a temperature on a label is given in °F too.
func (m *Market) BothScales() bool { return m.Fahrenheit.Act != "" }

// WithAnimals reports whether certain facts must come with each lot of food of
// animal origin.
func (m *Market) WithAnimals() bool { return m.Animal.Act != "" }

// A builder makes one market.
type builder struct {
	code  string
	build func() *Market
}

// builders lists the markets in the order in which All gives them.
func builders() []builder {
	return []builder{{"eu", eu}, {"gb", gb}, {"ie", ie}, {"ch", ch}, {"us", us}, {"ca", ca}, {"au", au}, {"codex", codex}}
}

// All gives every market, Codex last.
func All() []*Market {
	var all []*Market
	for _, b := range builders() {
		all = append(all, b.build())
	}
	return all
}

// Codes gives the codes that Get knows.
func Codes() []string {
	var codes []string
	for _, b := range builders() {
		codes = append(codes, b.code)
	}
	return codes
}

// Get finds a market by its code in any case: "eu", "gb", "ie", "ch", "us",
// "ca", "au" (with New Zealand), "codex". Building it takes some ten
// microseconds; a caller with many labels keeps it.
func Get(code string) (*Market, bool) {
	for _, b := range builders() {
		if b.code == strings.ToLower(code) {
			return b.build(), true
		}
	}
	return nil, false
}

// Join says how several languages belong together.
type Join string

// The ways.
const (
	Each  Join = "each"  // every one of them must be there
	OneOf Join = "one"   // any one of them will do
	State Join = "state" // the state of sale decides; one of them at least
)

// Languages names the languages (BCP 47) a label must speak.
type Languages struct {
	Codes []string
	Join  Join
	Cite
}

// Lacking gives the languages that are missing from have. With OneOf and State
// it gives all of them when none is there, and nothing otherwise; an empty
// table lacks nothing.
func (l Languages) Lacking(have []string) []string {
	var lacking []string
	for _, code := range l.Codes {
		if !slices.Contains(have, code) {
			lacking = append(lacking, code)
		}
	}
	if l.Join != Each && len(lacking) < len(l.Codes) {
		return nil
	}
	return lacking
}

// Lot is the rule on the batch mark.
type Lot struct {
	Letter      string // put before it unless it can be told apart; "" for none
	DateReplace bool   // a date with day and month may stand instead
	Cite
}
