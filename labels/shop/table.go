package shop

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"chablon/labels/composition"
	"chablon/labels/diag"
	"chablon/labels/unit"
)

// fromTable takes what a file leaves open from the table that it names: the
// place of such a figure is that of the code. Where the table says only that a
// value lies below another, that other is taken, so that nothing is declared
// too low. What the table does not know stays unknown.
func (i *Ingredient) fromTable() {
	p := i.Per100
	if p == nil || !p.Table.Set() {
		return
	}
	food, ok := composition.Get(p.Table.V)
	if !ok {
		return
	}
	p.Source.Pos = cmp.Or(p.Source.Pos, p.Table.Pos)
	p.Source.V = cmp.Or(p.Source.V, composition.Source+", "+food.Code+": "+food.Names[0])
	for key, at := range p.tabled() {
		if v := food.Value(key); v.Known && !at.Set() {
			*at = diag.At[unit.Mass]{V: v.Mass, Pos: p.Table.Pos}
		}
	}
}

// tabled are the figures that a table may fill in, by key.
func (p *Composition) tabled() map[string]*diag.At[unit.Mass] {
	return map[string]*diag.At[unit.Mass]{"fat": &p.Fat, "saturates": &p.Saturates, "carbohydrate": &p.Carbohydrate, "sugars": &p.Sugars,
		"polyols": &p.Polyols, "fibre": &p.Fibre, "protein": &p.Protein, "salt": &p.Salt, "alcohol": &p.Alcohol, "organic-acids": &p.Acids}
}

// Sourced reports whether somebody can look up where the figures are from.
func (p *Composition) Sourced() bool {
	return names(p.Source.V) && (!p.MoreFrom.Set() || names(p.MoreFrom.V))
}

// names reports whether a source names something: words that own up to a guess,
// in the languages of the shop's files, name nothing.
func names(source string) bool {
	said := strings.ToLower(strings.TrimFunc(source, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }))
	return said != "" && !slices.Contains([]string{"unknown", "none", "no source", "n/a", "tbd", "to do", "guess", "guessed", "a guess", "my guess", "estimate", "estimated", "an estimate", "internet", "the internet", "web", "from memory",
		"inconnu", "inconnue", "aucune", "estimation", "estimé", "estimée", "de mémoire", "unbekannt", "keine", "geschätzt", "schätzung", "auswendig"}, said)
}

// tabled: figures have a source; a table that is named knows the code, and
// says what was written down from it.
func (c *checker) tabled(p *Composition) {
	if p.Table.Set() {
		if _, ok := composition.Get(p.Table.V); !ok {
			c.wrong(p.Table.Pos, "composition", "look it up: chablon composition WORD", "%s has no food %q", composition.Source, p.Table.V)
		}
		return
	}
	if !p.Source.Set() {
		c.caution(p.Pos, "source", "write source: with the table and its code, or the supplier's specification; or from-table: with a code that chablon composition WORD finds", "nothing says where these figures are from, so a label that declares them is a draft")
		return
	}
	for _, from := range []Text{p.Source, p.MoreFrom} {
		if from.Set() && !names(from.V) {
			c.caution(from.Pos, "source", "write the table and its code, or the supplier's specification", "nobody can look %q up, so a label that declares these figures is a draft", from.V)
		}
	}
	code, ok := strings.CutPrefix(p.Source.V, composition.Source+", ")
	food, known := composition.Get(code)
	if !ok || !known {
		return
	}
	for _, key := range composition.Keys() {
		at, v := p.tabled()[key], food.Value(key)
		if at != nil && at.Set() && v.Known && at.V != v.Mass && !(v.Below && at.V < v.Mass) {
			c.caution(at.Pos, "composition", "copy it again, or name the specification that it is from", "%s %s has %s %s, not %s", composition.Source, code, key, food.Text(key)+" g", at.V)
		}
	}
}

// TableHint names foods of the table that comes with the program whose name is
// like that of an ingredient; "" when it has none.
func (i *Ingredient) TableHint() string {
	for _, t := range i.Name {
		if hits := composition.Search(t.V.V); len(hits) > 0 {
			return "from-table: " + hits[0].Code + " is " + hits[0].Names[0]
		}
	}
	return ""
}
