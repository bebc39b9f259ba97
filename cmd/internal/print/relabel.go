package print

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/register"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// spanned reads numbers as labels write them: 0007-0009, or 7,9,12-14. They come
// in rising order, each once.
func spanned(s string) (out []register.Span, err error) {
	bad := usage.Errorf("write them as on the labels, such as 0007-0009 or 3,5", "%q are not the numbers of labels", s)
	for part := range strings.SplitSeq(s, ",") {
		lo, hi, several := strings.Cut(part, "-")
		if !several {
			hi = lo
		}
		from, err1 := strconv.ParseInt(strings.TrimSpace(lo), 10, 64)
		to, err2 := strconv.ParseInt(strings.TrimSpace(hi), 10, 64)
		if err1 != nil || err2 != nil || from < 1 || to < from || to-from > 1_000_000 {
			return nil, bad
		}
		out = append(out, register.Span{From: from, To: to})
	}
	slices.SortFunc(out, func(a, b register.Span) int { return int(a.From - b.From) })
	for i := range out[1:] {
		if out[i+1].From <= out[i].To {
			return nil, usage.Errorf("name each once", "label %04d is named twice", out[i+1].From)
		}
	}
	return out, nil
}

// seriesRead is what the book knows of the labels of one batch.
type seriesRead struct {
	given  []register.Block
	prints []register.Print
	ended  []register.End
}

// labelsOf looks up the labels of one batch. A shop without a book knows of none.
func (p *Press) labelsOf(ctx context.Context, id, batch string) (s seriesRead, err error) {
	there, name := false, register.Labels(id, batch).Name
	err = p.reads(ctx, func(book keep.Books) (err error) {
		there = true
		if s.given, err = book.Taken(ctx, name); err != nil {
			return err
		}
		if s.prints, err = book.Prints(ctx, register.Query{Series: name}); err != nil {
			return err
		}
		s.ended, err = book.Ended(ctx, name)
		return err
	})
	if err == nil && !there {
		err = usage.Errorf("begin one, once: chablon wall --begin", "%s keeps no print book, so nobody knows which labels were printed", p.Title())
	}
	return s, err
}

// labelsAgain makes labels once more as they were, with the numbers that they
// had. Each is made as the book says that it was made, and refused where what it
// would say has changed since.
func (p *Press) labelsAgain(k *Kind, r Request, o LabelOptions) (b Batch, err error) {
	ctx := context.Background()
	if strings.TrimSpace(o.Because) == "" {
		return b, usage.Errorf(`say why: --because "jam"`, "a number is printed once more only for a reason")
	}
	want, err := spanned(o.Again)
	if err != nil {
		return b, err
	}
	b = Batch{Found: &diag.List{}}
	for _, id := range r.IDs {
		batch, err := p.batchMeant(id, r)
		if err != nil {
			return b, err
		}
		s, err := p.labelsOf(ctx, id, batch)
		if err != nil {
			return b, err
		}
		for _, w := range want {
			if err := p.spanAgain(k, id, batch, s, w, o.Because, &b); err != nil {
				return b, err
			}
		}
	}
	if b.Found.Errors() == 0 {
		b.Claims, err = p.unused(ctx, b.Claims, b.Found)
	}
	if b.Found.Errors() > 0 {
		b.Papers, b.Claims = nil, nil
	}
	b.Elsewhere = p.elsewhere(b.Found)
	return b, err
}

// batchMeant is the batch code that a request means: its own, or that of the day.
func (p *Press) batchMeant(id string, r Request) (string, error) {
	if _, err := p.product(id); err != nil {
		return "", err
	}
	if r.Batch != "" {
		return r.Batch, nil
	}
	made := r.Made
	if made.IsZero() {
		made = p.Today
	}
	return p.Shop.BatchCode(shop.Run{}, made), nil
}

// spanAgain makes the labels of one span, print by print.
func (p *Press) spanAgain(k *Kind, id, batch string, s seriesRead, w register.Span, why string, b *Batch) error {
	for w.From <= w.To {
		i := slices.IndexFunc(s.prints, func(q register.Print) bool { return q.From <= w.From && w.From <= q.To })
		if i < 0 {
			return usage.Errorf("look at the number, and at the batch: chablon tally "+id+" lists them", "no label %04d of %s, batch %s, was ever printed", w.From, id, batch)
		}
		old := s.prints[i]
		part := register.Span{From: w.From, To: min(w.To, old.To)}
		w.From = part.To + 1
		if err := p.printAgain(k, old, part, why, b); err != nil {
			return err
		}
	}
	return nil
}

// printAgain makes some labels of one print once more.
func (p *Press) printAgain(k *Kind, old register.Print, part register.Span, why string, b *Batch) error {
	made, err := unit.ParseDate(old.Made)
	if err != nil {
		return err
	}
	r := asIn(old)
	r.Made, r.first = made, old.From
	j, err := p.make(k, r, old.ID)
	if err != nil {
		return err
	}
	if j.Found.Errors() == 0 && j.digest() != old.Digest {
		j.Found.Errorf(j.at(), "print-book", "take them off, note them as spoilt (chablon tally), and print new ones under another batch code",
			"the labels %s of %s, batch %s, were printed on %s, and what they say has changed since", spans([]register.Print{old})[0], old.ID, old.Batch, old.At.Format("2006-01-02"))
	}
	b.Found.AddAll(j.Found)
	if j.Found.Errors() > 0 {
		return nil
	}
	j.leave(int(part.From-old.From)+1, int(part.Count()))
	b.jobs = append(b.jobs, j)
	name := fmt.Sprintf("again-%s-", part)
	for _, c := range claimsOf([]*Job{j}) {
		c.Again, c.events, c.Digest, c.File = why, nil, old.Digest, name+c.File
		b.Claims = append(b.Claims, c)
	}
	for _, q := range papers([]*Job{j}) {
		q.Name, q.run = name+q.Name, name+q.run
		b.Papers = append(b.Papers, q)
	}
	b.set = "again-" + old.Series
	return nil
}
