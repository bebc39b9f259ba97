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
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/register"
	"chablon/labels/trace"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// demonstration is the GS1 prefix that is set aside for examples (GS1 prefix
// list: 952): its numbers identify nobody.
const demonstration = "952"

// counter deals out the numbers of one command before they are claimed, series
// by series. A number that it deals and nobody claims is dealt again by the next
// command.
type counter struct{ last map[string]int64 }

// take deals n numbers of a series, the first of which it gives.
func (c *counter) take(p *Press, s register.Series, n int) (int64, error) {
	if p.held.users == 0 {
		c.last = nil
	}
	last, known := c.last[s.Name]
	if !known {
		var err error
		if last, err = p.lastNumber(context.Background(), s); err != nil {
			return 0, err
		}
	}
	if c.last == nil {
		c.last = map[string]int64{}
	}
	c.last[s.Name] = last + int64(n)
	return last + 1, nil
}

// lastNumber is the highest number given of a series, or the one before the
// first. Running numbers of labels go on above those that this machine has seen
// too: in a book that was lost or copied they leave a gap, and nothing is refused.
func (p *Press) lastNumber(ctx context.Context, s register.Series) (last int64, err error) {
	last = s.First - 1
	err = p.reads(ctx, func(book keep.Books) error {
		given, err := book.Taken(ctx, s.Name)
		if err != nil {
			return err
		}
		last = max(last, highestOf(given))
		if !running(s.Name) {
			return nil
		}
		seen, err := p.Witness.Of(p.witnessOf(s.Name))
		last = max(last, seen.Last)
		return err
	})
	return last, err
}

// running reports whether a series is of the labels of one batch.
func running(series string) bool {
	return strings.HasPrefix(series, register.Labels("", "").Name[:len("label/")])
}

// witnessOf is what the witness of this machine calls a series: two shops may
// have a batch of one name, but not a company prefix.
func (p *Press) witnessOf(series string) string {
	if running(series) {
		return p.Shop.Profile.Name.V + ": " + series
	}
	return series
}

// series is the name of the shop's carton numbers.
func (p *Press) series() string {
	return register.SSCC(extension, p.Shop.Profile.GS1Prefix.V).Name
}

// cartonSeries is the series of the shop's carton numbers, with the first that
// shop.yaml names.
func (p *Press) cartonSeries() register.Series {
	s := register.SSCC(extension, p.Shop.Profile.GS1Prefix.V)
	if n := p.Shop.Profile.CartonNumbers; n != nil {
		s.First = int64(n.From.V)
	}
	return s
}

// begins reports whether the book of a shop without one is begun by the first
// number that is asked of it. A shop with the prefix for demonstrations prints
// without, until it is begun.
func (p *Press) begins() bool {
	return p.Name != "" && !strings.HasPrefix(p.Shop.Profile.GS1Prefix.V, demonstration)
}

// opens is the event that a batch has its first paper: from then on it has one
// day, one date and one label.
func (j *Job) opens(now time.Time) trace.Event {
	open := trace.Event{Kind: trace.Make, At: now, Noted: now, Made: j.Made.String(), Facts: j.foodFacts(),
		Out: []trace.Part{{Thing: j.batchThing()}}}
	if j.Facts.Date.Kind != "none" {
		open.Until = j.Facts.Date.End.String()
	}
	if j.varies != nil {
		open.Why = whyVaries(j.varies)
		_, open.In = j.older(now)
	}
	return open
}

// batchThing is the batch that the paper is of.
func (j *Job) batchThing() trace.Thing {
	return trace.Thing{Kind: trace.Batch, ID: j.ID, Code: j.Batch}
}

// foodFacts is the fingerprint of what is said of the batch, whichever pack and
// market a paper of it is for: that of its usual pack in the shop's first market.
func (j *Job) foodFacts() string {
	usual, err := j.market("")
	if err != nil || len(j.Product.Packs) == 0 || j.Pack == &j.Product.Packs[0] && j.Market.Code == usual.Code {
		return j.Facts.Digest()
	}
	return declare.Of(j.Shop, j.Product, &j.Product.Packs[0], usual, j.Made, &diag.List{}).Digest()
}

