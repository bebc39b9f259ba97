package words_test

import (
	"testing"

	"chablon/labels/unit"
	"chablon/labels/words"
)

// As CLDR 48 prints them (through ICU 78.2, narrow signs; the code for the
// franc): 4.20 EUR, 4.20 CHF.
func TestMoneyAgainstCLDR(t *testing.T) {
	after := [2]string{"4,20\u00a0€", "4,20\u00a0CHF"}
	before := [2]string{"€4.20", "CHF\u00a04.20"}
	want := map[string][2]string{
		"en": before, "ga": before, "mt": before,
		"nl": {"€\u00a04,20", "CHF\u00a04,20"},
		"tr": {"€4,20", "CHF\u00a04,20"},
	}
	each(t, func(t *testing.T, l *words.Lang) {
		w, ok := want[l.Code()]
		if !ok {
			w = after
		}
		for i, cur := range []string{"EUR", "CHF"} {
			if got := l.Money(unit.Money{Minor: 420, Currency: cur}); got != w[i] {
				t.Errorf("4.20 %s is %q, CLDR has %q", cur, got, w[i])
			}
		}
	})
}

func TestMoney(t *testing.T) {
	for _, c := range []struct {
		lang  string
		money unit.Money
		want  string
	}{
		{"en", unit.Money{Minor: 5, Currency: "GBP"}, "£0.05"},
		{"de", unit.Money{Minor: 650, Currency: "ISK"}, "650\u00a0ISK"},
		{"fr", unit.Money{Minor: 123456789, Currency: "EUR"}, "1\u202f234\u202f567,89\u00a0€"},
	} {
		if got := get(t, c.lang).Money(c.money); got != c.want {
			t.Errorf("%s: %s is %q, want %q", c.lang, c.money, got, c.want)
		}
	}
}
