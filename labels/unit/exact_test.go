package unit_test

import (
	"fmt"
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/unit"
)

// Reference: math/big of the Go library.
func TestMulDivAgainstBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Int64().Draw(t, "a"), rapid.Int64().Draw(t, "b")
		c := rapid.Int64().Draw(t, "c")
		got, ok := unit.TryMulDiv(a, b, c)
		if c == 0 {
			if ok {
				t.Fatalf("division by zero gave %d", got)
			}
			return
		}
		want := rounded(a, b, c)
		fits := want.IsInt64() && want.Int64() != math.MinInt64
		if ok != fits && want.CmpAbs(big.NewInt(math.MaxInt64)) != 0 { // the very edge may be refused
			t.Fatalf("%d×%d÷%d: ok %v, want %v", a, b, c, ok, want)
		}
		if ok && got != want.Int64() {
			t.Fatalf("%d×%d÷%d = %d, want %d", a, b, c, got, want)
		}
	})
}

// rounded is a×b÷c to the nearest integer, halves away from zero.
func rounded(a, b, c int64) *big.Int {
	n := new(big.Int).Mul(big.NewInt(a), big.NewInt(b))
	d := big.NewInt(c)
	neg := n.Sign()*d.Sign() < 0
	n.Abs(n).Lsh(n, 1).Add(n, new(big.Int).Abs(d))
	q := n.Quo(n, new(big.Int).Abs(new(big.Int).Lsh(d, 1)))
	if neg {
		q.Neg(q)
	}
	return q
}

func TestMulDivPanicsWhereItDoesNotFit(t *testing.T) {
	for _, c := range [][3]int64{{1, 1, 0}, {math.MaxInt64, 2, 1}, {math.MinInt64, 1, 1}, {1 << 62, 4, 1}, {1 << 40, 1 << 40, 1}} {
		t.Run(fmt.Sprint(c), func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Errorf("%d×%d÷%d did not panic", c[0], c[1], c[2])
				}
			}()
			unit.MulDiv(c[0], c[1], c[2])
		})
	}
}

func TestCmpProductsAgainstBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) int64 { return rapid.Int64Range(0, math.MaxInt64).Draw(t, name) }
		a, b, c, d := draw("a"), draw("b"), draw("c"), draw("d")
		mul := func(x, y int64) *big.Int { return new(big.Int).Mul(big.NewInt(x), big.NewInt(y)) }
		if got, want := unit.CmpProducts(a, b, c, d), mul(a, b).Cmp(mul(c, d)); got != want {
			t.Fatalf("%d×%d against %d×%d: %d, want %d", a, b, c, d, got, want)
		}
	})
	if unit.CmpProducts(3, 4, 2, 6) != 0 {
		t.Error("3×4 and 2×6 differ")
	}
}

// The printed form of a quantity reads back as the same quantity.
func TestStringReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(0, 1<<58).Draw(t, "n")
		if m, err := unit.ParseMass(unit.Mass(n).String()); err != nil || m != unit.Mass(n) {
			t.Fatalf("mass %d: %v, %v", n, m, err)
		}
		if s, err := unit.ParseShare(unit.Share(-n).String()); err != nil || s != unit.Share(-n) {
			t.Fatalf("share %d: %v, %v", -n, s, err)
		}
		if l, err := unit.ParseLength(unit.Length(-n).String()); err != nil || l != unit.Length(-n) {
			t.Fatalf("length %d: %v, %v", -n, l, err)
		}
		if a, err := unit.ParseArea(unit.Area(n).String()); err != nil || a != unit.Area(n) {
			t.Fatalf("area %d: %v, %v", n, a, err)
		}
		if d, err := unit.ParseDensity(unit.Density(n).String()); err != nil || d != unit.Density(n) {
			t.Fatalf("density %d: %v, %v", n, d, err)
		}
		if s, err := unit.ParseSpan(unit.Span(n % 1e9).String()); err != nil || s != unit.Span(n%1e9) {
			t.Fatalf("span %d: %v, %v", n%1e9, s, err)
		}
	})
}

// Thresholds of Regulation (EU) No 1169/2011, consolidated text of 1 April
// 2025: Annex II point 12 and Art. 21 (sulphites: more than 10 mg/kg), Annex
// VII A point 1 (added water: 5 %), Annex VIII point 4 (moisture lost). The
// masses are worked examples; the butter biscuits are those of the published
// British guidance on quantities of ingredients, from memory.
func TestSharesAtLegalEdges(t *testing.T) {
	const g = unit.Gram
	for _, c := range []struct {
		what       string
		got, limit unit.Share
		over       bool
	}{
		{"apricots 800 mg/kg at 12 %", part(800*unit.MgPerKg, 12*unit.Percent), 10 * unit.MgPerKg, true},
		{"60 mg/kg at 12 %", part(60*unit.MgPerKg, 12*unit.Percent), 10 * unit.MgPerKg, false},
		{"exactly 10 mg/kg", (10 * unit.Milligram).In(unit.Kilogram), 10 * unit.MgPerKg, false},
		{"water 30 of 660 g", (30 * g).In(660 * g), 5 * unit.Percent, false},
		{"water 33.2 of 663.2 g", (33_200 * unit.Milligram).In(663_200 * unit.Milligram), 5 * unit.Percent, true},
		{"water 33 of 660 g", (33 * g).In(660 * g), 5 * unit.Percent, false},
	} {
		if over := c.got > c.limit; over != c.over {
			t.Errorf("%s: %v over %v is %v, want %v", c.what, c.got, c.limit, over, c.over)
		}
	}
	if got := (50 * g).In(169 * g); got != 295_857_988 { // 29.586 %
		t.Errorf("butter 50 g in 169 g of biscuits = %v", got)
	}
	if got := unit.Mass(180 * g).Of(unit.Share(25 * unit.Percent)); got != 45*g {
		t.Errorf("a quarter of 180 g = %v", got)
	}
}

// part is the share a of a share b.
func part(a, b unit.Share) unit.Share {
	return unit.Share(unit.MulDiv(int64(a), int64(b), int64(unit.Whole)))
}

func TestMassArithmetic(t *testing.T) {
	const g, mg = unit.Gram, unit.Milligram
	for _, c := range []struct {
		what      string
		got, want unit.Mass
	}{
		{"200 g for 24 of 48", (200 * g).Mul(24*g, 48*g), 100 * g},
		{"100 g in thirds, rounded", (100 * g).Mul(1, 3), 33_333_333_333},
		{"0.05 g up to 0.1 g", (50 * mg).Round(100 * mg), 100 * mg},
		{"0.049 g down to 0", (49 * mg).Round(100 * mg), 0},
		{"1.25 kg to 0.5 kg", (1250 * g).Round(500 * g), 1500 * g},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
	if unit.Mass(1500*mg).Grams() != 1.5 || unit.Share(125*unit.Percent/10).Percent() != 12.5 {
		t.Error("grams or percent are wrong")
	}
}
