package counter

import (
	"net/url"
	"regexp"
	"strings"

	"chablon/cmd/internal/print"
	"chablon/labels/words"
)

// spokenLabel is what a label says in one language, cut so that each word can be
// asked why it is there.
type spokenLabel struct {
	Lang, Name string
	Lines      [][]bit
}

// bit is a piece of a line: words that can be asked for, or what parts them.
type bit struct {
	Path string
	Runs []words.Run
}

// spokenLabels are the words of a label in each of its languages.
func (a *ask) spokenLabels(s print.Seen) (out []spokenLabel) {
	for _, t := range s.Told {
		one := spokenLabel{Lang: t.Lang, Name: t.Lang}
		if l, ok := words.Get(t.Lang); ok {
			one.Name = l.Name()
		}
		why := func(word string) string {
			return "/why?" + url.Values{"id": {s.ID}, "pack": {s.Pack}, "market": {s.Market}, "word": {word}}.Encode()
		}
		for _, said := range spokenOf(t) {
			if said.Text != "" {
				one.Lines = append(one.Lines, cut(said, why))
			}
		}
		for _, line := range tableOf(t.Table) {
			one.Lines = append(one.Lines, cut(words.Said{Text: line}, why))
		}
		out = append(out, one)
	}
	return out
}

// spokenOf are the particulars of a label in the order in which they are read.
func spokenOf(t *words.Label) []words.Said {
	all := []words.Said{t.Name}
	all = append(all, t.Lists...)
	all = append(all, t.May, t.Net.Said, t.Date, t.Keep)
	all = append(all, t.Statements...)
	return append(all, t.Operator)
}

// tableOf are the lines of a nutrition declaration.
func tableOf(t *words.Table) (out []string) {
	if t == nil {
		return nil
	}
	out = append(out, t.Heading+" "+t.Per)
	for _, r := range t.Rows {
		out = append(out, r.Name+": "+strings.Join(r.Cells, " "))
	}
	return out
}

// joints are what stands between two things of a list, and percentages, which are
// asked for by themselves.
var joints = regexp.MustCompile(`[,;:()\[\]•·]+|\d[\d.,]*[\s\x{a0}\x{202f}]*%`)

// cut parts a line at commas, brackets, colons and the like, so that each thing
// that it names is a link to why it is there.
func cut(s words.Said, why func(string) string) (out []bit) {
	from := 0
	add := func(lo, hi int, asks bool) {
		word := strings.Trim(s.Text[lo:hi], " \u00a0\u202f.*,;:()[]•·")
		if lo == hi {
			return
		}
		if !asks || word == "" {
			out = append(out, bit{Runs: within(s.Runs(), lo, hi)})
			return
		}
		white := " \u00a0\u202f"
		text := s.Text[lo:hi]
		begin, end := lo+len(text)-len(strings.TrimLeft(text, white)), hi-len(text)+len(strings.TrimRight(text, white))
		out = append(out, bit{Runs: within(s.Runs(), lo, begin)}, bit{Runs: within(s.Runs(), begin, end), Path: why(word)}, bit{Runs: within(s.Runs(), end, hi)})
	}
	for _, at := range joints.FindAllStringIndex(s.Text, -1) {
		add(from, at[0], true)
		add(at[0], at[1], strings.HasSuffix(s.Text[:at[1]], "%"))
		from = at[1]
	}
	add(from, len(s.Text), true)
	return out
}

// within are the runs between two places.
func within(runs []words.Run, lo, hi int) (out []words.Run) {
	at := 0
	for _, r := range runs {
		from, to := max(lo, at), min(hi, at+len(r.Text))
		if from < to {
			out = append(out, words.Run{Text: r.Text[from-at : to-at], Strong: r.Strong})
		}
		at += len(r.Text)
	}
	return out
}
