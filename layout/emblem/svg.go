package emblem

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/page"
)

const svgSpace = "http://www.w3.org/2000/svg"

// A drawing is an SVG that is being read. It may hold one svg with a viewBox,
// in it titles and paths; everything else is refused where it stands.
type drawing struct {
	*Emblem
	data  []byte
	found *diag.List

	from  page.Pt // where the viewBox begins
	depth int     // how many elements are open
	seen  bool    // the svg was there
	title bool    // a title is open
	bad   int     // what was refused so far
}

// maxBad is how many things of one file are told.
const maxBad = 20

// readSVG reads a drawing and reports whether it may be printed.
func (e *Emblem) readSVG(data []byte, found *diag.List) bool {
	if len(data) > MaxSVG {
		found.Errorf(e.Pos, "emblem", "simplify the drawing, or save it as PNG", "the emblem has more than %d kB", MaxSVG>>10)
		return false
	}
	d := &drawing{Emblem: e, data: data, found: found}
	d.tokens(xml.NewDecoder(bytes.NewReader(data)))
	switch {
	case d.bad > 0:
	case !d.seen:
		d.refuse(0, "save the emblem as SVG or PNG", "this is neither a PNG nor an SVG")
	case len(e.Steps) == 0:
		d.refuse(0, pathHint, "the drawing has no path")
	default:
		d.outside()
	}
	return d.bad == 0
}

// tokens reads what the file consists of, one by one.
func (d *drawing) tokens(dec *xml.Decoder) {
	for d.bad < maxBad {
		at := int(dec.InputOffset())
		t, err := dec.Token()
		if err != nil {
			if !errors.Is(err, io.EOF) {
				d.unreadable(int(dec.InputOffset()), err)
			}
			return
		}
		d.token(t, at, int(dec.InputOffset()))
	}
}

func (d *drawing) unreadable(at int, err error) {
	if !d.seen {
		return // what it is not is told in the end
	}
	msg := err.Error()
	var syntax *xml.SyntaxError
	if errors.As(err, &syntax) {
		msg = syntax.Msg
	}
	d.refuse(min(at, len(d.data)), "save it again as plain SVG, or as PNG", "the emblem cannot be read: %s", msg)
}

// token takes one part of the file, which stands from at to end.
func (d *drawing) token(t xml.Token, at, end int) {
	switch t := t.(type) {
	case xml.StartElement:
		d.depth++
		d.element(t, at, end)
	case xml.EndElement:
		d.depth--
		d.title = false
	case xml.CharData:
		d.text(string(t), at)
	case xml.Directive:
		d.refuse(at, "take this line out of the file", "the emblem has a document type; entities are not read")
	case xml.ProcInst:
		if t.Target != "xml" {
			d.refuse(at, "take this line out of the file", "the emblem calls for a %s", t.Target)
		}
	}
}

func (d *drawing) text(s string, at int) {
	switch {
	case d.title:
		d.Title = strings.TrimSpace(d.Title + s)
	case strings.TrimSpace(s) != "":
		d.refuse(at, pathHint, "the emblem has text outside of its title")
	}
}

// element takes one element with its attributes.
func (d *drawing) element(t xml.StartElement, at, end int) {
	own := t.Name.Space == svgSpace || t.Name.Space == ""
	switch name := t.Name.Local; {
	case own && name == "svg" && d.depth == 1 && !d.seen:
		d.seen = true
		d.attributes(t, at, "viewBox", "xmlns", "width", "height", "version", "id", "fill", "fill-rule")
		d.viewBox(t, at, end)
	case own && name == "title" && d.depth == 2:
		d.title = true
		d.attributes(t, at, "id")
	case own && name == "path" && d.depth == 2 && d.seen:
		d.attributes(t, at, "d", "id", "fill", "fill-rule")
		d.path(t, at, end)
	case !d.seen:
		d.refuse(at, "save the emblem as SVG or PNG", "this is no SVG: it begins with <%s>", name)
	default:
		d.refuse(at, pathHint, "<%s> is not drawn: an emblem has a title and paths alone", name)
	}
}

