package print

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"
	"strconv"

	"chablon/cmd/internal/usage"
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/carton"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/preflight"
	"chablon/layout/stock"
)

// CartonRequest asks for the carton labels of one product.
type CartonRequest struct {
	ID        string
	Market    string     // "" for the shop's first
	Count     unit.Count // 0 means 1
	Made      unit.Date  // zero means today
	Batch     string     // "" for the shop's rule
	SSCCFrom  string     // serial reference of the first carton; "" for none
	Paper     string     // "" for the carton's
	Languages []string
	Draft     bool // print facts that are not approved, with the mark of a draft

	batched, numbered diag.Pos // where batch and serial come from, for findings
}

// cartonRun is a request with everything looked up and composed.
type cartonRun struct {
	carton.Carton
	product *shop.Product
	printer shop.Printer
	set     *carton.Set
	draft   bool  // bears the mark of a draft
	from    int64 // serial reference of the first carton
}

// Cartons makes the carton labels of a product. What is wrong is in Found.
// Their SSCCs are looked up in the shop's register, and taken by [Press.Claim].
func (p *Press) Cartons(r CartonRequest) ([]Paper, error) {
	p.claims = nil
	c, err := p.cartons(r)
	if err != nil || c == nil || c.set == nil || p.Found.Errors() > 0 {
		return nil, err
	}
	p.claimed(c)
	if err := p.unused(context.Background()); err != nil || p.Found.Errors() > 0 {
		return nil, err
	}
	return []Paper{p.cartonPaper(c)}, nil
}

// cartons looks up, computes, says, composes and checks. It returns nil when
// the shop's files are not sound enough.
func (p *Press) cartons(r CartonRequest) (*cartonRun, error) {
	p.canPrint()
	c, err := p.lookUpCarton(&r)
	if err != nil || p.Found.Errors() > 0 {
		return nil, err
	}
	c.SSCCs, c.from, err = p.numbers(r)
	if err != nil {
		return nil, err
	}
	if p.Found.Errors() == 0 {
		c.draft = p.forSale(c.Facts, r.Draft)
	}
	c.set = carton.Compose(c.Carton, p.faces, p.Found)
	if c.set != nil && c.draft {
		p.markDraft(c.set.Art, c.set.Safe, c.Langs, c.product.Pos)
	}
	if c.set != nil {
		p.preflightCartons(c)
	}
	return c, nil
}

// preflightCartons checks every label, and how they lie on their sheets.
func (p *Press) preflightCartons(c *cartonRun) {
	rules := preflight.Sheet{What: "the carton label of " + c.product.ID, Src: c.product.Pos, Safe: c.set.Safe, Dots: c.Dots,
		Market: c.Facts.Market, Pack: c.Pack(), Use: gs1.Trade, Today: p.Today, Date: c.Facts.Date.End}
	for n := range c.Of {
		preflight.Label(rules, slices.Concat(c.set.Art.Items, c.set.Own(n+1)), p.Found)
	}
	for pg := range c.run().Pages(0, 1) {
		preflight.Placed(rules, pg, p.Found)
	}
}

// lookUpCarton finds everything that the request names and says the facts.
func (p *Press) lookUpCarton(r *CartonRequest) (c *cartonRun, err error) {
	c = &cartonRun{}
	if c.product, err = p.product(r.ID); err != nil {
		return nil, err
	}
	if c.product.Carton == nil {
		return nil, usage.Errorf("write carton: into products/"+r.ID+".yaml", "%s is not shipped in a carton", r.ID)
	}
	_, k, m, err := p.offer(r.ID, c.product.Carton.Pack.V, r.Market)
	if err != nil {
		return nil, err
	}
	if c.Langs, err = languages(r.Languages, p.Shop.LanguagesOf(k)); err != nil {
		return nil, err
	}
	if c.Stock, c.printer, err = p.stock(r.Paper, c.product.Carton.Paper.V); err != nil {
		return nil, err
	}
	if r.Made.IsZero() {
		r.Made = p.Today
	}
	if err := cmp.Or(p.madeBy(r.Made), soundBatch(r.Batch)); err != nil {
		return nil, err
	}
	if r.Batch == "" {
		r.Batch, r.batched = p.Shop.BatchCode(shop.Run{}, r.Made), p.Shop.Profile.BatchCode.Pos
	}
	if r.Count = max(1, r.Count); r.Count > carton.MaxCartons {
		return nil, usage.Errorf(fmt.Sprintf("print at most %d in one run", carton.MaxCartons), "%d cartons are too many for one run", r.Count)
	}
	c.Batch, c.Batched, c.Numbered, c.Of, c.Dots = r.Batch, r.batched, r.numbered, int(r.Count), c.printer.Resolution.V
	c.Facts = declare.Of(p.Shop, c.product, k, m, r.Made, p.Found)
	c.Told = p.tell(c.Facts, c.Langs)
	return c, nil
}

// numbers are the SSCCs of the request, or none, and the serial reference of
// the first.
func (p *Press) numbers(r CartonRequest) (all []string, from int64, err error) {
	if r.SSCCFrom == "" {
		return nil, 0, nil
	}
	from, err = strconv.ParseInt(r.SSCCFrom, 10, 64)
	if err != nil || from < 0 {
		return nil, 0, usage.Errorf("write digits only", "%q is not a serial reference", r.SSCCFrom)
	}
	all, err = carton.Numbers(p.Shop.Profile.GS1Prefix.V, from, int(r.Count))
	if err != nil {
		p.Found.Errorf(p.Shop.Profile.GS1Prefix.Pos, "sscc", "look at gs1-prefix and the serial reference", "no SSCC can be made: %v", err)
	}
	return all, from, nil
}

func (p *Press) cartonPaper(c *cartonRun) Paper {
	about := fmt.Sprintf("%s on %s, batch %s", counted(c.Of, "carton label", "carton labels"), c.Stock.ID, c.Batch)
	if n := len(c.SSCCs); n > 0 {
		about += ", SSCC " + c.SSCCs[0]
		if n > 1 {
			about += " to " + c.SSCCs[n-1]
		}
	}
	pages := c.run().Sheets()
	if c.draft {
		about = "DRAFT, " + about
	}
	return Paper{Name: draftName(c.draft) + "cartons-" + c.product.ID + "-" + fileName(c.Batch) + ".pdf", About: about, Pages: pages,
		write: func(w io.Writer, tick func()) error {
			return pdf.Write(w, pdf.Doc{Title: "Carton " + c.Told[0].Name.Text + " " + c.Batch, Lang: c.Langs[0].Code(), Made: p.Made,
				Arts: []*page.Art{c.set.Art}, Pages: ticking(c.run().Pages(0, pages), tick)})
		}}
}

// run deals the labels out to their sheets.
func (c *cartonRun) run() stock.Imposition {
	return stock.Imposition{Stock: c.Stock, Bed: bed(c.printer), Count: c.Of,
		Label: func(n int) (*page.Art, []page.Item) { return c.set.Art, c.set.Own(n) }}
}
