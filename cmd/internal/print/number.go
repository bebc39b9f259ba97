package print

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/gs1"
	"chablon/labels/register"
	"chablon/labels/trace"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// demonstration is the GS1 prefix that is set aside for examples (GS1 prefix
// list: 952): its numbers identify nobody.
const demonstration = "952"

// counter deals out the carton numbers of one command before they are claimed.
// A number that it deals and nobody claims is dealt again by the next command.
type counter struct {
	last  int64
	known bool
}

// take deals n numbers, the first of which it gives.
func (c *counter) take(p *Press, n int) (int64, error) {
	if !c.known {
		last, err := p.lastNumber(context.Background())
		if err != nil {
			return 0, err
		}
		c.last, c.known = last, true
	}
	from := c.last + 1
	c.last += int64(n)
	return from, nil
}

// lastNumber is the highest carton number given, or the one before the first.
func (p *Press) lastNumber(ctx context.Context) (last int64, err error) {
	last = int64(p.Shop.Profile.CartonNumbers.From.V) - 1
	err = p.reads(ctx, func(book keep.Books) error {
		given, err := book.Taken(ctx, p.series())
		last = max(last, highestOf(given))
		return err
	})
	return last, err
}

// reads runs do on the shop's print book; where there is none, nothing is done.
func (p *Press) reads(ctx context.Context, do func(keep.Books) error) (err error) {
	if p.Name == "" {
		return nil
	}
	book, err := p.register(ctx, false)
	if register.RuleOf(err) == register.Missing {
		return nil
	}
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	return do(book)
}

// series is the name of the shop's carton numbers.
func (p *Press) series() string {
	return register.SSCC(extension, p.Shop.Profile.GS1Prefix.V).Name
}

// begins reports whether the book of a shop without one is begun by the first
// carton number that is asked of it: with a company prefix of its own. A shop
// with the prefix for demonstrations prints without, until it is begun.
func (p *Press) begins() bool {
	q := p.Shop.Profile
	return p.Name != "" && q.CartonNumbers != nil && !strings.HasPrefix(q.GS1Prefix.V, demonstration)
}

// packed is what a claim puts into the trace: the batch with its day and its
// label, and the cartons that were packed from it.
func (j *Job) packed(now time.Time) []trace.Event {
	batch := trace.Thing{Kind: trace.Batch, ID: j.ID, Code: j.Batch}
	open := trace.Event{Kind: trace.Make, At: now, Noted: now, Made: j.Made.String(), Facts: j.Facts.Digest(), Out: []trace.Part{{Thing: batch}}}
	if j.Facts.Date.Kind != "none" {
		open.Until = j.Facts.Date.End.String()
	}
	holds := j.packs()
	pack := trace.Event{Kind: trace.Pack, At: now, Noted: now, Partner: j.partner(), Order: j.Request.Order, Made: j.goes().Packed.String(),
		In: []trace.Part{{Thing: batch, Pieces: holds * j.Pack.Pieces.V * unit.Count(j.Count)}}}
	for _, code := range j.SSCCs {
		pack.Out = append(pack.Out, trace.Part{Thing: trace.Thing{Kind: trace.Carton, ID: j.ID, Code: code}, Pieces: holds})
	}
	return []trace.Event{open, pack}
}

// printedOf lists what was printed of a kind of a batch, in the order of
// printing; nothing where there is no book.
func (p *Press) printedOf(ctx context.Context, k *Kind, id, batch string) (out []register.Print, err error) {
	err = p.reads(ctx, func(book keep.Books) (err error) {
		out, err = book.Prints(ctx, register.Query{Kind: k.Name, ID: id, Batch: batch})
		return err
	})
	return out, err
}

// stillDue leaves of a run's cartons those that have no label yet: a day that is
// printed again gives no carton a second number. It says what has one already.
func (p *Press) stillDue(k *Kind, q *Request, id, batch string, made unit.Date) (said string, err error) {
	done, err := p.printedOf(context.Background(), k, id, batch)
	if err != nil {
		return "", err
	}
	var have int64
	var first string
	lost := register.Print{}
	for _, d := range done {
		switch {
		case d.Again != "" || d.Made != made.String():
		case !wroteAny(done, d):
			lost = d
		default:
			have += d.Count
			if first == "" {
				first, err = gs1.SSCC(extension, p.Shop.Profile.GS1Prefix.V, d.From)
			}
		}
	}
	if err != nil {
		return "", err
	}
	if lost.Count > 0 && q.Count == unit.Count(have+lost.Count) { // as it was meant the first time
		q.SSCCFrom = fmt.Sprint(lost.From)
	}
	if have == 0 {
		return "", nil
	}
	q.Count = max(0, q.Count-unit.Count(have))
	return fmt.Sprintf("printed before: %s of %s, batch %s, from SSCC %s on; one that is lost or spoilt: chablon again SSCC --because WHY",
		counted(int(have), "carton label", "carton labels"), id, batch, first), nil
}

