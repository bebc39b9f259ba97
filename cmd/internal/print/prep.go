package print

import (
	"fmt"
	"io"
	"slices"

	"chablon/cmd/internal/usage"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/preflight"
	"chablon/layout/prep"
	"chablon/layout/tub"
)

// PrepRequest asks for the prep list and the shopping list of the day.
type PrepRequest struct {
	Ready    unit.Span // time of day by which everything is ready, from midnight; zero for "so long before"
	Language string    // "" for the first of the shop's cards
}

// Prep makes the prep list of the day: what is made once for all products,
// when, how it is shared out, and what must be bought.
func (p *Press) Prep(r PrepRequest) ([]Paper, error) {
	if p.Found.Errors() > 0 {
		return nil, nil
	}
	plan, err := p.plan()
	if err != nil {
		return nil, err
	}
	lang, err := p.sheetLanguage(r.Language)
	if err != nil {
		return nil, err
	}
	s, printer, err := p.stock("", "card-a4")
	if err != nil {
		return nil, err
	}
	day, err := scale.PlanDay(p.Shop, plan)
	if err != nil {
		p.Found.Errorf(plan.Pos, "plan", "look at the formulas of the plan", "%v", err)
		return nil, nil
	}
	pages := prep.Compose(prep.Sheet{Shop: p.Shop, Lang: lang, Date: p.Today, Day: day, Ready: r.Ready, Stock: s, Dots: printer.Resolution.V},
		p.faces, p.Found)
	for _, pg := range pages {
		preflight.Label(preflight.Sheet{What: "the prep list", Src: plan.Pos, Safe: pg.Area().Inset(s.Safe.V), Heights: prep.Heights()}, pg.All(), p.Found)
	}
	if p.Found.Errors() > 0 {
		return nil, nil
	}
	return []Paper{{Name: "prep-" + p.Today.String() + ".pdf", About: "prep list and shopping list, " + counted(len(pages), "page", "pages"), Pages: len(pages),
		write: func(w io.Writer, tick func()) error {
			return p.sheetPDF(w, tick, "Prep list "+p.Today.String(), lang, pages)
		}}}, nil
}

// TubRequest asks for the labels of one sub-batch.
type TubRequest struct {
	ID        string     // formula
	Mass      unit.Mass  // in each tub; 0 leaves a line to write on
	Count     unit.Count // tubs; 0 means 1
	Made      unit.Date  // zero means today
	Batch     string     // "" for the shop's rule
	Paper     string     // "" for roll-100x60
	Languages []string   // the cards' when left out
}

// Tubs makes the labels for the tubs of one sub-batch.
func (p *Press) Tubs(r TubRequest) ([]Paper, error) {
	if p.Found.Errors() > 0 {
		return nil, nil
	}
	t, err := p.tub(r)
	if err != nil || p.Found.Errors() > 0 {
		return nil, err
	}
	s, printer, err := p.stock(r.Paper, "roll-100x60")
	if err != nil {
		return nil, err
	}
	t.Stock, t.Dots, t.Of = s, printer.Resolution.V, int(max(1, r.Count))
	if t.Of > 1000 {
		return nil, usage.Errorf("print at most 1000 at once", "%d tubs are too many for one batch", t.Of)
	}
	end, _ := t.UseBy()
	var arts []*page.Art
	for n := range t.Of {
		t.N = n + 1
		art := tub.Set(t, p.faces, p.Found)
		if art == nil {
			return nil, nil
		}
		preflight.Label(preflight.Sheet{What: "the tub label of " + r.ID, Src: t.Formula.Pos, Safe: art.Area().Inset(s.Safe.V),
			Heights: tub.Heights(s), Today: p.Today, Date: end}, art.Items, p.Found)
		arts = append(arts, art)
	}
	pages := s.Deal(arts, bed(printer))
	if p.Found.Errors() > 0 {
		return nil, nil
	}
	return []Paper{{Name: "tubs-" + r.ID + "-" + fileName(t.Batch) + ".pdf", About: fmt.Sprintf("%s on %s, batch %s", counted(t.Of, "tub label", "tub labels"), s.ID, t.Batch),
		Pages: len(pages), write: func(w io.Writer, tick func()) error {
			return pdf.Write(w, pdf.Doc{Title: "Tubs " + r.ID, Lang: t.Langs[0].Code(), Made: p.Made, Arts: arts, Pages: ticking(slices.Values(pages), tick)})
		}}}, nil
}

// tub looks up what the labels of a sub-batch say.
func (p *Press) tub(r TubRequest) (t tub.Tub, err error) {
	f := p.Shop.Formulas[r.ID]
	if f == nil {
		return t, usage.Unknown("formula", r.ID, p.Shop.FormulaIDs)
	}
	langs, err := languages(r.Languages, p.Shop.Profile.CardLanguages)
	if err != nil {
		return t, err
	}
	if r.Made.IsZero() {
		r.Made = p.Today
	}
	if r.Batch == "" {
		r.Batch = p.Shop.BatchCode(shop.Run{}, r.Made)
	}
	return tub.Tub{Shop: p.Shop, Formula: f, Mass: r.Mass, Made: r.Made, Batch: r.Batch, Langs: langs[:min(2, len(langs)):len(langs)]}, nil
}
