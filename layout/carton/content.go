package carton

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/text"
)

// content is all that the label says in words, before it meets any paper.
type content struct {
	sender     text.Para
	of         []string    // "carton 1 of 2", for each carton
	groups     []group     // what is in a mixed carton
	names      []text.Para // one for each language, as are the next two
	dates      []text.Para
	dated      text.Para // the title of the date; no words for food without one
	keep       []text.Para
	net, batch figure
	class      text.Para // the class of temperature: "CHILLED ≤ 5 °C"
	cold       bool      // it bears the sign of cold beside its words
	allergens  []text.Para
	weights    text.Para
	keys       []figure    // the numbers of GS1
	goes       []text.Para // where it goes, the order, and the days that the customer wants
}

// figure is what is read from a distance, with its title over it.
type figure struct{ title, value text.Para }

// tell finds all words. It reports false, with one finding, when any is
// missing.
func (c *run) tell() bool {
	t := compose.Tell("carton label", c.carton.Pos, c.found, c.Langs...)
	heads := t.In(c.titles)
	o := c.Told[0].Operator
	c.content = content{sender: flow.Words(role.Operator, o.Src, o.Text), cold: slices.Contains([]string{"chilled", "frozen"}, c.Facts.Product.Keep.Store.V),
		class: c.classOf(heads), weights: c.weights(t), goes: c.consigned(heads), keys: c.numbers(t),
		net:   figureOf(c.amountTitle(t), role.Net, c.Facts.Pack.Net.Pos, c.contents(t, c.lots()[0])),
		batch: figureOf(c.title(t, gs1.Title("10"), "carton.batch"), role.Batch, c.Batched, c.lot(c.lots()[0]))}
	if ai := c.dateAI(); ai != "" {
		c.dated = flow.Words(role.Note, c.firstTold()[0].Date.Src, gs1.Title(ai))
	}
	for n := range c.Of {
		c.of = append(c.of, heads.Fill("carton.of", map[string]string{"n": fmt.Sprint(n + 1), "m": fmt.Sprint(c.Of)}))
	}
	for i, l := range c.Told {
		c.names = append(c.names, flow.Strong(role.Name, l.Name.Src, l.Name.Text))
		c.dates = append(c.dates, strong(role.Date, c.firstTold()[i].Date))
		c.allergens = append(c.allergens, c.contains(t.In(c.Langs[i]), c.Facts), compose.Phrase(l.May))
		c.keep = append(c.keep, c.keeps(i)...)
	}
	if c.mixed() {
		c.content.groups = c.contentsOf(t)
	}
	return t.Done()
}

// strong is all of a particular in bold, or nothing.
func strong(r role.Role, s words.Said) text.Para {
	if s.Text == "" {
		return text.Para{}
	}
	return flow.Strong(r, s.Src, s.Text)
}

func figureOf(title string, r role.Role, src diag.Pos, value string) figure {
	return figure{flow.Words(role.Note, src, title), flow.Strong(r, src, value)}
}

// title is a title of GS1, and beside it the word of the second language where
// that is another one: "BATCH/LOT / CHARGE".
func (c *run) title(t *compose.Teller, english, key string) string {
	if c.second == nil {
		return english
	}
	word := strings.ToUpper(t.In(c.second).Word(key))
	if english == word {
		return english
	}
	return english + compose.NoBreak + "/ " + word
}

// head is a head of our own in English, with the word of the second language.
func (c *run) head(t *compose.Teller, key string) string {
	en, _ := words.Get("en")
	return c.title(t, strings.ToUpper(t.In(en).Word(key)), key)
}

