package declare

import (
	"slices"

	"chablon/labels/additive"
	"chablon/labels/market"
	"chablon/labels/scale"
)

// loose finds the words that the country asks for beside food that bears no
// list, for the additives in it that have a function there (Reg. (EU) 1169/2011
// Art. 44(1)(b)).
func (w *work) loose(parts []scale.Contribution) {
	if w.market.National == nil {
		return
	}
	all := addedTo(parts)
	for _, words := range w.market.National.Additives {
		for _, a := range all {
			if !wordedBy(words, a) || a.carried || words.Over.Set() && !(market.Trigger{Part: words.Over}).Called(w.facts.SO2, w.facts.Finished) {
				continue
			}
			w.facts.Loose = append(w.facts.Loose, Statement{Key: words.Key, Law: true, Src: a.src})
			w.decide(StatementCalled, words.Key, nil, Text(words.String()), a.src)
			break
		}
	}
}

// wordedBy reports whether the words stand for an additive.
func wordedBy(words market.Wording, a added) bool {
	n := additive.Normal(a.number)
	return slices.Contains(words.Classes, a.class) || n != "" && slices.Contains(words.Numbers, n)
}
