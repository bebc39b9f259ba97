package print

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"chablon/cmd/internal/keep"
	"chablon/labels/gs1"
	"chablon/labels/register"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
)

// due is what a run of the day's plan still needs of one kind of numbered paper:
// a day that is printed again gives no carton and no label a second number.
type due struct {
	have []register.Print // printed before
	lost register.Print   // numbers whose paper never reached the disk; of none with Count 0
}

// printedEarlier is the rule of cautions about what was printed before; the run
// sheet tells of it run by run.
const printedEarlier = "printed-before"

// count is how many pieces were printed before.
func (d due) count() (n unit.Count) {
	for _, p := range d.have {
		n += unit.Count(p.Count)
	}
	return n
}

// dueOf looks up what was printed of a batch on a day. Labels that somebody asked
// for beside the plan are spares; a carton has its number whoever asked for it.
func (p *Press) dueOf(k *Kind, id, batch string, made unit.Date) (d due, err error) {
	ctx := context.Background()
	done, err := p.printedOf(ctx, k, id, batch)
	if err != nil || len(done) == 0 {
		return d, err
	}
	var ended []register.End
	err = p.reads(ctx, func(book keep.Books) (err error) {
		ended, err = book.Ended(ctx, done[0].Series)
		return err
	})
	for _, q := range done {
		switch {
		case q.Again != "" || q.Made != made.String() || k.Serial && q.Asked != ofDay:
		case !wroteAny(done, q):
			d.lost = q
		default:
			d.have = append(d.have, standing(q, ended)...)
		}
	}
	return d, err
}

// standing is a print without its numbers that are void because they left the
// plan.
func standing(q register.Print, ended []register.End) (out []register.Print) {
	ended = slices.DeleteFunc(within(ended, q), func(e register.End) bool { return e.Why != notInPlan })
	for _, s := range register.Spans([]register.Block{{From: q.From, To: q.To}}, nil, ended) {
		if s.State != register.Void {
			q.From, q.To, q.Count = s.From, s.To, s.Count()
			out = append(out, q)
		}
	}
	return out
}

// leaves takes off a request what has been printed; what was lost is asked for
// under the same numbers, where it is as much as it was meant to be.
func (d due) leaves(k *Kind, q *Request) {
	have := d.count()
	switch lost := d.lost; {
	case lost.Count == 0 || q.Count != have+unit.Count(lost.Count):
	case k.Serial:
		q.first = lost.From
	default:
		q.SSCCFrom = fmt.Sprint(lost.From)
	}
	q.Count = max(0, q.Count-have)
}

// tell says what was printed before, and how one of it is printed once more.
func (d due) tell(p *Press, k *Kind, id, batch string) string {
	what := fmt.Sprintf("printed before: %s of %s, batch %s, ", counted(int(d.count()), k.One, k.Many), id, batch)
	if k.Serial {
		return what + fmt.Sprintf("%s; one that is lost or spoilt: chablon label %s --batch %s --again NUMBER --because WHY", strings.Join(spans(d.have), ", "), id, batch)
	}
	return what + "from SSCC " + p.ssccs(d.have[0])[0] + " on; one that is lost or spoilt: chablon again SSCC --because WHY"
}

// spans are the numbers of prints as labels write them.
func spans(all []register.Print) (out []string) {
	for _, q := range all {
		out = append(out, register.Span{From: q.From, To: q.To}.String())
	}
	return out
}

// ssccs are the SSCCs that a print bears.
func (p *Press) ssccs(q register.Print) (out []string) {
	for n := q.From; n <= q.To; n++ {
		code, err := gs1.SSCC(extension, p.Shop.Profile.GS1Prefix.V, n)
		if err != nil {
			return out // the prefix was another one then
		}
		out = append(out, code)
	}
	return out
}

// notInPlan is why numbers are void whose run, or whose carton, left the plan.
const notInPlan = "no longer in the plan of the day"

// A dropped print, or the end of one, is no longer asked for by the day's plan.
type dropped struct {
	register.Print // From and To are those that are void
	whole          bool
	done           bool // it was noted as void by an earlier day that was printed again
}

// drops lists what the plan asked for the last time and does not ask for any
// more. Cartons that have left the house, or stand on a pallet, stay as they are.
func (p *Press) drops(ctx context.Context, plan *shop.Plan) (out []dropped, err error) {
	err = p.reads(ctx, func(book keep.Books) error {
		all, err := book.Prints(ctx, register.Query{})
		if err != nil {
			return err
		}
		want := p.wanted(plan)
		for _, q := range all {
			if q.Asked != ofDay || q.Again != "" || q.Made != p.Today.String() || !wroteAny(all, q) {
				continue
			}
			d, err := p.drop(ctx, book, q, want)
			if err != nil {
				return err
			}
			out = append(out, d...)
		}
		return nil
	})
	return out, err
}

