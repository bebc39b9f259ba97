package svg_test

import (
	"bytes"
	"encoding/xml"
	"image"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/pdf/pdftest"
	. "chablon/layout/svg"
)

func Example() {
	Write(os.Stdout, &page.Page{W: 40 * unit.MM, H: 30 * unit.MM, Items: []page.Item{
		{Box: page.Rect{X: 2 * unit.MM, Y: 2 * unit.MM, W: 12 * unit.MM, H: unit.MM / 2}, Role: role.Furniture, Shape: &page.Shape{Gray: 0x80}},
		{Box: page.Rect{X: 2 * unit.MM, Y: 5 * unit.MM, W: 3 * unit.MM, H: 3 * unit.MM}, Role: role.Name,
			Run: &page.Run{Text: "l l", Face: "bold", Size: 3 * unit.MM, Baseline: 8 * unit.MM}}}}, "Rye & seed")
	// Output:
	// <svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="30mm" viewBox="0 0 40000 30000" role="img">
	// <title>Rye &amp; seed</title>
	// <rect width="40000" height="30000" fill="#fff"/>
	// <defs>
	// <path id="l0" d="M586-2250l0 2250l-416 0l0-2250l416 0z"/>
	// </defs>
	// <rect x="2000" y="2000" width="12000" height="500" fill="#808080"/>
	// <g fill="#000000" transform="translate(2000 8000)"><use href="#l0" x="0"/><use href="#l0" x="1449"/></g>
	// </svg>
}

func written(t *testing.T, p *page.Page) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, p, "every mark"); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestNothingFromElsewhere: the drawing is sound XML, every number in it is of
// whole micrometres, it has no text that a browser would pick a face for, and
// nothing in it runs or is fetched.
func TestNothingFromElsewhere(t *testing.T) {
	s := written(t, layouttest.EveryMark(t, layouttest.Desk()))
	for d := xml.NewDecoder(strings.NewReader(s)); ; {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		el, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		switch el.Name.Local {
		case "svg", "title", "defs", "g", "use", "path", "rect", "image":
		default:
			t.Errorf("there is a <%s>", el.Name.Local)
		}
		for _, a := range el.Attr {
			local := strings.HasPrefix(a.Value, "#") || strings.HasPrefix(a.Value, "data:image/png;base64,")
			if a.Name.Local == "href" && !local || strings.HasPrefix(a.Name.Local, "on") {
				t.Errorf("<%s %s=%.40q>", el.Name.Local, a.Name.Local, a.Value)
			}
			if a.Name.Local != "xmlns" && a.Name.Local != "href" && regexp.MustCompile(`\d\.\d`).MatchString(a.Value) {
				t.Errorf("<%s %s=%.40q> is finer than a micrometre", el.Name.Local, a.Name.Local, a.Value)
			}
		}
	}
}

// TestSameAsDocument: the drawing as librsvg shows it and the document as
// PDFium shows it are one picture, but for the edges of letters, and both
// carry the same bars.
func TestSameAsDocument(t *testing.T) {
	for _, dots := range []unit.Dots{layouttest.Desk(), layouttest.Coarse()} {
		p := layouttest.EveryMark(t, dots)
		const dpi = 508 // 20 dots a millimetre
		got, want := shown(t, written(t, p), dpi), pdftest.Raster(t, layouttest.PDF(t, p), 0, dpi)
		if off := pdftest.Off(got, want); off > 0.01 {
			t.Errorf("%v: %.2f %% of the pixels differ", dots, 100*off)
		}
		read := pdftest.Decode(t, got)
		if len(read) != 3 {
			t.Errorf("%v: read %v", dots, read)
		}
	}
}

// shown is a drawing as librsvg shows it.
func shown(t *testing.T, svg string, dpi int) *image.Gray {
	t.Helper()
	if _, err := exec.LookPath("rsvg-convert"); err != nil {
		t.Skip("NOT COMPARED: rsvg-convert (librsvg2-bin) is not installed")
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "a.svg"), filepath.Join(dir, "a.png")
	if err := os.WriteFile(in, []byte(svg), 0o666); err != nil {
		t.Fatal(err)
	}
	return pdftest.ShownBy(t, out, "rsvg-convert", "--width", "2000", "--height", "1200", in, "-o", out)
}

// TestRefusals: what no document shows is not drawn either, and nothing is
// written of it.
func TestRefusals(t *testing.T) {
	p := layouttest.EveryMark(t, layouttest.Desk())
	run := *p.Items[0].Run
	run.Text = "Rye 你"
	p.Items[0].Run = &run
	var b bytes.Buffer
	err := Write(&b, p, "")
	if err == nil || !strings.Contains(err.Error(), "'你' (U+4F60)") || b.Len() > 0 {
		t.Errorf("%v, and %d bytes", err, b.Len())
	}
	for name, p := range map[string]*page.Page{"none": nil, "flat": {W: unit.MM}, "face": {W: unit.MM, H: unit.MM, Items: []page.Item{{Run: &page.Run{Text: "a", Face: "italic", Size: unit.MM}}}}} {
		if Write(io.Discard, p, "") == nil {
			t.Errorf("%s was drawn", name)
		}
	}
}