// packed is what a claim puts into the trace: the batch with its day and its
// label, and the cartons that were packed from it.
func (j *Job) packed(now time.Time) []trace.Event {
	if j.Kind.Serial {
		first, _ := j.older(now)
		return append(first, j.opens(now))
	}
	in, events := j.inPack(now)
	pack := trace.Event{Kind: trace.Pack, At: now, Noted: now, Partner: j.partner(), Order: j.Request.Order, Made: j.goes().Packed.String(),
		In: in}
	for _, code := range j.SSCCs {
		pack.Out = append(pack.Out, trace.Part{Thing: trace.Thing{Kind: trace.Carton, ID: j.ID, Code: code}, Pieces: j.inCarton()})
	}
	first, _ := j.older(now)
	return append(append(append(first, j.opens(now)), events...), pack)
}

// taken is how much of a batch goes into the cartons: pieces, or what was read
// off the scale.
func (j *Job) taken(batch trace.Thing, holds unit.Count) trace.Part {
	if j.Pack.ByWeight() {
		return trace.Part{Thing: batch, Mass: j.Pack.Net.V * unit.Mass(holds) * unit.Mass(j.Count)}
	}
	return trace.Part{Thing: batch, Pieces: holds * j.Pack.Pieces.V * unit.Count(j.Count)}
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
		out.jobs, out.Papers, out.Claims = append(out.jobs, b.jobs...), append(out.Papers, b.Papers...), append(out.Claims, b.Claims...)
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
	r := asIn(old)
	r.SSCCFrom = fmt.Sprint(old.From)
	if err == nil {
		err = p.notVoid(ctx, book, old, code)
	}
	if err == nil {
		err = p.packedFor(ctx, book, old.ID, code, &r)
	}
	if err := errors.Join(err, book.Close()); err != nil {
		return Batch{}, err
	}
	if r.Made, err = unit.ParseDate(old.Made); err != nil {
		return Batch{}, err
	}
	j, err := p.make(p.KindOf(old.Kind), r, old.ID)
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
	b.jobs, b.Claims, b.Papers = []*Job{j}, claimsOf([]*Job{j}), papers([]*Job{j})
	for i := range b.Claims {
		b.Claims[i].Again, b.Claims[i].events = why, nil // it was packed the first time
		b.Claims[i].File = "again-" + code + "-" + b.Claims[i].File
	}
	for i := range b.Papers {
		b.Papers[i].Name = "again-" + code + "-" + b.Papers[i].Name
		b.Papers[i].run = "again-" + code + "-" + b.Papers[i].run
	}
	b.set = "again-" + code
	return b, nil
}

// notVoid refuses a number that is on nothing any more.
func (p *Press) notVoid(ctx context.Context, book register.Register, old register.Print, code string) error {
	ended, err := book.Ended(ctx, old.Series)
	if i := slices.Index(p.ssccs(old), code); err == nil && i >= 0 {
		err = register.Print{Series: old.Series, From: old.From + int64(i), To: old.From + int64(i)}.VoidError(ended)
	}
	return err
}

// asIn is the request that made a print, from what the book keeps of it. Prints
// of older books say nothing of pack and paper: then the usual ones are meant.
func asIn(old register.Print) Request {
	r := Request{Count: unit.Count(old.Count), Batch: old.Batch, Pack: old.Pack, Market: old.Market, Paper: old.Paper}
	if old.Langs != "" {
		r.Languages = strings.Split(old.Langs, ",")
	}
	return r
}

// only leaves piece n, counted from 1, of all that was set.
func (j *Job) only(n int) { j.leave(n, 1) }

// leave keeps count things from the one on that is the n-th, counted from 1, of
// all that was set.
func (j *Job) leave(n, count int) {
	own := j.set.Own
	if len(j.set.Arts) > 1 {
		j.set.Arts = j.set.Arts[n-1 : n-1+count]
	}
	j.set.made = nil
	if own != nil {
		j.set.Own = func(i int) []page.Item { return own((n-1)*j.copies() + i) }
	}
	if len(j.SSCCs) > 0 {
		j.SSCCs = j.SSCCs[n-1 : n-1+count]
	}
	j.From, j.Count = j.From+int64(n)-1, count
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
