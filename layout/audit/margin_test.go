package audit_test

import (
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/margin"
	"chablon/layout/audit"
)

// A loss stands there with the range in which the label says the same, and with
// what it says beyond; whether somebody weighed it is said too. The figures are
// those that labels/margin works by hand.
func TestMargins(t *testing.T) {
	for lang, want := range map[string][]string{
		"en": {"This label changes if", "11.6 % – 13.7 %", "pear 41 % » pear 40 %", "measured 12.03.2026", "assumed"},
		"de": {"Dieses Etikett ändert sich, wenn", "11,6 % – 13,7 %", "angenommen"},
		"fr": {"Cette étiquette change si", "supposé"},
	} {
		sh, faces := demo(t)
		a := of(t, sh, "pear-hazelnut-tartlet", "eu", lang)
		a.Margins = margin.Of(margin.Question{Shop: a.Shop, Product: a.Facts.Product, Pack: a.Facts.Pack, Market: a.Facts.Market, Made: a.Facts.Made, Lang: a.Lang},
			margin.Words(), margin.Tolerance(a.Facts.Market), margin.Whole())
		var found diag.List
		pages := audit.Compose(a, faces, &found)
		if found.Errors() > 0 {
			t.Fatal(found.All())
		}
		checked(t, a, pages)
		got := bare(pages)
		for _, w := range want {
			if !strings.Contains(got, strings.ReplaceAll(w, " ", "")) {
				t.Errorf("%s: no %q in\n%s", lang, w, got)
			}
		}
	}
}
