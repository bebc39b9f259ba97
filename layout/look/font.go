package look

import (
	"path"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/page"
	"chablon/layout/text"
	"chablon/layout/typeface"
)

// font is a font of the shop's own, read and measured.
type font struct {
	faces *text.Faces
	face  *typeface.Face
}

// font reads one font that brand.yaml names; nil for none, or, with an error in
// found, for one that may not be printed with.
func (l *Look) font(f *shop.BrandFont, found *diag.List) *font {
	if f == nil {
		return nil
	}
	data, licence := l.Brand.Files[f.File.V], l.Brand.Files[f.Licence.V]
	if data == nil || licence == nil {
		return nil // told where the files were read
	}
	face := typeface.Read(typeface.File{Name: f.File.V, Data: data, Src: f.File.Pos},
		typeface.File{Name: f.Licence.V, Data: licence, Src: f.Licence.Pos}, found)
	if face == nil {
		return nil
	}
	faces, err := text.Own(&page.Font{Name: fontName(f.File.V), File: data, Whole: face.Whole})
	if err != nil {
		found.Errorf(f.File.Pos, "typeface", "take another font", "the font %s cannot be set: %v", f.File.V, err)
		return nil
	}
	return &font{faces, face}
}

// fontName is a name for PDF out of that of a file.
func fontName(file string) string {
	name := strings.TrimSuffix(path.Base(file), path.Ext(file))
	return "Own-" + strings.Map(func(r rune) rune {
		if r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' {
			return r
		}
		return '-'
	}, name)
}

// leastOwn is the least x-height of a name in the look.
const leastOwn = 1330 * unit.UM

// in is the font where the printer of a paper draws its strokes at a size, else
// the house's faces.
func (f *font) in(p *compose.Paper, size unit.Length) *text.Faces {
	if f == nil || size < f.face.LeastSize(p.Dots) || f.faces.Bold.XHeight(size) < leastOwn {
		return p.Faces
	}
	return f.faces
}

// Named is what a name of a food is set in at a size.
func (l *Look) Named(p *compose.Paper, size unit.Length) *text.Faces { return l.name.in(p, size) }

// Priced is what a price is set in at a size: a font whose figures do not stand
// on the line says a price badly.
func (l *Look) Priced(p *compose.Paper, size unit.Length) *text.Faces {
	if l.name == nil || !l.name.face.Lining {
		return p.Faces
	}
	return l.name.in(p, size)
}

// Abouted is what the line about a food is set in at a size.
func (l *Look) Abouted(p *compose.Paper, size unit.Length) *text.Faces { return l.about.in(p, size) }

// Cover finds letters of names and lines about foods that the shop's own fonts do
// not have, before anything is printed.
func (l *Look) Cover(sh *shop.Shop, found *diag.List) {
	for _, id := range sh.ProductIDs {
		p := sh.Products[id]
		l.name.cover(p.Name, found)
		l.about.cover(p.About, found)
	}
	if l.name != nil {
		for _, t := range l.Brand.Written {
			l.name.face.Covers(t, found)
		}
	}
}

func (f *font) cover(words shop.Words, found *diag.List) {
	if f == nil {
		return
	}
	for _, w := range words {
		f.face.Covers(w.V, found)
	}
}
