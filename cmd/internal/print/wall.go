package print

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/register"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/card"
)

// register opens the register beside the shop; with begin it begins one where
// there is none.
func (p *Press) register(ctx context.Context, begin bool) (keep.Books, error) {
	if err := p.ownFolder(); err != nil {
		return nil, err
	}
	r, err := keep.Book(ctx, p.Name)
	if register.RuleOf(err) == register.Missing && begin {
		return keep.Begin(ctx, p.Name)
	}
	return r, err
}

// ownFolder refuses the demo shop, which lies in no folder.
func (p *Press) ownFolder() error {
	if p.Name == "" {
		return usage.Errorf("chablon new DIR writes a shop of your own; then give --shop DIR", "the demo shop lies in no folder, so it keeps no print book")
	}
	return nil
}

// canHang refuses a card that cannot be noted as hung up, before it is printed.
func (p *Press) canHang(o CardOptions) error {
	if strings.TrimSpace(o.Place) == "" {
		return usage.Errorf(`say where it hangs: --place "oven wall"`, "a card on the wall needs the place where it hangs")
	}
	return p.ownFolder()
}

// Post notes in the register that the card of r was hung up at its place, and
// returns what must be told: which copies have to come down now, and which
// other ones of the same card are noted at the same place.
func (p *Press) Post(ctx context.Context, r Request) (register.Posting, error) {
	o := *r.Own.(*CardOptions)
	if err := p.canHang(o); err != nil {
		return register.Posting{}, err
	}
	c, err := p.about(p.KindOf("card"), r, r.IDs[0]).cardOf(r, r.IDs[0])
	if err != nil {
		return register.Posting{}, err
	}
	book, err := p.register(ctx, true)
	if err != nil {
		return register.Posting{}, err
	}
	now := current(c)
	done, err := book.Post(ctx, register.Copy{ID: r.IDs[0], Version: now.Version, Issued: issued(c), CheckWord: now.CheckWord, Size: sizeOf(o),
		N: c.Copy, Of: c.Copies, Place: o.Place, Paper: c.Stock.ID, Langs: langCodes(c.Langs), At: p.Clock})
	return done, errors.Join(err, book.Close())
}

// reworded refuses a card that says something else than a copy that was hung up
// as the same version, size and languages: two cards that cannot be told apart
// by their version would hang in one kitchen.
func (j *Job) reworded(ctx context.Context, c card.Card) (err error) {
	if j.Name == "" || j.Request.compare {
		return nil
	}
	book, err := keep.Book(ctx, j.Name)
	if register.RuleOf(err) == register.Missing {
		return nil
	}
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	all, err := book.History(ctx, j.ID)
	now, size := current(c), sizeOf(own[CardOptions](j))
	for _, old := range all {
		if old.Version == now.Version && old.Size == size && slices.Equal(old.Langs, langCodes(c.Langs)) && old.CheckWord != now.CheckWord && now.CheckWord != "" {
			j.Found.Errorf(j.at(), "version", "raise version: in its file, and write issued: of today", "the card of %s says something else than the one that was hung up as %s with the check word %s, and is %s still",
				j.ID, old.Version, old.CheckWord, now.Version)
			break
		}
	}
	return err
}

// current is what a card shows today.
func current(c card.Card) register.Current {
	v := 0
	if c.Product != nil {
		v = c.Product.Version.V
	} else {
		v = c.Formula.Version.V
	}
	return register.Current{Version: fmt.Sprintf("v%d", v), CheckWord: card.CheckWord(c)}
}

func issued(c card.Card) string {
	if c.Product != nil {
		return c.Product.Issued.V.String()
	}
	return c.Formula.Issued.V.String()
}

// sizeOf writes the size of a batch so that readSize can read it again.
func sizeOf(r CardOptions) string {
	switch {
	case r.Have.Ingredient != "":
		return fmt.Sprintf("have %s=%s", r.Have.Ingredient, r.Have.Mass)
	case r.Mass > 0:
		return r.Mass.String()
	case r.Pieces > 0:
		return fmt.Sprintf("%d pieces", r.Pieces)
	}
	return ""
}

// readSize reads a size into the request that it was written from.
func readSize(s string, r *CardOptions) (err error) {
	if have, ok := strings.CutPrefix(s, "have "); ok {
		id, mass, _ := strings.Cut(have, "=")
		r.Have.Ingredient = id
		r.Have.Mass, err = unit.ParseMass(mass)
		return err
	}
	switch {
	case strings.HasSuffix(s, " pieces"):
		r.Pieces, err = unit.ParseCount(s)
	case s != "":
		r.Mass, err = unit.ParseMass(s)
	}
	return err
}

// Posted is what hangs in the kitchen, and what of it is out of date.
type Posted struct {
	Copies []register.Copy
	Stale  []register.Stale
}

// Posted lists the posted copies, after noting that those with the given
// numbers were taken down.
func (p *Press) Posted(ctx context.Context, down []int64) (out Posted, err error) {
	book, err := p.register(ctx, false)
	if register.RuleOf(err) == register.Missing {
		return out, nil // nothing was ever posted
	}
	if err != nil {
		return out, err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	for _, n := range down {
		if _, err := book.TakeDown(ctx, n, p.Clock); err != nil {
			return out, err
		}
	}
	if out.Copies, err = book.Posted(ctx); err != nil {
		return out, err
	}
	out.Stale = register.OutOfDate(out.Copies, p.today)
	return out, nil
}

// today is what a posted copy would show if it were printed today; false when
// there is no such card any more.
func (p *Press) today(c register.Copy) (register.Current, bool) {
	o := &CardOptions{}
	r := Request{IDs: []string{c.ID}, Languages: c.Langs, Paper: c.Paper, Own: o}
	if readSize(c.Size, o) != nil {
		return register.Current{}, false
	}
	q := p.about(p.KindOf("card"), r, c.ID)
	again, err := q.cardOf(r, c.ID)
	if err != nil || q.Found.Errors() > 0 {
		return register.Current{}, false
	}
	return current(again), true
}

// nameOf is the name of a product or formula; its id where it has none.
func (p *Press) nameOf(id, lang string) string {
	var names shop.Words
	if q := p.Shop.Products[id]; q != nil {
		names = q.Name
	} else if f := p.Shop.Formulas[id]; f != nil {
		names = f.Name
	}
	if n, ok := shop.In(names, lang); ok {
		return n.V
	}
	return id
}
