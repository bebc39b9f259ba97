package card

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
)

// content is all that a card says, before it meets any paper.
type content struct {
	Name      told
	Size      told // "48 pieces"
	Version   string
	Issued    string
	Approved  string
	Facts     []fact
	Times     *times
	Hours     []fact // when to start; not part of the check word
	Bases     []fact // what is 100 % where shares are shown; not part of the check word
	Balance   told
	Clashes   []told
	Allergens told   // nothing where there are none
	Contained []told // the same, one by one
	None      told   // that there are none, or of what nobody knows whether there are
	Lanes     []lane
	Rows      []row
	Keep      []told
	Cautions  []told
	Rules     []told // where else to look
	Small     told   // what the mark of the small scale means; empty without one
	Table     *table
	Word      string // the check word

	work   *scale.Work
	no     []int // the number of each task: where it comes by the clock
	teller *teller
}

// fact is a line of the facts strip.
type fact struct {
	What  told
	Value told
}

// times are the hours of the whole work.
type times struct {
	Total, Hands string
	Waits, Oven  bool // whether the marks for waiting and for the oven occur
}

// tell says a card.
func tell(c Card, found *diag.List) *content {
	id, src := c.id()
	t := &teller{compose.Tell("card of "+id, src, found, c.Langs...), c}
	out := &content{teller: t}
	if !t.sound() {
		return out
	}
	work, err := scale.Order(t.Shop, t.Batch)
	if err != nil {
		found.Errorf(src, "circle", "look at what the steps need", "%s: %v", id, err)
		return out
	}
	out.work, out.no = work, numbers(work)
	t.head(out)
	t.lanes(out)
	t.shares(out)
	t.rows(out)
	t.facts(out)
	t.hours(out)
	t.clashes(out)
	t.allergens(out)
	t.ends(out)
	t.sizeTable(out)
	t.lost(out)
	out.Word = out.checkWord()
	t.Done()
	return out
}

// numbers gives each task its number by the clock.
func numbers(w *scale.Work) []int {
	no := make([]int, len(w.Tasks))
	for n, i := range w.ByClock() {
		no[i] = n + 1
	}
	return no
}

// sound refuses a card that cannot be set whatever it says.
func (t *teller) sound() bool {
	bad := func(format string, args ...any) bool {
		t.Found().Errorf(diag.Pos{}, "card", "name a product or a formula, its batch, a card paper, and one or two languages", format, args...)
		return false
	}
	switch {
	case t.Batch == nil || (t.Product == nil) == (t.Formula == nil):
		return bad("a card is for the batch of one product or of one formula")
	case len(t.Card.Langs) < 1 || len(t.Card.Langs) > 2:
		return bad("a card is in one or two languages, not %d", len(t.Card.Langs))
	case t.Stock == nil || t.Stock.ReadAt.V <= 0:
		return bad("a card is printed on a paper that says from which distance it is read")
	}
	for _, l := range t.Card.Langs {
		if !l.Has("card") {
			return bad("there are no words for cards in %s", l.Name())
		}
	}
	return true
}

func (t *teller) head(out *content) {
	name, version, issued, approved := shop.Words(nil), 0, unit.Date{}, ""
	id, src := t.id()
	if p := t.Product; p != nil {
		name, version, issued, approved = p.Name, p.Version.V, p.Issued.V, p.Approved.V
		out.Size = t.count("count.pieces", int64(t.Batch.Pieces))
	} else {
		f := t.Formula
		name, version, issued, approved = f.Name, f.Version.V, f.Issued.V, f.Approved.V
		out.Size = numbered(t.readable(t.Batch.Out), src)
	}
	out.Name = t.own(name, src, "the name of "+id)
	out.Version = fmt.Sprintf("v%d", version)
	out.Issued = t.Lang().Date(issued, words.Day)
	out.Approved = approved
}

// readable is what a batch weighs: whole grams from 100 g on, tenths below.
func (t *teller) readable(m unit.Mass) string {
	if m < 100*unit.Gram {
		return t.grams(m, unit.Gram/10)
	}
	return t.grams(m, unit.Gram)
}

// allergens says what is on this card, and refuses a card that would be silent
// about an allergen of one of its ingredients. That there is none is said only
// where somebody knows it of each of them.
func (t *teller) allergens(out *content) {
	t.noneLost()
	if unsure := t.unsure(); len(unsure) > 0 {
		out.None = t.each(diag.Pos{}, func(_ int, t *compose.Teller) string { return t.Unsure(unsure) })
	} else if len(t.Contains) == 0 {
		out.None = t.word("card.no-allergens")
	}
	if len(t.Contains) == 0 {
		return
	}
	contains := t.Contains
	for _, id := range contains {
		out.Contained = append(out.Contained, t.each(diag.Pos{}, func(_ int, t *compose.Teller) string {
			return strings.ReplaceAll(t.Allergen(id), " ", compose.NoBreak)
		}))
	}
	out.Allergens = t.each(diag.Pos{}, func(_ int, t *compose.Teller) string {
		var names []string
		for _, id := range contains {
			names = append(names, strings.ReplaceAll(t.Allergen(id), " ", compose.NoBreak))
		}
		return strings.Join(names, " · ")
	})
}

// noneLost refuses a card that is silent about what the law asks for of one of
// its ingredients.
func (t *teller) noneLost() {
	for _, a := range t.Batch.Amounts() {
		if a.Ingredient == nil {
			continue
		}
		for _, id := range declare.Declared(t.Shop, a.Ingredient) {
			// Sulphites are declared by how much is left, which the caller knows.
			if id != "sulphites" && !slices.Contains(t.Contains, id) {
				t.Found().Errorf(a.Ingredient.Pos, "allergen-lost", "report this: nothing may be printed",
					"%s contains %s, but the card does not say so", a.Ingredient.ID, id)
			}
		}
	}
}

