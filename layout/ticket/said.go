package ticket

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
)

const noBreak = "\u00a0"

// said is all that a ticket says, before it meets any paper.
type said struct {
	speeches []speech
	price    words.Said // empty without a price
	per      words.Said // the price of a kilogram
	amount   words.Said // "1 piece · 85 g"
	version  words.Said
	word     words.Said // the check word, empty without one
	staff    []words.Said
	head     words.Said // of the staff's side
}

// speech is what the buyer reads in one language.
type speech struct {
	name, about words.Said
	contains    []words.Said // allergens, and what else a buyer must know
	may         words.Said
	lists       []words.Said
}

// teller says a ticket and gathers what is missing.
type teller struct {
	Ticket
	found *diag.List
}

// tell says what stands on the ticket.
func tell(t Ticket, found *diag.List) *said {
	l := &teller{t, found}
	if !l.sound() {
		return nil
	}
	out := &said{price: l.price(), per: l.per(), amount: l.amount(), version: l.version(), staff: l.staff(), head: l.note("ticket.staff")}
	if t.CheckWord != "" {
		out.word = words.Said{Role: role.Note, Text: l.word(t.Langs[0], "card.check-word", t.Facts.Product.Pos) + ": " + t.CheckWord, Src: t.Facts.Product.Pos}
	}
	for i := range t.Told {
		out.speeches = append(out.speeches, l.speech(i))
	}
	return out
}

// sound refuses a ticket that cannot be set whatever it says.
func (t *teller) sound() bool {
	pos := t.Facts.Product.Pos
	switch {
	case len(t.Langs) < 1 || len(t.Langs) > 2 || len(t.Told) != len(t.Langs):
		t.found.Errorf(pos, "languages", "name one or two languages, and print a second ticket for more", "a ticket is in one or two languages, not %d", len(t.Langs))
		return false
	case !t.Langs[0].Has("sheet") || !t.Langs[0].Has("card"):
		t.found.Errorf(pos, "words", "put a language of the staff first, such as en, fr or de", "there are no words for tickets in %s", t.Langs[0].Name())
		return false
	}
	return true
}

// word gives the words for a key, or reports that they are missing.
func (t *teller) word(l *words.Lang, key string, pos diag.Pos) string {
	return t.fill(l, key, pos, nil)
}

func (t *teller) fill(l *words.Lang, key string, pos diag.Pos, slots map[string]string) string {
	s, err := l.Fill(key, slots)
	if err != nil {
		t.found.Errorf(pos, "words", "complete the language file", "%v", err)
		return "?"
	}
	return s
}

// note says words of the first language that no law asks for.
func (t *teller) note(key string) words.Said {
	pos := t.Facts.Product.Pos
	return words.Said{Role: role.Note, Text: t.word(t.Langs[0], key, pos), Src: pos}
}

// speech says the buyer's words in one language.
func (t *teller) speech(i int) speech {
	told, l := t.Told[i], t.Langs[i]
	s := speech{name: told.Name, about: t.about(l), may: told.May, contains: []words.Said{t.contains(l)}}
	for _, x := range told.Statements {
		x.Strong = [][2]int{{0, len(x.Text)}}
		s.contains = append(s.contains, x)
	}
	for _, x := range told.Lists {
		if x.Role == role.Allergens {
			x.Role = role.Note // the buyer's side says it in full size
		}
		s.lists = append(s.lists, x)
	}
	return s
}

// contains names the allergens of the food. A food without any says so, because
// an empty place could also be a ticket that nobody completed.
func (t *teller) contains(l *words.Lang) words.Said {
	if s := words.Contains(t.Facts, l, t.found); s.Text != "" {
		return s
	}
	pos := t.Facts.Product.Pos
	return words.Said{Role: role.Allergens, Text: t.word(l, "ticket.no-allergens", pos) + ".", Src: pos}
}

// about is the kitchen's own line. It is typed by hand, so it may not name an
// allergen that the food does not contain, be it to praise the food or to call
// it free of it.
func (t *teller) about(l *words.Lang) words.Said {
	line, ok := shop.In(t.Facts.Product.About, l.Code())
	if !ok {
		if about := t.Facts.Product.About; len(about) > 0 {
			t.found.Errorf(about[0].Key.Pos, "translation", "add a line that begins with "+l.Code()+":", "the line about %s has no text in %s", t.Facts.Product.ID, l.Name())
		}
		return words.Said{}
	}
	for _, a := range t.Facts.Market.Allergens.Table {
		if _, missing := l.Emphasis(line.V, []string{a.ID}); len(missing) == 0 && !slices.Contains(t.Facts.Contains, a.ID) {
			t.found.Errorf(line.Pos, "about", "take the word out; what a food contains is computed", "this line names %s, which %s does not contain", a.ID, t.Facts.Product.ID)
		}
	}
	return words.Said{Role: role.Note, Text: line.V, Src: line.Pos}
}

