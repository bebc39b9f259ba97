package preflight

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// Counter is what is known of a label that was printed at the scale: how its
// number is made, and what a kilogram costs.
type Counter struct {
	Number  gs1.CounterNumber
	PerKilo unit.Money // zero where the label bears no price
}

// counterAgrees finds a label of the scale whose number says another weight or
// price than its words, and one whose price is not that of its weight. Both are
// read out of the characters that are printed: a value carried along to the
// bars and to the words would prove nothing.
func counterAgrees(s Sheet, items []page.Item, found *diag.List) {
	if s.Counter == nil {
		return
	}
	bad := func(at diag.Pos, format string, args ...any) {
		found.Errorf(at, "counter-number", "report this: the number, the weight and the price of a label must agree", "%s: "+format, append([]any{s.What}, args...)...)
	}
	grams, weighed := metric(printedAs(items, role.Net))
	coins, priced := figures(printedAs(items, role.Price))
	i := slices.IndexFunc(items, func(it page.Item) bool { return it.Symbol != nil && it.Symbol.Kind == gs1.EAN13 })
	if i < 0 {
		bad(s.Src, "there is no number of the counter on it")
		return
	}
	it := items[i]
	_, value, err := s.Counter.Number.Read(it.Symbol.Data)
	switch {
	case err != nil:
		bad(at(s, it), "%v", err)
	case !weighed:
		bad(at(s, it), "it does not say what it weighs")
	case s.Counter.Number.Of() == "weight" && value != grams:
		bad(at(s, it), "the number says %d g, and the words say %d g", value, grams)
	case s.Counter.Number.Of() == "price" && (!priced || value != coins):
		bad(at(s, it), "the number says a price of %d, and the words say %q", value, printedAs(items, role.Price))
	}
	if s.Counter.PerKilo == (unit.Money{}) || !weighed {
		return
	}
	if pay, ok := s.Counter.PerKilo.For(unit.Mass(grams)*unit.Gram, unit.Kilogram); !ok || !priced || pay.Minor != coins {
		bad(at(s, it), "%d g at %s a kilogram cost %s, and the words say %q", grams, s.Counter.PerKilo, pay, printedAs(items, role.Price))
	}
}

// printedAs is what a label prints in a role, its parts joined by spaces.
func printedAs(items []page.Item, what role.Role) string {
	var out []string
	for _, it := range items {
		if it.Run != nil && it.Role == what {
			out = append(out, it.Run.Text)
		}
	}
	return strings.Join(out, " ")
}

// metricAmount is a mass as labels print it, in grams or kilograms, with a
// point or a comma before the decimals.
var metricAmount = regexp.MustCompile(`([\d.,]*\d)[ \x{a0}\x{202f}]*(kg|g|кг|г)(\pL*)`)

// metric reads the mass that stands in a text, in whole grams. It may stand
// there in several languages, but not two of them.
func metric(text string) (grams int64, ok bool) {
	for _, m := range metricAmount.FindAllStringSubmatch(text, -1) {
		n, sound := inGrams(strings.ReplaceAll(m[1], ",", "."), m[2])
		if !sound || m[3] != "" || ok && n != grams {
			return 0, false
		}
		grams, ok = n, true
	}
	return grams, ok
}

// inGrams is an amount in whole grams.
func inGrams(number, unit string) (int64, bool) {
	whole, part, _ := strings.Cut(number, ".")
	n, err := strconv.ParseInt(whole, 10, 64)
	switch {
	case err != nil || n > 1_000_000 || len(part) > 3:
		return 0, false
	case unit == "g" || unit == "г":
		return n, part == ""
	}
	p, err := strconv.ParseInt((part + "000")[:3], 10, 64)
	return n*1000 + p, err == nil
}

// figures reads the figures of a price, which is written to the smallest coin.
func figures(text string) (coins int64, ok bool) {
	digits := strings.Map(func(r rune) rune {
		if r < '0' || r > '9' {
			return -1
		}
		return r
	}, text)
	_, err := fmt.Sscan(strings.TrimLeft(digits, "0"), &coins)
	return coins, err == nil
}
