package ticket_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
)

// phrase draws words such as a label may have.
func phrase(most int) *rapid.Generator[string] {
	word := rapid.StringMatching(`[A-ZÄÉa-zäéß]{1,14}[,.]?`)
	return rapid.Custom(func(t *rapid.T) string {
		return strings.Join(rapid.SliceOfN(word, 1, most).Draw(t, "words"), " ")
	})
}

// Whatever is said, it stands on the ticket in full and apart from all else, or
// the ticket is refused with one finding.
func TestAnythingSaid(t *testing.T) {
	sh, faces := layouttest.Shop(t), layouttest.Faces(t)
	stocks := []string{"ticket-a7-tent", "a4-ticket-2", "shelf-100x39", "shelf-100x60"}
	ids := market.AllergenIDs()
	rapid.Check(t, func(r *rapid.T) {
		var said, found diag.List
		codes := rapid.SampledFrom([][]string{{"en"}, {"de", "fr"}}).Draw(r, "languages")
		k := of(t, sh, "pear-hazelnut-tartlet", rapid.SampledFrom(stocks).Draw(r, "stock"), codes, &said)
		k.Facts.Contains = nil
		for _, i := range rapid.SliceOfNDistinct(rapid.IntRange(0, len(ids)-1), 0, 8, rapid.ID).Draw(r, "allergens") {
			if _, known := k.Facts.Market.Allergens.Find(ids[i]); known {
				k.Facts.Contains = append(k.Facts.Contains, ids[i])
			}
		}
		p := *k.Facts.Product
		p.About = nil
		k.Facts.Product = &p
		for i := range k.Told {
			k.Told[i].Name.Text = phrase(9).Draw(r, "name")
			k.Told[i].Lists[0].Text, k.Told[i].Lists[0].Strong = phrase(90).Draw(r, "list"), nil
			k.Told[i].May.Text, k.Told[i].May.Strong = phrase(12).Draw(r, "may"), nil
		}
		pack := *k.Pack
		pack.Price.V = unit.Money{Minor: rapid.Int64Range(1, 1_000_000_000).Draw(r, "price"), Currency: "EUR"}
		k.Pack = &pack
		if pages := set(k, faces, &found); pages != nil {
			checked(t, k, pages, faces)
		} else {
			layouttest.Refused(t, &found)
		}
		if t.Failed() {
			r.FailNow()
		}
	})
}
