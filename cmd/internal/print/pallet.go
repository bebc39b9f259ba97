package print

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/gs1"
	"chablon/labels/register"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pallet"
)

// palletKind is the label over the cartons of a pallet. It says nothing of the
// food that its cartons do not say, and only cartons stand on it that were
// labelled for sale: so no signature of its own is asked for. A carton on two
// pallets, one for another customer, and goods that were withdrawn are refused
// by the book itself (labels/trace).
func palletKind() *Kind {
	return &Kind{
		Name: "pallet", File: "pallet", One: "pallet label", Many: "pallet labels",
		Short:   "Print the label of a pallet, over the cartons on it",
		Long:    "Prints one label with a number of its own over the cartons that stand on a\npallet, and notes in the print book that they do. Without numbers of cartons it\ntakes all that were packed for the customer and the order and did not leave yet.",
		Example: "  chablon pallet --for ossel-larder --order OL-4711 --shop my-shop\n  chablon pallet 095200010000000010 --shop my-shop",
		Next:    "Stick it on two sides of the pallet that lie next to each other, its bars between 400 and 800 mm above the floor.",
		Of:      Cartons, Inside: true, Speaks: Kitchen, SSCC: true, Scan: gs1.Trade, Langs: 1, Usual: 1,
		Paper:   func(*Job) string { return "roll-a5" },
		Tells:   func(j *Job) []string { return j.SSCCs },
		Compose: composePallet,
	}
}

func composePallet(j *Job) (Set, error) {
	if j.canPrint(); j.Found.Errors() > 0 {
		return Set{}, nil
	}
	p := *j.load
	p.Numbered, p.Shop, p.Goes, p.Langs, p.Stock, p.Dots = j.Number, j.Shop, j.goes(), j.Langs, j.Stock, j.Printer.Resolution.V
	if len(j.SSCCs) > 0 {
		p.SSCC = j.SSCCs[0]
	}
	art := pallet.Compose(p, j.faces, j.Found)
	if art == nil {
		return Set{}, nil
	}
	return Set{Arts: []*page.Art{art}, Date: p.Earliest}, nil
}

// loaded finds the cartons of a pallet in the print book.
func (j *Job) loaded() error {
	if j.Kind.Of != Cartons {
		return nil
	}
	ctx, there := context.Background(), false
	err := j.reads(ctx, func(book keep.Books) error {
		there = true
		packs, err := j.onPallet(ctx, book)
		if err == nil && j.To == nil { // as the labels of the cartons say
			j.To, _ = j.Shop.CustomerNamed(packs[0].pack.Partner)
			j.Request.Order = packs[0].pack.Order
		}
		if err == nil {
			j.load, err = j.sum(ctx, book, packs)
			for _, b := range packs {
				j.boxes = append(j.boxes, trace.Part{Thing: b.Thing})
			}
		}
		return err
	})
	if err == nil && !there {
		return usage.Errorf("begin one, once, in the folder of the shop: chablon wall --begin; then print the cartons", "nothing is known of any carton: this shop has no print book")
	}
	j.Demo = j.demo(nil)
	return err
}

// box is one carton with the event that packed it.
type box struct {
	trace.Part
	pack trace.Event
}

// onPallet are the cartons that were named, or all for the customer and the
// order that stand on no pallet and did not leave.
func (j *Job) onPallet(ctx context.Context, book keep.Books) (out []box, err error) {
	for i, code := range j.Request.IDs {
		if slices.Contains(j.Request.IDs[:i], code) {
			return nil, usage.Errorf("name it once", "the carton %s is named twice", code)
		}
		all, err := book.Named(ctx, code)
		if err != nil {
			return nil, err
		}
		k := slices.IndexFunc(all, func(t trace.Thing) bool { return t.Kind == trace.Carton })
		if k < 0 {
			return nil, usage.Errorf("look at the 18 digits under the bars; chablon events lists what was packed", "no carton %s was ever packed", code)
		}
		b, err := boxOf(ctx, book, all[k])
		if err != nil {
			return nil, err
		}
		out = append(out, b)
	}
	if len(j.Request.IDs) > 0 {
		return out, nil
	}
	if j.To == nil {
		return nil, usage.Errorf("give the 18 digits under the bars of each, or --for and --order", "which cartons?")
	}
	if out, err = waiting(ctx, book, j.partner(), j.Request.Order); err == nil && len(out) == 0 {
		err = usage.Errorf("print them first: chablon carton PRODUCT --for "+j.To.ID+" --order "+j.Request.Order, "no carton waits for %s, order %s", j.partner(), j.Request.Order)
	}
	return out, err
}

