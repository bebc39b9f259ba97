package print

import (
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/practice"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// A published worked example is tried here, or it is said why not. They are of
// class A (a law, a standard, a paper) or B (an authority, a university); the
// file gives inputs, what is expected, the source and how it was read.
func TestWorkedExamples(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("testdata", "worked-examples.tsv"))
	if err != nil {
		t.Fatal(err)
	}
	tried, not, seen := worked(), notTried(), map[string]bool{}
	for _, line := range strings.Split(strings.TrimSpace(string(data)), "\n")[1:] {
		f := strings.Split(line, "\t")
		id, source := f[0], f[4]
		seen[id] = true
		try, why := tried[id], not[id]
		switch {
		case (try == nil) == (why == ""):
			t.Errorf("%s is to be tried, or it is to be said why not, and not both", id)
		case try != nil:
			t.Run(id, func(t *testing.T) {
				if got := try(t); got != "" {
					t.Errorf("%s (%s): %s", f[2]+" → "+f[3], source, got)
				}
			})
		}
	}
	for id := range tried {
		if !seen[id] {
			t.Errorf("%s is no example of the file", id)
		}
	}
	for id := range not {
		if !seen[id] {
			t.Errorf("%s is no example of the file", id)
		}
	}
}

// notTried are the examples of what this program does not do.
func notTried() map[string]string {
	samples := "a reference test of packs is for who inspects them; this program weighs none"
	doses := "doses of allergens are for an assessment of risk, which a person makes and the shop only refers to"
	milk := "no kitchen here pasteurises milk; cards take the limit that the shop writes"
	return map[string]string{
		"nut-10": "portions that do not go into a pack without a rest are refused, so none is rounded",
		"net-02": samples, "net-03": samples, "net-04": samples,
		"gs1-07":   "documents of EPCIS are written and not read; what is written is checked in labels/trace/epcis",
		"gs1-10":   "the syntax of 2018 with words in place of numbers; the standard of today has numbers alone",
		"gs1-23":   "from memory, and against another reading of the greatest module (0.990 mm)",
		"bake-19":  "no hydrometer is read here",
		"bake-21":  "no solubility is computed here",
		"heat-11":  "from memory; labels/heat counts all cocoa butter as form V",
		"haccp-08": milk, "haccp-09": milk, "haccp-10": milk, "haccp-11": milk, "haccp-12": milk,
		"haccp-14": "egg products are bought, and kept as their sheet says",
		"all-01":   doses, "all-03": doses, "all-04": doses, "all-05": doses,
	}
}

// worked are the examples that are tried, by id; each says what is wrong, or "".
func worked() map[string]func(*testing.T) string {
	out := map[string]func(*testing.T) string{}
	for id, file := range map[string]string{"quid-01": "percent-sultanas", "quid-02": "percent-biscuits", "quid-04": "name-mousse", "quid-05": "percent-pizza", "quid-06": "percent-au"} {
		out[id] = func(t *testing.T) string { return asFiled(t, file) }
	}
	for _, more := range []map[string]func(*testing.T) string{workedFigures(), workedCodes(), workedDays(), workedSugar()} {
		for id, f := range more {
			out[id] = f
		}
	}
	return out
}

// asFiled tries a case of the law.
func asFiled(t *testing.T, name string) string {
	c := readCase(t, filepath.Join(lawFolder, name+".yaml"))
	said, found := c.say(t, pantry(t))
	return strings.Join(c.judge(said, found), "; ")
}

func marketOf(code string) *market.Market { m, _ := market.Get(code); return m }

// shown is how a market prints a value, in the unit of the line.
func shown(code, key string, num, den int64) string {
	m := marketOf(code)
	n, _ := m.Nutrition.Find(key)
	v := new(big.Int).Mul(big.NewInt(num), big.NewInt(int64(market.Worth(n.Unit))))
	r, ok := m.Nutrition.Round(key, market.Amount(new(big.Int).Div(v, big.NewInt(den)).Int64()))
	if !ok {
		return "no figure"
	}
	less := ""
	if r.Less {
		less = "<"
	}
	s := new(big.Rat).SetFrac(big.NewInt(r.N), new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(r.Decimals)), nil))
	return less + strings.TrimSuffix(strings.TrimRight(s.FloatString(3), "0"), ".")
}

