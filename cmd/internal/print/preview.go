package print

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"strings"

	"chablon/cmd/internal/usage"
	"chablon/labels/register"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/page"
)

// Seen is one paper of a batch as somebody looks at it before it is printed.
type Seen struct {
	Kind      *Kind
	ID        string
	Pack      string
	Market    string
	Batch     string
	Made      unit.Date
	Count     int
	Paper     string
	Printer   bool // the shop says which printer takes that paper
	Draft     bool
	Demo      bool
	Numbers   string // "0025-0048", or the first and last SSCC; "" for none
	Told      []*words.Label
	Pictures  []*page.Page // the first and the last piece, or each page
	Sheets    int          // of paper
	FirstPage *page.Page   // the first sheet, where it holds several pieces; nil otherwise
}

// mostSeen is how many pages of one paper are looked at.
const mostSeen = 20

// Seen are the papers of a batch as pictures: the same page values that
// preflight judged and that [Press.Save] writes.
func (b *Batch) Seen() (out []Seen) {
	for _, j := range b.jobs {
		out = append(out, j.seen())
	}
	return out
}

func (j *Job) seen() Seen {
	s := Seen{Kind: j.Kind, ID: j.ID, Batch: j.Batch, Made: j.Made, Count: j.Count, Paper: j.Stock.ID, Draft: j.Draft, Demo: j.Demo,
		Printer: j.Printer.Resolution.Set(), Told: j.Told, Sheets: len(j.set.Pages)}
	if j.Pack != nil {
		s.Pack, s.Market = j.Pack.ID.V, code(j.Market)
	}
	switch {
	case j.Kind.Serial:
		s.Numbers = register.Span{From: j.From, To: j.From + int64(j.Count) - 1}.String()
	case len(j.SSCCs) > 0:
		s.Numbers = strings.Join(slices.Compact([]string{j.SSCCs[0], j.SSCCs[len(j.SSCCs)-1]}), " – ")
	}
	if len(j.set.Arts) == 0 {
		s.Pictures = j.set.Pages[:min(len(j.set.Pages), mostSeen)]
		return s
	}
	for _, n := range slices.Compact([]int{1, j.pieces()}) {
		s.Pictures = append(s.Pictures, j.piece(n))
	}
	d := dealt([]*Job{j})
	if s.Sheets = d.Sheets(); j.Stock.Places() > 1 {
		for pg := range d.Pages(0, 1) {
			s.FirstPage = pg
		}
	}
	return s
}

// piece is piece n as a page of its own.
func (j *Job) piece(n int) *page.Page {
	art := j.set.art(n)
	return &page.Page{W: art.W, H: art.H, Placed: []page.Placed{{Art: art}}, Items: j.set.own(n)}
}

// runDigest is the same for the same run of paper: what it says, on which paper
// and printer, and how much of it. The running numbers of labels are left out:
// whoever prints first gets the first, and what else stands there is the same.
func (j *Job) runDigest() string {
	h := sha256.New()
	p := j.Printer
	fmt.Fprintln(h, j.Kind.Name, j.ID, j.Batch, j.Made, j.Count, j.Draft, j.Stock.ID, p.Resolution.V, p.Right.V, p.Down.V, p.Wide100.V, p.High100.V, j.Request.FirstPlace, j.Request.Skip)
	for _, pg := range j.set.Pages {
		h.Write([]byte(pg.Dump()))
	}
	dump := func(art *page.Art, own []page.Item) {
		h.Write([]byte((&page.Page{W: art.W, H: art.H, Items: slices.Concat(art.Items, own)}).Dump()))
	}
	if j.Kind.Serial && len(j.set.Arts) > 0 {
		dump(j.set.art(1), j.set.own(int(2-j.From))) // as number 1
		return fmt.Sprintf("%x", h.Sum(nil))
	}
	for n := 1; n <= j.pieces() && len(j.set.Arts) > 0; n += j.copies() {
		dump(j.set.art(n), j.set.own(n))
	}
	return fmt.Sprintf("%x", h.Sum(nil))
}

// Digest is the same for the same paper, so that what is printed can be held
// against what somebody has looked at.
func (b *Batch) Digest() string {
	h := sha256.New()
	for _, j := range b.jobs {
		fmt.Fprintln(h, j.runDigest())
	}
	return fmt.Sprintf("%x", h.Sum(nil))
}

// Once makes a batch print once for the asking that bears this word: the print
// book keeps it with what came of it, and refuses it the second time
// ([register.Twice]). Paper that bears no number is kept there too.
func (p *Press) Once(ctx context.Context, b *Batch, word string) error {
	if err := p.ownFolder(); err != nil {
		return err
	}
	book, err := p.register(ctx, p.begins())
	switch {
	case register.RuleOf(err) == register.Missing:
		return usage.Errorf("begin one, once: chablon wall "+p.Name+" --begin", "%s keeps no print book, so nothing is printed from here", p.Title())
	case err != nil:
		return err
	}
	if err := book.Close(); err != nil {
		return err
	}
	for i := range b.Claims {
		b.Claims[i].Once = word
	}
	for _, j := range b.jobs {
		if !j.numbered() && !j.Draft {
			b.Claims = append(b.Claims, j.unnumbered(word, b.fileOf(j)))
		}
	}
	if len(b.Claims) == 0 {
		return errors.New("nothing of this can be kept in the print book")
	}
	return nil
}

// fileOf is the name of the file that a paper is in, as the print book has it.
func (b *Batch) fileOf(j *Job) string {
	for _, q := range b.Papers {
		if slices.Contains(q.of, j) {
			return q.run + ".pdf"
		}
	}
	return ""
}

// unnumbered is what the print book keeps of paper without a number.
func (j *Job) unnumbered(word, file string) Claim {
	q := register.Print{Kind: j.Kind.Name, ID: j.ID, Digest: j.runDigest(), Count: int64(max(1, j.Count)), At: j.Clock, Paper: j.Stock.ID,
		Langs: strings.Join(langCodes(j.Langs), ","), File: file, Once: word}
	if q.ID == "" {
		q.ID = j.Today.String()
	}
	if j.Kind.Bears != NoBatch {
		q.Batch, q.Made = j.Batch, j.Made.String()
	}
	if j.Pack != nil {
		q.Pack, q.Market = j.Pack.ID.V, code(j.Market)
	}
	return Claim{Print: q, at: j.at(), found: j.Found}
}
