package print

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/register"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/runsheet"
)

// day is the paper of one day under way.
type day struct {
	runs   []*dayRun
	sheets []*Job   // over the plan as a whole
	lacks  []string // sheets that are left out
	found  *diag.List
	void   []runsheet.Void // what is no longer in the plan
}

// dayRun is one run of the plan: its papers, and what keeps some of them from
// being printed.
type dayRun struct {
	run   *shop.Run
	jobs  []*Job
	found *diag.List // errors of what is left out
	left  []string   // what is left out
}

// DayOptions are the flags of a day.
type DayOptions struct {
	WholeOnly bool // print nothing where anything is wrong
	Draft     bool // print what nobody has approved yet, with the mark of a draft
}

// Day makes all paper of the day: for each run of the plan what every kind of
// paper has for it, and one run sheet over all. What a fault touches is left
// out, and stands first on the run sheet; the rest is printed. With WholeOnly
// nothing is printed when anything is wrong. A fault of the shop itself stops
// all.
func (p *Press) Day(o DayOptions) (_ Batch, err error) {
	defer p.hold(&err)()
	plan, found, err := p.planned()
	if err != nil || found.Errors() > 0 {
		return Batch{Found: found, Elsewhere: p.elsewhere(found)}, err
	}
	if err := p.runs(context.Background(), found); err != nil {
		return Batch{}, err
	}
	d, err := p.dayOf(plan, Request{Draft: o.Draft})
	if err != nil {
		return Batch{}, err
	}
	b := Batch{Found: found, Claims: claimsOf(d.jobs())}
	if b.Claims, err = p.unused(context.Background(), b.Claims, d.found); err != nil {
		return Batch{}, err
	}
	if err := p.tidy(plan, d, o, &b); err != nil {
		return Batch{}, err
	}
	d.sort()
	if err := p.sheets(d, plan, Request{Draft: o.Draft}); err != nil {
		return Batch{}, err
	}
	b.Claims = slices.DeleteFunc(b.Claims, func(c Claim) bool { return c.found.Errors() > 0 })
	for _, r := range d.runs {
		b.Left = append(b.Left, r.tell()...)
	}
	b.Left = append(b.Left, d.lacks...)
	sheet, err := p.make(p.KindOf("run-sheet"), Request{plan: plan, day: d}, "")
	if err != nil {
		return Batch{}, err
	}
	d.found.AddAll(sheet.Found)
	b.Found.AddAll(d.found)
	b.Elsewhere = p.elsewhere(b.Found)
	if d.empty() || sheet.Found.Errors() > 0 || o.WholeOnly && b.Found.Errors() > 0 {
		b.Claims, b.ends, b.undone, b.drop = nil, nil, nil, nil
		return b, nil
	}
	b.set, b.Papers, b.jobs = "day", append(p.dayPapers(d), papers([]*Job{sheet})...), slices.Concat(d.jobs(), d.sheets, []*Job{sheet})
	return b, nil
}

// tidy makes void what the plan asked for the last time and does not ask for any
// more, and tells the run sheet of it.
func (p *Press) tidy(plan *shop.Plan, d *day, o DayOptions, b *Batch) (err error) {
	if o.Draft {
		return nil
	}
	ctx := context.Background()
	all, err := p.drops(ctx, plan)
	if err != nil {
		return err
	}
	var stay []dropped
	if b.ends, b.undone, stay, err = p.voids(ctx, all); err != nil {
		return err
	}
	for _, q := range stay {
		d.found.Warnf(plan.Pos, "sscc", "look where it is, and put it back into the plan",
			"SSCC %s of %s, batch %s, is not in the plan any more, but has left or stands on a pallet", strings.Join(p.ssccs(q.Print), ", "), q.ID, q.Batch)
	}
	for _, q := range all {
		if slices.Contains(stay, q) {
			continue
		}
		d.void = append(d.void, runsheet.Void{Product: q.ID, Batch: q.Batch, What: p.KindOf(q.Kind).Many, Numbers: p.numbersOn(q.Print)})
		if q.whole {
			b.drop = append(b.drop, q.File)
		}
	}
	return nil
}

