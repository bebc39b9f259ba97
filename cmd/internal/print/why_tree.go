package print

import "chablon/labels/explain"

// WhyLine is one reason in words, with its place in the shop's files and what
// stands behind it.
type WhyLine struct {
	Says, At string
	Under    []WhyLine
}

// Lines are the reasons as [Why.Text] says them, for a page.
func (w *Why) Lines() []WhyLine { return whyLines(w.Reasons) }

func whyLines(all []*explain.Reason) (out []WhyLine) {
	for _, r := range all {
		l := WhyLine{Says: saidReason(r), Under: whyLines(r.Under)}
		if r.Pos.Known() {
			l.At = r.Pos.String()
		}
		out = append(out, l)
	}
	return out
}
