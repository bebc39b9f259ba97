package print

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"iter"
	"slices"
	"strings"

	"chablon/cmd/internal/usage"
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/preflight"
	"chablon/layout/sale"
	"chablon/layout/stock"
)

// LabelRequest asks for the sale labels of one product.
type LabelRequest struct {
	ID          string // product
	Pack        string // "" for the first
	Market      string // "" for the shop's first
	Languages   []string
	Count       unit.Count // 0 means 1
	Made        unit.Date  // zero means today
	Batch       string     // "" for the shop's rule
	Paper       string     // "" for the pack's
	FirstPlace  unit.Count // on the first sheet, from 1; 0 means 1
	Skip        []int      // places of the first sheet to leave empty
	FirstSerial unit.Count // 0 means 1
	Draft       bool       // print facts that are not approved, with the mark of a draft

	batched diag.Pos // where the batch comes from, for findings
}

// label is a request with everything looked up and composed.
type label struct {
	LabelRequest
	product *shop.Product
	pack    *shop.Pack
	market  *market.Market
	langs   []*words.Lang
	stock   *stock.Stock
	printer shop.Printer
	facts   *declare.Facts
	told    []*words.Label
	set     *sale.Set
	draft   bool // bears the mark of a draft
}

// Labels makes the sale labels of a product. What is wrong is in Found; the
// paper is then not fit for writing.
func (p *Press) Labels(r LabelRequest) ([]Paper, error) {
	l, err := p.label(r)
	if err != nil || l.set == nil || p.Found.Errors() > 0 {
		return nil, err
	}
	return p.labelPapers(l), nil
}

// label looks up, computes, says, composes and checks.
func (p *Press) label(r LabelRequest) (*label, error) {
	l, err := p.lookUp(r)
	if err != nil {
		return nil, err
	}
	l.facts = declare.Of(p.Shop, l.product, l.pack, l.market, l.Made, p.Found)
	l.told = p.tell(l.facts, l.langs)
	p.speaks(l)
	p.fitsFace(l)
	if l.pack.GTIN.Set() {
		p.canPrint()
	}
	if p.Found.Errors() > 0 {
		return l, nil // the page would only repeat it
	}
	l.draft = p.forSale(l.facts, r.Draft)
	l.set = sale.Compose(sale.Label{Facts: l.facts, Pack: l.pack, Told: l.told, Langs: l.langs, Batch: l.Batch,
		Batched: l.batched, Digits: l.digits(), Stock: l.stock, Dots: l.printer.Resolution.V}, p.faces, p.Found)
	if l.set != nil {
		if l.draft {
			p.markDraft(l.set.Art, l.set.Safe, l.langs, l.product.Pos)
		}
		p.preflight(l)
	}
	return l, nil
}

// preflight checks the first label as a whole, the marks of every other one
// against what stands still, and how they lie on their sheets.
func (p *Press) preflight(l *label) {
	rules := p.rules(l)
	preflight.Label(rules, slices.Concat(l.set.Art.Items, l.set.Own(int(l.FirstSerial))), p.Found)
	for n := 1; n < int(l.Count); n++ {
		preflight.Own(rules, l.set.Art.Items, l.set.Own(int(l.FirstSerial)+n), p.Found)
	}
	for pg := range l.run().Pages(0, 2) { // a part-used sheet and a whole one
		preflight.Placed(rules, pg, p.Found)
	}
}

// lookUp finds everything that the request names and fills in what is usual.
func (p *Press) lookUp(r LabelRequest) (l *label, err error) {
	l = &label{LabelRequest: r}
	if l.product, l.pack, l.market, err = p.offer(r.ID, r.Pack, r.Market); err != nil {
		return nil, err
	}
	if l.langs, err = languages(r.Languages, p.Shop.LanguagesOf(l.pack)); err != nil {
		return nil, err
	}
	if l.stock, l.printer, err = p.stock(r.Paper, l.pack.Paper.V); err != nil {
		return nil, err
	}
	l.Count, l.FirstPlace, l.FirstSerial = max(1, l.Count), max(1, l.FirstPlace), max(1, l.FirstSerial)
	if l.Made.IsZero() {
		l.Made = p.Today
	}
	if err := cmp.Or(p.madeBy(l.Made), soundBatch(l.Batch)); err != nil {
		return nil, err
	}
	if l.Batch == "" {
		l.Batch, l.batched = p.Shop.BatchCode(shop.Run{}, l.Made), p.Shop.Profile.BatchCode.Pos
	}
	return l, l.bounds()
}

// bounds refuses what no printer can do.
func (l *label) bounds() error {
	if l.Count > 1_000_000 {
		return usage.Errorf("print at most 1000000 in one run", "%d labels are too many for one run", l.Count)
	}
	var place *stock.PlaceError
	if err := l.run().Check(); errors.As(err, &place) {
		return noPlace(place)
	}
	return nil
}

// noPlace says what cannot be done with the first sheet.
func noPlace(e *stock.PlaceError) error {
	if e.Full {
		return usage.Errorf("skip fewer places", "no place is left on the first sheet of %s", e.Stock.ID)
	}
	return usage.Errorf(fmt.Sprintf("%s has the places 1 to %d", e.Stock.ID, e.Stock.Places()), "%s has no place %d", e.Stock.ID, e.Place)
}