// numbersOn are the numbers of a print as its paper writes them.
func (p *Press) numbersOn(q register.Print) []string {
	if running(q.Series) {
		return spans([]register.Print{q})
	}
	return p.ssccs(q)
}

// planned finds the plan of today, and what is wrong with the shop itself or
// with the plan as a whole.
func (p *Press) planned() (*shop.Plan, *diag.List, error) {
	found := p.about(&Kind{Of: Shop, Inside: true}, Request{}, "").Found
	plan, err := p.plan()
	for _, d := range p.Found.All() {
		file := d.Pos.File
		if strings.HasPrefix(file, "plans/") && (err != nil || file == plan.Pos.File && runOf(plan, d.Pos) == nil) {
			found.Add(d)
		}
	}
	if found.Errors() > 0 {
		return plan, found, nil
	}
	return plan, found, err
}

// plan finds the plan of today.
func (p *Press) plan() (*shop.Plan, error) {
	if plan, ok := p.Shop.PlanFor(p.Today); ok {
		return plan, nil
	}
	return nil, usage.Errorf("write plans/"+p.Today.String()+".yaml, or one for: every day", "there is no plan for %s", p.Today)
}

// dayOf makes the papers of every run of a plan, without saving any.
func (p *Press) dayOf(plan *shop.Plan, like Request) (*day, error) {
	d := &day{found: &diag.List{}}
	p.strained(plan, d.found)
	once := map[*Kind][]string{}
	for i := range plan.Runs {
		r := &dayRun{run: &plan.Runs[i], found: &diag.List{}}
		d.runs = append(d.runs, r)
		whole := p.touchesRun(r.run)
		d.found.AddAll(whole)
		if whole.Errors() > 0 {
			r.leave("all paper", whole)
			continue
		}
		for _, k := range p.kinds {
			if k.Runs == nil || !p.prints(k) || k.Together && slices.Contains(once[k], r.run.Product.V) {
				continue
			}
			once[k] = append(once[k], r.run.Product.V)
			if err := p.runOn(d, r, k, like); err != nil {
				return nil, err
			}
		}
	}
	d.sort()
	return d, nil
}

// runOn makes what a run asks of one kind. What the plan asks for and cannot be
// is a finding in the plan.
func (p *Press) runOn(d *day, r *dayRun, k *Kind, like Request) error {
	q, ok := k.Runs(p, *r.run)
	if !ok {
		return nil
	}
	q.IDs, q.run, q.compare, q.Draft = []string{r.run.Product.V}, r.run, like.compare, like.Draft
	make, had := p.make, due{}
	if (k.SSCC || k.Serial) && !like.compare && !like.Draft {
		var err error
		batch := p.Shop.BatchCode(*r.run, p.Today)
		if had, err = p.dueOf(k, r.run.Product.V, batch, p.Today); err != nil {
			return err
		}
		had.leaves(k, &q)
		if len(had.have) > 0 {
			d.found.Warnf(r.run.Pos, printedEarlier, "", "%s", had.tell(p, k, r.run.Product.V, batch))
		}
		if len(had.have) > 0 && q.Count == 0 {
			make = p.look // nothing is left to print; the run sheet tells of it
			q.first, q.SSCCFrom = had.have[0].From, fmt.Sprint(had.have[0].From)
		}
	}
	j, err := make(k, q, r.run.Product.V)
	var bad *usage.Error
	if errors.As(err, &bad) {
		j = &Job{Press: p.about(k, q, r.run.Product.V), Kind: k, Request: q, ID: r.run.Product.V}
		j.Found.Errorf(r.run.Pos, "plan", bad.Hint, "%s", bad.Msg)
	} else if err != nil {
		return err
	}
	j.had, j.quiet = had.have, len(had.have) > 0 && q.Count == 0
	d.found.AddAll(j.Found)
	r.jobs = append(r.jobs, j)
	return nil
}

// sort takes out what cannot be printed. What is sold of one run stands and
// falls together: where its labels are refused, so are its cartons and tickets.
// A card hangs in the kitchen; it asks nobody's leave but its own.
func (d *day) sort() {
	for _, r := range d.runs {
		sold := slices.ContainsFunc(r.jobs, func(j *Job) bool { return j.Kind.sold() && j.Found.Errors() > 0 })
		r.jobs = slices.DeleteFunc(r.jobs, func(j *Job) bool {
			out := j.Found.Errors() > 0 || sold && j.Kind.sold()
			if out {
				r.leave(j.Kind.Many, j.Found)
			}
			return out
		})
	}
}