// unsure are the ingredients of which nobody knows all that is in them: they
// have no specification, or a name that it leaves open.
func (t *teller) unsure() []*shop.Ingredient {
	var out []*shop.Ingredient
	for _, a := range t.Batch.Amounts() {
		if i := a.Ingredient; i != nil && !slices.Contains(out, i) && t.Shop.Unsure(i) {
			out = append(out, i)
		}
	}
	return out
}

// ends says what stands after the last step: how it is kept, which label it
// gets, what to be careful about.
func (t *teller) ends(out *content) {
	if p := t.Product; p != nil {
		out.Keep = append(out.Keep, t.keep(t.Shop.KeepOf(p)))
		if t.Pack != nil {
			label := t.Pack.ID.V + ", " + t.Lang().Mass(t.Pack.Net.V)
			out.Keep = append(out.Keep, numbered(t.word("card.label").joined()+": "+label, t.Pack.Pos))
		}
	} else if t.Formula.Keep != nil {
		out.Keep = append(out.Keep, t.keep(*t.Formula.Keep))
	}
	for _, key := range t.cautions(out) {
		out.Cautions = append(out.Cautions, t.word("caution."+key))
	}
	out.Rules = append(out.Rules, t.word("caution.allergens"), t.word("caution.local-rules"), t.word("card.posted"))
}

// cautions lists what the steps warn of, each once, in the order of work.
func (t *teller) cautions(out *content) []string {
	var keys []string
	for _, task := range out.work.Tasks {
		for _, c := range task.Step.Cautions {
			if !slices.Contains(keys, c.V) {
				keys = append(keys, c.V)
			}
		}
	}
	return keys
}

// lost finds amounts and steps of the batch that no row shows.
func (t *teller) lost(out *content) {
	shown := 0
	for _, r := range out.Rows {
		if r.Step != nil {
			for _, p := range r.Step.Puts {
				if p.whole {
					shown++
				}
			}
		}
	}
	want := 0
	for _, l := range out.Lanes {
		want += len(l.puts)
	}
	if shown != want {
		_, src := t.id()
		t.Found().Errorf(src, "card", "report this: nothing may be printed", "%d of %d amounts have no place on the card", want-shown, want)
	}
}

// told is one text in each language of the card.
type told struct {
	In  []string
	Src diag.Pos
}

// empty reports that there is nothing to say.
func (t told) empty() bool { return len(t.In) == 0 }

// first is the text in the first language.
func (t told) first() string {
	if t.empty() {
		return ""
	}
	return t.In[0]
}

// joined is the text in all languages on one line, a text that is the same in
// both only once: "oven · four".
func (t told) joined() string { return strings.Join(slices.Compact(slices.Clone(t.In)), " · ") }

// numbered is a figure, which is written once whatever the languages.
func numbered(s string, src diag.Pos) told { return told{[]string{s}, src} }

// teller finds the words of a card in its languages.
type teller struct {
	*compose.Teller
	Card
}

// each asks every language.
func (t *teller) each(src diag.Pos, ask func(i int, t *compose.Teller) string) told {
	out := told{Src: src}
	for i, l := range t.Card.Langs {
		out.In = append(out.In, ask(i, t.In(l)))
	}
	return out
}

// word is a word of the trade.
func (t *teller) word(key string) told {
	return t.each(diag.Pos{}, func(_ int, t *compose.Teller) string { return t.Word(key) })
}

// both is a trade word in all languages of the card.
func (t *teller) both(key string) string { return t.word(key).joined() }

// fill is a template with one slot.
func (t *teller) fill(key, slot string, value func(l *words.Lang) string) told {
	return t.slots(key, diag.Pos{}, func(_ int, l *words.Lang) map[string]string { return map[string]string{slot: value(l)} })
}

// slots fills a template whose slots differ from language to language.
func (t *teller) slots(key string, src diag.Pos, value func(i int, l *words.Lang) map[string]string) told {
	return t.each(src, func(i int, t *compose.Teller) string { return t.Fill(key, value(i, t.Lang())) })
}

// count is a phrase with a whole number.
func (t *teller) count(key string, n int64) told {
	return t.each(diag.Pos{}, func(_ int, t *compose.Teller) string { return t.Count(key, n) })
}

// own is a text of the shop in every language of the card; a missing
// translation is an error, because half a card is worse than none.
func (t *teller) own(w shop.Words, pos diag.Pos, what string) told {
	src := pos
	out := t.each(pos, func(i int, t *compose.Teller) string {
		v := t.Own(w, what, pos)
		if i == 0 {
			src = v.Pos
		}
		return v.V
	})
	out.Src = src
	return out
}

// maybe is own for a text that may be left out as a whole.
func (t *teller) maybe(w shop.Words, pos diag.Pos, what string) told {
	if len(w) == 0 {
		return told{}
	}
	return t.own(w, pos, what)
}

// once puts a figure that every language repeats only into the first.
func once(t told, figure string) told {
	for i := 1; i < len(t.In); i++ {
		t.In[i] = strings.TrimSpace(strings.Replace(t.In[i], figure, "", 1))
	}
	return numbered(t.joined(), t.Src)
}

// with joins texts of the same languages: "makes 760 g" and the like.
func with(sep string, parts ...told) told {
	var out told
	for _, p := range parts {
		switch {
		case p.empty():
			continue
		case out.empty():
			out = told{slices.Clone(p.In), p.Src}
			continue
		}
		for len(out.In) < len(p.In) {
			out.In = append(out.In, out.In[0])
		}
		for i := range out.In {
			out.In[i] += sep + p.In[min(i, len(p.In)-1)]
		}
	}
	return out
}