// price says the selling price.
func (t *teller) price() words.Said {
	p := t.Pack.Price
	if !p.Set() {
		return words.Said{}
	}
	return words.Said{Role: role.Note, Text: t.Langs[0].Money(p.V), Src: p.Pos}
}

// per says the unit price where the market asks for one and it is not the
// selling price itself.
func (t *teller) per() words.Said {
	rule, ok := t.Facts.Market.UnitPrice()
	if !ok || !t.Pack.Price.Set() || !rule.Asked(t.Pack.Net.V) {
		return words.Said{}
	}
	m, ok := t.Pack.Price.V.For(rule.Per, t.Pack.Net.V)
	if !ok {
		t.found.Errorf(t.Pack.Price.Pos, "price", "see whether the price and the net quantity are right", "the price of a kilogram cannot be computed")
		return words.Said{}
	}
	l := t.Langs[0]
	return words.Said{Role: role.Note, Text: l.Money(m) + noBreak + "/" + noBreak + t.word(l, "unit.kg", t.Pack.Price.Pos), Src: t.Pack.Price.Pos}
}

// amount says how many pieces and how much are sold at that price.
func (t *teller) amount() words.Said {
	var all []string
	for _, l := range t.Langs {
		s, err := l.Count("count.pieces", int64(max(1, t.Pack.Pieces.V)))
		if err != nil {
			t.found.Errorf(t.Pack.Pieces.Pos, "words", "complete the language file", "%v", err)
		}
		if !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	text := strings.Join(all, " / ")
	if t.Pack.Net.V > 0 {
		text += " · " + t.Langs[0].Mass(t.Pack.Net.V)
	}
	return words.Said{Role: role.Note, Text: text, Src: t.Pack.Net.Pos}
}

// version says which version the ticket is of.
func (t *teller) version() words.Said {
	p, l := t.Facts.Product, t.Langs[0]
	text := t.word(l, "card.version", p.Version.Pos) + noBreak + l.Plain(int64(p.Version.V), 0) + " · " + l.Date(p.Issued.V, words.Day)
	return words.Said{Role: role.Note, Text: text, Src: p.Version.Pos}
}

// staff says what only the staff need: how it is kept, how long, how to read
// the batch code, and what to do when in doubt.
func (t *teller) staff() []words.Said {
	out := []words.Said{t.keep(), t.life(), t.batch(), t.note("ticket.unsure")}
	return slices.DeleteFunc(out, func(s words.Said) bool { return s.Text == "" })
}

// keep says how it is kept, also where a label need not say it.
func (t *teller) keep() words.Said {
	k, l := t.Facts.Product.Keep, t.Langs[0]
	if s := t.Told[0].Keep; s.Text != "" || !k.Temp.Set() {
		return s
	}
	return words.Said{Role: role.Note, Text: t.word(l, "card.keep", k.Pos) + ": " + l.Temp(k.Temp.V, false) + ".", Src: k.Pos}
}

// life says the last day as a rule, since a ticket outlives the day.
func (t *teller) life() words.Said {
	k, l := t.Facts.Product.Keep, t.Langs[0]
	kind := t.Facts.Date.Kind
	if kind == "none" || kind == "" {
		return words.Said{}
	}
	life := k.Life.V
	for _, x := range t.Facts.Date.Lives {
		if x.End(t.Facts.Made).Before(life.End(t.Facts.Made)) {
			life = x // of a component, which limits the whole
		}
	}
	key, n := "ticket.days", life.Days
	if life.Months > 0 {
		key, n = "ticket.months", life.Months
	}
	span, err := l.Count(key, int64(n))
	if err != nil {
		t.found.Errorf(k.Life.Pos, "words", "complete the language file", "%v", err)
	}
	return words.Said{Role: role.Note, Text: t.fill(l, "ticket."+strings.TrimSuffix(kind, "-end"), k.Life.Pos, map[string]string{"life": span}) + ".", Src: k.Life.Pos}
}

// batch says how a batch code is read, with that of the day as an example.
func (t *teller) batch() words.Said {
	l, rule := t.Langs[0], t.Shop.Profile.BatchCode
	day := t.Facts.Made
	if day == (unit.Date{}) {
		day = t.Facts.Product.Issued.V
	}
	named := strings.NewReplacer("{yy}", "\n"+t.word(l, "ticket.batch-year", rule.Pos)+"\n",
		"{day}", "\n"+t.word(l, "ticket.batch-day", rule.Pos)+"\n", "{letter}", "\n"+t.word(l, "ticket.batch-letter", rule.Pos)+"\n").Replace(rule.V)
	parts := slices.DeleteFunc(strings.Split(named, "\n"), func(s string) bool { return s == "" })
	return words.Said{Role: role.Note, Src: rule.Pos, Text: t.fill(l, "ticket.batch", rule.Pos, map[string]string{
		"parts": strings.Join(parts, " + "), "date": l.Date(day, words.Day), "example": t.Shop.BatchCode(shop.Run{}, day)}) + "."}
}
