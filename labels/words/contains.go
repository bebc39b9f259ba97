package words

import (
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/role"
)

// Contains says what a food contains, wherever its list does not stand beside
// it: on a ticket, in an answer over the counter. It names every allergen in
// the words of the market and is empty where there is none
// (Reg. (EU) 1169/2011 Art. 44(1)(a) with Art. 21(1)).
func Contains(f *declare.Facts, l *Lang, found *diag.List) Said {
	src := f.Product.Pos
	if len(f.Contains) == 0 {
		return Said{}
	}
	if v, err := l.For(f.Market.Code); err == nil { // Tell reports the fault
		l = v
	}
	t := &teller{l, f, found, map[string]bool{}}
	var names []phrase
	for _, key := range t.summary() {
		names = append(names, t.entry(bold(t.allergen(key, src))))
	}
	list := t.joined(names)
	p := t.titled(t.phrase("contains", src, map[string]phrase{"list": list}), list).then(plain("."))
	return Said{role.Allergens, p.text, p.strong, src}
}
