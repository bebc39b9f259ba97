package pdf

import (
	"errors"
	"fmt"

	"chablon/labels/unit"
	"chablon/layout/marks"
	"chablon/layout/page"

	"github.com/signintech/gopdf"
)

// Longest edge of a page in thousandths of a point, ISO 32000-1 Annex C.
const longest = 14_400_000

// A book is one document while it is drawn.
type book struct {
	doc   Doc
	gp    gopdf.GoPdf
	inks  *inks
	arts  map[*page.Art]int // place in forms
	forms []form
	shown album
	pages int
	w, h  int64 // size of the first page, which the others inherit
}

// A form is an artwork as drawing operators.
type form struct {
	w, h int64 // thousandths of a point
	ops  []byte
}

func (b *book) drawArts() error {
	for i, a := range b.doc.Arts {
		if a == nil {
			return fmt.Errorf("artwork %d is missing", i+1)
		}
		if _, twice := b.arts[a]; twice {
			continue
		}
		if a.W <= 0 || a.H <= 0 {
			return fmt.Errorf("artwork %d has no size", i+1)
		}
		p := newPen(b.inks, &b.shown, milli(a.H))
		if err := marks.Draw(p, a.Items); err != nil {
			return fmt.Errorf("artwork %d: %w", i+1, err)
		}
		b.arts[a] = len(b.forms)
		b.forms = append(b.forms, form{milli(a.W), milli(a.H), p.out})
	}
	return nil
}

func (b *book) drawPages() error {
	for p := range b.doc.Pages {
		if b.pages == MaxPages {
			return fmt.Errorf("more than %d pages in one document: cut the run into several", MaxPages)
		}
		b.pages++
		if err := b.drawPage(p); err != nil {
			return fmt.Errorf("page %d: %w", b.pages, err)
		}
	}
	if b.pages == 0 {
		return errors.New("a document without pages cannot be drawn")
	}
	return nil
}

func (b *book) drawPage(p *page.Page) error {
	if err := marks.Sheet(p); err != nil {
		return err
	}
	w, h := sheet(p)
	pen := newPen(b.inks, &b.shown, h)
	for _, a := range p.Placed {
		if err := b.place(pen, a); err != nil {
			return err
		}
	}
	if err := marks.Draw(pen, p.Items); err != nil {
		return err
	}
	if len(pen.out) == 0 {
		return errors.New("there is nothing on it")
	}
	return b.addPage(w, h, string(pen.out))
}

// sheet gives the size of a page as the file states it, in whole hundredths
// of a point, written as thousandths.
func sheet(p *page.Page) (w, h int64) {
	return unit.MulDiv(int64(p.W), 72, 254_000) * 10, unit.MulDiv(int64(p.H), 72, 254_000) * 10
}

func (b *book) place(pen *pen, a page.Placed) error {
	n, ok := b.arts[a.Art]
	if !ok {
		return errors.New("it places an artwork that the document does not list")
	}
	if len(b.forms[n].ops) == 0 {
		return nil
	}
	pen.do(n, milli(a.X), pen.h-milli(a.Y)-b.forms[n].h)
	return pen.took()
}

// addPage hands the operators of one page to gopdf. gopdf has no call for
// operators, but it writes the paint style of a rectangle as it stands; the
// rectangle itself is empty and "n" paints nothing of it.
func (b *book) addPage(w, h int64, ops string) (err error) {
	defer caught(&err)
	size := gopdf.Rect{W: points(w), H: points(h)}
	if b.pages == 1 {
		b.w, b.h = w, h
		b.gp.Start(gopdf.Config{PageSize: size})
		if len(b.forms) > 0 {
			b.gp.SetNoCompression() // the bulk is in the forms, which are packed once
		}
	}
	if w == b.w && h == b.h {
		b.gp.AddPage()
	} else {
		b.gp.AddPageWithOption(gopdf.PageOption{PageSize: &size})
	}
	return b.gp.RectFromUpperLeftWithOpts(gopdf.DrawableRectOptions{PaintStyle: gopdf.PaintStyle("n\n" + ops)})
}

// caught turns a panic of the library into an error.
func caught(err *error) {
	if v := recover(); v != nil {
		*err = fmt.Errorf("the drawing library gave up: %v", v)
	}
}

// milli gives a length in thousandths of a point, rounded.
func milli(l unit.Length) int64 { return unit.MulDiv(int64(l), 72, 25_400) }

func points(milli int64) float64 { return float64(milli) / 1000 }
