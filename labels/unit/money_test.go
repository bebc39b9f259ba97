package unit

import (
	"regexp"
	"testing"
)

func TestParseMoney(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"4.20 EUR", "4.20 EUR"},
		{"4.2 EUR", "4.20 EUR"},
		{"4 EUR", "4.00 EUR"},
		{"0.05 GBP", "0.05 GBP"},
		{"12\u00a0CHF", "12.00 CHF"},
		// Decimals of ISO 4217 (from memory): none, three.
		{"650 ISK", "650 ISK"},
		{"1.250 KWD", "1.250 KWD"},
		{"4,20 EUR", `error: "4,20 EUR": a comma in a number: write 4.20`},
		{"4.205 EUR", `error: "4.205 EUR": this number has too many decimals: write fewer decimals`},
		{"6.50 ISK", `error: "6.50 ISK": this number has too many decimals: write fewer decimals`},
		{"0 EUR", `error: "0 EUR" is not more than nothing: leave the price out where there is none`},
		{"-1 EUR", `error: "-1 EUR" is not more than nothing: leave the price out where there is none`},
		{"4.20", `error: "4.20" has no currency: write it like "4.20 EUR"`},
		{"", `error: "" is not a price: write it like "4.20 EUR"`},
		{"99999999999 EUR", `error: "99999999999 EUR": this price is too large: see whether the currency is right`},
	} {
		m, err := ParseMoney(c.in)
		got := m.String()
		if err != nil {
			got = "error: " + err.Error()
		}
		if got != c.want {
			t.Errorf("%q: %s, want %s", c.in, got, c.want)
		}
	}
	if _, err := ParseMoney("4.20 eur"); err == nil {
		t.Error("a currency in small letters was taken")
	}
}

// A unit price is arithmetic: price × 1 kg ÷ net quantity.
func TestMoneyFor(t *testing.T) {
	for _, c := range []struct {
		price string
		net   Mass
		want  string
	}{
		{"4.20 EUR", 85 * Gram, "49.41 EUR"}, // 49.4117…
		{"7.90 EUR", 170 * Gram, "46.47 EUR"},
		{"1.00 EUR", 8 * Gram, "125.00 EUR"},
		{"0.01 EUR", 400 * Gram, "0.03 EUR"}, // 0.025, halves up
		{"9.50 EUR", Kilogram, "9.50 EUR"},
		{"650 ISK", 85 * Gram, "7647 ISK"},
	} {
		p, err := ParseMoney(c.price)
		if err != nil {
			t.Fatal(err)
		}
		if got, ok := p.For(Kilogram, c.net); !ok || got.String() != c.want {
			t.Errorf("%s for %s: %s per kg, want %s", c.price, c.net, got, c.want)
		}
	}
	if _, ok := (Money{1, "EUR"}).For(Kilogram, 0); ok {
		t.Error("a price for nothing")
	}
	if _, ok := (Money{maxMinor, "EUR"}).For(1000*Kilogram, 1); ok {
		t.Error("a price beyond all numbers")
	}
}

// The example is read, and the pattern for editors agrees with the reader.
func TestMoneyShape(t *testing.T) {
	re := regexp.MustCompile(Money{}.Pattern())
	for _, s := range []string{Money{}.Example(), "4 EUR", "650 ISK", "4,20 EUR", "4.20 XXX", "EUR 4.20", "-1 EUR", "4.20"} {
		_, err := ParseMoney(s)
		if (err == nil) != re.MatchString(s) {
			t.Errorf("%q: the reader says %v, the pattern %v", s, err, re.MatchString(s))
		}
	}
}

func FuzzMoney(f *testing.F) {
	for _, s := range []string{"4.20 EUR", "650 ISK", "4,20 EUR", "", "1 KWD", "-0 EUR"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		m, err := ParseMoney(s)
		if err != nil {
			return
		}
		if again, err := ParseMoney(m.String()); err != nil || again != m {
			t.Errorf("%q is %s, which reads as %s, %v", s, m, again, err)
		}
	})
}
