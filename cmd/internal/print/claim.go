package print

import (
	"cmp"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"time"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/register"
	"chablon/layout/page"
)

// claim is the SSCCs of one run of cartons that is ready for printing. Serial
// numbers of sale labels are not claimed: they tell the labels of one batch
// apart, and printing them once more hurts nobody.
type claim struct {
	register.Print
	ssccs []string
	at    diag.Pos // where the numbers come from
}

// claimed notes what c needs from the register. A draft is not for a carton
// that leaves the house, so it claims nothing.
func (p *Press) claimed(c *cartonRun) {
	if len(c.SSCCs) == 0 || c.draft {
		return
	}
	prefix := p.Shop.Profile.GS1Prefix.V
	p.claims = append(p.claims, claim{ssccs: c.SSCCs, at: c.Numbered, Print: register.Print{
		Kind: "carton", ID: c.product.ID, Version: fmt.Sprintf("v%d", c.product.Version.V), Batch: c.Batch, Made: c.Facts.Made.String(),
		Series: register.SSCC(extension, prefix).Name, From: c.from, To: c.from + int64(c.Of) - 1, Count: int64(c.Of),
		Digest: c.digest(), At: p.Made}})
}

// extension is the first digit of every SSCC of the shop.
const extension = 0

// digest is the same for the same labels, wherever the printer puts them.
func (c *cartonRun) digest() string {
	h := sha256.New()
	w, ht := c.Stock.Size()
	for n := range c.Of {
		pg := &page.Page{W: w, H: ht, Items: slices.Concat(c.set.Art.Items, c.set.Own(n+1))}
		h.Write([]byte(pg.Dump()))
	}
	return fmt.Sprintf("%x", h.Sum(nil))
}

// unused looks every claimed number up in the register. A number that is on
// another carton is an error, one that is on the same carton is a caution, and
// so is a shop without a register. The demo shop has none and ships nothing.
func (p *Press) unused(ctx context.Context) (err error) {
	slices.SortStableFunc(p.claims, func(a, b claim) int { return cmp.Compare(a.From, b.From) })
	if len(p.claims) == 0 || p.Name == "" {
		p.claims = nil
		return nil
	}
	book, err := p.register(ctx, false)
	if register.RuleOf(err) == register.Missing {
		p.claims = nil
		p.Found.Warnf(p.Shop.Profile.GS1Prefix.Pos, "sscc", "begin a print book, once: chablon wall "+p.Name+" --begin",
			"the SSCCs are not compared with those of earlier days: this shop has no print book")
		return nil
	}
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	return p.lookUpClaims(ctx, book)
}

// lookUpClaims goes through the claims in the order of their numbers.
func (p *Press) lookUpClaims(ctx context.Context, book register.Register) error {
	series := p.claims[0].Series
	given, err := book.Taken(ctx, series)
	if err != nil {
		return err
	}
	done, err := book.Prints(ctx, register.Query{Series: series})
	if err != nil {
		return err
	}
	var last int64
	if len(given) > 0 {
		last = given[len(given)-1].To
	}
	for i := range p.claims {
		c := &p.claims[i]
		before := slices.IndexFunc(done, func(d register.Print) bool { return d.Bears(c.Series, c.From, c.To) })
		switch {
		case before >= 0:
			p.printedBefore(c, done[before], last)
		case c.From < 1:
			p.Found.Errorf(c.at, "sscc", "begin at 1", "a print book counts SSCCs from 1")
		case c.From <= last:
			p.Found.Errorf(c.at, "sscc", fmt.Sprintf("begin at %d: a number left out does no harm, one used twice does", last+1),
				"SSCC %s was passed over: numbers up to %d have been given out", c.ssccs[0], last)
		default:
			last = c.To
		}
	}
	return nil
}

// printedBefore says what to do when a number is on paper. The same labels may
// be printed once more; last is the highest number given so far.
func (p *Press) printedBefore(c *claim, old register.Print, last int64) {
	day := old.At.Format(time.DateOnly)
	numbers := counted(int(old.Count), "carton", "cartons")
	switch {
	case old.Kind != c.Kind || old.ID != c.ID || old.Batch != c.Batch:
		p.Found.Errorf(c.at, "sscc", fmt.Sprintf("begin at %d", last+1), "SSCC %s is already on a carton of %s, batch %s, printed on %s",
			c.ssccs[max(c.From, old.From)-c.From], old.ID, old.Batch, day)
	case old.From != c.From || old.To != c.To:
		p.Found.Errorf(c.at, "sscc", fmt.Sprintf("for more cartons begin at %d; to print those once more, ask for %s from %d on", last+1, numbers, old.From),
			"SSCC %s is already on a carton of %s, batch %s, printed on %s", c.ssccs[max(c.From, old.From)-c.From], old.ID, old.Batch, day)
	case old.Digest != c.Digest:
		p.Found.Errorf(c.at, "sscc", fmt.Sprintf("throw the first labels away and begin at %d", last+1),
			"SSCC %s is on a carton of %s, batch %s, printed on %s, and the label has changed since", c.ssccs[0], old.ID, old.Batch, day)
	default:
		c.Again = "printed again"
		p.Found.Warnf(c.at, "sscc", "make sure that each carton bears one of them, and throw the others away",
			"the labels of %s of %s, batch %s, from SSCC %s on, are printed again; the first time was on %s", numbers, c.ID, c.Batch, c.ssccs[0], day)
	}
}

// Claim takes the numbers of the papers that were made last and notes that
// they are printed. It is called when nothing is wrong, before any file is
// written: a crash then leaves numbers unused, but none on two cartons.
func (p *Press) Claim(ctx context.Context) (err error) {
	claims := p.claims
	p.claims = nil
	if len(claims) == 0 || p.Found.Errors() > 0 {
		return nil
	}
	book, err := p.register(ctx, false)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	for _, c := range claims {
		if c.Again == "" {
			if err := p.take(ctx, book, c); err != nil {
				return err
			}
		}
		if _, err := book.Record(ctx, c.Print); err != nil {
			return err
		}
	}
	return nil
}

// take takes exactly the numbers of c. Another program may have been quicker.
func (p *Press) take(ctx context.Context, book register.Register, c claim) error {
	series := register.SSCC(extension, p.Shop.Profile.GS1Prefix.V)
	series.First = c.From
	got, err := book.Take(ctx, register.Want{Series: series, N: c.Count, At: c.At, For: "cartons of " + c.ID + ", batch " + c.Batch})
	if err == nil && got.From != c.From {
		return usage.Errorf("give the command again", "SSCC %s was given to other cartons at this moment; nothing was printed", c.ssccs[0])
	}
	return err
}

// Begin begins an empty register beside the shop, where none may be.
func (p *Press) Begin(ctx context.Context) error {
	if err := p.ownFolder(); err != nil {
		return err
	}
	book, err := keep.Begin(ctx, p.Name)
	if err != nil {
		return err
	}
	return book.Close()
}
