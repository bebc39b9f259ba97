package words

// Run is a stretch of a text, all of it in bold or none.
type Run struct {
	Text   string
	Strong bool
}

// Runs is a text cut where emphasis begins and ends.
func (s Said) Runs() (out []Run) {
	add := func(text string, strong bool) {
		if text != "" {
			out = append(out, Run{text, strong})
		}
	}
	at := 0
	for _, r := range s.Strong {
		add(s.Text[at:r[0]], false)
		add(s.Text[r[0]:r[1]], true)
		at = r[1]
	}
	add(s.Text[at:], false)
	return out
}
