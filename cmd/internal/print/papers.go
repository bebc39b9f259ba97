package print

import (
	"fmt"
	"io"
	"iter"
	"slices"
	"strings"
	"unicode"

	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/stock"
)

// Paper is one finished file that has not been written yet. Nothing but
// [Press.Save] writes it, which claims its numbers first.
type Paper struct {
	Name  string // file name without a folder
	About string // one line for the user
	Pages int
	Map   []string // the first sheet, place by place, where a part of it is used; see stock.Imposition
	Left  int      // first place of the last sheet that is free afterwards; 0 for none
	of    []*Job
	*sheets
	run   string // what all files of a run that may be cut into parts are called
	stays bool   // bears numbers that are given once
	write func(w io.Writer, tick func()) error
}

// papers makes the files of jobs of one kind that nothing is wrong with.
func papers(jobs []*Job) (out []Paper) {
	if len(jobs) == 0 {
		return nil
	}
	if jobs[0].Kind.Together {
		return filed(jobs)
	}
	for _, j := range jobs {
		out = append(out, filed([]*Job{j})...)
	}
	return out
}

// filed makes the file of some jobs, or several files where it has more pages
// than one document may have, or where each page is a picture.
func filed(jobs []*Job) (out []Paper) {
	j := jobs[0]
	doc := pdf.Doc{Title: title(jobs), Lang: j.Langs[0].Code(), Made: j.Press.Made}
	pages, all := len(j.set.Pages), func(from, n int) iter.Seq[*page.Page] { return j.moved(from, n) }
	var rows []string
	left := 0
	var deal *stock.Imposition
	if len(j.set.Arts) > 0 {
		d := dealt(jobs)
		deal, pages, all = &d, d.Sheets(), d.Pages
		rows, left = d.Map(), d.Left()
		for _, j := range jobs {
			doc.Arts = append(doc.Arts, j.set.Arts...)
		}
	}
	name, about := fileName(jobs), tellOf(jobs, pages)
	defer func() {
		if len(out) > 0 {
			out[0].Map, out[len(out)-1].Left = rows, left
		}
	}()
	whole := &sheets{jobs, doc, pages, all, deal}
	add := func(file, about string, n int, write func(w io.Writer, tick func()) error) {
		out = append(out, Paper{Name: file + j.As.ending(), About: about, Pages: n, of: jobs, sheets: whole, run: name, stays: j.keepsNumbers(), write: write})
	}
	if j.As.pictures() {
		for i := range pages {
			file, about := name, about
			if pages > 1 {
				file, about = fmt.Sprintf("%s-page-%02d", name, i+1), fmt.Sprintf("page %d, ", i+1)+about
			}
			add(file, about, 1, func(w io.Writer, tick func()) (err error) {
				for pg := range ticking(all(i, 1), tick) {
					err = j.picture(w, pg, doc.Title)
				}
				return err
			})
		}
		return out
	}
	for from := 0; from < pages; from += pdf.MaxPages {
		n := min(pdf.MaxPages, pages-from)
		file, about := name, about
		if pages > pdf.MaxPages {
			about = fmt.Sprintf("sheets %d to %d, ", from+1, from+n) + about
			file = fmt.Sprintf("%s-part-%02d", name, from/pdf.MaxPages+1)
		}
		add(file, about, n, func(w io.Writer, tick func()) error {
			part := doc
			part.Pages = ticking(all(from, n), tick)
			return pdf.Write(w, part)
		})
	}
	return out
}

// moved are some of the pages that are not dealt out, moved as the printer asks;
// the page that a printer is measured by stays where it is.
func (j *Job) moved(from, n int) iter.Seq[*page.Page] {
	return func(yield func(*page.Page) bool) {
		for _, pg := range j.set.Pages[from : from+n] {
			if !j.Kind.Unmoved {
				pg = bed(j.Printer).Moved(pg)
			}
			if !yield(pg) {
				return
			}
		}
	}
}

// ticking calls tick for each page.
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

// title is what a reader of the document shows at its top.
func title(jobs []*Job) string {
	j := jobs[0]
	words := []string{capital(j.Kind.One)}
	for _, j := range jobs {
		words = append(words, j.ID)
	}
	if j.Kind.Bears == ItsBatch {
		words = append(words, j.Batch)
	}
	if !j.Kind.ofID() {
		words = append(words, j.Today.String())
	}
	return strings.Join(words, " ")
}

// capital is s with a capital first letter.
func capital(s string) string {
	for i, r := range s {
		return string(unicode.ToUpper(r)) + s[i+len(string(r)):]
	}
	return s
}

// tellOf says in one line what a file holds.
func tellOf(jobs []*Job, pages int) string {
	j := jobs[0]
	k := j.Kind
	var said []string
	if slices.ContainsFunc(jobs, func(j *Job) bool { return j.Draft }) {
		said = append(said, "DRAFT")
	} else if slices.ContainsFunc(jobs, func(j *Job) bool { return j.Demo }) {
		said = append(said, "DEMO")
	}
	if len(j.set.Arts) > 0 {
		n := 0
		for _, j := range jobs {
			n += j.pieces()
		}
		said = append(said, counted(n, k.One, k.Many)+" on "+j.Stock.ID)
	} else {
		said = append(said, k.One, counted(pages, "page", "pages")+" on "+j.Stock.ID)
	}
	if k.Bears == ItsBatch {
		said = append(said, "batch "+j.Batch)
	}
	if k.Bears == ItsBatch && len(j.Told) > 0 && j.Told[0].Date.Text != "" {
		said = append(said, j.Told[0].Date.Text)
	}
	if n := len(j.SSCCs); n == 1 {
		said = append(said, "SSCC "+j.SSCCs[0])
	} else if n > 1 {
		said = append(said, "SSCC "+j.SSCCs[0]+" to "+j.SSCCs[n-1])
	}
	if lies := bed(j.Printer).Says(); lies != "" && !k.Unmoved {
		said = append(said, lies)
	}
	if k.Says != nil {
		if also := k.Says(j); also != "" {
			said = append(said, also)
		}
	}
	return strings.Join(said, ", ")
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