// Again is a request to print carton labels once more, because they are lost or
// spoilt: the same labels, with the numbers that they had.
type Again struct {
	SSCCs []string
	Why   string
}

// PrintAgain makes labels once more as they were. They are refused where what
// they would say has changed since.
func (p *Press) PrintAgain(a Again) (Batch, error) {
	ctx := context.Background()
	if strings.TrimSpace(a.Why) == "" {
		return Batch{}, usage.Errorf(`say why: --because "jam"`, "a number is printed once more only for a reason")
	}
	var out Batch
	for i, code := range a.SSCCs {
		b, err := p.again(ctx, code, a.Why)
		if err != nil {
			return Batch{}, err
		}
		if i == 0 {
			out = b
			continue
		}
		out.Papers, out.Claims = append(out.Papers, b.Papers...), append(out.Claims, b.Claims...)
		out.Found.AddAll(b.Found)
	}
	if out.Found.Errors() > 0 {
		out.Papers, out.Claims = nil, nil
	}
	return out, nil
}

// again makes one label once more.
func (p *Press) again(ctx context.Context, code, why string) (b Batch, err error) {
	book, err := p.register(ctx, false)
	if err != nil {
		return Batch{}, err
	}
	old, err := bearing(ctx, book, p, code)
	r := Request{Count: unit.Count(old.Count), Batch: old.Batch, SSCCFrom: fmt.Sprint(old.From)}
	if err == nil {
		err = packedFor(ctx, book, old.ID, code, &r)
	}
	if err := errors.Join(err, book.Close()); err != nil {
		return Batch{}, err
	}
	if r.Made, err = unit.ParseDate(old.Made); err != nil {
		return Batch{}, err
	}
	k := p.KindOf(old.Kind)
	j, err := p.make(k, r, old.ID)
	if err != nil {
		return Batch{}, err
	}
	b = Batch{Found: j.Found}
	if j.Found.Errors() == 0 && j.digest() != old.Digest {
		j.Found.Errorf(j.at(), "sscc", "open the carton, label its packs anew, and give the carton a new number",
			"the label with SSCC %s was printed on %s, and what it says has changed since", code, old.At.Format(time.DateOnly))
	}
	if j.Found.Errors() > 0 {
		return b, nil
	}
	j.only(slices.Index(j.SSCCs, code) + 1)
	b.Claims, b.Papers = claimsOf([]*Job{j}), papers([]*Job{j})
	for i := range b.Claims {
		b.Claims[i].Again, b.Claims[i].events = why, nil // it was packed the first time
	}
	for i := range b.Papers {
		b.Papers[i].Name = "again-" + code + "-" + b.Papers[i].Name
		b.Papers[i].run = b.Papers[i].Name
	}
	b.set = "again-" + code
	return b, nil
}

// only leaves piece n, counted from 1, of all that was set.
func (j *Job) only(n int) {
	art, own := j.set.art(n), j.set.Own
	j.set.Arts = []*page.Art{art}
	if own != nil {
		j.set.Own = func(int) []page.Item { return own((n-1)*j.copies() + 1) }
	}
	j.SSCCs, j.From, j.Count = j.SSCCs[n-1:n], j.From+int64(n)-1, 1
}

// bearing finds the first print that bears an SSCC of the shop.
func bearing(ctx context.Context, book register.Register, p *Press, code string) (register.Print, error) {
	prefix := p.Shop.Profile.GS1Prefix.V
	if err := gs1.ValidAs("SSCC", code); err != nil || !strings.HasPrefix(code[1:], prefix) {
		return register.Print{}, usage.Errorf("give the 18 digits under the bars", "%q is not a carton number (SSCC) of this shop", code)
	}
	var serial int64
	if _, err := fmt.Sscan(strings.TrimLeft(code[1+len(prefix):17], "0"), &serial); err != nil {
		return register.Print{}, err
	}
	all, err := book.Prints(ctx, register.Query{Series: p.series(), Number: serial})
	if err == nil && len(all) == 0 {
		err = usage.Errorf("look at the number; chablon events lists what was packed", "no label with SSCC %s was ever printed", code)
	}
	if err != nil {
		return register.Print{}, err
	}
	return all[0], nil
}
