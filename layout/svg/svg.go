// Package svg answers: how is a page shown on a screen?
//
// It writes one page as SVG 1.1 (W3C). Everything lies on whole micrometres,
// and letters are outlines, so that no browser picks a face and each shows the
// same picture: that of the page which was judged. Bars come from the same
// finder as in layout/pdf. Nothing in it runs or asks for anything from
// elsewhere.
package svg

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"image"
	"image/png"
	"io"
	"strconv"

	"chablon/labels/unit"
	"chablon/layout/marks"
	"chablon/layout/outline"
	"chablon/layout/page"
)

// Write writes a page; title is what a reader of screens says it is. Nothing is
// written where a mark cannot be drawn.
func Write(w io.Writer, p *page.Page, title string) error {
	if err := marks.Sheet(p); err != nil {
		return err
	}
	d := &drawing{letters: map[letter]string{}}
	if err := marks.Draw(d, p.All()); err != nil {
		return err
	}
	var all bytes.Buffer
	head(&all, p, title)
	if d.shapes.Len() > 0 {
		fmt.Fprintf(&all, "<defs>\n%s</defs>\n", &d.shapes)
	}
	d.out.WriteTo(&all) // a Buffer takes everything
	all.WriteString("</svg>\n")
	_, err := all.WriteTo(w)
	return err
}

// A drawing is a page while it is drawn. Each letter is kept once for each face
// and size, and used wherever it stands.
type drawing struct {
	out     bytes.Buffer
	shapes  bytes.Buffer
	letters map[letter]string // names of the shapes
}

// letter is a shape that is drawn once.
type letter struct {
	glyph *outline.Glyph
	size  unit.Length
}

