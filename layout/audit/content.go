package audit

import (
	"strconv"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/text"
)

// sheet is what the sheet says.
type sheet struct {
	title, state, name string
	running            string      // said in place of the title from the second page on
	about              []text.Para // the product, the pack and the like, three in a line
	caution            string
	page               func(n, of int) string
	more               func(title string) string // a title, continued
	sections           []section
	at                 diag.Pos
}

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

// teller says the sheet.
type teller struct {
	*compose.Teller
	Audit
	parts []scale.Contribution
}

// content says the sheet; a section without rows is left out.
func content(t *teller) sheet {
	f, state := t.Facts, t.Word("audit.not-approved")
	if t.Approved() {
		state = t.Word("audit.approved")
	}
	title := t.Word("audit.title")
	out := sheet{title: title + " – " + t.Word("audit.sub"), state: state, name: t.Told.Name.Text, caution: t.Word("audit.caution"), page: t.Page, at: t.At(),
		running: title + " · " + t.Told.Name.Text + " · " + strings.ToUpper(f.Market.Code) + " · " + f.Digest(),
		more:    func(title string) string { return t.Fill("sheet.more", map[string]string{"name": title}) }}
	for _, a := range [][2]string{
		{"audit.market", strings.ToUpper(f.Market.Code)}, {"audit.pack", f.Pack.ID.V + " · " + t.Told.Net.Text}, {"audit.language", t.Audit.Lang.Name()},
		{"card.version", t.Plain(int64(f.Product.Version.V)) + " · " + t.Audit.Lang.Date(f.Product.Issued.V, words.Day)},
		{"audit.made", t.Audit.Lang.Date(f.Made, words.Day)}, {"audit.digest", f.Digest()},
	} {
		out.about = append(out.about, text.Para{Role: role.Note, Spans: []text.Span{{Text: t.Word(a[0]) + ": "}, {Text: a[1], Bold: true}}})
	}
	for _, tell := range sections() {
		if s := tell(t); len(s.rows) > 0 {
			out.sections = append(out.sections, s)
		}
	}
	return out
}

// sections lists the sections in their order on the sheet.
func sections() []func(*teller) section {
	return []func(*teller) section{
		(*teller).label, (*teller).allergens, (*teller).list, (*teller).sums, (*teller).decisions, (*teller).nutrition, (*teller).composition,
		(*teller).dates, (*teller).formulas, (*teller).specs, (*teller).origin, (*teller).margins, (*teller).measured, (*teller).cost, (*teller).cautions, (*teller).approval,
	}
}

// orElse gives the words for a key, or the other words where there are none.
func (t *teller) orElse(key, other string) string {
	if s, err := t.Audit.Lang.Word(key); err == nil {
		return s
	}
	return other
}

// name gives a name in the language of the sheet.
func (t *teller) name(n shop.Words, pos diag.Pos) string {
	return t.Own(n, "its name", pos).V
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
	return cell{Para: text.Para{Role: role.Note, Src: src, Spans: all, Anywhere: true}}
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
	return spans(s.Src, compose.Phrase(s).Spans...)
}

func cells(cs ...cell) row { return row{cells: cs} }

// per100 is a mass as grams for 100 g of a food; the smallest in milligrams.
func (t *teller) per100(m, finished unit.Mass) string {
	if finished <= 0 {
		return "–"
	}
	g := (100 * unit.Gram).Mul(m, finished)
	if g > 0 && g < 10*unit.Milligram {
		return t.Audit.Lang.MassIn(g, "mg", 1)
	}
	return t.Audit.Lang.MassIn(g, "g", 2)
}

// share is a mass as percent of another, with two decimals.
func (t *teller) share(m, of unit.Mass) string {
	if of <= 0 {
		return "–"
	}
	return t.percent(m.In(of))
}

func (t *teller) percent(s unit.Share) string {
	return t.Audit.Lang.Percent(unit.MulDiv(int64(s), 100, int64(unit.Percent)), 2)
}
