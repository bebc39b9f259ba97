// Package pdftest answers: what does somebody else read in our file?
//
// It is for tests only. Another reader (PDFium) opens the file, gives text
// with places and renders pages; another decoder (ZXing) reads the bars.
package pdftest

import (
	"image"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/klippa-app/go-pdfium"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/webassembly"
)

// Read is one page as the reader saw it. Lengths are millimetres from the top
// left corner.
type Read struct {
	W, H  float64
	Text  string // in the order of the file, a line feed after each line
	Lines []Line
}

// Line is a stretch of characters of one font and size on one baseline; Size
// is in points, Font without the letters that mark a subset.
type Line struct {
	Text  string
	Font  string
	Size  float64
	Chars []Char
}

// X is where the first character begins.
func (l Line) X() float64 { return l.Chars[0].X }

// Baseline is how far the baseline lies from the top of the page.
func (l Line) Baseline() float64 { return l.Chars[0].Baseline }

// Right is where the advance of the last character ends.
func (l Line) Right() float64 { return l.Chars[len(l.Chars)-1].Next }

// Char is one character: X and Next are where its advance begins and ends,
// the box is that of its ink, empty for a blank.
type Char struct {
	R                        rune
	X, Next, Baseline        float64
	Left, Top, Right, Bottom float64
}

// Line finds the first line with the given text.
func (r Read) Line(text string) (Line, bool) {
	i := slices.IndexFunc(r.Lines, func(l Line) bool { return strings.TrimSpace(l.Text) == text })
	if i < 0 {
		return Line{}, false
	}
	return r.Lines[i], true
}

// Pages reads every page of a file.
func Pages(t testing.TB, pdf []byte) []Read {
	t.Helper()
	d, shut := open(t, pdf)
	defer shut()
	out := make([]Read, d.count())
	for i := range out {
		out[i] = d.page(i)
	}
	return out
}

// Count is the number of pages of a file.
func Count(t testing.TB, pdf []byte) int {
	t.Helper()
	d, shut := open(t, pdf)
	defer shut()
	return d.count()
}

// Raster renders one page, counted from 0, in shades of gray.
func Raster(t testing.TB, pdf []byte, index, dpi int) *image.Gray {
	t.Helper()
	d, shut := open(t, pdf)
	defer shut()
	r, err := d.RenderPageInDPI(&requests.RenderPageInDPI{
		Page: d.at(index), DPI: dpi, ImageFormat: requests.RenderImageFormatGrayscale})
	if err != nil {
		t.Fatalf("rendering page %d: %v", index+1, err)
	}
	defer r.Cleanup()
	return copied(t, index, r.Result.RenderedImage)
}

// Dots renders one page, counted from 0, in shades of gray, as so many dots.
func Dots(t testing.TB, pdf []byte, index, w, h int) *image.Gray {
	t.Helper()
	d, shut := open(t, pdf)
	defer shut()
	r, err := d.RenderPageInPixels(&requests.RenderPageInPixels{
		Page: d.at(index), Width: w, Height: h, ImageFormat: requests.RenderImageFormatGrayscale})
	if err != nil {
		t.Fatalf("rendering page %d: %v", index+1, err)
	}
	defer r.Cleanup()
	return copied(t, index, r.Result.RenderedImage)
}

// copied is a picture that stays when the reader takes back its own.
func copied(t testing.TB, index int, seen image.Image) *image.Gray {
	t.Helper()
	img, ok := seen.(*image.Gray)
	if !ok {
		t.Fatalf("rendering page %d gave a %T", index+1, seen)
	}
	return &image.Gray{Pix: slices.Clone(img.Pix), Stride: img.Stride, Rect: img.Rect}
}

// Info gives an entry of the information dictionary, such as "Title".
func Info(t testing.TB, pdf []byte, key string) string {
	t.Helper()
	d, shut := open(t, pdf)
	defer shut()
	r, err := d.FPDF_GetMetaText(&requests.FPDF_GetMetaText{Document: d.doc, Tag: key})
	if err != nil {
		t.Fatalf("reading %s: %v", key, err)
	}
	return r.Value
}

// Scaled reports whether a viewer would scale the pages when printing.
func Scaled(t testing.TB, pdf []byte) bool {
	t.Helper()
	d, shut := open(t, pdf)
	defer shut()
	r, err := d.FPDF_VIEWERREF_GetPrintScaling(&requests.FPDF_VIEWERREF_GetPrintScaling{Document: d.doc})
	if err != nil {
		t.Fatalf("reading how pages are scaled: %v", err)
	}
	return r.PreferPrintScaling
}

// The reader takes a second to start and can do one thing at a time, so a test
// binary has one.
var (
	turn   sync.Mutex
	reader = sync.OnceValues(func() (pdfium.Pdfium, error) {
		pool, err := webassembly.Init(webassembly.Config{MinIdle: 1, MaxIdle: 1, MaxTotal: 1})
		if err != nil {
			return nil, err
		}
		return pool.GetInstance(time.Minute)
	})
)

type document struct {
	pdfium.Pdfium
	t   testing.TB
	doc references.FPDF_DOCUMENT
}

func open(t testing.TB, pdf []byte) (document, func()) {
	t.Helper()
	turn.Lock()
	r, err := reader()
	if err != nil {
		turn.Unlock()
		t.Fatalf("starting the reader: %v", err)
	}
	o, err := r.OpenDocument(&requests.OpenDocument{File: &pdf})
	if err != nil {
		turn.Unlock()
		t.Fatalf("the reader refuses the file: %v", err)
	}
	return document{r, t, o.Document}, func() {
		r.FPDF_CloseDocument(&requests.FPDF_CloseDocument{Document: o.Document})
		turn.Unlock()
	}
}

func (d document) at(i int) requests.Page {
	return requests.Page{ByIndex: &requests.PageByIndex{Document: d.doc, Index: i}}
}

// must stops the test when the reader failed.
func must[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatalf("reading the file: %v", err)
		}
		return v
	}
}
