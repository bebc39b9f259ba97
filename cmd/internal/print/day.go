package print

import (
	"context"
	"fmt"
	"io"
	"slices"

	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/preflight"
	"chablon/layout/runsheet"
)

// Day makes all paper of the day: for each run of the plan the bench card, the
// sale labels and the carton labels; a counter ticket for each product; and
// one run sheet over all. The SSCCs of the cartons are looked up in the shop's
// register, and taken by [Press.Claim].
func (p *Press) Day() ([]Paper, error) {
	if p.Found.Errors() > 0 {
		return nil, nil
	}
	plan, err := p.plan()
	if err != nil {
		return nil, err
	}
	p.claims = nil
	var out []Paper
	var done []runsheet.Run
	for _, r := range plan.Runs {
		papers, run, err := p.run(r)
		if err != nil {
			return nil, err
		}
		out, done = append(out, papers...), append(done, run)
	}
	if p.Found.Errors() > 0 {
		return nil, nil
	}
	if err := p.unused(context.Background()); err != nil || p.Found.Errors() > 0 {
		return nil, err
	}
	tickets, err := p.dayTickets(plan)
	if err != nil || p.Found.Errors() > 0 {
		return nil, err
	}
	sheet, err := p.runSheet(done)
	return slices.Concat(out, tickets, []Paper{sheet}), err
}

// plan finds the plan of today.
func (p *Press) plan() (*shop.Plan, error) {
	if plan, ok := p.Shop.PlanFor(p.Today); ok {
		return plan, nil
	}
	return nil, usage.Errorf("write plans/"+p.Today.String()+".yaml, or one for: every day", "there is no plan for %s", p.Today)
}

// dayTickets makes one counter ticket for each product of the day, four to a
// sheet.
func (p *Press) dayTickets(plan *shop.Plan) ([]Paper, error) {
	r := TicketRequest{Paper: "a4-ticket-4", Pieces: map[string]unit.Count{}}
	for _, run := range plan.Runs {
		if r.Pieces[run.Product.V] == 0 {
			r.IDs = append(r.IDs, run.Product.V)
			r.Pieces[run.Product.V] = run.Pieces.V
		}
	}
	return p.Tickets(r)
}

// run makes the paper of one run. What is wrong with it does not keep the
// runs after it from being looked at.
func (p *Press) run(r shop.Run) (out []Paper, done runsheet.Run, err error) {
	all := p.Found
	p.Found = &diag.List{}
	defer func() {
		all.AddAll(p.Found)
		p.Found = all
	}()
	if out, err = p.runCard(r); err != nil {
		return nil, done, err
	}
	labels, done, err := p.runLabels(r)
	if err != nil {
		return nil, done, err
	}
	cartons, err := p.runCartons(r, &done)
	return slices.Concat(out, labels, cartons), done, err
}

func (p *Press) runCard(r shop.Run) ([]Paper, error) {
	c := CardRequest{ID: r.Product.V, Pieces: r.Pieces.V}
	for _, s := range r.Sizes {
		c.Sizes = append(c.Sizes, s.V)
	}
	return p.Card(c)
}

// runLabels makes the labels of a run, and what the run sheet says of it.
func (p *Press) runLabels(r shop.Run) ([]Paper, runsheet.Run, error) {
	req, err := p.labelsOf(r)
	if err != nil {
		return nil, runsheet.Run{}, err
	}
	l, err := p.label(req)
	if err != nil || l.set == nil || p.Found.Errors() > 0 {
		return nil, runsheet.Run{}, err
	}
	return p.labelPapers(l), runsheet.Run{Facts: l.facts, Told: l.told, Batch: l.Batch, Pieces: r.Pieces.V,
		Labels: l.Count, First: l.FirstSerial, Paper: l.stock.ID}, nil
}

// labelsOf is the request for the labels of a run: one for each full pack
// where the plan gives no number.
func (p *Press) labelsOf(r shop.Run) (LabelRequest, error) {
	q, err := p.product(r.Product.V)
	if err != nil {
		return LabelRequest{}, err
	}
	k, err := pack(q, r.Pack.V)
	if err != nil {
		return LabelRequest{}, err
	}
	l := LabelRequest{ID: q.ID, Pack: k.ID.V, Count: r.Labels.V, Batch: p.Shop.BatchCode(r, p.Today),
		Paper: r.Paper.V, FirstPlace: r.FirstPlace.V, batched: r.Pos}
	if l.Count == 0 {
		l.Count = r.Pieces.V / max(1, k.Pieces.V)
	}
	for _, s := range r.Skip {
		l.Skip = append(l.Skip, int(s.V))
	}
	return l, nil
}

// runCartons makes the carton labels of a run and notes them for the run sheet.
func (p *Press) runCartons(r shop.Run, done *runsheet.Run) ([]Paper, error) {
	if r.Cartons.V == 0 || p.Found.Errors() > 0 {
		return nil, nil
	}
	c, err := p.cartons(CartonRequest{ID: r.Product.V, Count: r.Cartons.V, Batch: p.Shop.BatchCode(r, p.Today),
		SSCCFrom: p.Shop.SSCCFrom(r, p.Today), batched: r.Pos, numbered: r.SSCCFrom.Pos})
	if err != nil || c == nil || c.set == nil || p.Found.Errors() > 0 {
		return nil, err
	}
	p.claimed(c)
	done.Cartons, done.Packs, done.SSCCs, done.Keys = c.Of, c.product.Carton.Holds.V, c.SSCCs, c.set.Keys
	return []Paper{p.cartonPaper(c)}, nil
}

// runSheet makes the sheet that goes with the day's paper.
func (p *Press) runSheet(runs []runsheet.Run) (Paper, error) {
	lang, err := p.sheetLanguage("")
	if err != nil {
		return Paper{}, err
	}
	s, printer, err := p.stock("", "card-a4")
	if err != nil {
		return Paper{}, err
	}
	sheet := runsheet.Sheet{Shop: p.Shop, Lang: lang, Day: p.Today, Runs: runs, Cautions: p.Found.All(), Stock: s, Dots: printer.Resolution.V}
	pages := runsheet.Compose(sheet, p.faces, p.Found)
	for _, pg := range pages {
		preflight.Label(preflight.Sheet{What: "the run sheet", Src: p.Shop.Profile.Pos, Safe: pg.Area().Inset(s.Safe.V), Heights: runsheet.Heights()},
			pg.All(), p.Found)
	}
	return Paper{Name: "run-sheet-" + p.Today.String() + ".pdf", About: fmt.Sprintf("run sheet, %s", counted(len(pages), "page", "pages")), Pages: len(pages),
		write: func(w io.Writer, tick func()) error {
			return p.sheetPDF(w, tick, "Run sheet "+p.Today.String(), lang, pages)
		}}, nil
}

// sheetPDF writes pages that share no artwork.
func (p *Press) sheetPDF(w io.Writer, tick func(), title string, lang *words.Lang, pages []*page.Page) error {
	return pdf.Write(w, pdf.Doc{Title: title, Lang: lang.Code(), Made: p.Made, Pages: ticking(slices.Values(pages), tick)})
}
