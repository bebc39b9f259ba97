// Package pdf answers: how is a page drawn?
//
// It decides nothing: a page.Page says where every mark lies, and the same
// pages give the same bytes. Lengths leave whole nanometres only here, as
// thousandths of a point (0.35 µm); a page's size is rounded to 0.01 pt.
//
// gopdf keeps the pages, their streams, the cross reference table and the
// subsets of the faces. What it cannot say (language, no scaling in print,
// shared artwork, exact widths, a sound way from glyph back to text) follows
// as an incremental update, ISO 32000-1, 7.5.6. Section numbers in this
// package are those of ISO 32000-1:2008, from memory.
package pdf

import (
	"errors"
	"fmt"
	"io"
	"iter"
	"time"

	"chablon/layout/page"
)

// MaxPages is how many pages one document may have. The page list of the
// library grows with the square of it; a longer run is cut by the caller.
const MaxPages = 10_000

// Doc is what one file holds.
type Doc struct {
	Title string
	Lang  string               // BCP 47 tag of the document, "" when not known
	Made  time.Time            // creation date; the zero time is left out
	Arts  []*page.Art          // every artwork that pages place
	Pages iter.Seq[*page.Page] // at least one, at most MaxPages
}

// Write draws d into w. Nothing is written before all pages are drawn, so an
// error in a page leaves w untouched. Write may be called from several
// goroutines at once, with different writers.
func Write(w io.Writer, d Doc) error {
	if err := d.check(); err != nil {
		return err
	}
	faces, err := loadFaces()
	if err != nil {
		return fmt.Errorf("loading the typefaces: %w", err)
	}
	b := &book{doc: d, inks: newInks(faces), arts: map[*page.Art]int{}, shown: album{place: map[string]int{}}}
	if err := b.drawArts(); err != nil {
		return err
	}
	if err := b.drawPages(); err != nil {
		return err
	}
	return b.write(w)
}

func (d Doc) check() error {
	if d.Pages == nil {
		return errors.New("a document without pages cannot be drawn")
	}
	for _, r := range d.Lang {
		if r != '-' && (r < '0' || r > '9') && (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') {
			return fmt.Errorf("%q is not a language tag", d.Lang)
		}
	}
	if d.Made.Year() > 9999 || d.Made.Year() < 0 {
		return fmt.Errorf("a document cannot be made in the year %d", d.Made.Year())
	}
	return nil
}
