package print

import (
	"context"
	"strings"
	"time"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/declare"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/carton"
)

// Inside is packs of another batch, or of another product, in the cartons of a
// job. They go the same road: approved, with their own date and allergens, and
// noted in the trace.
type Inside struct {
	Product *shop.Product
	Pack    *shop.Pack
	Facts   *declare.Facts
	Told    []*words.Label
	Batch   string
	Packs   unit.Count
}

// with is what a request says of one of them.
type with struct {
	id, batch string
	packs     unit.Count
}

// inside is what the flags and the plan say is in a carton beside what it is of.
func (o CartonOptions) inside() (out []with, err error) {
	out = append(out, o.with...)
	for _, said := range o.With {
		name, count, ok := strings.Cut(said, ":")
		id, batch, _ := strings.Cut(name, "=")
		n, bad := unit.ParseCount(count)
		if !ok || bad != nil || n < 1 || id == "" {
			return nil, usage.Errorf(`write the product, and how many packs of it: --with "pistachio-choux:5", or with the batch: --with "pistachio-choux=L26075A:5"`, "%q does not say what is in the carton", said)
		}
		out = append(out, with{id, batch, n})
	}
	return out, nil
}

// ofPlan is the last carton of a run.
func ofPlan(l *shop.LastCarton) *CartonOptions {
	o := CartonOptions{Packs: l.Packs.V}
	for _, in := range l.With {
		o.with = append(o.with, with{in.Product.V, in.Batch.V, in.Packs.V})
	}
	return &o
}

// fill finds what is in the cartons beside what they are of, by the shop's rule.
func (j *Job) fill() error {
	o := own[CartonOptions](j)
	all, err := o.inside()
	if err != nil || len(all) == 0 {
		return err
	}
	if o.Packs < 1 {
		return usage.Errorf("say it: --packs 7", "how many packs of %s are in a mixed carton?", j.ID)
	}
	for _, w := range all {
		if err := j.add(w); err != nil {
			return err
		}
	}
	return nil
}

// add puts packs of another batch or product into the cartons of a job.
func (j *Job) add(w with) error {
	q, err := j.product(w.id)
	if err != nil {
		return err
	}
	if err := hasCarton(j.Press, w.id); err != nil {
		return err
	}
	if msg := j.Shop.MayMix(j.ID, w.id); msg != "" {
		return usage.Errorf("write mixed-cartons: batches, or products, in shop.yaml, if your customers take them", "%s", msg)
	}
	k, err := pack(q, q.Carton.Pack.V)
	if err != nil {
		return err
	}
	if k.ByWeight() || j.Pack.ByWeight() {
		return usage.Errorf("pack it apart", "what is sold by weight goes into no mixed carton")
	}
	made, err := j.madeOf(w.id, &w.batch)
	if err != nil {
		return err
	}
	if w.id == j.ID && w.batch == j.Batch {
		return usage.Errorf("count them together: --packs", "the packs of %s, batch %s, are named twice", w.id, w.batch)
	}
	in := Inside{Product: q, Pack: k, Facts: declare.Of(j.Shop, q, k, j.Market, made, j.Found), Batch: w.batch, Packs: w.packs}
	in.Told = j.tell(in.Facts, j.Langs)
	j.Inside = append(j.Inside, in)
	return nil
}

// madeOf is the day on which a batch was made: today for the code of today, or
// for that of a run of today's plan; else the day that the print book has. An
// empty code becomes that of today.
func (j *Job) madeOf(id string, batch *string) (unit.Date, error) {
	today := j.Shop.BatchCode(shop.Run{}, j.Today)
	if *batch == "" {
		*batch = today
	}
	if *batch == today {
		return j.Today, nil
	}
	if plan, ok := j.Shop.PlanFor(j.Today); ok {
		for _, r := range plan.Runs {
			if r.Product.V == id && j.Shop.BatchCode(r, j.Today) == *batch {
				return j.Today, nil
			}
		}
	}
	var made string
	err := j.reads(context.Background(), func(book keep.Books) error {
		list, err := book.With(context.Background(), trace.Out, []trace.Thing{{Kind: trace.Batch, ID: id, Code: *batch}})
		for _, e := range list {
			made = e.Made
		}
		return err
	})
	if err != nil {
		return unit.Date{}, err
	}
	if made == "" {
		return unit.Date{}, usage.Errorf("note it first: chablon batch "+id+" --batch "+*batch+" --made DAY --pieces N", "nobody noted on which day batch %s of %s was made", *batch, id)
	}
	return unit.ParseDate(made)
}

// with is what else is in the cartons, as they are set.
func (j *Job) with() (out []carton.Inside) {
	for _, in := range j.Inside {
		out = append(out, carton.Inside{Facts: in.Facts, Told: in.Told, Batch: in.Batch, Packs: in.Packs})
	}
	return out
}

// box is the job's carton as far as the law and the date are concerned.
func (j *Job) box() carton.Carton { return carton.Carton{Facts: j.Facts, With: j.with()} }

// inPack are the batches that a job's cartons were packed from, and the events
// that open those that it is not of.
func (j *Job) inPack(now time.Time) (parts []trace.Part, opens []trace.Event) {
	each := func(k *shop.Pack, n unit.Count) unit.Count { return n * k.Pieces.V * unit.Count(j.Count) }
	parts = []trace.Part{j.taken(j.batchThing(), j.packs())}
	for _, in := range j.Inside {
		of := *j
		of.ID, of.Batch, of.Product, of.Pack, of.Facts, of.Made = in.Product.ID, in.Batch, in.Product, in.Pack, in.Facts, in.Facts.Made
		opens = append(opens, of.opens(now))
		parts = append(parts, trace.Part{Thing: of.batchThing(), Pieces: each(in.Pack, in.Packs)})
	}
	return parts, opens
}

// inCarton is how many packs are in each carton, of all batches.
func (j *Job) inCarton() unit.Count {
	n := j.packs()
	for _, in := range j.Inside {
		n += in.Packs
	}
	return n
}

// filledAs gives back how the cartons of an event were filled: those of a product
// and batch, and what else was in them.
func (p *Press) filledAs(e trace.Event, id, batch string) *CartonOptions {
	var o CartonOptions
	for _, in := range e.In {
		q := p.Shop.Products[in.ID]
		if q == nil || q.Carton == nil || len(e.Out) == 0 {
			continue
		}
		k, ok := q.Pack(q.Carton.Pack.V)
		if !ok || k.Pieces.V < 1 {
			continue
		}
		n := in.Pieces / k.Pieces.V / unit.Count(len(e.Out))
		if in.ID == id && in.Code == batch {
			o.Packs = n
		} else {
			o.with = append(o.with, with{in.ID, in.Code, n})
		}
	}
	return &o
}
