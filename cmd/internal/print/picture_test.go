package print

import (
	"bytes"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/pdf/pdftest"
	"chablon/layout/raster"
	"chablon/layout/svg"
)

// TestPicturesAreThePaper: the first page of each kind of paper of the demo's day,
// as the document, as the picture for a screen and as the printer's dots, is one
// picture in three programs: PDFium, librsvg and ours. Less than one of a hundred
// pixels differs, at the edges of letters, and no module of a bar code does.
func TestPicturesAreThePaper(t *testing.T) {
	if testing.Short() {
		t.Skip("three pictures of each kind of paper take a while")
	}
	if _, err := exec.LookPath("rsvg-convert"); err != nil {
		t.Skip("NOT COMPARED: rsvg-convert (librsvg2-bin) is not installed")
	}
	k, _ := kept(t)
	b, err := pressOf(t, k).Day(DayOptions{})
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, q := range b.Papers {
		j := q.of[0]
		key := j.Kind.Name + " on " + j.Stock.ID
		if seen[key] || !j.Printer.Resolution.Set() {
			continue
		}
		seen[key] = true
		for pg := range q.some(0, 1) {
			samePicture(t, key, j, q.doc, pg)
		}
	}
	if len(seen) < 12 {
		t.Errorf("only %d kinds of paper were looked at", len(seen))
	}
}

func samePicture(t *testing.T, what string, j *Job, doc pdf.Doc, pg *page.Page) {
	t.Helper()
	dir := t.TempDir()
	var file, picture bytes.Buffer
	doc.Pages = slices.Values([]*page.Page{pg})
	if err := pdf.Write(&file, doc); err != nil {
		t.Fatal(err)
	}
	if err := svg.Write(&picture, pg, what); err != nil {
		t.Fatal(err)
	}
	bed := dotsOf(j.Printer)
	bed.Greys = true // the pattern of greys is compared with nothing; see layout/raster
	img, err := raster.New(bed).Draw(pg)
	if err != nil {
		t.Errorf("%s: %v", what, err)
		return
	}
	name := filepath.Join(dir, "a")
	if err := os.WriteFile(name+".svg", picture.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	// PDFium moves letters to whole pixels, so it draws them finer, and is shrunk.
	w, h := img.Rect.Dx(), img.Rect.Dy()
	finer, less := 4, 1
	if bed.DPI() > 400 { // a letter on a screen needs no more than half of that
		finer, less = 1, 2
	}
	fine := pdftest.Dots(t, file.Bytes(), 0, w*finer, h*finer)
	dots := pdftest.Shrunk(fine, finer)
	screen := pdftest.ShownBy(t, name+"-svg.png", "rsvg-convert", "--unlimited", "--width", fmt.Sprint(w/less), "--height", fmt.Sprint(h/less), name+".svg", "-o", name+"-svg.png")
	a, s := 100*pdftest.Off(img, dots), 100*pdftest.Off(screen, pdftest.Shrunk(fine, finer*less))
	t.Logf("%-28s dots %.2f %%, screen %.2f %%", what, a, s)
	if a >= 1 || s >= 1 {
		t.Errorf("%s: %.2f %% of the printer's dots differ, %.2f %% of the screen's", what, a, s)
	}
	for _, it := range pg.All() {
		if it.Symbol != nil {
			sameModules(t, what, it.Symbol, img, dots)
		}
	}
}

// sameModules holds the middle of each module against what the symbol says.
func sameModules(t *testing.T, what string, s *page.Symbol, all ...*image.Gray) {
	t.Helper()
	middle := func(from, l unit.Length, i, n int) int {
		return int(s.Dots.Floor(from + l.Mul(int64(2*i+1), int64(2*n))))
	}
	for i, dark := range s.Dark {
		x, y := middle(s.Bars.X, s.Bars.W, i%s.Cols, s.Cols), middle(s.Bars.Y, s.Bars.H, i/s.Cols, s.Rows)
		for _, img := range all {
			if (img.GrayAt(x, y).Y < 128) != (dark == 1) {
				t.Errorf("%s: module %d of the %s is another one", what, i, s.Kind)
				return
			}
		}
	}
}
