package shop

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/unit"
)

// In gives the text of w in a language; there is no falling back to another.
func In(w Words, lang string) (Text, bool) { return w.Get(lang) }

// PlanFor gives the plan of a day. A plan for that date wins over the plan for
// every day.
func (s *Shop) PlanFor(day unit.Date) (*Plan, bool) {
	var plan *Plan
	for _, p := range s.Plans {
		switch {
		case !p.Day.Set():
		case !p.Day.V.Every && p.Day.V.Date == day:
			return p, true
		case p.Day.V.Every && plan == nil:
			plan = p
		}
	}
	return plan, plan != nil
}

// Pack gives the pack with an id, or the first one when the id is empty.
func (p *Product) Pack(id string) (*Pack, bool) {
	i := slices.IndexFunc(p.Packs, func(k Pack) bool { return id == "" || k.ID.V == id })
	if i < 0 {
		return nil, false
	}
	return &p.Packs[i], true
}

// PackIDs gives the ids of the packs, in order.
func (p *Product) PackIDs() []string {
	var ids []string
	for _, k := range p.Packs {
		ids = append(ids, k.ID.V)
	}
	return ids
}

// LanguagesOf gives the languages of a pack's label: its own, or the shop's.
func (s *Shop) LanguagesOf(k *Pack) []Text {
	if len(k.Languages) > 0 {
		return k.Languages
	}
	return s.Profile.LabelLanguages
}

// BatchCode gives the batch code of a run on a day: its own, or the one that
// the shop's rule makes.
func (s *Shop) BatchCode(run Run, day unit.Date) string {
	if run.Batch.Set() {
		return run.Batch.V
	}
	letter := "A"
	if run.Letter.Set() {
		letter = run.Letter.V
	}
	return fill(s.Profile.BatchCode.V, day, letter)
}

// SSCCFrom gives the digits of the serial reference of the run's first carton,
// or "" where the plan gives none.
func (s *Shop) SSCCFrom(run Run, day unit.Date) string { return fill(run.SSCCFrom.V, day, "") }

// fill puts the day into the places of a rule: {yy} is the year's last two
// digits, {day} the day of the year in three.
func fill(rule string, day unit.Date, letter string) string {
	return strings.NewReplacer(
		"{yy}", fmt.Sprintf("%02d", day.Year%100),
		"{day}", fmt.Sprintf("%03d", day.YearDay()),
		"{letter}", letter).Replace(rule)
}

// Known gives all ids that a line may use, sorted. Ingredients, formulas and
// products share one room, so that an id means one thing only.
func (s *Shop) Known() []string {
	all := slices.Concat(s.IngredientIDs, s.FormulaIDs, s.ProductIDs)
	slices.Sort(all)
	return all
}

// Lines gives all lines of the make-up, stage by stage.
func (p *Product) Lines() []Line {
	var all []Line
	for _, st := range p.Parts {
		all = append(all, st.Add...)
	}
	return all
}

// KeepOf is how a product keeps: as it says itself, but no longer than the
// product inside it that keeps the shortest.
func (s *Shop) KeepOf(p *Product) Keep {
	k := p.Keep
	s.shorten(&k, p, map[*Product]bool{})
	return k
}

func (s *Shop) shorten(k *Keep, p *Product, seen map[*Product]bool) {
	day := unit.Date{Year: 2026, Month: 1, Day: 1} // any will do to compare days with months
	seen[p] = true
	if p.Keep.Life.Set() && p.Keep.Life.V.End(day).Before(k.Life.V.End(day)) {
		k.Life = p.Keep.Life
	}
	for _, l := range p.Lines() {
		if q := s.Products[l.Use.V]; q != nil && !seen[q] {
			s.shorten(k, q, seen)
		}
	}
}

// Specified reports whether somebody says what is in an ingredient: it has a
// specification, or it is water from the tap.
func (i *Ingredient) Specified() bool {
	return i.Spec != nil || i.AddedWater.V && !i.Supplier.Set()
}
