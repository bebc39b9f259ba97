package print

import (
	"fmt"
	"io"
	"slices"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/card"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/preflight"
	"chablon/layout/stock"
	"chablon/layout/ticket"
)

// TicketRequest asks for the counter tickets of some products.
type TicketRequest struct {
	IDs       []string
	Pack      string // "" for the first of each product
	Market    string // "" for the shop's first
	Paper     string // "" for the standing ticket
	Languages []string
	Pieces    map[string]unit.Count // size of the card whose check word the ticket bears
	Draft     bool
}

// tickets are composed tickets on their way to paper.
type tickets struct {
	arts  []*page.Art
	pages []*page.Page
	stock *stock.Stock
	lang  *words.Lang
	draft bool
}

// Tickets makes the counter tickets of some products. What is wrong is in Found.
func (p *Press) Tickets(r TicketRequest) ([]Paper, error) {
	if p.Found.Errors() > 0 {
		return nil, nil
	}
	t, err := p.tickets(r)
	if err != nil || p.Found.Errors() > 0 {
		return nil, err
	}
	name := draftName(t.draft) + "tickets-" + p.Today.String() + ".pdf"
	if len(r.IDs) == 1 {
		name = draftName(t.draft) + "ticket-" + r.IDs[0] + ".pdf"
	}
	return []Paper{{Name: name, About: fmt.Sprintf("%s on %s", counted(len(t.arts), "ticket", "tickets"), t.stock.ID), Pages: len(t.pages),
		write: func(w io.Writer, tick func()) error {
			return pdf.Write(w, pdf.Doc{Title: "Tickets " + p.Today.String(), Lang: t.lang.Code(), Made: p.Made, Arts: t.arts,
				Pages: ticking(slices.Values(t.pages), tick)})
		}}}, nil
}

// tickets looks up, composes and checks.
func (p *Press) tickets(r TicketRequest) (*tickets, error) {
	s, printer, err := p.stock(r.Paper, "ticket-a7-tent")
	if err != nil {
		return nil, err
	}
	t := &tickets{stock: s}
	for _, id := range r.IDs {
		k, err := p.ticket(r, id)
		if err != nil || p.Found.Errors() > 0 {
			return t, err
		}
		k.Stock, k.Dots, t.lang = s, printer.Resolution.V, k.Langs[0]
		art := ticket.Set(k, p.faces, p.Found)
		if art == nil {
			continue
		}
		safe := art.Area().Inset(s.Safe.V)
		if p.forSale(k.Facts, r.Draft) {
			t.draft = true
			p.markDraft(art, safe, k.Langs, k.Facts.Product.Pos)
		}
		preflight.Label(preflight.Sheet{What: "the ticket of " + id, Src: k.Facts.Product.Pos, Safe: safe, Market: k.Facts.Market,
			Pack: market.Pack{Sale: market.Loose}, Heights: ticket.Heights(p.faces)}, art.Items, p.Found)
		t.arts = append(t.arts, art)
	}
	t.pages = s.Deal(t.arts, bed(printer))
	return t, nil
}

// ticket finds what one ticket says. In the languages of the request, or in
// the first of the pack's label.
func (p *Press) ticket(r TicketRequest, id string) (k ticket.Ticket, err error) {
	q, pk, m, err := p.offer(id, r.Pack, r.Market)
	if err != nil {
		return k, err
	}
	k.Pack = pk
	if k.Langs, err = languages(r.Languages, p.Shop.LanguagesOf(k.Pack)[:1]); err != nil {
		return k, err
	}
	k.Shop = p.Shop
	k.Facts = declare.Of(p.Shop, q, k.Pack, m, p.Today, p.Found)
	k.Told = p.tell(k.Facts, k.Langs)
	c, err := p.lookUpCard(CardRequest{ID: id, Pieces: r.Pieces[id]})
	k.CheckWord = card.CheckWord(c)
	return k, err
}