// all says which of some values are not printed as published.
func all(code string, keys string, want map[string][2]int64) (wrong string) {
	for _, key := range strings.Fields(keys) {
		for w, v := range want {
			if got := shown(code, key, v[0], v[1]); got != w {
				wrong += fmt.Sprintf("%s of %d/%d is %s, not %s; ", key, v[0], v[1], got, w)
			}
		}
	}
	return wrong
}

func is(ok bool, format string, args ...any) string {
	if ok {
		return ""
	}
	return fmt.Sprintf(format, args...)
}

func workedFigures() map[string]func(*testing.T) string {
	water := func(code string, below, at int64) string {
		w := marketOf(code).List.Water
		whole := unit.Mass(100_000) * unit.Gram
		a, b := w.Holds(unit.Mass(below)*unit.Gram, whole), w.Holds(unit.Mass(at)*unit.Gram, whole)
		return is(a && !b, "left out %v and %v", a, b)
	}
	const fats, carbs = "fat saturates trans", "carbohydrate fibre sugars"
	return map[string]func(*testing.T) string{
		"water-01": func(*testing.T) string { return water("au", 4900, 5000) },
		"water-02": func(*testing.T) string { return water("eu", 5000, 5006) },
		"nut-02":   func(*testing.T) string { return all("us", "energy-kcal", map[string][2]int64{"0": {49, 10}}) },
		"nut-03":   func(*testing.T) string { return all("us", "energy-kcal", map[string][2]int64{"45": {47, 1}}) },
		"nut-04": func(*testing.T) string {
			return all("us", "energy-kcal", map[string][2]int64{"5": {5, 1}, "50": {50, 1}, "30": {28, 1}})
		},
		"nut-05": func(*testing.T) string {
			return all("us", "energy-kcal", map[string][2]int64{"50": {54, 1}, "60": {55, 1}, "110": {112, 1}})
		},
		"nut-06": func(*testing.T) string {
			return all("us", fats, map[string][2]int64{"0": {49, 100}, "0.5": {5, 10}, "4.5": {46, 10}, "5": {54, 10}})
		},
		"nut-08": func(*testing.T) string {
			return all("us", "sodium", map[string][2]int64{"0": {49, 10}, "5": {5, 1}, "140": {140, 1}, "150": {146, 1}})
		},
		"nut-09": func(*testing.T) string {
			return all("us", carbs, map[string][2]int64{"0": {49, 100}, "<1": {9, 10}, "1": {1, 1}, "2": {24, 10}})
		},
		"nut-11": func(*testing.T) string { return workedPercents() },
		"price-01": func(*testing.T) string {
			u, _ := marketOf("gb").UnitPrice()
			a, _ := u.Of(unit.Money{Minor: 8284, Currency: "GBP"}, 100*unit.Kilogram)
			b, _ := u.Of(unit.Money{Minor: 8285, Currency: "GBP"}, 100*unit.Kilogram)
			return is(a.N == 828 && b.N == 829, "%d and %d tenths of a penny", a.N, b.N)
		},
		"price-02": func(*testing.T) string {
			u, ok := marketOf("gb").UnitPrice()
			return is(ok && u.Per == unit.Kilogram, "for %s", u.Per)
		},
		"haccp-01": func(*testing.T) string {
			a, b, ok := marketOf("us").CoolingIn("US")
			return is(ok && a.Within == 2*unit.Hour && b.Within == 6*unit.Hour && a.From.C == unit.Celsius(57) && a.To.C == unit.Celsius(21) && b.To.C == unit.Celsius(5), "%+v, %+v", a, b)
		},
		"haccp-04": func(*testing.T) string { return limitAt("gb", "cold", 8) },
		"haccp-05": func(*testing.T) string { return limitAt("gb", "hot", 63) },
	}
}

func limitAt(code, key string, c int64) string {
	for _, l := range marketOf(code).Kitchen {
		if l.Key == key {
			return is(l.To.C == unit.Celsius(c), "%s", l.To.C)
		}
	}
	return "no limit"
}

