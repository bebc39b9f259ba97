package carton

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// consigned says for whom the carton is, on which order, and the days that the
// customer wants: nothing where it is for nobody in particular.
func (c *run) consigned(heads *compose.Teller) (out []text.Para) {
	to := c.Goes.To
	if to == nil {
		return nil
	}
	out = append(out, headed(heads.Word("carton.ship-to"), to.Name.V+", "+to.Address.V, to.Name.Pos))
	var said []text.Para
	if c.Goes.Order != "" {
		said = append(said, headed(titled("400", heads.Word("carton.order")), c.Goes.Order, to.Pos))
	}
	for _, e := range c.Goes.Elements() {
		if day, ok := map[string]unit.Date{"11": c.Goes.Made, "13": c.Goes.Packed}[e.AI]; ok {
			word := heads.Word(map[string]string{"11": "carton.made", "13": "carton.packed"}[e.AI])
			said = append(said, headed(titled(e.AI, word), c.titles.Date(day, words.Day), to.Pos))
		}
	}
	for i, q := range said { // on one line, where it is long enough
		if i > 0 {
			said[0].Spans = append(said[0].Spans, text.Span{Text: " · "})
			said[0].Spans = append(said[0].Spans, q.Spans...)
		}
	}
	return append(out, said[:min(1, len(said))]...)
}

// titled is the title that GS1 gives to data, and the word for it in the
// language of the label, each once.
func titled(ai, word string) string {
	title := gs1.Title(ai)
	if strings.EqualFold(title, word) || strings.HasPrefix(strings.ToLower(title), strings.ToLower(word)+" ") {
		return title
	}
	return title + compose.NoBreak + "/" + compose.NoBreak + word
}

func headed(title, value string, at diag.Pos) text.Para {
	return text.Para{Role: role.Note, Src: at, Spans: []text.Span{{Text: strings.ToUpper(title[:1]) + title[1:] + compose.NoBreak, Src: at}, {Text: value, Bold: true, Src: at}}}
}

// consignee sets where the carton goes.
func consignee(l *layout, s *compose.Setter, r page.Rect) unit.Length {
	return each(s, r, flow.Style{Size: l.body}, l.goes...)
}

// withoutConsignment leaves out of elements what is only about the customer.
func (c *run) withoutConsignment(els []gs1.Element) []gs1.Element {
	goes := c.Goes.Elements()
	return slices.DeleteFunc(slices.Clone(els), func(e gs1.Element) bool { return slices.Contains(goes, e) })
}
