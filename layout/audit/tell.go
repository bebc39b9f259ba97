package audit

import (
	"strconv"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

const noBreak = "\u00a0"

// section is a table with its title. Widths are in millimetres of a sheet 182 mm
// wide; a column of width 0 takes what is left.
type section struct {
	title string
	note  string
	cols  []col
	rows  []row
}

type col struct {
	head  string
	width int64
	align flow.Align
}

// row is one row. Two cells below more columns are a heading: the first reaches
// as far as the last. With blanks it is a frame to fill in by hand.
type row struct {
	cells []cell
	blank []string // what is to be written
}

// cell is one cell, set in by some steps. A word that is wider than its column
// is cut, so that no name can keep a sheet from being printed.
type cell struct {
	text.Para
	indent int
	small  bool
}

// teller says the sheet and gathers what is missing.
type teller struct {
	Audit
	found *diag.List
	parts []scale.Contribution
}

// word gives the words for a key, or reports that they are missing.
func (t *teller) word(key string) string { return t.fill(key, nil) }

func (t *teller) fill(key string, slots map[string]string) string {
	s, err := t.Lang.Fill(key, slots)
	if err != nil {
		t.found.Errorf(t.Facts.Product.Pos, "words", "complete the language file", "%v", err)
		return "?"
	}
	return s
}

// orElse gives the words for a key, or the other words where there are none.
func (t *teller) orElse(key, other string) string {
	if s, err := t.Lang.Word(key); err == nil {
		return s
	}
	return other
}

// name gives a name in the language of the sheet.
func (t *teller) name(n shop.Words, pos diag.Pos) string {
	v, ok := shop.In(n, t.Lang.Code())
	if !ok {
		t.found.Errorf(pos, "translation", "add a line that begins with "+t.Lang.Code()+":", "there is no %s name", t.Lang.Name())
		return "?"
	}
	return v.V
}

// called is what an id is called: the name of the ingredient, formula or
// product, or the id itself.
func (t *teller) called(id string) string {
	switch {
	case t.Shop.Ingredients[id] != nil:
		return t.name(t.Shop.Ingredients[id].Name, t.Shop.Ingredients[id].Pos)
	case t.Shop.Formulas[id] != nil:
		return t.name(t.Shop.Formulas[id].Name, t.Shop.Formulas[id].Pos)
	case t.Shop.Products[id] != nil:
		return t.name(t.Shop.Products[id].Name, t.Shop.Products[id].Pos)
	}
	return t.orElse("allergen."+strings.ReplaceAll(id, " ", "-"), id)
}

func plain(s string) cell { return spans(diag.Pos{}, text.Span{Text: s}) }

func bold(s string) cell { return spans(diag.Pos{}, text.Span{Text: s, Bold: true}) }

func spans(src diag.Pos, all ...text.Span) cell {
	return cell{Para: text.Para{Role: page.Note, Src: src, Spans: all, Anywhere: true}}
}

// place is a file with its line.
func place(p diag.Pos) cell {
	c := plain("")
	if p.Known() {
		c = plain(p.File + ":" + strconv.Itoa(p.Line))
	}
	c.Src, c.small = p, true
	return c
}

// emphasised is a particular of the label with its emphasis.
func emphasised(s words.Said) cell {
	var all []text.Span
	at := 0
	for _, r := range s.Strong {
		all = append(all, text.Span{Text: s.Text[at:r[0]]}, text.Span{Text: s.Text[r[0]:r[1]], Bold: true})
		at = r[1]
	}
	return spans(s.Src, append(all, text.Span{Text: s.Text[at:]})...)
}

func cells(cs ...cell) row { return row{cells: cs} }

// per100 is a mass as grams for 100 g of a food; the smallest in milligrams.
func (t *teller) per100(m, finished unit.Mass) string {
	if finished <= 0 {
		return "–"
	}
	g := (100 * unit.Gram).Mul(m, finished)
	if g > 0 && g < 10*unit.Milligram {
		return t.Lang.MassIn(g, "mg", 1)
	}
	return t.Lang.MassIn(g, "g", 2)
}

// share is a mass as percent of another, with two decimals.
func (t *teller) share(m, of unit.Mass) string {
	if of <= 0 {
		return "–"
	}
	return t.percent(m.In(of))
}

func (t *teller) percent(s unit.Share) string {
	return t.Lang.Percent(unit.MulDiv(int64(s), 100, int64(unit.Percent)), 2)
}
