package print

import (
	"bytes"
	"context"
	"crypto/rand"
	"fmt"
	"iter"
	"slices"
	"time"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/printer"
	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/register"
	"chablon/labels/shop"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/raster"
	"chablon/layout/stock"
)

// sheets are the pages of one paper, however they are written.
type sheets struct {
	jobs  []*Job
	doc   pdf.Doc // without its pages
	pages int
	some  func(from, n int) iter.Seq[*page.Page]
	dealt *stock.Imposition // nil for whole pages
}

// Sender brings the papers of a batch to a printer that has been asked, and has
// said that it takes them.
type Sender struct {
	Left []string // names of papers that are for another printer

	p     *Press
	id    string
	to    *printer.Printer
	parts []sending
}

// sending is one job for the printer.
type sending struct {
	printer.Part
	series   string
	from, to int64
}

// Limits of what goes to a printer at once.
const (
	mostLabels   = 500              // of one job, so that a jam costs little
	mostPatience = 10 * time.Minute // with a job that does not end
)

// Reach finds a printer of the shop, asks it what it is and what is loaded, and
// lets it validate each paper of the batch, before a number is claimed. What
// does not fit is a finding in the batch, and then nothing is to be printed.
func (p *Press) Reach(ctx context.Context, id string, b *Batch) (*Sender, error) {
	e, to, err := p.printerNamed(id)
	if err != nil {
		return nil, err
	}
	said, err := to.Ask(ctx)
	if err != nil {
		return nil, fmt.Errorf("nothing was printed: %s: %w", id, err)
	}
	s := &Sender{p: p, id: id, to: to}
	var asked []printer.Ticket
	for i, q := range b.Papers {
		j := q.of[0]
		if i > 0 && b.Papers[i-1].run == q.run {
			continue
		}
		if !slices.ContainsFunc(e.V.Papers, func(t shop.Text) bool { return t.V == j.Stock.ID }) {
			s.Left = append(s.Left, q.Name)
			continue
		}
		w, wrong := said.Fit(need(e.V, j.Stock))
		for _, what := range wrong {
			b.Found.Errorf(e.V.Address.Pos, "printer-says", "put the right roll in, or mend what shop.yaml says of this printer; chablon printers shows both", "%s cannot print %s: %s", id, q.run, what)
		}
		if len(wrong) > 0 {
			continue
		}
		t := ticketOf(w, j.Stock)
		if !slices.Contains(asked, t) {
			asked = append(asked, t)
			if err := to.Validate(ctx, asJob(t, q.run)); err != nil {
				b.Found.Errorf(e.V.Address.Pos, "printer-says", "look at the printer; chablon printers shows what it says", "%s cannot print %s: %v", id, q.run, err)
				continue
			}
		}
		s.parts = append(s.parts, q.parts(t, w)...)
	}
	if len(s.parts) == 0 && b.Found.Errors() == 0 {
		return nil, usage.Errorf("name the paper under papers: of that printer, or take another with --paper", "nothing of this is on a paper that %s is loaded with", id)
	}
	return s, nil
}

// printerNamed finds a printer with an address.
func (p *Press) printerNamed(id string) (e read.Entry[shop.Printer], to *printer.Printer, err error) {
	var ids []string
	for _, e := range p.Shop.Profile.Printers {
		ids = append(ids, e.Key.V)
		if e.Key.V != id {
			continue
		}
		if !e.V.Address.Set() {
			return e, nil, usage.Errorf("write address: below it in shop.yaml; chablon printers lists those on the net", "nobody knows where the printer %s is reached", id)
		}
		to, err := printer.New(e.V.Address.V, e.V.Certificate.V)
		if err != nil {
			return e, nil, usage.Errorf("write it like ipp://192.0.2.7/ipp/print", "the printer %s: %v", id, err)
		}
		return e, to, nil
	}
	return e, nil, usage.Unknown("printer", id, ids)
}

// need is what a paper asks of a printer.
func need(e shop.Printer, s *stock.Stock) printer.Need {
	bed := dotsOf(e)
	return printer.Need{DPI: bed.DPI(), Greys: bed.Greys, W: s.Width.V, H: s.Height.V, Sends: e.Sends.V}
}

func ticketOf(w printer.Way, s *stock.Stock) printer.Ticket {
	return printer.Ticket{Format: w.Format, W: s.Width.V, H: s.Height.V, Unscaled: w.Unscaled}
}

// asJob is a ticket of a job that no other has the mark of.
func asJob(t printer.Ticket, name string) printer.Ticket {
	t.Mark, t.Name = rand.Text()[:10], name
	return t
}

// parts cuts a paper into jobs, each of which names its numbers.
func (q Paper) parts(t printer.Ticket, w printer.Way) (out []sending) {
	s, j := q.sheets, q.of[0]
	each, places := mostLabels, 1
	if s.dealt != nil {
		places = s.dealt.Stock.Places()
		each = max(1, mostLabels/places)
	}
	bed := dotsOf(j.Printer)
	bed.Greys = w.Bytes
	for from := 0; from < s.pages; from += each {
		n := min(each, s.pages-from)
		one := sending{}
		name := q.run
		if len(s.jobs) == 1 && j.numbered() && s.dealt != nil {
			first, last := s.dealt.Labels(from, n)
			one.series, one.from, one.to = j.numbersOf().Name, j.From+int64(first/j.copies()), j.From+int64((last-1)/j.copies())
			name += " " + register.Span{From: one.from, To: one.to}.String()
		} else if s.pages > each {
			name += fmt.Sprintf(" pages %d-%d", from+1, from+n)
		}
		one.Part = printer.Part{Ticket: asJob(t, name), Pages: n, Doc: func() ([]byte, error) { return s.written(t.Format, bed, from, n) }}
		out = append(out, one)
	}
	return out
}

