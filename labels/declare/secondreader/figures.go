package secondreader

import (
	"fmt"
	"math/big"
)

// Figures are what 100 g of a food hold, in milligrams. Carbohydrate includes
// polyols (Annex I point 8).
type Figures struct {
	Fat, Saturates, Carbohydrate, Sugars, Polyols, Fibre, Protein, Salt, Alcohol, Acids int64
}

// Add adds up figures of masses of ingredients, in milligrams, over a finished
// mass, as exact milligrams in 100 g.
func Add(of []Figures, masses []int64, finished int64) (fat, sat, carb, sug, pol, fib, pro, salt, alc, acid *big.Rat) {
	get := func(one func(Figures) int64) *big.Rat {
		sum := new(big.Rat)
		for i, f := range of {
			sum.Add(sum, new(big.Rat).Mul(big.NewRat(one(f), 1), big.NewRat(masses[i], finished)))
		}
		return sum
	}
	return get(func(f Figures) int64 { return f.Fat }), get(func(f Figures) int64 { return f.Saturates }), get(func(f Figures) int64 { return f.Carbohydrate }),
		get(func(f Figures) int64 { return f.Sugars }), get(func(f Figures) int64 { return f.Polyols }), get(func(f Figures) int64 { return f.Fibre }),
		get(func(f Figures) int64 { return f.Protein }), get(func(f Figures) int64 { return f.Salt }), get(func(f Figures) int64 { return f.Alcohol }), get(func(f Figures) int64 { return f.Acids })
}

// Energy is that of 100 g in kilojoules and in kilocalories, by the factors of
// Annex XIV: carbohydrate (without polyols) 17 and 4, polyols 10 and 2.4, protein
// 17 and 4, fat 37 and 9, alcohol 29 and 7, organic acids 13 and 3, fibre 8 and 2.
// Amounts are in milligrams.
func Energy(fat, carb, pol, fib, pro, alc, acid *big.Rat) (kj, kcal *big.Rat) {
	sum := func(tenths map[*big.Rat]int64) *big.Rat {
		s := new(big.Rat)
		for of, n := range tenths {
			s.Add(s, new(big.Rat).Mul(of, big.NewRat(n, 10_000)))
		}
		return s
	}
	plain := new(big.Rat).Sub(carb, pol)
	copyOf := func(r *big.Rat) *big.Rat { return new(big.Rat).Set(r) }
	return sum(map[*big.Rat]int64{plain: 170, copyOf(pol): 100, copyOf(pro): 170, copyOf(fat): 370, copyOf(alc): 290, copyOf(acid): 130, copyOf(fib): 80}),
		sum(map[*big.Rat]int64{plain: 40, copyOf(pol): 24, copyOf(pro): 40, copyOf(fat): 90, copyOf(alc): 70, copyOf(acid): 30, copyOf(fib): 20})
}

// nearest is a number rounded to a multiple of step, halves up, with so many
// decimals.
func nearest(v *big.Rat, num, den int64, decimals int) string {
	step := big.NewRat(num, den)
	q := new(big.Rat).Add(new(big.Rat).Quo(v, step), big.NewRat(1, 2))
	n := new(big.Int).Div(q.Num(), q.Denom())
	r := new(big.Rat).Mul(new(big.Rat).SetInt(n), step)
	if r.Sign() == 0 {
		return "0"
	}
	return r.FloatString(decimals)
}

// grams are milligrams as grams.
func grams(mg *big.Rat) *big.Rat { return new(big.Rat).Quo(mg, big.NewRat(1000, 1)) }

func below(v *big.Rat, num, den int64) bool { return v.Cmp(big.NewRat(num, den)) < 0 }
func upTo(v *big.Rat, num, den int64) bool  { return v.Cmp(big.NewRat(num, den)) <= 0 }

// Whole is a number of kilojoules or kilocalories as the guidance has it: to the
// nearest one.
func Whole(v *big.Rat) string { return nearest(v, 1, 1, 0) }

