package audit

import (
	"chablon/labels/declare"
	"chablon/labels/words"
	"chablon/layout/flow"
)

// cautions are the findings that did not stop the label.
func (t *teller) cautions() section {
	s := section{title: t.Word("audit.cautions"), cols: []col{{width: 0}, {width: 52}}}
	for _, d := range t.Cautions {
		s.rows = append(s.rows, cells(plain(d.Msg+" ["+d.Rule+"]"), place(d.Pos)))
	}
	return s
}

// approval says who approved these facts, or leaves room to sign.
func (t *teller) approval() section {
	s := section{title: t.Word("audit.approval"), note: t.Word("audit.caution"), cols: []col{{width: 0}}}
	if a := t.Approval; a != nil {
		s.cols = []col{{t.Word("audit.state"), 0, flow.Left}, {t.Word("audit.by"), 40, flow.Left},
			{t.Word("audit.on"), 26, flow.Left}, {t.Word("audit.digest"), 44, flow.Left}}
		state := bold(t.Word(map[declare.Standing]string{
			declare.Holds: "audit.approved", declare.Changed: "audit.stale", declare.OtherForm: "audit.older-form"}[t.Facts.Under(*a)]))
		s.rows = append(s.rows, cells(state, plain(a.By.V), plain(t.Audit.Lang.Date(a.On.V, words.Day)), plain(a.Fingerprint.V)))
	}
	if !t.Approved() {
		s.rows = append(s.rows, row{cells: []cell{bold(t.Word("audit.not-approved")), plain(t.Word("audit.not-approved-note"))},
			blank: []string{t.Word("audit.name"), t.Word("audit.date"), t.Word("sheet.signature")}})
	}
	return s
}
