package job

import (
	"fmt"
	"io"

	"chablon/labels/declare"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/audit"
	"chablon/layout/preflight"
)

// AuditRequest asks for the audit sheet of one product.
type AuditRequest struct {
	ID       string
	Pack     string // "" for the first
	Market   string // "" for the shop's first
	Language string // "" for the first of the shop's cards
	Made     unit.Date
}

// Audit makes the audit sheet: why the label says what it says, and who
// approved it. Cautions of the shop's files stand on it.
func (p *Press) Audit(r AuditRequest) ([]Paper, error) {
	q, err := p.product(r.ID)
	if err != nil {
		return nil, err
	}
	k, err := pack(q, r.Pack)
	if err != nil {
		return nil, err
	}
	m, err := p.market(r.Market)
	if err != nil {
		return nil, err
	}
	var codes []string
	if r.Language != "" {
		codes = []string{r.Language}
	}
	langs, err := languages(codes, p.Shop.Profile.CardLanguages[:1])
	if err != nil {
		return nil, err
	}
	if r.Made.IsZero() {
		r.Made = p.Today
	}
	a := audit.Audit{Shop: p.Shop, Facts: declare.Of(p.Shop, q, k, m, r.Made, p.Found), Lang: langs[0], Today: p.Today}
	a.Told = words.Tell(a.Facts, p.Shop, langs[0], p.Found)
	if p.Found.Errors() > 0 {
		return nil, nil
	}
	if e, ok := p.Shop.Approvals.Find(q.ID, k.ID.V, m.Code); ok {
		a.Approval = &e
	}
	a.Cautions = p.Found.All()
	pages := audit.Compose(a, p.faces, p.Found)
	for _, pg := range pages {
		preflight.Label(preflight.Sheet{What: "the audit sheet of " + q.ID, Src: q.Pos, Safe: pg.Area().Inset(8 * unit.MM)}, pg.All(), p.Found)
	}
	if p.Found.Errors() > 0 {
		return nil, nil
	}
	return []Paper{{Name: fmt.Sprintf("audit-%s-%s-%s.pdf", q.ID, k.ID.V, m.Code), Pages: len(pages),
		About: fmt.Sprintf("audit sheet, %s, %s", counted(len(pages), "page", "pages"), p.approval(a.Facts)),
		write: func(w io.Writer, tick func()) error {
			return p.sheetPDF(w, tick, "Audit "+q.ID, langs[0], pages)
		}}}, nil
}
