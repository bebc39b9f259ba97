package unit

import (
	"fmt"
	"slices"
	"strings"
)

// Money is a price: a whole number of the smallest unit of a currency of
// ISO 4217, such as 420 cents of EUR.
type Money struct {
	Minor    int64
	Currency string
}

// currency is one currency with the number of decimals of its smallest unit.
type currency struct {
	code     string
	decimals int
}

// currencies are those of the markets here and of their neighbours; decimals
// as in ISO 4217 (from memory).
func currencies() []currency {
	return []currency{{"EUR", 2}, {"GBP", 2}, {"CHF", 2}, {"USD", 2}, {"CAD", 2}, {"AUD", 2}, {"NZD", 2},
		{"SEK", 2}, {"DKK", 2}, {"NOK", 2}, {"ISK", 0}, {"PLN", 2}, {"CZK", 2}, {"HUF", 2}, {"RON", 2}, {"BGN", 2},
		{"TRY", 2}, {"UAH", 2}, {"RSD", 2}, {"JPY", 0}, {"KWD", 3}}
}

// Currencies lists the codes that a price may have.
func Currencies() []string {
	var codes []string
	for _, c := range currencies() {
		codes = append(codes, c.code)
	}
	return codes
}

// decimalsOf tells how many decimals a currency has.
func decimalsOf(code string) (int, bool) {
	i := slices.IndexFunc(currencies(), func(c currency) bool { return c.code == code })
	if i < 0 {
		return 0, false
	}
	return currencies()[i].decimals, true
}

// maxMinor keeps prices far below what a unit price could overflow.
const maxMinor = 1_000_000_000

// ParseMoney reads "4.20 EUR": more than nothing, no finer than the smallest
// coin of the currency, below ten million.
func ParseMoney(s string) (Money, error) {
	const like = `write it like "4.20 EUR"`
	num, code := splitNumber(clean(s))
	d, ok := decimalsOf(code)
	switch {
	case num == "":
		return Money{}, bad("unit", s, like, " is not a price")
	case code == "":
		return Money{}, bad("unit", s, like, " has no currency")
	case !ok:
		return Money{}, bad("unit", s, "use the code of ISO 4217, such as EUR, in capital letters", ": currency %s is not one of %s", quote(code), strings.Join(Currencies(), ", "))
	}
	worth := int64(1)
	for range d {
		worth *= 10
	}
	n, err := decimal(s, num, worth)
	switch {
	case err != nil:
		return Money{}, err
	case n <= 0:
		return Money{}, bad("number", s, "leave the price out where there is none", " is not more than nothing")
	case n > maxMinor:
		return Money{}, bad("number", s, "see whether the currency is right", ": this price is too large")
	}
	return Money{n, code}, nil
}

// UnmarshalText reads a price with its currency.
func (m *Money) UnmarshalText(b []byte) (err error) {
	*m, err = ParseMoney(string(b))
	return err
}

// Decimals is how many decimals the currency has.
func (m Money) Decimals() int {
	d, _ := decimalsOf(m.Currency)
	return d
}

// For is the price of the mass much when m is the price of net, rounded to the
// smallest unit of the currency, halves up. It reports false when net is
// nothing.
func (m Money) For(much, net Mass) (Money, bool) {
	if net <= 0 || much < 0 {
		return Money{}, false
	}
	n, ok := TryMulDiv(m.Minor, int64(much), int64(net))
	return Money{n, m.Currency}, ok
}

// String gives "4.20 EUR".
func (m Money) String() string {
	d := m.Decimals()
	digits := fmt.Sprintf("%0*d", d+1, m.Minor)
	if d == 0 {
		return digits + " " + m.Currency
	}
	cut := len(digits) - d
	return digits[:cut] + "." + digits[cut:] + " " + m.Currency
}

// Pattern is the regular expression of a price.
func (Money) Pattern() string {
	return `^\+?` + digits + space + "(" + strings.Join(Currencies(), "|") + ")$"
}

// Example is a price as it is written.
func (Money) Example() string { return "4.20 EUR" }
