package print

import (
	"context"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/declare"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Approval is what is known about the approval of some facts.
type Approval struct {
	Known bool // there is an entry, for these facts or for other ones
	Valid bool // the entry is for these facts
	Form  int  // form of the entry's digest; facts of another form than declare.Form cannot be compared
	By    string
	On    unit.Date
	Was   string // digest of the entry
}

// String says it in words.
func (a Approval) String() string {
	switch {
	case a.Valid:
		return fmt.Sprintf("approved by %s on %s", a.By, a.On)
	case a.Known && a.Form < declare.Form:
		return fmt.Sprintf("not approved: %s signed on %s (%s) under an older form: sign again", a.By, a.On, a.Was)
	case a.Known && a.Form > declare.Form:
		return fmt.Sprintf("not approved: %s signed on %s (%s) with a newer version of this program: use that version, or sign again", a.By, a.On, a.Was)
	case a.Known:
		return fmt.Sprintf("not approved: what %s approved on %s (%s) has changed since", a.By, a.On, a.Was)
	}
	return "not approved"
}

// approval finds out whether somebody stands by the facts.
func (p *Press) approval(f *declare.Facts) Approval {
	e, ok := p.Shop.Approvals.Find(f.Product.ID, f.Pack.ID.V, f.Market.Code)
	if own, signed := p.Shop.Approvals.FindBatch(f.Product.ID, f.Pack.ID.V, f.Market.Code, p.batchOf); signed && (!ok || f.Under(e) != declare.Holds) {
		e, ok = own, true
	}
	if !ok {
		return Approval{}
	}
	return Approval{Known: true, Valid: f.Under(e) == declare.Holds, Form: e.Form(), By: e.By.V, On: e.On.V, Was: e.Fingerprint.V}
}

// forSale reports whether paper with these facts is a draft. Facts that nobody
// has approved are a finding unless a draft is asked for.
func (p *Press) forSale(f *declare.Facts, draft bool) (marked bool) {
	a := p.approval(f)
	if a.Valid {
		return false
	}
	if !draft {
		p.Found.Errorf(f.Product.Pos, "not-approved", p.approveHint(f), "%s in %s for %s may not be sold yet: %s",
			p.named(f), f.Pack.ID.V, code(f.Market), a)
	}
	return draft
}

// named is the product of some facts, with the batch that is made otherwise.
func (p *Press) named(f *declare.Facts) string {
	if p.varies == nil {
		return f.Product.ID
	}
	return f.Product.ID + ", batch " + p.batchOf + ","
}

// approveHint is the command that approves.
func (p *Press) approveHint(f *declare.Facts) string {
	of := f.Product.ID
	if p.varies != nil {
		of += " --batch " + p.batchOf
	}
	return fmt.Sprintf("read chablon declare %s%s, then: chablon approve %s --by NAME%s; or print a draft with --draft",
		of, p.shopFlag(), of, p.shopFlag())
}

// shopFlag is how a command names this shop.
func (p *Press) shopFlag() string {
	if p.Name == "" {
		return ""
	}
	return " --shop " + p.Name
}

// ApproveRequest is the signature of one person under one product, or under
// all of them.
type ApproveRequest struct {
	ID     string // "" with All
	All    bool   `flag:"all" help:"approve every product"`
	Pack   string `flag:"pack" help:"id of the pack; all packs when left out" of:"pack"`
	Market string `flag:"market" help:"code of the market; all markets of the shop when left out" of:"market"`
	By     string `flag:"by" help:"who approves"`
	Batch  string `flag:"batch" help:"batch code, of a batch that today's plan makes otherwise"`
}

// Approved is one declaration that was signed. Before is what was known until
// then; when it was valid, the older signature stays.
type Approved struct {
	*Declaration
	Before Approval
}

// Approve signs. Nothing is written; [Press.SaveApprovals] does that. What is
// wrong is in Found, and nothing is approved then.
func (p *Press) Approve(r ApproveRequest) ([]Approved, error) {
	by, err := signer(r.By)
	if err != nil {
		return nil, err
	}
	if err := p.runs(context.Background(), p.Found); err != nil {
		return nil, err
	}
	if !p.Now.IsZero() && p.Now.Add(24*time.Hour).Before(p.Today.Time()) {
		return nil, usage.Errorf("leave out --today, or set the clock", "nobody can sign on %s: the clock says %s", p.Today, unit.DateOf(p.Now))
	}
	ids := []string{r.ID}
	if r.All {
		ids = p.Shop.ProductIDs
	}
	var out []Approved
	for _, id := range ids {
		q, err := p.product(id)
		if err != nil {
			return nil, err
		}
		all, err := p.declared(q, r.Pack, r.Market, r.Batch)
		if err != nil {
			return nil, err
		}
		for _, d := range all {
			out = append(out, Approved{d, d.Approval})
		}
	}
	if p.Found.Errors() > 0 {
		return nil, nil
	}
	p.sign(out, by)
	return out, nil
}

// sign puts an approval in for each of all, unless the same facts are approved
// already.
func (p *Press) sign(all []Approved, by string) {
	for _, d := range all {
		if d.Before.Valid {
			continue
		}
		var a shop.Approval
		a.Product.V, a.Pack.V, a.Market.V, a.Batch.V = d.Product.ID, d.Pack.ID.V, code(d.Market), d.press.batchOf
		a.Fingerprint.V, a.By.V, a.On.V = d.Fingerprint, by, p.Today
		p.signed = append(p.signed, a)
	}
	p.Shop.Approvals = p.Shop.Approvals.With(p.signed...)
	for _, d := range all {
		d.press.Shop.Approvals = p.Shop.Approvals
		d.Approval = d.press.approval(d.Facts)
	}
}

// signer is the name of whoever approves.
func signer(by string) (string, error) {
	by = strings.TrimSpace(by)
	switch {
	case by == "":
		return "", usage.Errorf(`say who approves, such as --by "Mara B."`, "an approval needs the name of whoever stands by it")
	case !unit.Printable(by) || utf8.RuneCountInString(by) > 100:
		return "", usage.Errorf("write a name of at most 100 characters", "%q cannot be the name of whoever approves", by)
	}
	return by, nil
}

// SaveApprovals writes what was signed into approvals.yaml in the shop's folder
// and returns its path. The demo shop is part of the program and cannot be
// written to.
func (p *Press) SaveApprovals() (file string, err error) {
	if p.Name == "" {
		return "", usage.Errorf("chablon new DIR --demo writes it into a folder; then add --shop DIR", "the demo shop lies in no folder, so nothing can be signed in it")
	}
	file, p.Shop.Approvals, err = keep.Sign(keep.Machine{}, p.Name, p.signed)
	return file, err
}

// Outcome says what the signature did.
func (a Approved) Outcome() string {
	switch {
	case a.Before.Valid:
		return a.Before.String() + ", as before"
	case a.Before.Known:
		return fmt.Sprintf("%s; before it, %s approved %s on %s", a.Approval, a.Before.By, a.Before.Was, a.Before.On)
	}
	return a.Approval.String()
}
