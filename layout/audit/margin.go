package audit

import (
	"strings"

	"chablon/labels/margin"
	"chablon/labels/measured"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
)

// mostFigures is how many figures stand on the sheet beside the losses.
const mostFigures = 12

// margins shows how far each loss, and each of the tightest other figures, may
// be off before the label says something else: the words, the figures of the
// nutrition declaration beyond their tolerance, and any figure at all.
func (t *teller) margins() section {
	if len(t.Margins) == 0 {
		return section{}
	}
	s := section{title: t.Word("audit.margins"), note: t.Word("audit.margins-note"), cols: []col{{t.Word("audit.what"), 0, flow.Left}, {t.Word("audit.written"), 20, flow.Right},
		{t.Word("audit.margin-words"), 32, flow.Right}, {t.Word("audit.margin-tolerance"), 32, flow.Right}, {t.Word("audit.margin-any"), 32, flow.Right}}}
	others := 0
	for _, m := range t.Margins {
		if !m.Loss() {
			if others++; others > mostFigures {
				continue
			}
		}
		s.rows = append(s.rows, cells(plain(t.figureOf(m.Figure)+t.weighed(m.Figure)), plain(t.bound(m.Figure, m.Value)), bold(t.span(m, 0)), plain(t.span(m, 1)), plain(t.span(m, 2))))
		if then := t.then(m.Spans[0]); then != "" {
			low := plain(then)
			low.indent, low.small = 1, true
			s.rows = append(s.rows, cells(low, place(m.At)))
		}
	}
	return s
}

// figureOf is what a figure is of.
func (t *teller) figureOf(f margin.Figure) string {
	out := t.called(f.Of)
	switch {
	case f.Loss():
		out += ", " + t.orElse("stage."+f.What, f.What) + ": " + t.Word("card.loss")
	case f.What != "":
		out = t.called(f.What) + " · " + out
	}
	return out
}

// weighed marks a loss that nobody weighed.
func (t *teller) weighed(f margin.Figure) string {
	if !f.Loss() {
		return ""
	}
	for _, g := range measured.All(t.Shop) {
		if g.Kind == measured.Loss && g.Of == f.Of && g.Where == f.What {
			return " · " + t.Word("audit.got") + " " + t.Audit.Lang.Date(g.Last, words.Day)
		}
	}
	return " · " + t.Word("audit.assumed")
}

// bound is a value of a figure, rounded so that it lies within.
func (t *teller) bound(f margin.Figure, v int64) string {
	v = f.Rounded(v)
	if f.Share {
		return t.Audit.Lang.Share(unit.Share(v))
	}
	return t.Audit.Lang.Mass(unit.Mass(v))
}

// span is from where to where something stays the same.
func (t *teller) span(m margin.Margin, i int) string {
	s := m.Spans[i]
	switch {
	case s.Open():
		return "–"
	case s.Low == nil:
		return "≤\u00a0" + t.bound(m.Figure, s.High.Same)
	case s.High == nil:
		return "≥\u00a0" + t.bound(m.Figure, s.Low.Same)
	}
	return t.bound(m.Figure, s.Low.Same) + " – " + t.bound(m.Figure, s.High.Same)
}

// then is what the label says beyond each end.
func (t *teller) then(s margin.Span) string {
	var out []string
	for i, e := range []*margin.End{s.Low, s.High} {
		if e == nil {
			continue
		}
		for _, c := range e.Changes {
			out = append(out, []string{"<", ">"}[i]+"\u00a0"+strings.Trim(c.Was+" » "+c.Now, " "))
			break
		}
	}
	return strings.Join(out, "  ·  ")
}