// UnionGrams is an amount for 100 g as the Commission's guidance of December
// 2012 rounds it, section 6: fat, carbohydrate, sugars, protein, fibre, polyols
// 10 g and more to the nearest 1 g, below that and over 0.5 g to the nearest
// 0.1 g, up to 0.5 g "0 g" or "< 0.5 g"; saturates the same with 0.1 g.
func UnionGrams(mg *big.Rat, saturates bool) string {
	g := grams(mg)
	least, word := int64(5), "< 0.5"
	if saturates {
		least, word = 1, "< 0.1"
	}
	switch {
	case g.Sign() == 0: // of the two forms "0 g" for what holds none
		return "0"
	case upTo(g, least, 10):
		return word
	case below(g, 10, 1):
		return nearest(g, 1, 10, 1)
	}
	return nearest(g, 1, 1, 0)
}

// UnionSalt: 1 g and more to the nearest 0.1 g, below that and over 0.0125 g to
// the nearest 0.01 g, up to 0.0125 g "0 g" or "< 0.01 g".
func UnionSalt(mg *big.Rat) string {
	g := grams(mg)
	switch {
	case g.Sign() == 0:
		return "0"
	case upTo(g, 125, 10_000):
		return "< 0.01"
	case below(g, 1, 1):
		return nearest(g, 1, 100, 2)
	}
	return nearest(g, 1, 10, 1)
}

// AmericanFigure gives a value for a serving as 21 CFR 101.9(c) rounds it; v is in the
// unit of the line. (c)(1): calories; (c)(2): fat and its kinds; (c)(3):
// cholesterol; (c)(4): sodium; (c)(6), (7): carbohydrate, fibre, sugars, protein.
func AmericanFigure(of string, v *big.Rat) string {
	switch of {
	case "energy-kcal":
		switch {
		case below(v, 5, 1):
			return "0"
		case upTo(v, 50, 1):
			return nearest(v, 5, 1, 0)
		}
		return nearest(v, 10, 1, 0)
	case "fat", "saturates", "trans":
		switch {
		case below(v, 1, 2):
			return "0"
		case below(v, 5, 1):
			return nearest(v, 1, 2, 1)
		}
		return nearest(v, 1, 1, 0)
	case "cholesterol":
		switch {
		case below(v, 2, 1):
			return "0"
		case upTo(v, 5, 1):
			return "< 5"
		}
		return nearest(v, 5, 1, 0)
	case "sodium":
		switch {
		case below(v, 5, 1):
			return "0"
		case upTo(v, 140, 1):
			return nearest(v, 5, 1, 0)
		}
		return nearest(v, 10, 1, 0)
	}
	switch {
	case below(v, 1, 2):
		return "0"
	case below(v, 1, 1):
		return "< 1"
	}
	return nearest(v, 1, 1, 0)
}

// CanadianFigure gives a value for a serving as the table to B.01.401 rounds it,
// leaving out the lines that are "0" only where the food is free of it.
func CanadianFigure(of string, v *big.Rat) string {
	switch of {
	case "carbohydrate", "fibre", "sugars":
		if below(v, 1, 2) {
			return "0"
		}
		return nearest(v, 1, 1, 0)
	case "potassium", "calcium":
		switch {
		case below(v, 5, 1):
			return "0"
		case below(v, 50, 1):
			return nearest(v, 10, 1, 0)
		case below(v, 250, 1):
			return nearest(v, 25, 1, 0)
		}
		return nearest(v, 50, 1, 0)
	case "iron":
		switch {
		case below(v, 5, 100):
			return "0"
		case below(v, 5, 10):
			return nearest(v, 1, 10, 1)
		case below(v, 25, 10):
			return nearest(v, 1, 4, 2)
		}
		return nearest(v, 1, 2, 1)
	}
	return fmt.Sprint("unread: ", of)
}

// AustralianSignificant reports whether a printed figure has at most three
// significant figures, as Standard 1.2.8 asks.
func AustralianSignificant(printed string) bool {
	n, leading, cut := 0, true, 0
	for _, r := range printed {
		if r < '0' || r > '9' {
			continue
		}
		if r != '0' {
			leading = false
		}
		if !leading {
			n++
			if r == '0' {
				cut++
			} else {
				cut = 0
			}
		}
	}
	return n <= 3 || n-cut <= 3
}
