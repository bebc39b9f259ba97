package print

import (
	"io"
	"slices"

	"chablon/cmd/internal/usage"
	"chablon/labels/shop"
	"chablon/layout/page"
	"chablon/layout/raster"
	"chablon/layout/stock"
	"chablon/layout/svg"
)

// A Form is how finished pages are written: what the names of their files end
// with. The zero Form is [PDF].
type Form string

// The forms. Pictures are files of one page.
const (
	PDF Form = "pdf"
	SVG Form = "svg" // for a screen
	PNG Form = "png" // the printer's own dots
)

// Forms lists the forms, for the help and for completion.
func Forms() []string { return []string{string(PDF), string(SVG), string(PNG)} }

// FormOf finds a form by its word; PDF where there is none.
func FormOf(s string) (Form, error) {
	for _, f := range Forms() {
		if s == f || s == "" {
			return Form(f), nil
		}
	}
	return "", usage.Unknown("form", s, Forms())
}

// ending is what the names of files end with.
func (f Form) ending() string {
	if f == "" {
		f = PDF
	}
	return "." + string(f)
}

// pictures reports whether each page is a file of its own.
func (f Form) pictures() bool { return f.ending() != PDF.ending() }

// mostPictures is how many pages may become pictures at once.
const mostPictures = 1000

// picturable refuses a run that would fill a folder with pictures, or whose
// dots nobody knows.
func (j *Job) picturable() error {
	if !j.As.pictures() {
		return nil
	}
	n := len(j.set.Pages)
	if len(j.set.Arts) > 0 {
		n = dealt([]*Job{j}).Sheets()
	}
	if n > mostPictures {
		return usage.Errorf("print them as pdf", "%s would be %d pictures, and at most %d are made at once", j.what(), n, mostPictures)
	}
	if j.As == PNG && !j.Printer.Resolution.Set() {
		return usage.Errorf("name "+j.Stock.ID+" under papers: of a printer in shop.yaml", "no printer is loaded with %s, so nobody knows its dots", j.Stock.ID)
	}
	return nil
}

// picture writes one page.
func (j *Job) picture(w io.Writer, pg *page.Page, title string) error {
	if j.As == SVG {
		return svg.Write(w, pg, title)
	}
	b := dotsOf(j.Printer)
	img, err := raster.New(b).Draw(pg)
	if err != nil {
		return err
	}
	return b.PNG(w, img)
}

// dotsOf are the dots of a printer. One that is loaded with rolls burns each dot
// or leaves it, unless the shop says otherwise.
func dotsOf(p shop.Printer) raster.Bed {
	greys := p.Greys.V
	if !p.Greys.Set() {
		greys = !slices.ContainsFunc(p.Papers, func(id shop.Text) bool {
			s, ok := stock.Get(id.V)
			return ok && s.Kind.V == "roll"
		})
	}
	return raster.Bed{Dots: p.Resolution.V, Greys: greys}
}