func workedCodes() map[string]func(*testing.T) string {
	link := func(want string, els ...gs1.Element) func(*testing.T) string {
		return func(*testing.T) string {
			got, err := gs1.Link("https://id.gs1.org", els)
			return is(err == nil && got == want, "%s, %v", got, err)
		}
	}
	el := func(ai, v string) gs1.Element { return gs1.Element{AI: ai, Value: v} }
	um := func(l unit.Length) int64 { return int64(l / unit.UM) }
	size := func(kind string, use gs1.Use, least, most int64) string {
		s, ok := gs1.SizeOf(kind, use)
		return is(ok && um(s.X[0]) == least && um(s.X[2]) == most, "%v", s.X)
	}
	ean := func(use gs1.Use, x, h [3]int64) string {
		s, _ := gs1.SizeOf(gs1.EAN13, use)
		for i := range 3 {
			if um(s.X[i]) != x[i] || um(s.Height[i]) != h[i] {
				return fmt.Sprintf("%v, %v", s.X, s.Height)
			}
		}
		return is(s.Quiet == [4]int{11, 0, 7, 0}, "%v", s.Quiet)
	}
	return map[string]func(*testing.T) string{
		"gs1-01": func(*testing.T) string {
			d, err := gs1.CheckDigit("890400021003")
			return is(err == nil && d == '7' && gs1.Valid("8904000210037") == nil, "%c, %v", d, err)
		},
		"gs1-02": link("https://id.gs1.org/01/04012345987652", el("01", "04012345987652")),
		"gs1-03": link("https://id.gs1.org/01/04012345123456/10/998877", el("01", "04012345123456"), el("10", "998877")),
		"gs1-04": link("https://id.gs1.org/01/00614141777778/10/987", el("01", "00614141777778"), el("10", "987")),
		"gs1-05": link("https://id.gs1.org/01/04012345666663", el("01", "04012345666663")),
		"gs1-19": func(*testing.T) string {
			linear, _ := gs1.SizeOf(gs1.EAN13, gs1.Retail)
			two, _ := gs1.SizeOf(gs1.QR, gs1.Retail)
			trade, _ := gs1.SizeOf(gs1.QR, gs1.Trade)
			up := func(l unit.Length) int64 { return (um(l)*3 + 1) / 2 }
			return is(up(linear.X[0]) == um(two.X[0]) && up(linear.X[1]) == um(two.X[1]) && up(linear.X[2]) == um(two.X[2]) && up(495*unit.UM) == um(trade.X[0]), "%v, %v, %v", linear.X, two.X, trade.X)
		},
		"gs1-20": func(*testing.T) string { return size(gs1.GS1DataMatrix, gs1.Retail, 375, 990) },
		"gs1-24": func(*testing.T) string { return size(gs1.GS1DataMatrix, gs1.Trade, 743, 1500) },
		"gs1-25": func(*testing.T) string {
			return ean(gs1.Retail, [3]int64{264, 330, 660}, [3]int64{18280, 22850, 45700})
		},
		"gs1-26": func(*testing.T) string {
			return ean(gs1.Trade, [3]int64{495, 660, 660}, [3]int64{34280, 45700, 45700})
		},
		"gs1-29": func(*testing.T) string {
			q, _ := gs1.SizeOf(gs1.QR, gs1.Retail)
			d, _ := gs1.SizeOf(gs1.GS1DataMatrix, gs1.Retail)
			return is(q.Quiet == [4]int{4, 4, 4, 4} && d.Quiet == [4]int{1, 1, 1, 1}, "%v, %v", q.Quiet, d.Quiet)
		},
		"date-04": func(*testing.T) string {
			d, whole, err := gs1.ReadDate("130200", unit.Date{Year: 2012, Month: time.June, Day: 1})
			return is(err == nil && whole && d == unit.Date{Year: 2013, Month: time.February, Day: 28}, "%s, %v, %v", d, whole, err)
		},
	}
}

