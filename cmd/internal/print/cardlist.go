package print

import (
	"context"
	"slices"

	"chablon/cmd/internal/keep"
	"chablon/labels/register"
	"chablon/labels/unit"
	"chablon/layout/cardlist"
)

func cardListKind() *Kind {
	return &Kind{
		Name: "card-list", File: "card-list", One: "list of current cards", Many: "lists of current cards",
		Short:   "Print the list of current cards that every card is compared with",
		Long:    "Prints every card that hangs in the kitchen, by the print book, and those of today's\nplan: name, size, check word, place and copy. A copy that is out of date is told to\ncome down.",
		Example: "  chablon card-list samples/quoin-and-crumb --today 2026-03-17",
		Next:    "Hang it where the cards hang; print it again whenever a card is hung up.",
		Inside:  true,
		Of:      Shop, Speaks: Kitchen, Langs: 1, Usual: 1, Form: "card",
		Compose: composeCardList,
		Day:     once,
	}
}

func composeCardList(j *Job) (Set, error) {
	s := cardlist.Sheet{Shop: j.Shop.Profile.Name.V, Lang: j.Langs[0], Day: j.Today, Stock: j.Stock, Dots: j.Printer.Resolution.V}
	var err error
	if s.Cards, err = j.hanging(context.Background()); err != nil {
		return Set{}, err
	}
	s.Cards = append(s.Cards, j.ofPlan()...)
	return Set{Pages: cardlist.Compose(s, j.faces, j.Found), Heights: cardlist.Heights()}, nil
}

// hanging are the copies that the print book knows, each beside what the card
// shows today.
func (j *Job) hanging(ctx context.Context) (out []cardlist.Card, err error) {
	var copies []register.Copy
	err = j.reads(ctx, func(book keep.Books) (err error) {
		copies, err = book.Posted(ctx)
		return err
	})
	for _, c := range copies {
		now, ok := j.today(c)
		one := cardlist.Card{Name: j.nameOf(c.ID, j.Langs[0].Code()), Word: now.CheckWord, Version: now.Version, Langs: c.Langs,
			Place: c.Place, N: c.N, Of: c.Of, Hangs: c.CheckWord, Gone: !ok}
		one.Pieces, one.Size = sizes(c.Size)
		out = append(out, one)
	}
	return out, err
}

// ofPlan are the cards of the day's plan; without a plan there are none. What a
// fault keeps from being printed is no card.
func (j *Job) ofPlan() (out []cardlist.Card) {
	plan := j.Request.plan
	if plan == nil {
		plan, _ = j.Shop.PlanFor(j.Today)
	}
	if plan == nil {
		return nil
	}
	k := j.KindOf("card")
	for i := range plan.Runs {
		r := &plan.Runs[i]
		q, _ := cardOfRun(j.whole, *r)
		q.IDs, q.run = []string{r.Product.V}, r
		of := j.whole.about(k, q, r.Product.V)
		c, err := of.cardOf(q, r.Product.V)
		if err != nil || of.Found.Errors() > 0 {
			continue
		}
		now := current(c)
		one := cardlist.Card{Name: j.nameOf(r.Product.V, j.Langs[0].Code()), Pieces: r.Pieces.V, Word: now.CheckWord, Version: now.Version, Langs: langCodes(c.Langs)}
		if !slices.ContainsFunc(out, func(o cardlist.Card) bool { return o.Name == one.Name && o.Pieces == one.Pieces }) {
			out = append(out, one)
		}
	}
	return out
}

// sizes reads a size of the print book: its pieces, or else as it stands there.
func sizes(size string) (unit.Count, string) {
	var o CardOptions
	if readSize(size, &o) == nil && o.Pieces > 0 {
		return o.Pieces, ""
	}
	return 0, size
}
