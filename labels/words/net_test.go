package words_test

import (
	"testing"

	"chablon/labels/unit"
)

// The net quantity is said whole and in its halves: the amount, with the sign ℮
// and in both systems of units where the market wants that, and the pieces.
// Of several equal packs in one the number is part of the amount: Regulation
// (EU) No 1169/2011 Annex IX point 3.
func TestNetInHalves(t *testing.T) {
	const s = "\u00a0"
	for _, c := range []struct {
		in, lang          string
		pieces            int
		mark, each        bool
		whole, amount, ps string
	}{
		{"eu", "en", 1, false, false, "170" + s + "g", "170" + s + "g", ""},
		{"eu", "en", 2, false, false, "170" + s + "g" + s + "(2 pieces)", "170" + s + "g", "2 pieces"},
		{"eu", "de", 2, true, false, "170" + s + "g" + s + "℮" + s + "(2 Stück)", "170" + s + "g" + s + "℮", "2 Stück"},
		{"eu", "fr", 2, false, true, "2 × 85" + s + "g", "2 × 85" + s + "g", ""},
		{"us", "en", 2, false, false, "Net Wt 5.99" + s + "oz (170" + s + "g)" + s + "(2 pieces)", "Net Wt 5.99" + s + "oz (170" + s + "g)", "2 pieces"},
	} {
		sc := newScene()
		sc.buys(bought("i"))
		p := sc.sells("food", line("i", 100))
		k := &p.Packs[0]
		k.Pieces, k.Net, k.Average = at(unit.Count(c.pieces)), at(170*unit.Gram), at(c.mark)
		if c.each {
			k.Each = at(85 * unit.Gram)
		}
		label, _ := sc.tell(t, p, c.in, c.lang)
		if n := label.Net; n.Text != c.whole || n.Amount.Text != c.amount || n.Pieces.Text != c.ps {
			t.Errorf("%s %s: %q, %q, %q", c.in, c.lang, n.Text, n.Amount.Text, n.Pieces.Text)
		}
	}
}
