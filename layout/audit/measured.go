package audit

import (
	"slices"

	"chablon/labels/measured"
	"chablon/labels/words"
	"chablon/layout/flow"
)

// measured shows what the kitchen weighed and timed of the product and of all
// that it is made of, beside what is written.
func (t *teller) measured() section {
	s := section{title: t.Word("audit.measured"), note: t.Word("audit.measured-note"), cols: []col{{t.Word("audit.what"), 0, flow.Left}, {t.Word("audit.written"), 24, flow.Right},
		{t.Word("audit.got"), 24, flow.Right}, {t.Word("audit.last"), 30, flow.Left}, {t.Word("audit.file"), 46, flow.Left}}}
	ids := t.Shop.MadeOf(t.Facts.Product.ID)
	for _, g := range measured.All(t.Shop) {
		if !slices.Contains(ids, g.Of) {
			continue
		}
		written, got := t.pair(g)
		shown := plain(got)
		if g.Parts {
			shown = bold(got + " !")
		}
		last := t.Plain(int64(g.N)) + " × · " + t.Audit.Lang.Date(g.Last, words.Day)
		s.rows = append(s.rows, cells(plain(t.called(g.Of)+", "+g.Where+": "+t.sort(g.Kind)), plain(written), shown, plain(last), place(g.At)))
	}
	return s
}

// sort says what was measured.
func (t *teller) sort(k measured.Kind) string {
	return t.Word(map[measured.Kind]string{measured.Loss: "card.loss", measured.Hands: "card.hands-on", measured.Waiting: "card.waiting"}[k])
}

// pair is what is written and what was measured.
func (t *teller) pair(g measured.Gap) (written, got string) {
	if g.Kind == measured.Loss {
		return t.percent(g.WrittenLoss), t.percent(g.MeasuredLoss)
	}
	return t.Audit.Lang.Span(g.WrittenTime), t.Audit.Lang.Span(g.MeasuredTime)
}
