package audit

import (
	"chablon/labels/declare"
	"chablon/labels/words"
	"chablon/layout/flow"
)

// cautions are the findings that did not stop the label.
func (t *teller) cautions() section {
	s := section{title: t.word("audit.cautions"), cols: []col{{width: 0}, {width: 52}}}
	for _, d := range t.Cautions {
		s.rows = append(s.rows, cells(plain(d.Msg+" ["+d.Rule+"]"), place(d.Pos)))
	}
	return s
}

// approval says who approved these facts, or leaves room to sign.
func (t *teller) approval() section {
	s := section{title: t.word("audit.approval"), note: t.word("audit.caution"), cols: []col{{width: 0}}}
	if a := t.Approval; a != nil {
		s.cols = []col{{t.word("audit.state"), 0, flow.Left}, {t.word("audit.by"), 40, flow.Left},
			{t.word("audit.on"), 26, flow.Left}, {t.word("audit.digest"), 44, flow.Left}}
		state := bold(t.word(map[declare.Standing]string{
			declare.Holds: "audit.approved", declare.Changed: "audit.stale", declare.OtherForm: "audit.older-form"}[t.Facts.Under(*a)]))
		s.rows = append(s.rows, cells(state, plain(a.By.V), plain(t.Lang.Date(a.On.V, words.Day)), plain(a.Fingerprint.V)))
	}
	if !t.Approved() {
		s.rows = append(s.rows, row{cells: []cell{bold(t.word("audit.not-approved")), plain(t.word("audit.not-approved-note"))},
			blank: []string{t.word("audit.name"), t.word("audit.date"), t.word("sheet.signature")}})
	}
	return s
}
