package words

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// list says one ingredient list: heading, parts in order, allergens emphasised,
// small parts behind the market's closing phrase.
func (t *teller) list(in declare.List) Said {
	src := t.facts.Product.Pos
	var parts []phrase
	for _, p := range in.Parts {
		parts = append(parts, t.entry(t.part(p, nil)))
	}
	late := min(max(in.Late, 0), len(parts))
	all := t.joined(parts[:late])
	if late < len(parts) {
		n, decimals := exact(int64(in.LateShare), int64(unit.Percent))
		closing := t.phrase("list.late", src, map[string]phrase{"n": plain(t.Plain(n, decimals)), "list": t.joined(parts[late:])})
		if late > 0 {
			closing = plain(". ").then(closing)
		}
		all = all.then(closing)
	}
	key, slots := "list.headed", map[string]phrase{"list": all}
	if in.Title != nil {
		key = "list.headed-of"
		slots["name"] = plain(t.name(in.Title, src))
	}
	p := t.titled(t.phrase(key, src, slots), all)
	return Said{role.List, p.text + ".", p.strong, src}
}

// entry is one entry of a list or of the line "contains", with a capital first
// letter where the market wants it (C.R.C., c. 870, B.01.008.2, B.01.010.3).
func (t *teller) entry(p phrase) phrase {
	first, n := utf8.DecodeRuneInString(p.text)
	if upper := unicode.ToUpper(first); t.facts.Market.List.Titled.Act != "" && utf8.RuneLen(upper) == n {
		p.text = string(upper) + p.text[n:]
	}
	return p
}

// titled is a list with the words before it in bold, where the market wants that.
func (t *teller) titled(p, list phrase) phrase {
	title := strings.TrimRight(p.text[:max(0, strings.Index(p.text, list.text))], " ")
	if t.facts.Market.List.Titled.Act == "" || title == "" {
		return p
	}
	return phrase{p.text, append([][2]int{{0, len(title)}}, p.strong...)}
}

// part says one ingredient: class, name with its allergens, quantity, inner
// ingredients. An allergen that the name does not name follows in brackets.
// Around are the allergens of the compound that it is in: where its name names
// one of them, that is emphasised too.
func (t *teller) part(p declare.Part, around []string) phrase {
	allergens := append(around[:len(around):len(around)], p.Allergens...)
	p = t.starch(p)
	out, missing := t.partName(p, allergens)
	if p.Quid != nil && !p.Quid.PerHundred {
		out = out.then(plain(noBreak + t.quid(p.Quid)))
	}
	if p.Varying {
		out = out.then(plain(" " + t.words("list.varying", p.Src, nil)))
	}
	if inside := t.inside(p, missing, allergens); len(inside) > 0 {
		out = t.phrase("list.inner", p.Src, map[string]phrase{"name": out, "list": t.joined(inside)})
	}
	if p.Class != "" {
		class := plain(t.words("class."+slug(p.Class), p.Src, nil))
		out = t.phrase("list.class", p.Src, map[string]phrase{"class": class, "list": out})
	}
	return out
}

// partName says the name of a part and gives the allergens that it does not
// name: an E number names none, and of a group of oils the plants do.
func (t *teller) partName(p declare.Part, allergens []string) (phrase, []string) {
	switch {
	case p.Number != "":
		return plain(p.Number), allergens
	case p.Group != "":
		var plants []phrase
		for _, i := range p.Inner {
			plants = append(plants, t.part(i, allergens))
		}
		return t.phrase("list."+p.Group, p.Src, map[string]phrase{"list": t.joined(plants)}), nil
	}
	name := t.name(p.Name, p.Src)
	strong, missing := t.Emphasis(name, allergens)
	t.unsaid(p, name, allergens)
	out := phrase{name, strong}
	if p.Alt != nil {
		both := t.phrase("list.and-or", p.Src, map[string]phrase{"a": out, "b": plain(t.name(p.Alt, p.Src))})
		out = t.phrase("list.contains", p.Src, map[string]phrase{"list": both})
	}
	return out, missing
}

// unsaid refuses a name that names an allergen which the specification does
// not: one of the two is wrong.
func (t *teller) unsaid(p declare.Part, name string, allergens []string) {
	for _, a := range t.facts.Market.Allergens.Table {
		if a.ID == "sulphites" || has(allergens, a.ID) || has(p.Excepted, a.ID) {
			continue
		}
		if strong, _ := t.Emphasis(name, []string{a.ID}); len(strong) > 0 {
			t.found.Errorf(p.Src, "allergen-named", "add it to contains, or, if it is truly not in it, give it another name",
				"the %s name %q names %s, but contains does not", t.Name(), name, a.ID)
		}
	}
}

// inside is what follows a name in brackets: allergens that it does not name,
// hydrogenation, inner ingredients, grams for 100 g.
func (t *teller) inside(p declare.Part, missing, allergens []string) []phrase {
	var out []phrase
	for _, id := range p.Show {
		if has(missing, id) {
			out = append(out, bold(t.allergen(id, p.Src)))
		}
	}
	if p.Hydrogenated != "" {
		out = append(out, plain(t.words("list."+p.Hydrogenated+"-hydrogenated", p.Src, nil)))
	}
	if p.Group == "" {
		for _, i := range p.Inner {
			out = append(out, t.part(i, allergens))
		}
	}
	if p.Quid != nil && p.Quid.PerHundred {
		out = append(out, plain(t.words("list.grams", p.Src, map[string]string{"mass": t.grams(p.Quid)})))
	}
	return out
}

// quid gives a declared percentage by the market's house rule.
func (t *teller) quid(q *declare.Quantity) string {
	f, _ := market.RoundQuid(q.Used, q.Of)
	return t.Percent(f.N, f.Decimals)
}

// grams gives the grams used for 100 g of the finished food.
func (t *teller) grams(q *declare.Quantity) string {
	return t.MassIn((100*unit.Gram).Mul(q.Used, q.Of), "g", 0)
}

// starch takes the name of the class for that of modified starch, where the law
// has it so: the name of the class alone, with its plant where that may hold
// gluten (Reg. (EU) 1169/2011 Annex VII Part C).
func (t *teller) starch(p declare.Part) declare.Part {
	if p.Class != "modified-starch" || !t.facts.Market.List.ENumbers() {
		return p
	}
	class := shop.Text{V: t.words("class.modified-starch", p.Src, nil), Pos: p.Src}
	p.Name, p.Class = shop.Words{{Key: shop.Text{V: t.code, Pos: p.Src}, V: class}}, ""
	return p
}
