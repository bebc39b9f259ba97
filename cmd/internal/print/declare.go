package print

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
)

// DeclareRequest asks for all that a label says, without paper.
type DeclareRequest struct {
	ID        string
	Pack      string    `flag:"pack" help:"id of the pack; the product's first when left out" of:"pack"`
	Market    string    `flag:"market" help:"code of the market; the shop's first when left out" of:"market"`
	Languages []string  `flag:"languages" help:"languages, such as en,fr; those of the pack when left out" of:"language"`
	Made      unit.Date `flag:"made" is:"day" help:"the day made; today when left out"`
	Batch     string    `flag:"batch" help:"batch code, of a batch that the plan makes otherwise; by the shop's rule when left out"`
}

// Declaration is all that is said about one product in one pack in one market,
// and whether somebody stands by it.
type Declaration struct {
	Product     *shop.Product
	Pack        *shop.Pack
	Market      *market.Market
	Langs       []*words.Lang
	Facts       *declare.Facts
	Told        []*words.Label // one for each language
	Fingerprint string
	Approval    Approval

	press *Press
}

// Declare computes and says the declaration. What is wrong is in Found; the
// declaration is then not fit for use.
func (p *Press) Declare(r DeclareRequest) (*Declaration, error) {
	whole := p
	p, err := p.meant(r.ID, nil, r.Batch, r.Made)
	if err != nil {
		return nil, err
	}
	if p != whole { // what is wrong with the batch is told as all else
		defer func() { whole.addNew(p.Found) }()
		if r.Batch != "" && p.batchOf != r.Batch {
			p = whole
		}
	}
	d := &Declaration{press: p}
	if d.Product, d.Pack, d.Market, err = p.offer(r.ID, r.Pack, r.Market); err != nil {
		return nil, err
	}
	if d.Langs, err = languages(r.Languages, p.Shop.LanguagesOf(d.Pack)); err != nil {
		return nil, err
	}
	if p.Found.Errors() > 0 {
		return d, nil // the shop's files are not sound enough
	}
	if r.Made.IsZero() {
		r.Made = p.Today
	}
	d.Facts = declare.Of(p.Shop, d.Product, d.Pack, d.Market, r.Made, p.Found)
	d.Told = p.tell(d.Facts, d.Langs)
	d.Fingerprint, d.Approval = d.Facts.Digest(), p.approval(d.Facts)
	return d, nil
}

// Name is what the declaration is called in messages.
func (d *Declaration) Name() string {
	name := fmt.Sprintf("%s, %s, %s", d.Product.ID, d.Pack.ID.V, code(d.Market))
	if d.press.varies != nil {
		name += ", batch " + d.press.batchOf
	}
	return name
}

// code is a market's code as it is printed.
func code(m *market.Market) string { return strings.ToUpper(m.Code) }

// Text is the declaration for a terminal, emphasised words between asterisks.
func (d *Declaration) Text() string {
	s := &sheet{}
	s.line("%s, made %s", d.Name(), d.Facts.Made)
	if v := d.press.varies; v != nil {
		s.entry("", "otherwise", whyVaries(v))
	}
	s.entry("", "fingerprint", d.Fingerprint)
	s.entry("", "approval", d.Approval.String())
	for i, t := range d.Told {
		s.line("")
		s.line("%s (%s)", d.Langs[i].Name(), t.Lang)
		d.particulars(s, t, d.Langs[i])
	}
	return s.String()
}

// particulars writes what one language says.
func (d *Declaration) particulars(s *sheet, t *words.Label, l *words.Lang) {
	const in = "  "
	said := func(what string, one words.Said) {
		if one.Text != "" {
			s.entry(in, what, starred(one))
		}
	}
	said("name", t.Name)
	for _, one := range t.Lists {
		said(string(one.Role), one)
	}
	s.entry(in, "contains", named(l, d.Facts.Contains))
	s.entry(in, "may contain", named(l, d.Facts.May))
	said("may line", t.May)
	said("net", t.Net.Said)
	said("date", t.Date)
	said("keep", t.Keep)
	said("use", t.Use)
	for _, one := range t.Statements {
		said("statement", one)
	}
	said("operator", t.Operator)
	if t.Table == nil {
		s.entry(in, "nutrition", "not declared: "+d.Pack.Nutrition.V)
		return
	}
	tabled(s, in, t.Table)
}

// tabled writes the nutrition declaration; where it has several columns they
// are parted by bars.
func tabled(s *sheet, in string, t *words.Table) {
	if len(t.Heads) == 1 {
		s.entry(in, "nutrition", t.Heading+" "+t.Per)
	} else {
		s.entry(in, "nutrition", t.Heading)
		for _, line := range []string{t.Per, t.Portions, strings.Join(t.Heads, " | ")} {
			if line != "" && line != t.Heads[0] && line != t.Heads[1] {
				s.entry(in, "", line)
			}
		}
	}
	for _, r := range t.Rows {
		name := r.Name
		if r.Sub {
			name = "– " + name
		}
		cells := strings.Join(r.Cells, " | ")
		if r.Cells[0] != "" {
			cells = " " + cells
		}
		s.entry(in, "", strings.TrimRight(name+cells, " |"))
	}
	if t.ReferenceOf != "" {
		s.entry(in, "", t.ReferenceOf)
	}
}

// named lists allergens by their names in a language.
func named(l *words.Lang, ids []string) string {
	var out []string
	for _, id := range ids {
		name, _, err := l.Allergen(id)
		if err != nil {
			name = id
		}
		out = append(out, name)
	}
	if out == nil {
		return "–"
	}
	return l.Join(out)
}

// starred is a text with its emphasised words between asterisks. Emphasis that
// covers a space between two words is one.
func starred(s words.Said) string {
	var b strings.Builder
	for _, r := range s.Runs() {
		if r.Strong {
			r.Text = "*" + r.Text + "*"
		}
		b.WriteString(r.Text)
	}
	return b.String()
}

// declared computes the facts of every pack of a product in every market of
// the shop, or only of those named; "" names all.
func (p *Press) declared(q *shop.Product, packID, marketCode, batch string) ([]*Declaration, error) {
	packs, markets := q.PackIDs(), p.marketCodes()
	if packID != "" {
		packs = []string{packID}
	}
	if marketCode != "" {
		markets = []string{marketCode}
	}
	var out []*Declaration
	for _, k := range packs {
		for _, m := range markets {
			d, err := p.Declare(DeclareRequest{ID: q.ID, Pack: k, Market: m, Batch: batch})
			if err != nil {
				return nil, err
			}
			out = append(out, d)
		}
	}
	return out, nil
}

// marketCodes are the codes of the shop's markets, each once.
func (p *Press) marketCodes() []string {
	var out []string
	for _, m := range p.Shop.Profile.Markets {
		if c := strings.ToUpper(m.V); !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	return out
}
