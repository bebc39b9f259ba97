package runsheet

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/text"
)

// note is what stands below the runs: a heading over the notes that follow, a
// caution to be ticked, or words.
type note struct {
	text.Para
	kind noteKind
}

type noteKind int

const (
	isWords noteKind = iota
	isHeading
	isCaution
)

// notes are, in order, the cautions of the day, the words that a native reader
// has to check, the figures that somebody has to read in the law, and what the
// sheet cannot know.
func notes(t *compose.Teller, s Sheet) []note {
	var out []note
	if len(s.Cautions) > 0 {
		out = append(out, heading(t, t.Word("sheet.warnings")))
	}
	for _, d := range s.Cautions {
		out = append(out, note{finding(d), isCaution})
	}
	return slices.Concat(out, doubts(t, s.Runs), figures(t, s.Runs), national(t, s.Runs), accepted(t, s.Accepted), []note{plain(t, "", t.Word("sheet.computed")+" "+t.Word("sheet.approver"))})
}

// left are the runs of which something is left out, each to be ticked when it is
// seen to.
func left(t *compose.Teller, all []Left) []note {
	if len(all) == 0 {
		return nil
	}
	out := []note{heading(t, t.Word("sheet.left-out"))}
	for _, l := range all {
		n := note{text.Para{Role: role.Note, Src: t.At(), Anywhere: true,
			Spans: []text.Span{{Text: l.Product + " · " + t.Count("count.pieces", int64(l.Pieces)) + " · " + l.What, Bold: true}}}, isCaution}
		for _, d := range l.Why {
			n.Spans = append(n.Spans, text.Span{Text: "\n– " + d.Msg + " [" + d.Rule + "] " + d.Pos.String()})
		}
		out = append(out, n)
	}
	return out
}

// void are the numbers that nothing may bear any more, each to be ticked when its
// label is destroyed.
func void(t *compose.Teller, all []Void) []note {
	if len(all) == 0 {
		return nil
	}
	out := []note{heading(t, t.Word("sheet.void"))}
	for _, v := range all {
		out = append(out, note{text.Para{Role: role.Note, Src: t.At(), Anywhere: true,
			Spans: []text.Span{{Text: v.Product + " · " + v.Batch + " · " + v.What, Bold: true}, {Text: " · " + strings.Join(v.Numbers, ", ")}}}, isCaution})
	}
	return out
}

func heading(t *compose.Teller, s string) note {
	n := plain(t, compose.Capital(s), "")
	n.kind = isHeading
	return n
}

// plain is words of the sheet, some of them strong.
func plain(t *compose.Teller, strong, words string) note {
	return note{Para: text.Para{Role: role.Note, Src: t.At(), Spans: []text.Span{{Text: strong, Bold: true}, {Text: words}}}}
}

// finding is a caution with its place and what to do. Its place may be cut
// anywhere, because a path may be longer than a line.
func finding(d diag.Diag) text.Para {
	q := text.Para{Role: role.Note, Src: d.Pos, Anywhere: true, Spans: []text.Span{{Text: d.Msg, Bold: true}, {Text: " [" + d.Rule + "] " + d.Pos.String()}}}
	if d.Hint != "" {
		q.Spans = append(q.Spans, text.Span{Text: "\n– " + d.Hint})
	}
	return q
}

// doubts are, for every language of the day, the words that were written from
// memory, for a native reader to check and to sign.
func doubts(t *compose.Teller, runs []Run) []note {
	var out []note
	keys := unchecked(runs)
	for _, code := range slices.Sorted(maps.Keys(keys)) {
		if l, ok := words.Get(code); ok {
			out = append(out, doubt(t.In(l), t, keys[code]))
		}
	}
	if len(keys) > 0 {
		out = append([]note{heading(t, t.Word("sheet.words"))}, out...)
	}
	return out
}

// unchecked gathers the keys of words from memory, each once, by language.
func unchecked(runs []Run) map[string][]string {
	out := map[string][]string{}
	add := func(code string, keys []string) {
		for _, k := range keys {
			if !slices.Contains(out[code], k) {
				out[code] = append(out[code], k)
			}
		}
	}
	for _, r := range runs {
		for _, t := range r.Told {
			add(t.Lang, t.Unchecked)
		}
		for _, code := range slices.Sorted(maps.Keys(r.Keys)) {
			add(code, r.Keys[code])
		}
	}
	return out
}

// doubt quotes the words of one language, which in finds.
func doubt(in, t *compose.Teller, keys []string) note {
	var quoted []string
	for _, k := range keys {
		s := in.Raw(k)
		for _, slot := range in.Lang().Slots(k) {
			s = strings.ReplaceAll(s, "{"+slot+"}", "…")
		}
		quoted = append(quoted, "“"+s+"”")
	}
	return plain(t, t.Fill("sheet.native-reader", map[string]string{"language": compose.Capital(in.Lang().Name()), "count": fmt.Sprint(len(keys))}),
		"\n"+strings.Join(quoted, " "))
}

// figures are, for every market of the day, the places in the law that were
// written from memory, for somebody to read there.
func figures(t *compose.Teller, runs []Run) []note {
	var out []note
	for _, m := range markets(runs) {
		if places := m.Unread(); len(places) > 0 {
			out = append(out, plain(t, t.Fill("sheet.figures", map[string]string{"market": strings.ToUpper(m.Code)}), "\n"+byAct(places)))
		}
	}
	return out
}

// national are the markets of the day of which nobody here knows what the
// country asks of food that is sold loose.
func national(t *compose.Teller, runs []Run) []note {
	var out []note
	for _, m := range markets(runs) {
		if !m.KnowsCountry() {
			out = append(out, plain(t, t.Fill("sheet.national", map[string]string{"market": m.Name()}), ""))
		}
	}
	return out
}

// accepted are the signatures for places in the law that nobody here has read,
// on which paper of the day went out without the mark of a draft.
func accepted(t *compose.Teller, all []Accepted) []note {
	var out []note
	of := func(a Accepted) Accepted { a.Place = market.Place{Market: a.Market}; return a }
	for i, a := range all {
		if slices.ContainsFunc(all[:i], func(b Accepted) bool { return of(b) == of(a) }) {
			continue
		}
		var places []market.Cite
		for _, b := range all {
			if of(b) == of(a) && !slices.Contains(places, b.Cite) {
				places = append(places, b.Cite)
			}
		}
		out = append(out, plain(t, t.Fill("sheet.accepted-unread", map[string]string{"market": strings.ToUpper(a.Market), "name": a.By,
			"day": t.Lang().Date(a.On, words.Day), "until": t.Lang().Date(a.Until, words.Day)}), "\n"+byAct(places)))
	}
	return out
}

// markets gives the markets of the day's labels, each once.
func markets(runs []Run) []*market.Market {
	var all []*market.Market
	for _, r := range runs {
		if !slices.ContainsFunc(all, func(m *market.Market) bool { return m.Code == r.Facts.Market.Code }) {
			all = append(all, r.Facts.Market)
		}
	}
	return all
}

// byAct names each act once, with its articles behind it.
func byAct(places []market.Cite) string {
	var acts []string
	articles := map[string][]string{}
	for _, p := range places {
		if articles[p.Act] == nil {
			acts = append(acts, p.Act)
		}
		articles[p.Act] = append(articles[p.Act], p.Article)
	}
	for i, a := range acts {
		acts[i] = a + ": " + strings.Join(articles[a], "; ")
	}
	return strings.Join(acts, ". ") + "."
}