// wanted counts the cartons that a plan asks for, by kind, product and batch; of
// labels it is enough that their run is in it, for more of them are spares.
func (p *Press) wanted(plan *shop.Plan) map[[3]string]int64 {
	out := map[[3]string]int64{}
	for _, r := range plan.Runs {
		for _, k := range p.kinds {
			if k.Runs == nil || !k.SSCC && !k.Serial {
				continue
			}
			q, ok := k.Runs(p, r)
			if !ok {
				continue
			}
			n := int64(q.Count)
			if k.Serial {
				n = int64(k.Most)
			}
			out[[3]string{k.Name, r.Product.V, p.Shop.BatchCode(r, p.Today)}] += n
		}
	}
	return out
}

// drop takes the numbers of one print that the plan still wants off want, and
// gives the others.
func (p *Press) drop(ctx context.Context, book keep.Books, q register.Print, want map[[3]string]int64) (out []dropped, err error) {
	key := [3]string{q.Kind, q.ID, q.Batch}
	ended, err := book.Ended(ctx, q.Series)
	if err != nil {
		return nil, err
	}
	given := []register.Block{{From: q.From, To: q.To}}
	for _, s := range register.Spans(given, nil, within(ended, q)) {
		d := dropped{Print: q, done: s.State == register.Void}
		if d.done && !voided(ended, s) || s.State == register.Applied {
			continue
		}
		if !d.done {
			stay := min(s.Count(), max(0, want[key]))
			want[key] -= stay
			s.From += stay
		}
		if d.From, d.To = s.From, s.To; d.From > d.To {
			continue
		}
		out = append(out, d)
	}
	if len(out) == 1 && out[0].From == q.From && out[0].To == q.To {
		out[0].whole = true
	}
	return out, nil
}

// within are the ends of numbers of a print, cut to them.
func within(ended []register.End, q register.Print) (out []register.End) {
	for _, e := range ended {
		if e.From, e.To = max(e.From, q.From), min(e.To, q.To); e.From <= e.To {
			out = append(out, e)
		}
	}
	return out
}

// voided reports whether numbers are void because they left the plan.
func voided(ended []register.End, s register.Span) bool {
	return slices.ContainsFunc(ended, func(e register.End) bool {
		return e.State == register.Void && e.Why == notInPlan && e.From <= s.From && s.To <= e.To
	})
}

// voids are the ends of what the plan dropped, and the events that take the
// cartons out of the trace. What cannot be taken back is a finding, and stays.
func (p *Press) voids(ctx context.Context, all []dropped) (ends []register.End, events []trace.Event, stay []dropped, err error) {
	err = p.reads(ctx, func(book keep.Books) error {
		for _, d := range all {
			if d.done {
				continue
			}
			undo, ok, err := p.unpack(ctx, book, d)
			if err != nil {
				return err
			}
			if !ok {
				stay = append(stay, d)
				continue
			}
			ends = append(ends, register.End{Series: d.Series, From: d.From, To: d.To, State: register.Void, Why: notInPlan, At: p.Clock})
			events = append(events, undo...)
		}
		return nil
	})
	return ends, events, stay, err
}

// unpack are the events by which cartons were never packed: the packing is
// undone, and noted anew for those that stay. ok is false for cartons that left,
// or stand on a pallet.
func (p *Press) unpack(ctx context.Context, book keep.Books, d dropped) (out []trace.Event, ok bool, err error) {
	if running(d.Series) {
		return nil, true, nil
	}
	gone := map[trace.Thing]bool{}
	var things []trace.Thing
	for _, code := range p.ssccs(d.Print) {
		t := trace.Thing{Kind: trace.Carton, ID: d.ID, Code: code}
		gone[t], things = true, append(things, t)
	}
	left, err := book.With(ctx, trace.In, things)
	if err != nil || len(left) > 0 {
		return nil, false, err
	}
	packs, err := book.With(ctx, trace.Out, things)
	for _, e := range packs {
		out = append(out, trace.Event{Kind: trace.Undo, At: p.Clock, Noted: p.Clock, Undoes: e.Number, Why: notInPlan})
		if rest := withoutCartons(e, gone); len(rest.Out) > 0 {
			out = append(out, rest)
		}
	}
	return out, true, err
}

// withoutCartons is a packing without some of its cartons, and without what went
// into them.
func withoutCartons(e trace.Event, gone map[trace.Thing]bool) trace.Event {
	all := len(e.Out)
	e.Number, e.Out, e.In = 0, slices.Clone(e.Out), slices.Clone(e.In)
	e.Out = slices.DeleteFunc(e.Out, func(q trace.Part) bool { return gone[q.Thing] })
	for i := range e.In {
		e.In[i].Pieces = e.In[i].Pieces * unit.Count(len(e.Out)) / unit.Count(max(1, all))
	}
	return e
}

// keepsNumbers reports whether the files of a job stay in their folder, because
// their numbers are given once.
func (j *Job) keepsNumbers() bool {
	if j.Draft || !j.numbered() {
		return false
	}
	return len(j.SSCCs) > 0 || j.hasBook()
}

// hasBook reports whether the shop has a print book, or gets one with the first
// number.
func (p *Press) hasBook() bool {
	there := p.begins()
	_ = p.reads(context.Background(), func(keep.Books) error { there = true; return nil }) // a fault is told where numbers are claimed
	return there
}
