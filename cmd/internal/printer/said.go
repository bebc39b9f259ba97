package printer

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/OpenPrinting/goipp"

	"chablon/labels/unit"
)

// Formats of what is sent.
const (
	Raster = "image/pwg-raster"
	PDF    = "application/pdf"
)

// Said is what a printer says of itself.
type Said struct {
	Name, Model string
	Formats     []string
	DPI         []int // of all that it prints
	RasterDPI   []int // of PWG Raster
	Types       []string
	Ready       []Size // what is loaded; nil where it does not say
	Sizes       []Size // what it may be loaded with
	Accepts     bool
	Stopped     bool
	Reasons     []string // why, in the words of the kitchen
	Scaling     []string
}

// Size is a paper, or a range of papers.
type Size struct{ W, H, MostW, MostH unit.Length }

// String is the paper in millimetres.
func (s Size) String() string { return fmt.Sprintf("%v × %v", s.W, s.H) }

// slack is how far a paper may differ from what the printer says of it: rolls
// are called by rounded sizes.
const slack = unit.MM

// Holds reports whether a paper is of the size.
func (s Size) Holds(w, h unit.Length) bool {
	in := func(l, lo, hi unit.Length) bool { return l >= lo-slack && l <= max(lo, hi)+slack }
	return in(w, s.W, s.MostW) && in(h, s.H, s.MostH)
}

// Ask asks a printer what it is (RFC 8011, 4.2.5).
func (p *Printer) Ask(ctx context.Context) (Said, error) {
	m, err := p.ask(ctx, goipp.OpGetPrinterAttributes, nil, func(m *goipp.Message) {
		m.Operation.Add(goipp.MakeAttr("requested-attributes", goipp.TagKeyword, goipp.String("all"), goipp.String("media-col-database")))
	})
	if err != nil {
		return Said{}, err
	}
	a := m.Printer
	said := Said{Name: first(texts(a, "printer-name")), Model: first(texts(a, "printer-make-and-model")), Formats: texts(a, "document-format-supported"),
		DPI: dpis(a, "printer-resolution-supported"), RasterDPI: dpis(a, "pwg-raster-document-resolution-supported"), Types: texts(a, "pwg-raster-document-type-supported"),
		Ready: sizes(a, "media-col-ready"), Sizes: append(sizes(a, "media-col-database"), bare(a, "media-size-supported")...),
		Accepts: true, Stopped: number(a, "printer-state") == 5, Reasons: reasons(texts(a, "printer-state-reasons")), Scaling: texts(a, "print-scaling-supported")}
	if v := values(a, "printer-is-accepting-jobs"); len(v) > 0 {
		b, ok := v[0].(goipp.Boolean)
		said.Accepts = !ok || bool(b)
	}
	return said, nil
}

// values are those of an attribute; none where it is not there.
func values(a goipp.Attributes, name string) (out []goipp.Value) {
	for _, at := range a {
		if at.Name == name {
			for _, v := range at.Values {
				out = append(out, v.V)
			}
		}
	}
	return out
}

// texts are the words of an attribute. A value of another kind is passed over.
func texts(a goipp.Attributes, name string) (out []string) {
	for _, v := range values(a, name) {
		switch v := v.(type) {
		case goipp.String:
			out = append(out, clip(string(v)))
		case goipp.TextWithLang:
			out = append(out, clip(v.Text))
		}
	}
	return out
}

func first(all []string) string {
	if len(all) == 0 {
		return ""
	}
	return all[0]
}

// number is a number of an attribute; 0 where there is none.
func number(a goipp.Attributes, name string) int {
	for _, v := range values(a, name) {
		if n, ok := v.(goipp.Integer); ok {
			return int(n)
		}
	}
	return 0
}

func dpis(a goipp.Attributes, name string) (out []int) {
	for _, v := range values(a, name) {
		r, ok := v.(goipp.Resolution)
		if ok && r.Xres == r.Yres && r.Units == goipp.UnitsDpi {
			out = append(out, r.Xres)
		}
	}
	return out
}

// sizes are the papers of an attribute whose values hold a media-size.
func sizes(a goipp.Attributes, name string) (out []Size) {
	for _, v := range values(a, name) {
		if c, ok := v.(goipp.Collection); ok {
			out = append(out, bare(goipp.Attributes(c), "media-size")...)
		}
	}
	return out
}

// bare are the papers of an attribute whose values are sizes, in hundredths of a
// millimetre (PWG 5100.7).
func bare(a goipp.Attributes, name string) (out []Size) {
	for _, v := range values(a, name) {
		c, ok := v.(goipp.Collection)
		if !ok {
			continue
		}
		x, okX := side(goipp.Attributes(c), "x-dimension")
		y, okY := side(goipp.Attributes(c), "y-dimension")
		if okX && okY {
			out = append(out, Size{x[0], y[0], x[1], y[1]})
		}
	}
	return out
}

func side(a goipp.Attributes, name string) (span [2]unit.Length, ok bool) {
	for _, v := range values(a, name) {
		switch v := v.(type) {
		case goipp.Integer:
			return [2]unit.Length{unit.Length(v) * unit.MM / 100, unit.Length(v) * unit.MM / 100}, true
		case goipp.Range:
			return [2]unit.Length{unit.Length(v.Lower) * unit.MM / 100, unit.Length(v.Upper) * unit.MM / 100}, true
		}
	}
	return span, false
}

// plain are the reasons of RFC 8011, 5.4.12 that a kitchen can do something
// about.
var plain = map[string]string{
	"media-empty": "out of paper", "media-needed": "it waits for paper", "media-jam": "paper is jammed", "media-low": "paper is running out",
	"cover-open": "a cover is open", "door-open": "a door is open", "paused": "it is paused", "shutdown": "it is switched off",
	"marker-supply-empty": "out of ink, toner or ribbon", "toner-empty": "out of toner", "output-area-full": "the tray is full",
	"stopped-partly": "it has stopped", "connecting-to-device": "it is starting", "input-tray-missing": "a tray is missing",
	"resources-are-not-ready": "something is not ready", "job-canceled-at-device": "somebody canceled it at the printer",
	"job-canceled-by-user": "somebody canceled it", "job-canceled-by-operator": "somebody canceled it", "aborted-by-system": "the printer gave up",
	"document-format-error": "the printer could not read it", "unsupported-document-format": "the printer does not take such pages",
}

// reasons are why a printer or job stands still, in words of the kitchen; what
// is unknown stays as the printer says it.
func reasons(all []string) (out []string) {
	for _, r := range all {
		for _, end := range []string{"-error", "-warning", "-report"} {
			r = strings.TrimSuffix(r, end)
		}
		if r == "none" || r == "" || strings.HasPrefix(r, "job-completed-successfully") {
			continue
		}
		if w, ok := plain[r]; ok {
			r = w
		}
		if !slices.Contains(out, r) && len(out) < 5 {
			out = append(out, r)
		}
	}
	return out
}