func boxOf(ctx context.Context, book keep.Books, t trace.Thing) (box, error) {
	list, err := book.With(ctx, trace.Out, []trace.Thing{t})
	for _, e := range list {
		for _, p := range e.Out {
			if e.Kind == trace.Pack && p.Thing == t {
				return box{p, e}, nil
			}
		}
	}
	if err == nil {
		err = usage.Errorf("chablon events lists what was packed", "%s was not packed", t)
	}
	return box{}, err
}

// waiting are the cartons for a customer and an order that are still here and
// on no pallet.
func waiting(ctx context.Context, book keep.Books, partner, order string) (out []box, err error) {
	all, err := book.Events(ctx)
	if err != nil {
		return nil, err
	}
	for _, e := range all {
		if e.Kind != trace.Pack || e.Partner != partner || e.Order != order {
			continue
		}
		if _, undone, err := book.Event(ctx, e.Number); err != nil || undone {
			if err != nil {
				return nil, err
			}
			continue
		}
		for _, p := range e.Out {
			gone, err := book.With(ctx, trace.In, []trace.Thing{p.Thing})
			if err != nil {
				return nil, err
			}
			if len(gone) == 0 {
				out = append(out, box{p, e})
			}
		}
	}
	return out, nil
}

// sum is all that a pallet of these cartons says.
func (j *Job) sum(ctx context.Context, book keep.Books, boxes []box) (*pallet.Pallet, error) {
	p := &pallet.Pallet{}
	at := map[trace.Thing]int{}
	known, first := true, true
	for _, b := range boxes {
		q := j.Shop.Products[b.ID]
		if q == nil || q.Carton == nil {
			return nil, usage.Errorf("put it back into the shop, or leave the carton out", "the shop has no carton of %s any more", b.ID)
		}
		batch := b.pack.In[0].Thing
		i, before := at[batch]
		if !before {
			i = len(p.Lines)
			at[batch] = i
			p.Lines = append(p.Lines, pallet.Line{Product: q, Batch: batch.Code, Full: true})
			if err := j.dated(ctx, book, p, q, batch); err != nil {
				return nil, err
			}
			if err := j.kept(p, q, first); err != nil {
				return nil, err
			}
			first = false
		}
		l := &p.Lines[i]
		net, weighed := j.netOf(q, b)
		l.Cartons, l.Packs, l.Net = l.Cartons+1, l.Packs+b.Pieces, l.Net+net
		l.Full = l.Full && !weighed && len(b.pack.In) == 1 && b.Pieces == q.Carton.Holds.V
		known = known && q.Carton.Tare.Set()
		p.Gross += net + q.Carton.Tare.V
	}
	if !known {
		p.Gross = 0
	}
	return p, j.stacked(p)
}

// netOf is what is in a carton, and whether it was read off the scale.
func (j *Job) netOf(q *shop.Product, b box) (unit.Mass, bool) {
	if m := b.pack.In[0].Mass; m > 0 {
		return m / unit.Mass(len(b.pack.Out)), true
	}
	k, _ := q.Pack(q.Carton.Pack.V)
	return k.Net.V * unit.Mass(b.Pieces), false
}