// run deals the labels out to their sheets.
func (l *label) run() stock.Imposition {
	return stock.Imposition{Stock: l.stock, Bed: bed(l.printer), Count: int(l.Count), First: int(l.FirstPlace), Skip: l.Skip,
		Serial: int(l.FirstSerial), Label: func(n int) (*page.Art, []page.Item) { return l.set.Art, l.set.Own(n) }}
}

// stock finds a stock and the printer that is loaded with it.
func (p *Press) stock(id, usual string) (*stock.Stock, shop.Printer, error) {
	if id == "" {
		id = usual
	}
	s, ok := stock.Get(id)
	if !ok {
		return nil, shop.Printer{}, usage.Unknown("paper", id, stock.IDs())
	}
	for _, e := range p.Shop.Profile.Printers {
		if slices.ContainsFunc(e.V.Papers, func(t shop.Text) bool { return t.V == id }) {
			return s, e.V, nil
		}
	}
	return s, shop.Printer{}, nil
}

// canPrint finds a shop without a printer, once: no bar code of it could be set
// on whole dots.
func (p *Press) canPrint() {
	if q := p.Shop.Profile; len(q.Printers) == 0 {
		p.Found.Errorf(q.Pos, "dots", "write printers: with the dots and the papers of each", "no printer is known, and bar codes must lie on its dots")
	}
}

// digits is how many digits the largest running number has, at least four.
func (l *label) digits() int {
	return max(4, len(fmt.Sprint(int(l.FirstSerial)+int(l.Count)-1)))
}

// rules is what the finished label is checked against.
func (p *Press) rules(l *label) preflight.Sheet {
	d := l.facts.Date
	return preflight.Sheet{
		What: "the label of " + l.product.ID, Src: l.product.Pos, Safe: l.set.Safe, Market: l.market,
		Pack: marketPack(l), Use: gs1.Retail, Today: p.Today, Date: d.End, Dots: l.printer.Resolution.V,
	}
}

// showsDay reports whether a date shows day and month at least.
func showsDay(d declare.Date) bool {
	return d.Kind != "none" && (d.Shown.Form == market.DayMonth || d.Shown.Form == market.DayMonthYear)
}

// speaks finds languages that the market asks for and the label lacks.
func (p *Press) speaks(l *label) {
	var have []string
	for _, lang := range l.langs {
		have = append(have, lang.Code())
	}
	lacking := l.market.Languages.Lacking(have)
	if len(lacking) == 0 {
		return
	}
	how := "one of "
	if l.market.Languages.Join == market.Each {
		how = ""
	}
	p.Found.Errorf(l.pack.Pos, "language", "name them under languages of the pack, or with --languages",
		"a label for %s must speak %s%s (%s)", code(l.market), how, strings.Join(lacking, ", "), l.market.Languages.Cite)
}

// marketPack is the pack as the market's rules see it.
func marketPack(l *label) market.Pack {
	sale := market.Prepacked
	if l.pack.Sale.V == "direct" {
		sale = market.Direct
	}
	return market.Pack{
		Sale: sale, Face: l.pack.Face.V, Net: market.Quantity{Mass: l.pack.Net.V},
		UseBy: l.facts.Date.Kind == "use-by", DayMonth: showsDay(l.facts.Date),
		Local: l.pack.Nutrition.V == "exempt-small-maker",
	}
}

// labelPapers makes the files of a composed run: one, or several where it has
// more sheets than one document may have.
func (p *Press) labelPapers(l *label) []Paper {
	name := draftName(l.draft) + "labels-" + l.product.ID
	if l.pack != &l.product.Packs[0] {
		name += "-" + l.pack.ID.V
	}
	name += "-" + fileName(l.Batch)
	about := fmt.Sprintf("%s on %s, batch %s", counted(int(l.Count), "label", "labels"), l.stock.ID, l.Batch)
	if l.draft {
		about = "DRAFT, " + about
	}
	if l.told[0].Date.Text != "" {
		about += ", " + l.told[0].Date.Text
	}
	var out []Paper
	run := l.run()
	for from := 0; from < run.Sheets(); from += pdf.MaxPages {
		n := min(pdf.MaxPages, run.Sheets()-from)
		file, about := name+".pdf", about
		if run.Sheets() > pdf.MaxPages {
			about = fmt.Sprintf("sheets %d to %d, ", from+1, from+n) + about
			file = fmt.Sprintf("%s-part-%02d.pdf", name, from/pdf.MaxPages+1)
		}
		out = append(out, Paper{Name: file, About: about, Pages: n, run: name, write: func(w io.Writer, tick func()) error {
			return pdf.Write(w, pdf.Doc{Title: l.told[0].Name.Text + " " + l.Batch, Lang: l.langs[0].Code(), Made: p.Made,
				Arts: []*page.Art{l.set.Art}, Pages: ticking(run.Pages(from, n), tick)})
		}})
	}
	return out
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func ticking(pages iter.Seq[*page.Page], tick func()) iter.Seq[*page.Page] {
	return func(yield func(*page.Page) bool) {
		for pg := range pages {
			tick()
			if !yield(pg) {
				return
			}
		}
	}
}

// bed is how a printer of the shop takes paper.
func bed(p shop.Printer) stock.Bed {
	return stock.Bed{Dots: p.Resolution.V, Right: p.Right.V, Down: p.Down.V}
}

// fileName makes a batch code fit to stand in the name of a file: what is not
// a letter, a digit or a hyphen becomes a hyphen.
func fileName(s string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r == '-' {
			return r
		}
		return '-'
	}, s)
}
