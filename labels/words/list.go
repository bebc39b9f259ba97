package words

import (
	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/unit"
)

// list says one ingredient list: heading, parts in order, allergens emphasised.
func (t *teller) list(in declare.List) Said {
	src := t.facts.Product.Pos
	var parts []phrase
	for _, p := range in.Parts {
		parts = append(parts, t.part(p))
	}
	key, slots := "list.headed", map[string]phrase{"list": t.joined(parts)}
	if in.Title != nil {
		key = "list.headed-of"
		slots["name"] = plain(t.name(in.Title, src))
	}
	t.used[key] = true
	p, err := t.say(key, slots)
	if err != nil {
		t.found.Errorf(src, "words", "complete the language file", "%v", err)
	}
	return Said{"list", p.text + ".", p.strong, src}
}

// part says one ingredient: class, name with its allergens, quantity, inner
// ingredients. An allergen that the name does not name follows in brackets.
func (t *teller) part(p declare.Part) phrase {
	name := t.name(p.Name, p.Src)
	strong, missing := t.Emphasis(name, p.Allergens)
	out := phrase{name, strong}
	if p.Quid != nil && !p.Quid.PerHundred {
		out = out.then(plain(noBreak + t.quid(p.Quid)))
	}
	if p.Varying {
		out = out.then(plain(" " + t.words("list.varying", p.Src, nil)))
	}
	var inside []phrase
	for _, id := range p.Show {
		for _, m := range missing {
			if m == id {
				inside = append(inside, bold(t.allergen(id, p.Src)))
			}
		}
	}
	for _, i := range p.Inner {
		inside = append(inside, t.part(i))
	}
	if p.Quid != nil && p.Quid.PerHundred {
		inside = append(inside, plain(t.words("list.grams", p.Src, map[string]string{"mass": t.grams(p.Quid)})))
	}
	if len(inside) > 0 {
		out = t.saying(p, "list.inner", map[string]phrase{"name": out, "list": t.joined(inside)})
	}
	if p.Class != "" {
		class := plain(t.words("class."+slug(p.Class), p.Src, nil))
		out = t.saying(p, "list.class", map[string]phrase{"class": class, "list": out})
	}
	return out
}

func (t *teller) saying(p declare.Part, key string, slots map[string]phrase) phrase {
	t.used[key] = true
	out, err := t.say(key, slots)
	if err != nil {
		t.found.Errorf(p.Src, "words", "complete the language file", "%v", err)
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
