package card

import (
	"sync"

	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// sizes are the sizes of letters and the thickness of lines on one paper. They
// follow from the distance from which it is read, by the height of a capital.
type sizes struct {
	small unit.Length // notes, tools, the second language: 1/200 of the distance
	read  unit.Length // what is done: a little larger, so that the languages differ
	body  unit.Length // amounts, allergens, limits: 20 minutes of arc
	key   unit.Length // temperatures, limits, step numbers: seen from the mixer
	title unit.Length // name and batch: at least twice the distance away
	most  unit.Length // the largest title: seen across the table

	hair, rule, thick, gap, pad unit.Length
}

// From where what is read, against the reading distance of the paper: a card
// above the bench at 0.7 m is read from the mixer at 1 m and across the table
// at 2 m (common practice, no source; the same distances as in labels/market).
const (
	near     = 7
	atMixer  = 10
	atTable  = 20
	titleMin = 14
)

// caps are the least heights of capitals.
func caps(s *stock.Stock) sizes {
	d := s.ReadAt.V
	small, _ := market.FindReading("aviation")
	body, _ := market.FindReading("preferred")
	return sizes{
		small: small.CapHeight(d),
		body:  body.CapHeight(d),
		key:   small.CapHeight(d.Mul(atMixer, near)),
		title: small.CapHeight(d.Mul(titleMin, near)),
		most:  small.CapHeight(d.Mul(atTable, near)),
	}
}

// sizesAt are the sizes for a paper in the faces.
func sizesAt(s *stock.Stock, faces *text.Faces) sizes {
	c, f := caps(s), faces.Regular
	z := sizes{small: f.SizeForCap(c.small), body: f.SizeForCap(c.body), key: f.SizeForCap(c.key),
		title: f.SizeForCap(c.title), most: f.SizeForCap(c.most)}
	u := z.small
	z.read = text.Whole(u * 15 / 14)
	z.hair, z.rule, z.thick, z.gap, z.pad = u/28, u/14, u/7, u*4/5, u*2/5
	return z
}

// shipped are the shipped faces, read once.
var shipped = sync.OnceValues(text.Load)

// Heights gives the least x-height of every role on a card of this paper: that
// of letters whose capitals are as high as the reading distance asks.
func Heights(s *stock.Stock) map[role.Role]unit.Length {
	faces, err := shipped()
	if err != nil {
		return nil // the same damage stops every card from being set
	}
	z := sizesAt(s, faces)
	x := func(size unit.Length) unit.Length { return min(faces.Regular.XHeight(size), faces.Bold.XHeight(size)) }
	return map[role.Role]unit.Length{
		role.Name: x(z.title), role.Batch: x(z.title),
		role.Heat: x(z.body), role.Limit: x(z.body), role.Amount: x(z.body), role.Allergens: x(z.body),
		role.Step: x(z.small), role.Keep: x(z.small), role.Note: x(z.small), role.Date: x(z.small), role.Furniture: x(z.small),
		role.List: x(z.body),
	}
}
