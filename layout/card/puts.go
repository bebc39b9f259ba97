package card

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
)

// put is one amount that goes in.
type put struct {
	Letter string // of the lane that it comes from
	Name   told
	Amount string
	Small  bool // weighed on the small scale
	Aside  bool // a cooking medium, which is not part of the sum
	Hints  []told
	Share  string // of the base
	Advice told   // how to weigh it well
	Src    diag.Pos

	ref     string
	formula *shop.Formula
}

// puts says the amounts of a column.
func (t *teller) puts(amounts []scale.Amount) []put {
	var out []put
	for _, a := range amounts {
		out = append(out, t.put(a))
	}
	return out
}

func (t *teller) put(a scale.Amount) put {
	p := put{ref: a.Line.Ref(), formula: a.Formula, Src: a.Line.Pos, Small: a.Small,
		Amount: t.grams(a.Shown, a.Step), Name: t.nameOf(a)}
	if a.Formula != nil {
		p.Small = false
		return p
	}
	l := t.Lang()
	if a.Halves > 0 && a.Ingredient.Piece != nil {
		piece := t.own(a.Ingredient.Piece.Name, a.Ingredient.Piece.Pos, "the piece of "+a.Ingredient.ID)
		hint := "≈" + compose.NoBreak + halves(l, a.Halves) + compose.NoBreak + "×"
		if !slices.Equal(piece.In, p.Name.In) { // "egg ≈ 2½ ×", but "vanilla ≈ 1½ × pod"
			hint += compose.NoBreak + piece.joined()
		}
		p.Hints = append(p.Hints, numbered(hint, p.Src))
	}
	if a.Buy > 0 {
		buy := t.grams(a.Buy, a.Step)
		p.Hints = append(p.Hints, once(t.fill("card.as-bought", "mass", func(*words.Lang) string { return buy }), buy))
	}
	p.Advice = t.bloom(a, p)
	return p
}

// nameOf is what the card calls an amount.
func (t *teller) nameOf(a scale.Amount) told {
	switch {
	case len(a.Line.Name) > 0:
		return t.own(a.Line.Name, a.Line.Pos, "the line "+a.Line.Ref())
	case a.Formula != nil:
		return t.own(a.Formula.Name, a.Formula.Pos, "the name of "+a.Formula.ID)
	case a.Ingredient != nil:
		return t.own(a.Ingredient.Name, a.Ingredient.Pos, "the name of "+a.Ingredient.ID)
	}
	t.Found().Errorf(a.Line.Pos, "dangling", "see check", "nothing is known of %q", a.Line.Use.V)
	return told{}
}

// part says a product of an assortment.
func (t *teller) part(p scale.Part) put {
	name := t.own(p.Product.Name, p.Product.Pos, "the name of "+p.Product.ID)
	return put{ref: p.Line.Ref(), Src: p.Line.Pos, Name: name, Amount: t.Lang().Plain(int64(p.Pieces), 0) + compose.NoBreak + "×"}
}

// halves writes a number of halves: 5 is "2½".
func halves(l *words.Lang, n int64) string {
	s := l.Plain(n/2, 0)
	if n%2 == 0 {
		return s
	}
	if n == 1 {
		s = ""
	}
	return s + "½"
}

// grams is an amount as the scale shows it; a column is never in two units.
func (t *teller) grams(m, step unit.Mass) string {
	decimals := 0
	for at := unit.Gram; step > 0 && step%at != 0 && decimals < 3; at /= 10 {
		decimals++
	}
	return t.Lang().MassIn(m, "g", decimals)
}

// finest is the smallest step that any of the amounts is weighed in.
func finest(amounts []scale.Amount) unit.Mass {
	least := amounts[0].Step
	for _, a := range amounts {
		if a.Step > 0 {
			least = min(least, a.Step)
		}
	}
	return least
}
