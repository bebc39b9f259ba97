package print

import (
	"slices"

	"chablon/cmd/internal/follow"
	"chablon/labels/claim"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
	"chablon/layout/recall"
)

// Traced is what a trace found, to be printed.
type Traced struct {
	Of        trace.Thing
	Why       string           // why it is withdrawn, or ""
	Reports   []*follow.Report // one, or one for each way
	Exercise  *follow.Exercise // nil where it was no mock recall
	Languages []string         // one; the first of the cards when left out
}

// tracedKind is the sheet of what a trace found; the command that follows
// things prints it.
func tracedKind() *Kind {
	return &Kind{
		Name: "traced", File: "traced", One: "sheet of what was traced", Many: "sheets of what was traced",
		Next:   "Work it down and sign it. Whom to tell, and how soon, a competent person and local law decide.",
		Inside: true,
		Of:     Shop, Speaks: Kitchen, Langs: 1, Usual: 1, Form: "card",
		Tells: func(j *Job) []string {
			if j.Request.traced == nil {
				return nil
			}
			return []string{coded(j.Request.traced.Of.Code)}
		},
		Compose: composeTraced,
	}
}

func composeTraced(j *Job) (Set, error) {
	q := j.Request.traced
	if q == nil {
		return Set{}, nil // nothing was followed
	}
	s := recall.Sheet{Shop: j.Shop, Lang: j.Langs[0], Day: j.Today, Of: q.Of, Why: q.Why, Stock: j.Stock, Dots: j.Printer.Resolution.V}
	for _, r := range q.Reports {
		j.found(&s, r)
	}
	if x := q.Exercise; x != nil {
		s.Mock = &recall.Mock{Began: x.Began, Ended: x.Ended, Took: x.Took, Batches: len(x.Forth.Of(trace.Batch)), Balances: x.Balances, Proof: x.Proof}
	}
	return Set{Pages: recall.Compose(s, j.faces, j.Found), Heights: recall.Heights()}, nil
}

// found adds what a report says to a sheet.
func (j *Job) found(s *recall.Sheet, r *follow.Report) {
	for _, g := range r.Goods {
		gone := recall.Gone{Customer: g.Customer, Order: g.Order, Day: unit.DateOf(g.At)}
		for _, b := range g.Things {
			gone.Boxes = append(gone.Boxes, recall.Box(b))
		}
		s.Goods = append(s.Goods, gone)
	}
	s.Here = append(s.Here, r.Here...)
	for _, l := range r.Lots {
		s.Lots = append(s.Lots, recall.Source{Part: l.Part, From: l.From, Order: l.Order, Day: unit.DateOf(l.At), Until: l.Until, Animal: j.animal(l.ID)})
	}
}

// animal reports whether a market of the shop asks for facts with a lot of an
// ingredient: it comes from an animal, and holds no plants, as far as its
// allergens and its name tell (food of both is exempt).
func (j *Job) animal(id string) bool {
	i := j.Shop.Ingredients[id]
	asked := slices.ContainsFunc(j.Shop.Profile.Markets, func(c shop.Text) bool {
		m, err := j.market(c.V)
		return err == nil && m.WithAnimals()
	})
	if i == nil || !asked {
		return false
	}
	of := []string{"milk", "eggs", "fish", "crustaceans", "molluscs"}
	if len(i.Contains) > 0 {
		return !slices.ContainsFunc(i.Contains, func(a shop.Text) bool { return !slices.Contains(of, a.V) })
	}
	for _, n := range i.Name {
		if l, ok := claim.Get(n.Key.V); ok && l.OfAnimals(n.V.V) != "" {
			return true
		}
	}
	return false
}

// Traced makes the sheet of what a trace found.
func (p *Press) Traced(q Traced) (Batch, error) {
	return p.Print(p.KindOf("traced"), Request{Languages: q.Languages, traced: &q})
}