// leave notes that something is left out, and what is wrong with it.
func (r *dayRun) leave(what string, found *diag.List) {
	r.left = append(r.left, what)
	for _, d := range found.All() {
		if !d.Warning {
			r.found.Add(d)
		}
	}
}

// tell says what is left out of a run, and why; nothing where all is printed.
func (r *dayRun) tell() []string {
	if len(r.left) == 0 {
		return nil
	}
	why := r.found.All()
	more := ""
	if n := len(why) - 1; n > 0 {
		more = fmt.Sprintf(", and %s more", counted(n, "error", "errors"))
	}
	return []string{fmt.Sprintf("%s of %s, batch of %d: %s%s", strings.Join(r.left, ", "), r.run.Product.V, r.run.Pieces.V, why[0].Msg, more)}
}

// empty reports that nothing is to be printed: no run has paper, and there is no
// sheet over a plan that is whole.
func (d *day) empty() bool {
	broken := slices.ContainsFunc(d.runs, func(r *dayRun) bool { return len(r.left) > 0 })
	return len(d.jobs()) == 0 && (broken || len(d.sheets) == 0)
}

// jobs are all papers of the day that are printed now.
func (d *day) jobs() (out []*Job) {
	for _, r := range d.runs {
		for _, j := range r.jobs {
			if !j.quiet {
				out = append(out, j)
			}
		}
	}
	return out
}

// dayPapers makes the files: run by run, and behind them what the runs share.
func (p *Press) dayPapers(d *day) (out []Paper) {
	shared := map[*Kind][]*Job{}
	for _, j := range d.jobs() {
		if j.Kind.Together {
			shared[j.Kind] = append(shared[j.Kind], j)
			continue
		}
		out = append(out, papers([]*Job{j})...)
	}
	for _, k := range p.kinds {
		out = append(out, papers(shared[k])...)
	}
	for _, j := range d.sheets {
		out = append(out, papers([]*Job{j})...)
	}
	return out
}

// sheet is what the run sheet says of the runs whose labels are printed.
func (d *day) sheet(p *Press) (out []runsheet.Run) {
	for _, r := range d.runs {
		var one runsheet.Run
		for _, j := range r.jobs {
			switch {
			case j.Kind.Name == "label":
				one.Facts, one.Told, one.Batch, one.Pieces, one.Before = j.Facts, j.Told, j.Batch, r.run.Pieces.V, spans(j.had)
				one.Labels = due{have: j.had}.count()
				if !j.quiet {
					one.Labels += unit.Count(j.Count)
					one.Numbers = register.Span{From: j.From, To: j.From + int64(j.Count) - 1}.String()
				}
				one.Paper, one.Scan = j.Stock.ID, j.set.Scan
			case j.Kind.Name == partCarton:
				for _, q := range j.had {
					one.Parts = append(one.Parts, runsheet.Part{Packs: j.inCarton(), SSCCs: p.ssccs(q)})
				}
				if !j.quiet {
					one.Parts = append(one.Parts, runsheet.Part{Packs: j.inCarton(), SSCCs: j.SSCCs})
				}
			case j.Kind.SSCC:
				one.Packs, one.Keys = j.Product.Carton.Holds.V, j.set.Keys
				for _, q := range j.had {
					one.Cartons += int(q.Count)
					one.SSCCsBefore = append(one.SSCCsBefore, p.ssccs(q))
				}
				if !j.quiet {
					one.Cartons, one.SSCCs = one.Cartons+j.Count, j.SSCCs
				}
			}
		}
		if one.Facts != nil {
			out = append(out, one)
		}
	}
	return out
}

// OfDay names the paper of a day, for the help of its command.
func OfDay() string {
	var all []string
	for _, k := range Kinds() {
		if k.Runs != nil && !k.Asked {
			all = append(all, k.Many)
		}
	}
	return strings.Join(all, ", ") + " and the run sheet"
}