// written are some pages as the printer takes them.
func (s *sheets) written(format string, bed raster.Bed, from, n int) ([]byte, error) {
	var out bytes.Buffer
	if format == printer.PDF {
		part := s.doc
		part.Pages = s.some(from, n)
		err := pdf.Write(&out, part)
		return out.Bytes(), err
	}
	plate, to := raster.New(raster.Bed{Dots: bed.Dots, Greys: dotsOf(s.jobs[0].Printer).Greys}), raster.NewPWG(&out, bed, n)
	for pg := range s.some(from, n) {
		img, err := plate.Draw(pg)
		if err == nil {
			err = to.Page(img, raster.MediaOf(pg))
		}
		if err != nil {
			return nil, err
		}
	}
	return out.Bytes(), nil
}

// Sent is what became of one job.
type Sent struct {
	What string
	Came printer.Came
	Why  string
}

// Send sends what [Press.Reach] found right, after [Press.Save] has claimed its
// numbers: job by job, each noted in the print book before it is sent and when it
// has ended. tell is called with what holds the printer up.
func (s *Sender) Send(ctx context.Context, tell func(string)) (out []Sent, err error) {
	log := &sendings{press: s.p, printer: s.id, of: map[string]sending{}}
	var parts []printer.Part
	for _, one := range s.parts {
		log.of[one.Mark] = one
		parts = append(parts, one.Part)
	}
	done, err := s.to.Run(ctx, parts, log, mostPatience, tell)
	for _, o := range done {
		out = append(out, Sent{o.Part.Name, o.Came, o.Why})
	}
	return out, err
}

// sendings keeps in the print book what is sent. A shop without one keeps
// nothing.
type sendings struct {
	press   *Press
	printer string
	of      map[string]sending
}

// Note implements [printer.Log].
func (l *sendings) Note(ctx context.Context, part printer.Part, came printer.Came, why string) error {
	one := l.of[part.Mark]
	step := register.Sending{Mark: part.Mark, Printer: l.printer, What: clipped(part.Name), Series: one.series, From: one.from, To: one.to,
		Pages: int64(part.Pages), Came: register.Came(came), Why: clipped(why), At: l.press.Clock}
	return l.press.reads(ctx, func(book keep.Books) error { return book.Sent(ctx, step) })
}

// clipped is a text as the print book takes it.
func clipped(s string) string {
	out := []rune(diag.Visible(s))
	for len(string(out)) > 200 {
		out = out[:len(out)-1]
	}
	return string(out)
}

// Open lists what was sent to printers and nobody knows what became of, after
// asking those printers again.
func (p *Press) Open(ctx context.Context) (open []register.Sending, err error) {
	err = p.reads(ctx, func(book keep.Books) error {
		all, err := book.Sendings(ctx)
		if err != nil {
			return err
		}
		last := map[string]register.Sending{}
		var marks []string
		for _, s := range all {
			if _, ok := last[s.Mark]; !ok {
				marks = append(marks, s.Mark)
			}
			last[s.Mark] = s
		}
		for _, m := range marks {
			s := last[m]
			if !s.Open() {
				continue
			}
			if s, err = p.settled(ctx, book, s); err != nil {
				return err
			}
			if s.Open() {
				open = append(open, s)
			}
		}
		return nil
	})
	return open, err
}

// settled asks a printer what became of a job, and notes it where it knows.
func (p *Press) settled(ctx context.Context, book keep.Books, s register.Sending) (register.Sending, error) {
	_, to, err := p.printerNamed(s.Printer)
	if err != nil {
		return s, nil // it is not of the shop any more
	}
	job, ok, err := to.Find(ctx, s.Mark)
	if err != nil || !ok {
		return s, nil
	}
	switch job.State {
	case printer.Printed:
		s.Came, s.Why = register.Printed, ""
	case printer.Stopped:
		s.Came, s.Why = register.Stopped, clipped(fmt.Sprint(job.Reasons))
	default:
		return s, nil
	}
	s.At = p.Clock
	return s, book.Sent(ctx, s)
}

// Compared is a printer of the shop beside what it says of itself.
type Compared struct {
	ID, Address string
	Said        printer.Said
	Err         error    // it does not answer
	Wrong       []string // by paper
	Ways        []string
}

// Printers asks every printer of the shop that has an address.
func (p *Press) Printers(ctx context.Context) (out []Compared) {
	for _, e := range p.Shop.Profile.Printers {
		c := Compared{ID: e.Key.V, Address: e.V.Address.V}
		if c.Address != "" {
			p.compare(ctx, e.V, &c)
		}
		out = append(out, c)
	}
	return out
}

func (p *Press) compare(ctx context.Context, e shop.Printer, c *Compared) {
	_, to, err := p.printerNamed(c.ID)
	if err == nil {
		c.Said, err = to.Ask(ctx)
	}
	if c.Err = err; err != nil {
		return
	}
	for _, id := range e.Papers {
		s, ok := p.shelf.Get(id.V)
		if !ok {
			continue
		}
		w, wrong := c.Said.Fit(need(e, s))
		if len(wrong) == 0 {
			c.Ways = append(c.Ways, id.V+": "+map[string]string{printer.Raster: "ready, by its own dots", printer.PDF: "ready, as pdf"}[w.Format])
		}
		for _, what := range wrong {
			c.Wrong = append(c.Wrong, id.V+": "+what)
		}
	}
}
