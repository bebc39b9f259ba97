package words

import (
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
)

// Table is the nutrition declaration: a heading, what it is for, and rows with
// columns of figures, each under its head. With a portion there are how many
// portions the pack holds, and what the percentages are of.
//
// Where the market declares for 100 g, Per and Value are for that; Portion and
// Percent are those of a portion, where there is one. Where it declares for a
// portion alone, Per names the portion, and Value is what the portion holds;
// Serving are the two halves of Per, the word and what a portion is.
type Table struct {
	Heading, Per                   string
	Serving                        [2]string
	Daily, DailyShort, DailyIs     string // heads over percentages: whole, short, and what the short one means; "" where a market has none
	Portion, Portions, ReferenceOf string // "" without a portion
	Heads                          []string
	Rows                           []Row
	Src                            diag.Pos
}

// Row is one line of the declaration; Key is its nutrient, and Sub tells that it
// is a part of the line above it. Cells are its figures under the heads of the
// table.
type Row struct {
	Key              string
	Name, Value      string
	Portion, Percent string
	Cells            []string
	Sub              bool
}

// tabler makes a table; alone means that only the portion is declared.
type tabler struct {
	*teller
	*Table
	nutrition *declare.Nutrition
	alone     bool
}

// table says the nutrition declaration of the facts, or nil.
func (t *teller) table() *Table {
	n := t.facts.Nutrition
	if n == nil {
		return nil
	}
	pos := t.facts.Pack.Nutrition.Pos
	b := &tabler{t, &Table{Heading: t.words("nutrition.heading", pos, nil), Src: pos}, n,
		!has(t.facts.Market.Nutrition.Per, "100g")}
	b.per()
	for _, r := range n.Rows {
		b.add(r)
	}
	b.columns()
	return b.Table
}

// per says what the figures are for.
func (b *tabler) per() {
	if b.nutrition.Portion > 0 {
		mass := b.Mass(b.nutrition.Portion)
		if b.nutrition.Pieces > 0 {
			mass = b.count("count.pieces", b.nutrition.Pieces, b.Src) + " (" + mass + ")"
		}
		b.Portion = b.perPortion(mass)
		b.Serving = b.serving(mass)
		b.Portions = b.count("nutrition.portions", b.nutrition.Portions, b.Src)
	}
	if b.alone {
		b.Per, b.Portion = b.Portion, ""
		return
	}
	b.Per = b.words("nutrition.per-100g", b.Src, nil)
}

// perPortion is the head of the figures for a portion; where a line of its own
// says what a portion is, the head does not.
func (b *tabler) perPortion(mass string) string {
	if head := b.perhaps("nutrition.per-serving"); head != "" {
		return head
	}
	return b.words("nutrition.per-portion", b.Src, map[string]string{"mass": mass})
}

// serving is what a portion is: the word for it, and its mass behind it; where
// the market has a line of its own for both, that is all in the second.
func (b *tabler) serving(mass string) [2]string {
	if b.Slots("nutrition.serving") != nil {
		return [2]string{"", b.words("nutrition.serving", b.Src, map[string]string{"mass": mass})}
	}
	word, rest, _ := strings.Cut(b.Portion, mass)
	return [2]string{strings.TrimSpace(word), mass + rest}
}

// add adds a row; kilocalories stand in the row of the kilojoules.
func (b *tabler) add(r declare.Row) {
	row := Row{Key: r.Key, Sub: r.Of != ""}
	if r.Percent != nil {
		row.Percent = b.Percent(r.Percent.N, r.Percent.Decimals)
	}
	switch {
	case b.alone && r.Portion != nil:
		row.Value = b.brief(*r.Portion)
	case !b.alone:
		row.Value = b.rounded(r.Shown)
		if r.Portion != nil {
			row.Portion = b.rounded(*r.Portion)
		}
	}
	key := r.Key
	switch last := len(b.Rows) - 1; {
	case r.Shown.Unit == "kJ":
		key = "energy"
	case r.Shown.Unit == "kcal" && last >= 0:
		b.Rows[last].Value += " / " + row.Value
		if row.Portion != "" {
			b.Rows[last].Portion += " / " + row.Portion
		}
		return
	}
	key = "nutrition." + key
	if has(b.Slots(key), "amount") { // "Includes 10 g Added Sugars"
		row.Name, row.Value = b.words(key, b.Src, map[string]string{"amount": row.Value}), ""
	} else {
		row.Name = b.words(key, b.Src, nil)
	}
	b.Rows = append(b.Rows, row)
}

// columns puts the figures under their heads, in the order of the market.
func (b *tabler) columns() {
	percents := slices.ContainsFunc(b.Rows, func(r Row) bool { return r.Percent != "" })
	first := b.Portion != "" && b.facts.Market.Nutrition.Per[0] == "portion"
	switch {
	case b.alone:
		b.Heads = []string{b.perhaps("nutrition.amount")}
	case first:
		b.Heads = []string{b.Portion, b.Per}
	case b.Portion != "":
		b.Heads = []string{b.Per, b.Portion}
	default:
		b.Heads = []string{b.Per}
	}
	if percents {
		b.ReferenceOf = "* " + b.sentence(b.words("nutrition.reference-intake", b.Src, nil))
		b.Heads = append(b.Heads, "%*")
		if daily := b.perhaps("nutrition.daily"); daily != "" {
			b.Heads[len(b.Heads)-1] = daily + "*"
			b.Daily, b.DailyShort, b.DailyIs = daily+"*", b.perhaps("nutrition.daily-short"), b.perhaps("nutrition.daily-is")
		}
	}
	for i := range b.Rows {
		r := &b.Rows[i]
		r.Cells = []string{r.Value, r.Portion}
		switch {
		case first:
			r.Cells = []string{r.Portion, r.Value}
		case b.Portion == "":
			r.Cells = r.Cells[:1]
		}
		if percents {
			r.Cells = append(r.Cells, r.Percent)
		}
	}
}

// perhaps gives words that only some markets set, or "".
func (b *tabler) perhaps(key string) string {
	if _, err := b.Word(key); err != nil {
		return ""
	}
	return b.words(key, b.Src, nil)
}

// brief prints a figure of a declaration for a portion alone, as the United
// States and Canada write it: "less than 1 g", calories without a unit, and no
// zeros at the end of a decimal.
func (b *tabler) brief(r market.Rounded) string {
	for r.Decimals > 0 && r.N%10 == 0 {
		r.N, r.Decimals = r.N/10, r.Decimals-1
	}
	value := b.Plain(r.N, r.Decimals)
	switch r.Unit {
	case "kcal":
		return value
	case "µg":
		value += noBreak + b.words("unit.ug", b.Src, nil)
	default:
		value += noBreak + r.Unit
	}
	if r.Less {
		return b.words("nutrition.less", b.Src, map[string]string{"amount": value})
	}
	return value
}

// rounded prints a figure of the declaration: "12.5 g", "< 0.5 g".
func (t *teller) rounded(r market.Rounded) string {
	if r.N == 0 {
		r.Decimals = 0 // "0 g", as the guidance of December 2012 writes it
	}
	value := t.Plain(r.N, r.Decimals) + noBreak + r.Unit
	if r.Less {
		return "<" + noBreak + value
	}
	return value
}
