// Package boxend answers: which carton is it, read from across a cold store?
//
// [Compose] sets the label on the end of a carton: its name, what is in it, its
// batch, its date and how it is kept, in letters that are read at 1.5 m. Below
// them, smaller, stand the number of the carton and who answers for the food.
// It bears no bars and no SSCC, and takes the place of no carton label: several
// ends of one carton may bear it. What the law wants on the outer packaging
// (Regulation (EU) No 1169/2011 Art. 8(7)) is on it nevertheless.
package boxend

import (
	"slices"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Distance is from where the label is read: over an aisle of a cold store
// (common practice, no source).
const Distance = 1500 * unit.MM

// Least is the least height of capitals of name, contents, batch, date and
// temperature: 16 minutes of arc (NUREG-0700, 1.3.1-4), which are 6.98 mm.
func Least() unit.Length {
	arc, _ := market.FindReading("least")
	return arc.CapHeight(Distance)
}

// leastText is the least height of capitals of all else, as on the carton label
// (GS1 Sweden, rules for the logistic label).
const leastText = 3 * unit.MM

// Most is how many labels one run may have.
const Most = 10_000

// End is what is to be set: the box end of cartons that are filled alike.
type End struct {
	Facts   *declare.Facts // of the pack that is in the carton
	Told    []*words.Label // one for each language, in order
	Langs   []*words.Lang
	Batch   string
	Batched diag.Pos   // where the batch code comes from
	Packs   unit.Count // packs in each carton; 0 for as many as it holds
	Stock   *stock.Stock
	Dots    unit.Dots
}

// full reports whether the carton holds as many packs as it can.
func (e End) full() bool { return e.Packs == e.Facts.Product.Carton.Holds.V }

// Heights are the least x-heights of what is read from a distance, for the
// check of the finished page.
func Heights() map[role.Role]unit.Length {
	return compose.Heights(Least(), role.Name, role.Net, role.Batch, role.Date, role.Keep)
}

// Compose sets the label. It returns nil, with a finding, when words are
// missing or when it does not fit in letters that are read from 1.5 m.
func Compose(e End, faces *text.Faces, found *diag.List) *page.Art {
	if !e.sound(found) {
		return nil
	}
	if e.Packs == 0 {
		e.Packs = e.Facts.Product.Carton.Holds.V
	}
	c, ok := e.tell(found)
	if !ok {
		return nil
	}
	paper := compose.On(e.Stock, e.Dots, faces)
	items, err := c.best(paper)
	if err != nil {
		e.refuse(err, found)
		return nil
	}
	return paper.Art(items)
}

// refuse says that the label does not fit, and what can be done.
func (e End) refuse(err error, found *diag.List) {
	hint := "take a larger paper with --paper, fewer languages, or a shorter name"
	w, _ := e.Stock.Size()
	if a5, ok := stock.Get("roll-a5"); ok && w < a5.Width.V {
		hint = "take a larger paper with --paper, such as roll-a5 or a4-2"
	}
	compose.Refusal{At: e.Facts.Product.Carton.Pos, What: "the box-end label of " + e.Facts.Product.ID, Stock: e.Stock,
		With: "with figures " + Least().String() + " high, which are read at 1.5 m", Hint: hint}.Refuse(err, found)
}

// sound reports what cannot be said on the end of a carton.
func (e End) sound(found *diag.List) bool {
	before, p := found.Errors(), e.Facts.Product
	switch k := p.Carton; {
	case k == nil:
		found.Errorf(p.Pos, "carton", "write carton: with pack, holds, gtin and paper", "%s is not shipped in cartons", p.ID)
	case k.Pack.V != e.Facts.Pack.ID.V:
		found.Errorf(k.Pack.Pos, "carton", "print the carton of that pack", "the carton holds the pack %s, not %s", k.Pack.V, e.Facts.Pack.ID.V)
	case e.Packs < 0 || e.Packs > k.Holds.V:
		found.Errorf(k.Holds.Pos, "carton", "count again, or change holds", "%d packs do not go into a carton that holds %d", e.Packs, k.Holds.V)
	case len(e.Told) == 0 || len(e.Told) != len(e.Langs):
		found.Errorf(p.Pos, "carton", "name the languages of the label", "the box-end label of %s has no language", p.ID)
	}
	return found.Errors() == before
}

// heads is the first language that has words for the heads of a carton label,
// or English, as on the carton label.
func heads(langs []*words.Lang) *words.Lang {
	if i := slices.IndexFunc(langs, func(l *words.Lang) bool { return l.Has("sheet") }); i >= 0 {
		return langs[i]
	}
	en, _ := words.Get("en")
	return en
}

// Keys are words from memory that stand on the label beside those that Told
// knows of: keys of the language files by language code.
func (e End) Keys() map[string][]string {
	out := map[string][]string{}
	add := func(l *words.Lang, key string) {
		if _, err := l.Word(key); err == nil && l.FromMemory(key) && !slices.Contains(out[l.Code()], key) {
			out[l.Code()] = append(out[l.Code()], key)
		}
	}
	add(heads(e.Langs), "carton."+e.Facts.Product.Keep.Store.V)
	for _, l := range e.Langs {
		add(l, "net.multi")
	}
	return out
}