func workedDays() map[string]func(*testing.T) string {
	eu := marketOf("eu")
	made := unit.Date{Year: 2011, Month: time.January, Day: 1}
	return map[string]func(*testing.T) string{
		"date-01": func(*testing.T) string {
			end := unit.Date{Year: 2011, Month: time.December, Day: 31}
			p := market.Print(market.YearOnly, end)
			return is(p.Last == end && p.End, "%+v", p)
		},
		"date-02": func(*testing.T) string {
			return is(strings.Join(eu.Dates.Order, " ") == "day month year", "%v", eu.Dates.Order)
		},
		"date-03": func(*testing.T) string {
			a, b, c := eu.DateForm(made, made.AddMonths(3)), eu.DateForm(made, made.AddMonths(18)), eu.DateForm(made, made.AddMonths(19))
			return is(a == market.DayMonth && b == market.MonthYear && c == market.YearOnly, "%s, %s, %s", a, b, c)
		},
	}
}

// workedPercents: below 2 % of the daily intake 0 or 2, to 10 % by twos, to 50 %
// by fives, above by tens.
func workedPercents() (wrong string) {
	us := marketOf("us").Nutrition
	n, _ := us.Find("calcium")
	for _, c := range []struct{ tenths, want int64 }{{15, 0}, {25, 2}, {31, 4}, {95, 10}, {130, 15}, {480, 50}, {560, 60}} {
		v := market.Amount(int64(n.Reference) / 1000 * c.tenths)
		got, ok := us.PercentFor("calcium", func(string) market.Amount { return v })
		if !ok || got.N != c.want && !(c.tenths < 20 && got.N == 2) {
			wrong += fmt.Sprintf("%d ‰ is %d %%, not %d %%; ", c.tenths, got.N, c.want)
		}
	}
	return wrong
}

// workedSugar: water and syrup by the height of the kitchen. Two extensions
// differ, 1 °F for 500 ft and 1 °C for 300 m; here the second is used, to half a
// degree, so the figures of the first are met within 1.5 °F.
func workedSugar() map[string]func(*testing.T) string {
	const foot = 304_800 * unit.UM
	kitchen := func(feet int64) *shop.Profile {
		return &shop.Profile{Altitude: diag.At[unit.Length]{V: unit.Length(feet) * foot, Pos: diag.Pos{File: "shop.yaml", Line: 1, Col: 1}}}
	}
	near := func(got unit.Temp, f int64) bool {
		d := got - unit.Fahrenheit(f)
		return max(d, -d)*2 <= 3*unit.Temp(unit.DegF)
	}
	cooked := func(t *testing.T, at int64, lo, hi, wantLo, wantHi int64) string {
		got := scale.Boiled(unit.Target{Lo: unit.Fahrenheit(lo), Hi: unit.Fahrenheit(hi)}, scale.Boiling(kitchen(at)))
		return is(near(got.Lo, wantLo) && near(got.Hi, wantHi), "%s to %s", got.Lo, got.Hi)
	}
	return map[string]func(*testing.T) string{
		"bake-15": func(t *testing.T) string {
			return cooked(t, 5000, 234, 240, 224, 230) + cooked(t, 7500, 234, 240, 219, 225)
		},
		"bake-16": func(*testing.T) string {
			got := scale.Boiled(unit.Target{Lo: unit.Fahrenheit(280), Hi: unit.Fahrenheit(280)}, unit.Fahrenheit(205))
			return is(got.Lo == unit.Fahrenheit(273), "%s", got.Lo)
		},
		"bake-17": func(*testing.T) (wrong string) {
			for _, c := range [][2]int64{{113, 116}, {118, 121}, {121, 130}, {132, 143}, {149, 154}} {
				if _, ok := practice.Sanity("boil", "syrup", practice.AtReach, unit.Target{Lo: unit.Celsius(c[0]), Hi: unit.Celsius(c[1])}); !ok {
					wrong += fmt.Sprintf("%d to %d °C is doubted; ", c[0], c[1])
				}
			}
			return wrong
		},
		"therm-02": func(*testing.T) string {
			got := scale.Boiling(kitchen(5000))
			return is(near(got, 202), "%s", got)
		},
	}
}
