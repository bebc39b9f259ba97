package print

import (
	"fmt"
	"io"

	"chablon/cmd/internal/usage"
	"chablon/layout/page"
	"chablon/layout/svg"
)

// A Form is how finished pages are written: what the names of their files end
// with. The zero Form is [PDF].
type Form string

// The forms. Pictures are files of one page.
const (
	PDF Form = "pdf"
	SVG Form = "svg" // for a screen
)

// Forms lists the forms, for the help and for completion.
func Forms() []string { return []string{string(PDF), string(SVG)} }

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

// picturable refuses a run that would fill a folder with pictures.
func (j *Job) picturable() error {
	n := len(j.set.Pages)
	if len(j.set.Arts) > 0 {
		n = dealt([]*Job{j}).Sheets()
	}
	if j.As.pictures() && n > mostPictures {
		return usage.Errorf("print them as pdf", "%s would be %d pictures, and at most %d are made at once", j.what(), n, mostPictures)
	}
	return nil
}

// picture writes one page.
func (f Form) picture(w io.Writer, pg *page.Page, title string) error {
	if f == SVG {
		return svg.Write(w, pg, title)
	}
	return fmt.Errorf("no page can be written as %q", string(f))
}
