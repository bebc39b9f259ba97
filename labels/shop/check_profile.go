package shop

import (
	"regexp"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/tradeword"
	"chablon/labels/unit"
)

// profile: markets are known and the company prefix can be one.
func (c *checker) profile() {
	known := market.Codes()
	for _, m := range c.Profile.Markets {
		if !slices.Contains(known, strings.ToLower(m.V)) {
			c.wrong(m.Pos, "market", "markets are "+strings.Join(known, ", ")+"; a country of the European Union is eu, the United Kingdom gb, the States us", "there is no market %q", m.V)
		}
	}
	if len(c.Profile.Markets) == 0 && c.whole(c.Profile.Pos) {
		c.wrong(c.Profile.Pos, "market", "name at least one of "+strings.Join(known, ", "), "the shop sells in no market")
	}
	if k := c.Profile.Country; k.Set() {
		if _, ok := gs1.CountryNumber(k.V); !ok {
			c.wrong(k.Pos, "country", "write its code of two letters, such as FR", "there is no country %q", k.V)
		}
	}
	if p := c.Profile.GS1Prefix; p.Set() {
		if gs1.ValidPrefix(p.V) != nil {
			c.wrong(p.Pos, "gs1-prefix", "copy it from the paper of your GS1 office, in quotes", "%q is not a company prefix of 4 to 12 digits", p.V)
		}
	}
}

var languageForm = regexp.MustCompile(`^[a-z]{2,3}$`)

// languages: codes look like codes and come once; a card has one or two.
func (c *checker) languages() {
	c.codes(c.Profile.LabelLanguages)
	c.codes(c.Profile.CardLanguages)
	c.products(func(p *Product) {
		for _, k := range p.Packs {
			c.codes(k.Languages)
		}
	})
	for _, v := range [][]Text{c.Profile.LabelLanguages, c.Profile.CardLanguages} {
		if v != nil && len(v) == 0 {
			c.wrong(c.Profile.Pos, "language", "name at least one, such as [en]", "a list of languages is empty")
		}
	}
	if v := c.Profile.CardLanguages; len(v) > 2 {
		c.wrong(v[2].Pos, "language", "leave one or two; print the card again for the others", "a card has %d languages", len(v))
	}
}

func (c *checker) codes(langs []Text) {
	known := tradeword.Codes()
	for i, l := range langs {
		switch {
		case !languageForm.MatchString(l.V):
			c.wrong(l.Pos, "language", "write the code in small letters, such as en, fr or de", "%q is not the code of a language", l.V)
		case !slices.Contains(known, l.V):
			c.wrong(l.Pos, "language", meant(l.V, known, "known are "+strings.Join(known, ", ")), "nobody here knows words of the language %q", l.V)
		case slices.ContainsFunc(langs[:i], func(m Text) bool { return m.V == l.V }):
			c.wrong(l.Pos, "language", "take one of the two out", "the language %q is named twice", l.V)
		}
	}
}

// printers: paper lies a little off or is fed a little long; more than that is no
// matter of the printer but of the window that its user prints from.
func (c *checker) printers() {
	const page = "print the page of chablon calibrate again, as large as it is, and measure it"
	for _, e := range c.Profile.Printers {
		for _, l := range []diag.At[unit.Length]{e.V.Right, e.V.Down} {
			if max(l.V, -l.V) > 10*unit.MM {
				c.wrong(l.Pos, "printer", page, "a printer that prints %s beside its place has its paper in askew", l.V)
			}
		}
		for _, l := range []diag.At[unit.Length]{e.V.Wide100, e.V.High100} {
			if off := l.V - 100*unit.MM; l.Set() && max(off, -off) > 500*unit.UM {
				c.wrong(l.Pos, "printer", "choose \"actual size\" in the printer's window; "+page, "a printer that prints 100 mm as %s scales, and bar codes printed by it cannot be read", l.V)
			}
		}
	}
}

// scales: each has a step that it can show, and they go from small to large.
func (c *checker) scales() {
	for i, s := range c.Profile.Scales {
		positive(c, s.Step, "the step of a scale", "write the step of its display, such as 1 g")
		switch {
		case !s.Step.Set() || !s.UpTo.Set():
		case s.UpTo.V < s.Step.V || s.UpTo.V > MaxMass:
			c.wrong(s.UpTo.Pos, "range", "write what the scale bears, such as 5 kg", "a scale with a step of %s cannot bear %s", s.Step.V, s.UpTo.V)
		case i > 0 && s.UpTo.V <= c.Profile.Scales[i-1].UpTo.V:
			c.wrong(s.UpTo.Pos, "order", "write the scales from small to large", "this scale bears no more than the one before")
		}
	}
}

var placeholder = regexp.MustCompile(`\{[^{}]*\}`)

// batchRule: the rule has known places, and its codes differ from day to day.
func (c *checker) batchRule() {
	rule := c.Profile.BatchCode
	if !rule.Set() {
		return
	}
	if !c.places(rule, "{yy}", "{day}", "{letter}") {
		c.unsound[rule.Pos.File] = true
		return
	}
	if !strings.Contains(rule.V, "{day}") {
		c.caution(rule.Pos, "batch", "put {day} into it", "batches of different days get the same code")
	}
	if !strings.Contains(rule.V, "{yy}") {
		c.caution(rule.Pos, "batch", "put {yy} into it", "batches of different years get the same code")
	}
	if !c.batchCode(fill(rule.V, unit.Date{Year: 2026, Month: 12, Day: 31}, "A"), rule.Pos) {
		c.unsound[rule.Pos.File] = true
	}
}

// places reports places in a rule that nothing fills.
func (c *checker) places(rule Text, known ...string) bool {
	for _, p := range placeholder.FindAllString(rule.V, -1) {
		if !slices.Contains(known, p) {
			c.wrong(rule.Pos, "batch", "places are "+strings.Join(known, ", "), "nothing fills %s", p)
			return false
		}
	}
	if rest := placeholder.ReplaceAllString(rule.V, ""); strings.ContainsAny(rest, "{}") {
		c.wrong(rule.Pos, "batch", "places are "+strings.Join(known, ", "), "a brace without its partner")
		return false
	}
	return true
}

// batchCode: a batch code has at most 20 characters that a bar code can carry
// (GS1 General Specifications, AI 10: X..20, character set 82).
func (c *checker) batchCode(code string, pos diag.Pos) bool {
	if gs1.Check(gs1.Element{AI: "10", Value: code}) == nil {
		return true
	}
	if len(code) > 20 {
		c.wrong(pos, "batch", "use at most 20 characters", "the batch code %q has %d characters", code, len([]rune(code)))
	} else {
		c.wrong(pos, "batch", "use letters A to Z and a to z, digits, hyphens and points, and no spaces", "the batch code %q cannot be carried by a bar code", code)
	}
	return false
}
