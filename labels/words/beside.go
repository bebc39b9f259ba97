package words

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
)

// containsLine says what the food contains, where the market wants that beside
// the list, or where there is no list and the name does not tell
// (Reg. (EU) 1169/2011 Art. 21(1)).
func (t *teller) containsLine() Said {
	f := t.facts
	show, src := f.Market.Allergens.Show, f.Product.Pos
	if len(f.Contains) == 0 {
		return Said{}
	}
	if show != market.ListOrLine && show != market.ListAndLine {
		_, missing := t.Emphasis(t.name(f.Product.Name, src), f.Contains)
		if len(f.Lists) > 0 || len(missing) == 0 {
			return Said{}
		}
	}
	var names []phrase
	for _, key := range t.summary() {
		names = append(names, t.entry(bold(t.allergen(key, src))))
	}
	list := t.joined(names)
	p := t.titled(t.phrase("contains", src, map[string]phrase{"list": list}), list).then(plain("."))
	if show == market.ListAndLine {
		p = bold(p.text) // the whole line (Food Standards Code, Standard 1.2.3)
	}
	return Said{role.Allergens, p.text, p.strong, src}
}

// summary lists the keys of the names in the line: those of the market's table,
// which may gather several under one word. Where the line knows gluten, wheat
// stands beside it.
func (t *teller) summary() []string {
	var keys []string
	table := t.facts.Market.Allergens.Table
	gluten := slices.ContainsFunc(table, func(a market.Allergen) bool { return a.Label == "gluten" })
	for _, a := range table {
		if !has(t.facts.Contains, a.ID) {
			continue
		}
		add := []string{a.ID}
		if a.Label != "" {
			add = []string{a.Label}
		} else if a.ID == "wheat" && gluten {
			add = append(add, "gluten")
		}
		for _, k := range add {
			if !has(keys, k) {
				keys = append(keys, k)
			}
		}
	}
	return keys
}

// may says the precautionary line; the allergens in it are emphasised too.
func (t *teller) may() Said {
	src := t.facts.Product.Assessment.Pos
	var names []phrase
	for _, id := range t.facts.May {
		names = append(names, bold(t.allergen(id, src)))
	}
	p := t.phrase("may-contain", src, map[string]phrase{"list": t.joined(names)})
	return Said{role.May, p.text + ".", p.strong, src}
}

// allergen is the name of an allergen, or of what the line gathers under.
func (t *teller) allergen(id string, pos diag.Pos) string {
	return t.words("allergen."+slug(id), pos, nil)
}

// statement says what must stand beside the list, as a sentence.
func (t *teller) statement(s declare.Statement) Said {
	what, text := role.Statement, ""
	switch s.Key {
	case "defrosted", "sweetener", "sugar-and-sweetener": // said with the name
		return Said{}
	case "azo":
		text = t.words("statement.azo", s.Src, map[string]string{"colours": t.name(s.Of, s.Src)})
	case "origin":
		what, text = role.Origin, t.words("origin.country", s.Src, map[string]string{"place": t.name(s.Place, s.Src)})
	case "origin-of":
		what, text = role.OriginOf, t.words("origin.ingredient", s.Src, map[string]string{"name": t.name(s.Of, s.Src), "place": t.name(s.Place, s.Src)})
	case "cocoa":
		text = t.words("statement.cocoa", s.Src, map[string]string{"percent": t.Share(s.Share)})
	case "loose-colour", "loose-preservative", "loose-antioxidant", "loose-enhancer", "loose-sulphured", "loose-waxed":
		text = t.words("loose."+strings.TrimPrefix(s.Key, "loose-"), s.Src, nil)
	case "caffeine":
		text = t.words("statement.caffeine", s.Src, map[string]string{"mass": t.MassIn((100 * unit.Gram).Of(s.Share), "mg", 0)})
	default:
		text = t.words("statement."+s.Key, s.Src, nil)
	}
	return Said{Role: what, Text: t.sentence(text), Src: s.Src}
}

// sentence begins with a capital letter, as the language writes it, and ends
// with a full stop.
func (t *teller) sentence(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	up := unicode.ToUpper(r)
	if t.code == "tr" {
		up = unicode.TurkishCase.ToUpper(r)
	}
	return string(up) + strings.TrimSuffix(s[n:], ".") + "."
}
