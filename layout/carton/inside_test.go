package carton

import (
	"strings"
	"testing"

	"chablon/labels/gs1"
	"chablon/labels/shop"
	"chablon/layout/layouttest"
)

// say is all that the bars of label 1 say.
func say(s *Set) string {
	var out []string
	for _, b := range symbols(s) {
		out = append(out, b.Symbol.Data)
	}
	return strings.ReplaceAll(strings.Join(out, " "), gs1.FNC1, "|")
}

// Which number names a carton (GGS release 18, 3.2.2 to 3.2.4: a trade item has
// its own GTIN in (01), which says how many packs are in it; what is none names
// its contents by (02) and counts them by (37), beside its SSCC). A grouping of
// packs may have a GTIN-12, GTIN-13 or GTIN-14 (GGS 2.1.7; from memory).
func TestWhichNumberNamesTheCarton(t *testing.T) {
	const date, batch, sscc = "17260319", "10L26076A", "00095200010000000010"
	for _, c := range []struct{ name, gtin, want string }{
		{"its own of 14 digits", "19520001000017", "0119520001000017" + date + " " + batch + " " + sscc},
		{"its own of 13 digits", "9520001000997", "0109520001000997" + date + " " + batch + " " + sscc},
		{"its own of 12 digits", "012345678905", "0100012345678905" + date + " " + batch + " " + sscc},
		{"none of its own", "", "0209520001000010" + date + " " + batch + "|3712 " + sscc},
	} {
		k := of(t, layouttest.Shop(t), "pear-hazelnut-tartlet")
		p := *k.Facts.Product
		box := *p.Carton
		if box.GTIN.V = c.gtin; c.gtin == "" {
			box.GTIN = shop.Text{}
		}
		p.Carton, k.Facts.Product = &box, &p
		if got := say(composed(t, barsOnly(k))); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}
