package pdftest

import (
	"bytes"
	"io"
	"iter"
	"sync"
	"testing"

	"chablon/fonts"
	"chablon/labels/unit"
	"chablon/layout/page"

	"github.com/signintech/gopdf"
)

var shelf = sync.OnceValue(func() *gopdf.FontContainer {
	c := new(gopdf.FontContainer)
	if c.AddTTFFontData("regular", fonts.Regular()) != nil || c.AddTTFFontData("bold", fonts.Bold()) != nil {
		panic("the faces cannot be read")
	}
	return c
})

func bare(w, h unit.Length, packed bool) *gopdf.GoPdf {
	g := new(gopdf.GoPdf)
	g.Start(gopdf.Config{PageSize: gopdf.Rect{W: w.Pt(), H: h.Pt()}})
	if !packed {
		g.SetNoCompression()
	}
	g.AddTTFFontFromFontContainer("regular", shelf())
	g.AddTTFFontFromFontContainer("bold", shelf())
	return g
}

// Floor makes the marks of a run of labels that share one artwork with bare calls of the library, as fast
// as these allow: typefaces read once, for a run the artwork a template and
// the page streams not packed, no checks, nothing of what the update adds. It
// is what benchmarks are held against. n is the number of pages.
func Floor(b testing.TB, a *page.Art, pages iter.Seq[*page.Page], n int) {
	g := bare(a.W, a.H, n == 1)
	place := func() { drawAll(g, a.Items) } // for one label a template costs more than it saves
	if n > 1 {
		id := template(g, a)
		place = func() { g.UseImportedTemplate(id, 0, 0, a.W.Pt(), a.H.Pt()) }
	}
	for p := range pages {
		g.AddPage()
		place()
		drawAll(g, p.Items)
	}
	if _, err := g.WriteTo(io.Discard); err != nil {
		b.Fatal(err)
	}
}

// template draws a into a document of its own and imports its page into g.
func template(g *gopdf.GoPdf, a *page.Art) int {
	one := bare(a.W, a.H, true)
	one.AddPage()
	drawAll(one, a.Items)
	var buf bytes.Buffer
	one.WriteTo(&buf)
	src := io.ReadSeeker(bytes.NewReader(buf.Bytes()))
	return g.ImportPageStream(&src, 1, "/MediaBox")
}

func drawAll(g *gopdf.GoPdf, items []page.Item) {
	for i := range items {
		mark(g, &items[i])
	}
}

func mark(g *gopdf.GoPdf, it *page.Item) {
	switch {
	case it.Run != nil:
		g.SetFont(it.Run.Face, "", it.Run.Size.Pt())
		g.SetXY(it.Box.X.Pt(), it.Run.Baseline.Pt())
		g.Text(it.Run.Text)
	case it.Shape != nil && it.Shape.Kind == page.Filled:
		g.RectFromUpperLeftWithStyle(it.Box.X.Pt(), it.Box.Y.Pt(), it.Box.W.Pt(), it.Box.H.Pt(), "F")
	case it.Shape != nil:
		g.SetLineWidth(it.Shape.Stroke.Pt())
		g.RectFromUpperLeftWithStyle(it.Box.X.Pt(), it.Box.Y.Pt(), it.Box.W.Pt(), it.Box.H.Pt(), "D")
	case it.Symbol != nil:
		drawBars(g, it.Symbol)
	}
}

func drawBars(g *gopdf.GoPdf, s *page.Symbol) {
	for i := 0; i < s.Cols; i++ {
		from := i
		for i < s.Cols && s.Dark[i] == 1 {
			i++
		}
		if i > from {
			x := s.Bars.X.Pt() + float64(from)*s.Module.Pt()
			g.RectFromUpperLeftWithStyle(x, s.Bars.Y.Pt(), float64(i-from)*s.Module.Pt(), s.Bars.H.Pt(), "F")
		}
	}
}