// head opens the drawing with its size and white paper.
func head(out *bytes.Buffer, p *page.Page, title string) {
	w, h := um(p.W), um(p.H)
	fmt.Fprintf(out, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %d %d" role="img">`+"\n<title>", mm(w), mm(h), w, h)
	xml.EscapeText(out, []byte(title))
	fmt.Fprintf(out, "</title>\n<rect width=\"%d\" height=\"%d\" fill=\"#fff\"/>\n", w, h)
}

// um gives whole micrometres, rounded.
func um(l unit.Length) int { return int(unit.MulDiv(int64(l), 1, int64(unit.UM))) }

func mm(um int) string { return strconv.FormatFloat(float64(um)/1000, 'f', -1, 64) }

// paint is a grey as the attributes of SVG say it.
func paint(gray uint8) string { return fmt.Sprintf("#%02x%02x%02x", gray, gray, gray) }

// Run implements [marks.Pen].
func (d *drawing) Run(x unit.Length, r *page.Run) error {
	left := um(x)
	fmt.Fprintf(&d.out, `<g fill="%s" transform="translate(%d %d)">`, paint(r.Gray), left, um(r.Baseline))
	err := outline.Run(x, r, func(l outline.Letter) {
		if len(l.Segs) > 0 {
			fmt.Fprintf(&d.out, `<use href="#%s" x="%d"/>`, d.shape(l), um(l.X)-left)
		}
	})
	d.out.WriteString("</g>\n")
	return err
}

// shape names the shape of a letter, and draws it the first time.
func (d *drawing) shape(l outline.Letter) string {
	key := letter{l.Glyph, l.Size}
	name, ok := d.letters[key]
	if ok {
		return name
	}
	name = "l" + strconv.FormatInt(int64(len(d.letters)), 36)
	d.letters[key] = name
	l.X, l.Y = 0, 0
	fmt.Fprintf(&d.shapes, `<path id="%s" d="`, name)
	now := image.Point{}
	for i, s := range l.Segs {
		if s.Op == 'M' && i > 0 {
			d.shapes.WriteByte('z')
		}
		now = step(&d.shapes, s, l, now)
	}
	d.shapes.WriteString("z\"/>\n")
	return name
}

// step writes one step of a letter, counted from where its path has come to, and
// gives where it leads.
func step(out *bytes.Buffer, s outline.Seg, l outline.Letter, from image.Point) (to image.Point) {
	if s.Op == 'M' {
		from = image.Point{}
		out.WriteByte('M')
	} else {
		out.WriteByte(s.Op + 'a' - 'A')
	}
	for i, p := range s.Points() {
		at := l.At(p)
		to = image.Pt(um(at.X), um(at.Y))
		num(out, i > 0, to.X-from.X)
		num(out, true, to.Y-from.Y)
	}
	return to
}

// num writes a number, behind a blank where one is needed to tell it from the
// number before.
func num(out *bytes.Buffer, apart bool, n int) {
	if apart && n >= 0 {
		out.WriteByte(' ')
	}
	out.WriteString(strconv.Itoa(n))
}

// Symbol implements [marks.Pen].
func (d *drawing) Symbol(s *page.Symbol) error {
	d.out.WriteString(`<path d="`)
	marks.Bars(s, func(left, top, right, bottom unit.Length) {
		fmt.Fprintf(&d.out, "M%d %dH%dV%dH%dz", um(left), um(top), um(right), um(bottom), um(left))
	})
	d.out.WriteString("\"/>\n")
	return nil
}

// Fill implements [marks.Pen].
func (d *drawing) Fill(b page.Rect, gray uint8) error {
	d.box(b, fmt.Sprintf(`fill="%s"`, paint(gray)))
	return nil
}

// Outline implements [marks.Pen].
func (d *drawing) Outline(b page.Rect, s *page.Shape) error {
	d.box(b, `fill="none"`+stroke(s))
	return nil
}

// box writes a box, each edge rounded by itself, so that boxes which touch on
// the page touch in the drawing.
func (d *drawing) box(b page.Rect, how string) {
	x, y := um(b.X), um(b.Y)
	fmt.Fprintf(&d.out, `<rect x="%d" y="%d" width="%d" height="%d" %s/>`+"\n", x, y, um(b.Right())-x, um(b.Bottom())-y, how)
}

func stroke(s *page.Shape) string {
	return fmt.Sprintf(` stroke="%s" stroke-width="%d"`, paint(s.Gray), um(s.Stroke))
}

// Hatch implements [marks.Pen].
func (d *drawing) Hatch(b page.Rect, s *page.Shape) error {
	d.out.WriteString(`<path d="`)
	marks.Hatch(b, s.Stroke, func(from, to page.Pt) {
		fmt.Fprintf(&d.out, "M%d %dL%d %d", um(from.X), um(from.Y), um(to.X), um(to.Y))
	})
	fmt.Fprintf(&d.out, "\" fill=\"none\"%s/>\n", stroke(s))
	return nil
}

// Path implements [marks.Pen].
func (d *drawing) Path(s *page.Shape) error {
	d.out.WriteString(`<path d="`)
	for _, g := range s.Segs {
		d.out.WriteByte(byte(g.Op))
		used, _ := marks.Points(g)
		for i, p := range used {
			num(&d.out, i > 0, um(p.X))
			num(&d.out, true, um(p.Y))
		}
	}
	fill, line := "none", ""
	if s.Fill {
		fill = paint(s.Gray)
	}
	if marks.Stroked(s) {
		line = stroke(s) + ` stroke-linejoin="round"`
	}
	fmt.Fprintf(&d.out, "\" fill=\"%s\"%s/>\n", fill, line)
	return nil
}

// Picture implements [marks.Pen]: the picture goes along as PNG.
func (d *drawing) Picture(b page.Rect, pic *page.Picture) error {
	d.out.WriteString(`<image href="data:image/png;base64,`)
	code := base64.NewEncoder(base64.StdEncoding, &d.out)
	err := png.Encode(code, &image.Gray{Pix: pic.Gray, Stride: pic.W, Rect: image.Rect(0, 0, pic.W, pic.H)})
	if err == nil {
		err = code.Close()
	}
	x, y := um(b.X), um(b.Y)
	fmt.Fprintf(&d.out, "\" x=\"%d\" y=\"%d\" width=\"%d\" height=\"%d\" preserveAspectRatio=\"none\"/>\n", x, y, um(b.Right())-x, um(b.Bottom())-y)
	return err
}
