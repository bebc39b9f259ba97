package declare

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/reserved"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// reserved holds the names of a food, in all their languages, and those of what
// it is made of against what the law asks of them: a name whose composition the
// law sets is refused where the formula stays below it, and so is one that
// promises what is not there.
func (w *work) reserved(p *shop.Product, parts []scale.Contribution, finished unit.Mass) {
	b := bearer{w, p.ID, parts, finished}
	told := map[string]bool{}
	for _, name := range p.Name {
		for _, h := range reserved.Find(name.Key.V, name.V.V) {
			if told[h.Key] {
				continue
			}
			told[h.Key] = true
			if h.Is {
				w.bears(b, p, h, name.V)
			}
			w.promise(b, h, name.V)
		}
	}
	for _, i := range bought(parts) {
		w.calledRight(i)
	}
}

// bought are the ingredients of a food, each once.
func bought(parts []scale.Contribution) (out []*shop.Ingredient) {
	for _, c := range parts {
		if !slices.Contains(out, c.Ingredient) {
			out = append(out, c.Ingredient)
		}
	}
	return out
}

// bears judges a food that is by its name what the law defines.
func (w *work) bears(b bearer, p *shop.Product, h reserved.Hit, name shop.Text) {
	if h.Key == "chocolate" && (p.SoldAs.V == "praline" || p.SoldAs.V == "filled-chocolate") {
		h.Key = p.SoldAs.V // "a chocolate"
	}
	rows := w.market.Reserved(h.Key, w.facts.Made)
	for _, c := range rows {
		w.bound(b, c, name, w.found.Errorf)
	}
	if len(rows) > 0 && w.cocoaSaid(h.Key) && p.SoldAs.V != h.Key {
		say := w.found.Errorf
		if rows[0].Memory {
			say = w.found.Warnf
		}
		say(name.Pos, "reserved", "write sold-as: "+h.Key+" and its cocoa-solids, which the label must then say", "%q is %s by its name (%s)", name.V, plain(h.Key), rows[0].Cite)
	}
}

// cocoaSaid reports whether the law wants the cocoa solids of a food of this
// name beside it.
func (w *work) cocoaSaid(key string) bool {
	return w.market.Colours.Asked() && slices.Contains([]string{"chocolate", "milk-chocolate", "family-milk-chocolate"}, key)
}

// bound holds one component against its bound. What was not read, and what
// nobody knows the amount of, is told by say as far as it can be.
func (w *work) bound(b bearer, c market.Composition, name shop.Text, say reporter) {
	of, whole, unknown := b.component(c)
	if whole <= 0 {
		return
	}
	over := unit.CmpProducts(int64(of), int64(unit.Whole), int64(whole), int64(c.Share))
	if c.Memory {
		say = w.found.Warnf
	}
	side, broken := "at least", over < 0
	if c.Most {
		side, broken = "at most", over > 0
	}
	switch {
	case !broken:
	case len(unknown) > 0 && !c.Most:
		say(name.Pos, "reserved", "write strength: {"+strings.Join(wanted(c.Of), ", ")+"} in "+strings.Join(unknown, ", ")+", from the supplier's sheet",
			"%q: nobody says how much %s is in %s, and the name asks for %s %s (%s)", name.V, plain(c.Of), strings.Join(unknown, ", "), c.Share, side, c.Cite)
	default:
		say(name.Pos, "reserved", "give it another name, or change what it is made of",
			"%q has %s of %s, and the name asks for %s %s (%s)", name.V, of.In(whole), plain(c.Of), c.Share, side, c.Cite)
	}
}

// reporter is how a finding is told: as an error or as a caution.
type reporter func(pos diag.Pos, rule, hint, format string, args ...any)

// plain is a key as words.
func plain(key string) string { return strings.ReplaceAll(key, "-", " ") }

// calledRight judges the name of a bought ingredient: one that is by its name
// what the law defines keeps what its specification tells, and one named like
// milk is of milk. Jam that is made for pastries is free of the figures of jam
// (Directive 2001/113/EC Art. 1), so it is only told.
func (w *work) calledRight(i *shop.Ingredient) {
	b := bearer{w, i.ID, []scale.Contribution{{Ingredient: i, Mass: 100 * unit.Gram}}, 100 * unit.Gram}
	told := map[string]bool{}
	for _, name := range i.Name {
		for _, h := range reserved.Find(name.Key.V, name.V.V) {
			if !h.Is || told[h.Key] || h.Key == "praline" || h.Key == "filled-chocolate" { // of a paste of nuts, trade says praline too
				continue
			}
			told[h.Key] = true
			say := w.found.Errorf
			if strings.HasSuffix(h.Key, "jam") || strings.HasSuffix(h.Key, "jelly") || h.Key == "marmalade" {
				say = w.found.Warnf
			}
			for _, c := range w.market.Reserved(h.Key, w.facts.Made) {
				if _, _, unknown := b.component(c); len(unknown) == 0 && !c.Most {
					w.bound(b, c, name.V, say)
				}
			}
			w.dairyName(h, name.V, i.Holds())
		}
	}
	inner := func(in shop.Inner) {
		for _, name := range in.Name {
			for _, h := range reserved.Find(name.Key.V, name.V.V) {
				if h.Is {
					w.dairyName(h, name.V, in.Contains)
				}
			}
		}
	}
	deep(i.MadeOf, inner)
}

func deep(in []shop.Inner, do func(shop.Inner)) {
	for _, i := range in {
		do(i)
		deep(i.MadeOf, do)
	}
}

// dairyName doubts a name of a milk product on what is not of milk; in a list
// practice differs, in the name of a food it is refused.
func (w *work) dairyName(h reserved.Hit, name shop.Text, contains []shop.Text) {
	rule, ok := w.market.Promised(h.Key)
	if !ok || !slices.Contains([]string{"butter", "milk", "cream", "cheese", "yoghurt"}, h.Key) || len(contains) > 0 && shop.Names(contains, "milk") {
		return
	}
	w.found.Warnf(name.Pos, "reserved", "name it by what it is, such as a drink, a spread or a preparation of the plant", "%q is the name of a milk product on what is not of milk (%s)", name.V, rule.Cite)
}

// promise refuses a name that speaks of what is not in the food.
func (w *work) promise(b bearer, h reserved.Hit, name shop.Text) {
	rule, ok := w.market.Promised(h.Key)
	switch {
	case !ok:
	case !b.keeps(h.Key):
		say := w.found.Errorf
		if rule.Doubt || rule.Memory {
			say = w.found.Warnf
		}
		say(name.Pos, "reserved", "give it another name, or make it with what its name says", "%q promises %s, and nothing of it is in %s (%s)", name.V, plain(h.Key), b.id, rule.Cite)
	case h.Key == "butter":
		if i := b.otherFat(); i != nil {
			w.found.Warnf(name.Pos, "reserved", "leave the other fat out, or the word", "%q promises butter, and %s takes a part of its place (%s)", name.V, i.ID, rule.Cite)
		}
	}
}
