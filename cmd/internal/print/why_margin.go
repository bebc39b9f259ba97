package print

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/margin"
	"chablon/labels/measured"
	"chablon/labels/unit"
)

// mostMargins is how many figures are told of beside the losses.
const mostMargins = 6

// FindMargins finds how far the figures behind a label may be off before what was
// asked about is said otherwise. It makes the label some hundred times.
func (w *Why) FindMargins() {
	what, watch := w.watched()
	if what == "" {
		return
	}
	w.About = what
	w.Margins = margin.Of(margin.Question{Shop: w.press.Shop, Product: w.Product, Pack: w.Pack, Market: w.Market, Made: w.Facts.Made, Lang: w.Langs[0]}, watch)
}

// watched is what the word that was asked about stands for on the label: in a
// few words, and as something to watch.
func (w *Why) watched() (string, margin.Watch) {
	r := w.Reasons[0]
	switch r.Key {
	case "nutrient":
		key := string(r.Values["nutrient"].(declare.ID))
		return key + " " + saidValue(r.Values["shown"]), margin.Row(key)
	case "quantity", "no-such-quantity":
		return "the percentages of the list", margin.Quantities()
	case "water-listed", "water-unlisted":
		return "the names in the list", margin.Entries()
	case "allergen-contained", "allergen-may", "allergen-undeclared", "allergen-unheard", "sulphites-over", "sulphites-under":
		return "the allergens", margin.Allergens()
	case "ingredient", "formula":
		return "all but the nutrition declaration", margin.Words()
	}
	return "", margin.Watch{}
}

// tellMargins says them: every loss, and of the others the tightest.
func (w *Why) tellMargins(s *sheet) {
	if w.About == "" {
		return
	}
	s.line("")
	if len(w.Margins) == 0 {
		s.line("no single figure of the formulas changes this of the label: %s", w.About)
		return
	}
	s.line("this of the label changes (%s) if one figure leaves its range, the others as written:", w.About)
	losses, others := parted(w.Margins)
	for _, m := range append(losses, others[:min(len(others), mostMargins)]...) {
		s.item("  ", saidMargin(m)+w.known(m.Figure), w.at(m.At))
	}
	if left := len(others) - mostMargins; left > 0 {
		s.line("  and %s that may be off by more; --json has them all", counted(left, "figure", "figures"))
	}
}

// parted parts losses from all else.
func parted(all []margin.Margin) (losses, others []margin.Margin) {
	for _, m := range all {
		if m.Loss() {
			losses = append(losses, m)
		} else {
			others = append(others, m)
		}
	}
	return losses, others
}

// known says of a loss whether somebody weighed it.
func (w *Why) known(f margin.Figure) string {
	if !f.Loss() {
		return ""
	}
	for _, g := range measured.All(w.press.Shop) {
		if g.Kind == measured.Loss && g.Of == f.Of && g.Where == f.What {
			return fmt.Sprintf("; weighed %s, last on %s: %s of what was there", counted(g.N, "time", "times"), g.Last, decimal(int64(g.MeasuredLoss), int64(unit.Percent), 1).String()+" %")
		}
	}
	return "; assumed: nobody weighed it"
}

// saidMargin says one: "butter in craquelin: 98.6 g to 100.7 g, written 100 g;
// below, fat 23 g becomes fat 22 g; above, ...".
func saidMargin(m margin.Margin) string {
	span := m.Spans[0]
	out := saidFigureOf(m.Figure) + ": "
	switch {
	case span.Low == nil:
		out += "up to " + m.Shown(span.High.Same)
	case span.High == nil:
		out += "from " + m.Shown(span.Low.Same)
	default:
		out += m.Shown(span.Low.Same) + " to " + m.Shown(span.High.Same)
	}
	out += ", written " + m.Shown(m.Value)
	if span.Low != nil {
		out += "; below, " + saidChanges(span.Low.Changes)
	}
	if span.High != nil {
		out += "; above, " + saidChanges(span.High.Changes)
	}
	return out
}

// saidFigureOf is what a figure is.
func saidFigureOf(f margin.Figure) string {
	switch f.Kind {
	case margin.WaterLost:
		return "water lost at " + f.What + " of " + f.Of
	case margin.LeftBehind:
		return "left behind at " + f.What + " of " + f.Of
	case margin.SoakedUp:
		return f.What + " soaked up in " + f.Of
	case margin.Remains:
		return f.What + " left in " + f.Of
	case margin.CutTo:
		return "a piece of " + f.Of
	}
	return f.What + " in " + f.Of
}

func saidChanges(all []margin.Change) string {
	var out []string
	for _, c := range all {
		one := c.Was + " becomes " + c.Now
		switch {
		case c.Sort == margin.Refused:
			one = "nothing is printed: " + c.Now
		case c.Was == "":
			one = c.Now + " is added"
		case c.Now == "":
			one = c.Was + " goes"
		}
		out = append(out, one)
	}
	if len(out) == 0 {
		return "it changes"
	}
	return strings.Join(slices.Compact(out), "; ")
}

// webMargin is one figure as another program reads it: in percent of what is
// there, or in grams.
type webMargin struct {
	Kind   string   `json:"kind"`
	Of     string   `json:"of"`
	What   string   `json:"what,omitempty"`
	Unit   string   `json:"unit"`
	Value  number   `json:"value"`
	Lowest *webEnd  `json:"down-to,omitempty"`
	Most   *webEnd  `json:"up-to,omitempty"`
	At     webPlace `json:"at"`
}

type number = json.Number

// webEnd is an end of it: the last value at which the label says the same, the
// first beyond it at which it does not, and what it says there.
type webEnd struct {
	Same    number      `json:"same"`
	Other   number      `json:"not-at"`
	Changes []webChange `json:"then"`
}

type webChange struct {
	Sort string `json:"sort"`
	Was  string `json:"was,omitempty"`
	Now  string `json:"now,omitempty"`
}

func webMargins(all []margin.Margin) (out []webMargin) {
	for _, m := range all {
		one := webMargin{Kind: string(m.Kind), Of: m.Of, What: m.What, Unit: "g", Value: webBound(m.Figure, m.Value), At: webPlace{m.At.File, m.At.Line, m.At.Col}}
		if m.Share {
			one.Unit = "%"
		}
		one.Lowest, one.Most = webEndOf(m.Figure, m.Spans[0].Low), webEndOf(m.Figure, m.Spans[0].High)
		out = append(out, one)
	}
	return out
}

func webEndOf(f margin.Figure, e *margin.End) *webEnd {
	if e == nil {
		return nil
	}
	out := &webEnd{Same: webBound(f, e.Same), Other: webBound(f, e.Other), Changes: []webChange{}}
	for _, c := range e.Changes {
		out.Changes = append(out.Changes, webChange{string(c.Sort), c.Was, c.Now})
	}
	return out
}

// webBound is a value with all its figures.
func webBound(f margin.Figure, v int64) number {
	if f.Share {
		return decimal(v, int64(unit.Percent), 7)
	}
	return decimal(v, int64(unit.Gram), 9)
}
