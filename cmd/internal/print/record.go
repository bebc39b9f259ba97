package print

import (
	"context"

	"chablon/cmd/internal/follow"
	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/record"
)

// RecordOptions are the flags of batch records alone: how much was planned.
type RecordOptions struct {
	Pieces unit.Count `flag:"pieces" is:"number" help:"how many good pieces"`
	Mass   unit.Mass  `flag:"mass" is:"mass" help:"how much of the formula, such as \"2 kg\""`
}

func recordKind() *Kind {
	return &Kind{
		Name: "batch-record", File: "batch-record", One: "batch record", Many: "batch records",
		Short:   "Print the record that is filled in while a batch is made",
		Long:    "Prints the record of one batch: planned grams beside boxes for what was weighed and\nfrom which lot (proposed from the print book where one is begun), times and °C of\neach limit, good pieces, waste, and who signs.",
		Example: "  chablon batch-record pear-hazelnut-tartlet --pieces 48\n  chablon batch-record sweet-pastry --mass \"2 kg\"",
		Next:    "Fill it in while the batch is made; keep it as long as your safety plan says.",
		Inside:  true,
		Of:      Made, Speaks: Kitchen, Langs: 1, Usual: 1, Bears: ItsBatch, Form: "card", Asked: true,
		Own:     func() any { return &RecordOptions{} },
		Compose: composeRecord,
		Runs: func(_ *Press, r shop.Run) (Request, bool) {
			return Request{Own: &RecordOptions{Pieces: r.Pieces.V}}, true
		},
		Day: sharedRecords,
	}
}

func composeRecord(j *Job) (Set, error) {
	o := own[RecordOptions](j)
	b, err := j.scaled(CardOptions{Pieces: o.Pieces, Mass: o.Mass})
	if err != nil {
		return Set{}, usage.Errorf("", "no batch of %s: %v", j.ID, err)
	}
	r := record.Record{Shop: j.Shop, Lang: j.Langs[0], Day: j.Made, Code: j.Batch, Batch: b, Stock: j.Stock, Dots: j.Printer.Resolution.V}
	plan := j.planOf()
	if plan != nil {
		r.Shared = shared(j.Shop, plan)
	}
	if r.Lot, err = j.lots(context.Background(), plan, b); err != nil {
		return Set{}, err
	}
	return Set{Pages: record.Compose(r, j.faces, j.Found), Heights: record.Heights()}, nil
}

// planOf is the plan that asked for the paper; nil where a command did.
func (j *Job) planOf() *shop.Plan {
	switch {
	case j.Request.plan != nil:
		return j.Request.plan
	case j.Request.run != nil:
		return j.planIn(j.Request.run.Pos.File)
	}
	return nil
}

// shared tells which formulas a plan makes once for several of its runs.
func shared(sh *shop.Shop, plan *shop.Plan) func(*shop.Formula) bool {
	runs := map[*shop.Formula]int{}
	for _, r := range plan.Runs {
		p := sh.Products[r.Product.V]
		if p == nil {
			continue
		}
		if b, err := scale.Pieces(sh, p, r.Pieces.V); err == nil {
			for _, m := range b.Makes {
				runs[m.Formula]++
			}
		}
	}
	return func(f *shop.Formula) bool { return runs[f] > 1 }
}

// sharedRecords asks for a record of each formula that the plan makes once for
// several runs.
func sharedRecords(p *Press, plan *shop.Plan) (out []Request) {
	day, err := scale.PlanDay(p.Shop, plan)
	if err != nil {
		return nil
	}
	is := shared(p.Shop, plan)
	for _, m := range day.Prep {
		if is(m.Formula) {
			out = append(out, Request{IDs: []string{m.Formula.ID}, Own: &RecordOptions{Mass: m.Out}})
		}
	}
	return out
}

// lots gives the lot or batch that is proposed for what goes into something, as
// the print book knows them: for a plan what chablon used proposes, else of each
// ingredient the lot that keeps shortest and has enough. Without a print book
// there is none.
func (j *Job) lots(ctx context.Context, plan *shop.Plan, b *scale.Batch) (func(into, of string) string, error) {
	if j.Request.compare {
		return nil, nil
	}
	codes := map[[2]string]string{}
	err := j.reads(ctx, func(book keep.Books) error {
		desk := &follow.Desk{Shop: j.Shop, Book: book, Today: j.Made, Now: j.Clock}
		rows, err := desk.Proposed(ctx, plan, b)
		for _, r := range rows {
			if r.What == "used" && r.Code != "?" && (codes[[2]string{r.Into, r.Of}] == "" || r.IntoCode == j.Batch) {
				codes[[2]string{r.Into, r.Of}] = r.Code
			}
		}
		return err
	})
	return func(into, of string) string { return codes[[2]string{into, of}] }, err
}
