package market_test

import (
	"testing"

	"chablon/labels/market"
	"chablon/labels/unit"
)

// Directive 76/211/EEC Annex I 2.4 (tolerances, read) and 3.1 (heights, from
// memory; the same breaks stand on a trade page). T2 is the quantity less two
// tolerances.
func TestShortfallAndDigits(t *testing.T) {
	for _, c := range []struct{ net, tne, t2, digits, source string }{
		{"45 g", "4.1 g", "36.8 g", "2 mm", "9 % = 4.05, rounded up to 0.1"},
		{"50 g", "4.5 g", "41 g", "2 mm", "both rows agree"},
		{"50.1 g", "4.5 g", "41.1 g", "3 mm", "boundary"},
		{"100 g", "4.5 g", "91 g", "3 mm", "both rows agree"},
		{"175 g", "7.9 g", "159.2 g", "3 mm", "4.5 % = 7.875, rounded up"},
		{"200 g", "9 g", "182 g", "3 mm", "upper limit included"},
		{"250 g", "9 g", "232 g", "4 mm", "fixed"},
		{"400 g", "12 g", "376 g", "4 mm", "3 %; a circulating 15 g is wrong"},
		{"500 g", "15 g", "470 g", "4 mm", "3 %"},
		{"750 g", "15 g", "720 g", "4 mm", "fixed"},
		{"1 kg", "15 g", "970 g", "4 mm", "upper limit included"},
		{"2.5 kg", "37.5 g", "2425 g", "6 mm", "1.5 %"},
		{"10 kg", "150 g", "9700 g", "6 mm", "1.5 %"},
		{"5 g", "0.5 g", "4 g", "2 mm", "9 % = 0.45, rounded up"},
		{"100.1 g", "4.6 g", "90.9 g", "3 mm", "4.5 % = 4.5045, rounded up"},
		{"200.1 g", "9 g", "182.1 g", "4 mm", "fixed"},
		{"300.5 g", "9.1 g", "282.3 g", "4 mm", "3 % = 9.015, rounded up"},
		{"1000.5 g", "15.1 g", "970.3 g", "6 mm", "1.5 % = 15.0075, rounded up"},
		{"162 g", "7.3 g", "147.4 g", "3 mm", "4.5 % = 7.29, rounded up"},
	} {
		for _, code := range []string{"eu", "ie", "gb", "ch"} {
			n := get(t, code).Net
			q := market.Quantity{Mass: mass(t, c.net)}
			s, ok := n.Shortfall(q)
			if !ok || s.TNE != mass(t, c.tne) || s.T2 != mass(t, c.t2) || s.T1 != q.Mass-s.TNE {
				t.Errorf("%s %s: %s and %s, want %s and %s (%s %s)", code, c.net, s.TNE, s.T2, c.tne, c.t2, d76, c.source)
			}
			d, ok := n.DigitHeight(q, 0)
			if !ok || d.Least != length(t, c.digits) || d.Measure != market.Digit {
				t.Errorf("%s %s: figures %s, want %s", code, c.net, d.Least, c.digits)
			}
		}
	}
}

func TestShortfallScope(t *testing.T) {
	for _, c := range []struct {
		market, net string
		ok          bool
	}{
		{"eu", "4.9 g", false},
		{"eu", "10.1 kg", false},
		{"gb", "12 kg", true}, // gov.uk, packaged goods: 150 g from 10 to 15 kg
		{"gb", "25.1 kg", false},
		{"us", "100 g", false},
		{"eu", "0 g", false},
	} {
		if s, ok := get(t, c.market).Net.Shortfall(market.Quantity{Mass: mass(t, c.net)}); ok != c.ok {
			t.Errorf("%s %s: %v, %v", c.market, c.net, s, ok)
		}
	}
	s, _ := get(t, "gb").Net.Shortfall(market.Quantity{Mass: 12 * unit.Kilogram})
	if s.TNE != 150*unit.Gram {
		t.Errorf("12 kg in Great Britain: %s, want 150 g", s.TNE)
	}
	// 20 kg × 1 %
	if s, _ = get(t, "gb").Net.Shortfall(market.Quantity{Mass: 20 * unit.Kilogram}); s.TNE != 200*unit.Gram {
		t.Errorf("20 kg in Great Britain: %s, want 200 g", s.TNE)
	}
	// The same figures hold for millilitres.
	if s, _ = get(t, "eu").Net.Shortfall(market.Quantity{Volume: 175 * unit.Millilitre}); s.TNE != mass(t, "7.9 g") {
		t.Errorf("175 ml: %s, want 7.9", s.TNE)
	}
	if sign := get(t, "eu").Net.Sign.Least; sign != 3*unit.MM {
		t.Errorf("e-mark %s, want 3 mm (%s 3.3)", sign, d76)
	}
}

