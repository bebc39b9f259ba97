package prep

import (
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/list"
)

// thaw is what comes out of the freezer for one day.
type thaw struct {
	ingredient *shop.Ingredient
	mass       unit.Mass
	on         unit.Date // comes out
	at         unit.Span // of that day; 0 where only the day is known
}

// thaws says what comes out of the freezer, and when at the latest: so long
// before it is used as its file says, within the hours of the kitchen.
func (t teller) thaws() []list.Row {
	var out []list.Row
	for i, d := range t.days() {
		for _, th := range d.thawed() {
			if !t.within(i, th.on) {
				continue
			}
			if len(out) == 0 {
				out = append(out, list.Row{Head: compose.Capital(t.Word("prep.thaw")) + " · " + t.Word("prep.thaw-do")})
			}
			in := th.ingredient
			begin := ""
			if th.at > 0 {
				begin = clock(th.at)
			}
			out = append(out, list.Row{Src: in.Pos, Cells: []list.Cell{
				{Strong: t.name(in.Name, in.ID, in.Pos), Under: t.Sheet.Lang.Date(th.on, words.Long), Role: role.Name}, {Strong: begin, Role: role.Date},
				{Strong: t.grams(th.mass), Role: role.Amount}, {}, {Under: t.Word("prep.out-at"), Write: true}}})
		}
	}
	return out
}

// thawed is what the day takes of what is bought frozen, each once, out in time
// for whatever uses it first.
func (t teller) thawed() (out []thaw) {
	for _, b := range t.Day.Buy {
		if b.Ingredient.Thaw.V <= 0 {
			continue
		}
		one := thaw{ingredient: b.Ingredient, mass: b.Bought, on: t.Date}
		for k, use := range t.used(b.Ingredient) {
			if on, at := t.out(use, b.Ingredient.Thaw.V); k == 0 || days(on, one.on) < 0 || on == one.on && at < one.at {
				one.on, one.at = on, at
			}
		}
		out = append(out, one)
	}
	return out
}

// used are the times at which an ingredient is used, counted from the midnight
// before the day: the beginnings of the formulas that it goes into; the opening
// of the day where it goes into a product itself.
func (t teller) used(in *shop.Ingredient) (out []unit.Span) {
	takes := func(lines []scale.Amount) bool {
		for _, a := range lines {
			if a.Ingredient == in {
				return true
			}
		}
		return false
	}
	for _, p := range t.Day.Prep {
		if takes(p.Lines) {
			n := t.daysBefore(p)
			begin := t.Opens
			if t.Ready > 0 && n == 0 {
				begin = t.start(p)
			}
			out = append(out, begin-unit.Span(n)*day)
		}
	}
	for _, b := range t.Day.Runs {
		if takes(b.Lines) {
			out = append(out, t.Opens)
		}
	}
	return out
}

// out is when something comes out of the freezer that is used at a time: no later
// than long before it, and while somebody is there. Without hours of the kitchen
// only the day is known.
func (t teller) out(use, long unit.Span) (unit.Date, unit.Span) {
	at := use - long
	n := unit.Span(0)
	for at < 0 {
		at, n = at+day, n+1
	}
	on := t.Date.AddDays(-int(n))
	switch {
	case t.Opens == 0:
		return on, 0
	case at < t.Opens: // nobody is there yet: the evening before
		on, at = on.AddDays(-1), t.Closes
	case t.Closes > 0 && at > t.Closes:
		at = t.Closes
	}
	return on, at
}