// contents is what is in the carton: "12 × 170 g", in every language that has
// it otherwise.
func (c *run) contents(t *compose.Teller, in Inside) string {
	var all []string
	for _, l := range c.Langs {
		s := l.Mass(c.inside())
		if !in.Facts.Pack.ByWeight() {
			s = t.In(l).Fill("net.multi", map[string]string{"count": l.Plain(int64(in.Packs), 0), "mass": l.Mass(in.Facts.Pack.Net.V)})
		}
		if s = strings.ReplaceAll(s, " ", compose.NoBreak); !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	return strings.Join(all, " / ")
}

// lot is the batch code with the letter that the law puts before it.
func (c *run) lot(in Inside) string {
	if letter := c.Facts.Market.Lot.Letter; !strings.HasPrefix(in.Batch, letter) {
		return letter + compose.NoBreak + in.Batch
	}
	return in.Batch
}

// keeps is how all that is in the carton is to be kept, in language i, each
// once.
func (c *run) keeps(i int) (out []text.Para) {
	var said []string
	for _, in := range c.lots() {
		if k := in.Told[i].Keep; !slices.Contains(said, k.Text) {
			said = append(said, k.Text)
			out = append(out, compose.Phrase(words.Said{Role: role.Keep, Text: k.Text, Src: k.Src}))
		}
	}
	return out
}

// classOf is the class of temperature with the temperature itself.
func (c *run) classOf(heads *compose.Teller) text.Para {
	k := c.Facts.Product.Keep
	s := strings.ToUpper(heads.Word("carton." + k.Store.V))
	if k.Temp.Set() {
		s += compose.NoBreak + c.titles.Limit(k.Temp.V, c.Facts.Market.BothScales())
	}
	return flow.Strong(role.Keep, k.Pos, s)
}

// contains is the line of allergens in one language; each is emphasised as in a
// list. It is empty when there are none.
func (c *run) contains(t *compose.Teller, f *declare.Facts) text.Para {
	q := t.Allergens(role.Allergens, "contains", f.Contains, f.Product.Pos)
	if len(q.Spans) > 0 {
		q.Spans = append(q.Spans, text.Span{Text: "."})
	}
	return q
}

// weights is what the carton weighs. Gross is the net quantity of the packs and
// the tare, so it is "about".
func (c *run) weights(t *compose.Teller) text.Para {
	net := c.inside()
	out := text.Para{Role: role.Note, Src: c.Facts.Pack.Net.Pos}
	add := func(title, value string, src diag.Pos) {
		if len(out.Spans) > 0 {
			title = " · " + title
		}
		out.Spans = append(out.Spans, text.Span{Text: title + compose.NoBreak, Src: src}, text.Span{Text: value, Bold: true, Src: src})
	}
	add(c.head(t, "carton.net"), c.titles.Mass(net), c.Facts.Pack.Net.Pos)
	if tare := c.carton.Tare; tare.V > 0 {
		add(c.head(t, "carton.gross"), "≈"+compose.NoBreak+c.titles.Mass(net+tare.V), tare.Pos)
	}
	return out
}

// numbers are the numbers of GS1 in the text, with their titles: that of the
// carton itself, whose place alone is kept, that of what is in it, and that of
// the place that it goes to (GGS release 18, 6.6.4.3: all data of the bars, with
// their titles).
func (c *run) numbers(t *compose.Teller) (out []figure) {
	for _, e := range c.elements() {
		switch e.AI {
		case "00":
			out = append([]figure{figureOf(gs1.Title("00"), role.Key, c.Numbered, e.Value)}, out...)
		case "01", "410", "413", "420", "421":
			out = append(out, figureOf(gs1.Title(e.AI), role.Key, c.named().Pos, e.Value))
		case "02":
			out = append(out, figureOf(c.title(t, "CONTENT", "carton.content"), role.Key, c.named().Pos, e.Value))
		}
	}
	return out
}

// unchecked lists the words of the label that a native reader must check.
func (c *run) unchecked() map[string][]string {
	out := map[string][]string{}
	add := func(l *words.Lang, keys ...string) {
		for _, k := range keys {
			if _, err := l.Word(k); err == nil && l.FromMemory(k) && !slices.Contains(out[l.Code()], k) {
				out[l.Code()] = append(out[l.Code()], k)
			}
		}
	}
	add(c.titles, "carton.of", "carton."+c.Facts.Product.Keep.Store.V)
	if c.second != nil {
		add(c.second, "carton.count", "carton.batch", "carton.net", "carton.gross")
		if !c.numbered() {
			add(c.second, "carton.content")
		}
	}
	for _, l := range c.Langs {
		add(l, "net.multi")
		for _, in := range c.lots() {
			for _, id := range in.Facts.Contains {
				add(l, "contains", "allergen."+strings.ReplaceAll(id, " ", "-"))
			}
		}
	}
	return out
}