func TestDigitsByPanel(t *testing.T) {
	in2 := func(w, h int64) unit.Area { return unit.AreaOf(unit.Length(w)*unit.Inch, unit.Length(h)*unit.Inch) }
	for _, c := range []struct {
		market string
		panel  unit.Area
		want   string
		source string
	}{
		{"us", in2(1, 5), "1.5875 mm", cfr101 + ".7(i) (from memory): 5 in², 1/16 in"},
		{"us", in2(4, 6), "3.175 mm", cfr101 + ".7(i): 24 in², 1/8 in"},
		{"us", in2(5, 5), "3.175 mm", cfr101 + ".7(i): 25 in²"},
		{"us", in2(5, 6), "4.7625 mm", cfr101 + ".7(i): 30 in², 3/16 in"},
		{"us", in2(10, 10), "4.7625 mm", cfr101 + ".7(i): 100 in²"},
		{"us", in2(10, 11), "6.35 mm", cfr101 + ".7(i): 110 in², 1/4 in"},
		{"us", in2(20, 21), "12.7 mm", cfr101 + ".7(i): 420 in², 1/2 in"},
		{"ca", 32 * unit.CM2, "1.6 mm", "C.R.C., c. 417, s. 14(2)(a)"},
		{"ca", 33 * unit.CM2, "3.2 mm", "C.R.C., c. 417, s. 14(2)(b)"},
		{"ca", 258 * unit.CM2, "3.2 mm", "C.R.C., c. 417, s. 14(2)(b)"},
		{"ca", 645 * unit.CM2, "6.4 mm", "C.R.C., c. 417, s. 14(2)(c)"},
		{"ca", 2580 * unit.CM2, "9.5 mm", "C.R.C., c. 417, s. 14(2)(d)"},
		{"ca", 2581 * unit.CM2, "12.7 mm", "C.R.C., c. 417, s. 14(2)(e)"},
	} {
		got, ok := get(t, c.market).Net.DigitHeight(market.Quantity{Mass: 170 * unit.Gram}, c.panel)
		if !ok || got.Least != length(t, c.want) || got.Measure != market.CapsOrO {
			t.Errorf("%s panel %s: %s, want %s (%s)", c.market, c.panel, got.Least, c.want, c.source)
		}
	}
	if got, ok := get(t, "us").Net.DigitHeight(market.Quantity{Mass: unit.Gram}, 0); ok {
		t.Errorf("panel not known, but %v", got)
	}
	if got, ok := get(t, "au").Net.DigitHeight(market.Quantity{Mass: unit.Gram}, unit.CM2); ok {
		t.Errorf("no rule read for Australia, but %v", got)
	}
}

// 1 lb = 453.59237 g exactly (NIST Handbook 44, Appendix C).
func TestOunces(t *testing.T) {
	if got := (12 * market.Ounce).Round(unit.Milligram); got.String() != "340.194 g" {
		t.Errorf("12 oz = %s, want 340.194 g", got)
	}
	for _, c := range []struct {
		mass     unit.Mass
		decimals int
		want     int64
	}{
		{12 * market.Ounce, 2, 1200},
		{12*market.Ounce - 1, 2, 1199},
		{340 * unit.Gram, 2, 1199},
		{170 * unit.Gram, 1, 59}, // 5.997 oz
		{market.Pound, 0, 16},
		{0, 2, 0},
	} {
		if got := market.InOunces(c.mass, c.decimals); got != c.want {
			t.Errorf("%s = %d × 10^-%d oz, want %d", c.mass, got, c.decimals, c.want)
		}
	}
	// 29.5735295625 ml, so 355 ml is 12.0039 fl oz
	if got := market.InFluidOunces(355*unit.Millilitre, 2); got != 1200 {
		t.Errorf("355 ml = %d/100 fl oz, want 1200", got)
	}
	if got := market.InFluidOunces(29_573_529_562, 3); got != 999 {
		t.Errorf("half a picolitre below a fluid ounce = %d/1000, want 999", got)
	}
}
