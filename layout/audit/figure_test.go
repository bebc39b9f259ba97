package audit

import (
	"testing"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
)

func told(t *testing.T, lang string) *teller {
	t.Helper()
	l, ok := words.Get(lang)
	if !ok {
		t.Fatal(lang)
	}
	return &teller{Teller: compose.Tell("audit sheet", diag.Pos{}, &diag.List{}, l), Audit: Audit{Lang: l}}
}

// Butter biscuits: flour 100, sugar 35, butter 50, eggs 10, baked to 169 g. The
// butter is 29.6 % of the finished food (the example of the UK guidance on
// quantitative declarations, from memory; 50/169 = 29.586 %).
func TestButterBiscuits(t *testing.T) {
	const g = unit.Gram
	en := told(t, "en")
	if got := en.per100(50*g, 169*g); got != "29.59\u00a0g" {
		t.Errorf("used for 100 g: %s", got)
	}
	if got := en.share(50*g, 195*g); got != "25.64\u00a0%" { // 50/195
		t.Errorf("share of all that goes in: %s", got)
	}
	if got := en.per100(0, 169*g) + en.per100(g, 0) + en.share(g, 0); got != "0.00\u00a0g––" {
		t.Errorf("of nothing: %s", got)
	}
	if got := en.per100(g, 100_000*g); got != "1.0\u00a0mg" {
		t.Errorf("very little: %s", got)
	}
}

// Sulphur dioxide: dried apricots with 800 mg/kg at 12 % of the food are 96 mg/kg
// (arithmetic; the limit is that of Reg. (EU) 1169/2011 Annex II point 12).
func TestMilligramsPerKilogram(t *testing.T) {
	so2 := (120 * unit.Gram).Of(800 * unit.MgPerKg)
	if got := told(t, "de").perMillion(so2.In(unit.Kilogram)); got != "96,0\u00a0mg/kg" {
		t.Errorf("sulphur dioxide: %s", got)
	}
}
