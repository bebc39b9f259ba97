package print

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
	if p.Found.Errors() > 0 {
		return nil, nil
	}
	q, k, m, err := p.offer(r.ID, r.Pack, r.Market)
	if err != nil {
		return nil, err
	}
	lang, err := p.sheetLanguage(r.Language)
	if err != nil {
		return nil, err
	}
	if r.Made.IsZero() {
		r.Made = p.Today
	}
	a := audit.Audit{Shop: p.Shop, Facts: declare.Of(p.Shop, q, k, m, r.Made, p.Found), Lang: lang, Today: p.Today}
	a.Told = words.Tell(a.Facts, p.Shop, lang, p.Found)
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
			return p.sheetPDF(w, tick, "Audit "+q.ID, lang, pages)
		}}}, nil
}
