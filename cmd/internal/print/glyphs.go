package print

import (
	"reflect"

	"chablon/labels/shop"
)

// glyphs finds every character of the shop's files that the typefaces do not
// have, at its place. Left alone, a PDF would show a hole where it stands.
func (p *Press) glyphs() {
	s := p.Shop
	p.glyphsIn(reflect.ValueOf(s.Profile))
	for _, id := range s.IngredientIDs {
		p.glyphsIn(reflect.ValueOf(*s.Ingredients[id]))
	}
	for _, id := range s.FormulaIDs {
		p.glyphsIn(reflect.ValueOf(*s.Formulas[id]))
	}
	for _, id := range s.ProductIDs {
		p.glyphsIn(reflect.ValueOf(*s.Products[id]))
	}
	for _, id := range s.CustomerIDs {
		p.glyphsIn(reflect.ValueOf(*s.Customers[id]))
	}
	for _, plan := range s.Plans {
		p.glyphsIn(reflect.ValueOf(*plan))
	}
}

// glyphsIn looks at every text below v.
func (p *Press) glyphsIn(v reflect.Value) {
	if t, ok := v.Interface().(shop.Text); ok {
		p.glyphsOf(t)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				p.glyphsIn(v.Field(i))
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			p.glyphsIn(v.Index(i))
		}
	case reflect.Pointer:
		if !v.IsNil() {
			p.glyphsIn(v.Elem())
		}
	}
}

func (p *Press) glyphsOf(t shop.Text) {
	for _, face := range []interface{ Missing(string) (rune, bool) }{p.faces.Regular, p.faces.Bold} {
		if r, missing := face.Missing(t.V); missing {
			p.Found.Errorf(t.Pos, "glyph", "write it in other letters", "the character %q (U+%04X) is not in the typefaces", r, r)
			return
		}
	}
}