// dated takes the date of a batch, where it is the earliest.
func (j *Job) dated(ctx context.Context, book keep.Books, p *pallet.Pallet, q *shop.Product, batch trace.Thing) error {
	made, err := book.With(ctx, trace.Out, []trace.Thing{batch})
	for _, e := range made {
		if err != nil || e.Until == "" {
			continue
		}
		var day unit.Date
		if day, err = unit.ParseDate(e.Until); err != nil {
			return fmt.Errorf("the print book has a wrong date: %w", err)
		}
		if p.Earliest.IsZero() || day.Before(p.Earliest) {
			p.Earliest, p.UseBy = day, j.Shop.KeepOf(q).Date.V == "use-by"
		}
	}
	return err
}

// kept narrows how the pallet is kept to what suits one product more. What
// cannot stand in one place is refused.
func (j *Job) kept(p *pallet.Pallet, q *shop.Product, first bool) error {
	k := j.Shop.KeepOf(q)
	switch {
	case first:
		p.Keep = k
		return nil
	case (k.Store.V == "frozen") != (p.Keep.Store.V == "frozen") || !meet(k, p.Keep):
		return usage.Errorf("put it on a pallet of its own", "%s is kept %s and the rest of the pallet %s", q.ID, keptAs(k), keptAs(p.Keep))
	case cold(k.Store.V) < cold(p.Keep.Store.V) || k.Temp.Set() && (!p.Keep.Temp.Set() || k.Temp.V.Hi < p.Keep.Temp.V.Hi):
		p.Keep = k
	}
	return nil
}

// meet reports whether there is a temperature that suits both.
func meet(a, b shop.Keep) bool {
	if !a.Temp.Set() || !b.Temp.Set() {
		return true
	}
	above := func(lo, hi unit.Target) bool {
		return lo.Kind != unit.AtMost && hi.Kind != unit.AtLeast && lo.Lo > hi.Hi
	}
	return !above(a.Temp.V, b.Temp.V) && !above(b.Temp.V, a.Temp.V)
}

// cold orders the stores from cold to warm.
func cold(store string) int {
	return slices.Index([]string{"frozen", "chilled", "cool", "ambient"}, store)
}

func keptAs(k shop.Keep) string {
	if k.Temp.Set() {
		return k.Store.V + ", " + k.Temp.V.String()
	}
	return k.Store.V
}

// stacked counts the layers, where all cartons are of one product, and refuses
// more than may stand on each other.
func (j *Job) stacked(p *pallet.Pallet) error {
	q := p.Lines[0].Product
	if !q.Carton.Tie.Set() || slices.ContainsFunc(p.Lines, func(l pallet.Line) bool { return l.Product != q }) {
		return nil
	}
	p.Tie = int(q.Carton.Tie.V)
	if p.High() > int(q.Carton.High.V) {
		return usage.Errorf("begin a second pallet", "%d cartons of %s make %d layers of %d, and at most %d stand on a pallet", p.Cartons(), q.ID, p.High(), p.Tie, q.Carton.High.V)
	}
	return nil
}

// palletClaim is the number of a pallet, with what stands on it.
func (j *Job) palletClaim() Claim {
	on := trace.Event{Kind: trace.Load, At: j.Clock, Noted: j.Clock, Partner: j.partner(), Order: j.Request.Order, In: j.boxes,
		Out: []trace.Part{{Thing: trace.Thing{Kind: trace.Pallet, Code: j.SSCCs[0]}}}}
	return Claim{ssccs: j.SSCCs, at: j.Number, found: j.Found, events: []trace.Event{on}, Print: register.Print{
		Kind: j.Kind.Name, ID: j.Kind.Name, Made: j.Made.String(), Series: j.numbersOf().Name, From: j.From, To: j.From, Count: 1,
		Digest: j.digest(), At: j.Clock, Langs: strings.Join(langCodes(j.Langs), ","), Paper: j.Stock.ID, File: fileName([]*Job{j}) + j.As.ending()}}
}