// attributes refuses those that are not allowed, and what they may not say.
func (d *drawing) attributes(t xml.StartElement, at int, allowed ...string) {
	for _, a := range t.Attr {
		name := a.Name.Local
		ok := a.Name.Space == "" && slices.Contains(allowed, name)
		switch {
		case !ok:
			d.refuse(at, pathHint, "<%s> has %s, which is not drawn", t.Name.Local, name)
		case name == "fill" && !black(a.Value):
			d.refuse(at, "fill it with black; cut out of it what is to stay white", "the emblem is filled with %q, and black is the only colour", a.Value)
		case name == "fill-rule" && a.Value != "nonzero":
			d.refuse(at, "cut the holes out of the drawing and save it again", "the fill rule %q is not read, nonzero is", a.Value)
		}
	}
}

func black(fill string) bool {
	return slices.Contains([]string{"black", "#000", "#000000"}, strings.ToLower(strings.TrimSpace(fill)))
}

// viewBox reads how wide and high the drawing is.
func (d *drawing) viewBox(t xml.StartElement, at, end int) {
	value, where := d.value("viewBox", at, end)
	p := pathReader{s: value}
	n := [4]unit.Length{p.number(false), p.number(true), p.number(true), p.number(true)}
	p.blank()
	if p.wrong != "" || p.i < len(value) || n[2] <= 0 || n[3] <= 0 || max(n[2], n[3]) > 50*min(n[2], n[3]) {
		d.refuse(where, `give the svg a viewBox of its left, its top, its width and its height, such as viewBox="0 0 96 96"`, "the emblem has no viewBox that can be read")
		n[2], n[3] = 1, 1
	}
	d.from, d.W, d.H = page.Pt{X: n[0], Y: n[1]}, int64(n[2]), int64(n[3])
}

// path adds the steps of one path.
func (d *drawing) path(t xml.StartElement, at, end int) {
	value, where := d.value("d", at, end)
	p := pathReader{s: value, from: d.from}
	p.all(MaxSteps - len(d.Steps))
	if p.wrong != "" {
		d.refuse(where+p.i, pathHint, "%s", p.wrong)
	}
	d.Steps = append(d.Steps, p.out...)
}

// value is an attribute as it stands in the file, and where: entities in it
// are not resolved, so that every byte has its place.
func (d *drawing) value(name string, at, end int) ([]byte, int) {
	tag := d.data[at:end]
	for i := 0; ; {
		eq := bytes.IndexByte(tag[i:], '=')
		if eq < 0 {
			return nil, at
		}
		key := strings.TrimSpace(string(tag[i : i+eq]))
		open := i + eq + bytes.IndexAny(tag[i+eq:], `"'`)
		shut := open + 1 + bytes.IndexByte(tag[open+1:], tag[open])
		if key == name || strings.ContainsAny(key, " \t\r\n") && key[strings.LastIndexAny(key, " \t\r\n")+1:] == name {
			return tag[open+1 : shut], at + open + 1
		}
		i = shut + 1
	}
}

// outside refuses a drawing that reaches beyond its viewBox: it would stand
// where nobody left room for it.
func (d *drawing) outside() {
	b := bounds(d.Steps)
	slack := unit.Length(max(d.W, d.H) / 1000)
	all := page.Rect{W: unit.Length(d.W), H: unit.Length(d.H)}
	if !all.Inset(-slack).Contains(b) {
		d.refuse(0, "fit the page to the drawing and save it again", "the drawing reaches beyond its viewBox")
	}
}

// refuse tells what is wrong at a byte of the file.
func (d *drawing) refuse(at int, hint, format string, args ...any) {
	d.bad++
	line := 1 + bytes.Count(d.data[:at], []byte("\n"))
	start := bytes.LastIndexByte(d.data[:at], '\n') + 1
	d.found.Add(diag.Diag{Pos: diag.Pos{File: d.Pos.File, Line: line, Col: 1 + utf8.RuneCount(d.data[start:at])}, Rule: "emblem", Hint: hint, Msg: fmt.Sprintf(format, args...)})
}
