package ticket

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
)

// content is all that a ticket says, before it meets any paper.
type content struct {
	speeches []speech
	price    words.Said // empty without a price
	per      words.Said // the price of a kilogram
	amount   words.Said // "1 piece · 85 g"
	version  words.Said
	valid    words.Said // how long the ticket may stand
	word     words.Said // the check word, empty without one
	staff    []words.Said
	head     words.Said // of the staff's side
}

// speech is what the buyer reads in one language.
type speech struct {
	name, about words.Said
	contains    []words.Said // allergens, and what else a buyer must know
	may         words.Said
	lists       []words.Said // on the staff's side
	more        []words.Said // what the country asks for beside the allergens: list, storage, maker
}

// teller says one ticket.
type teller struct {
	*compose.Teller
	Ticket
}

// tell says what stands on the ticket; it reports false, with findings, when
// something cannot be said.
func tell(t Ticket, found *diag.List) (content, bool) {
	pos := t.Facts.Product.Pos
	if len(t.Langs) < 1 || len(t.Langs) > 2 || len(t.Told) != len(t.Langs) {
		found.Errorf(pos, "languages", "name one or two languages, and print a second ticket for more", "a ticket is in one or two languages, not %d", len(t.Langs))
		return content{}, false
	}
	l := &teller{compose.Tell("ticket", pos, found, t.Langs...), t}
	if !l.In(l.Lang()).Speaks("put a language of the staff first, such as", "sheet", "card") {
		return content{}, false
	}
	out := content{price: l.price(), per: l.per(), amount: l.amount(), version: l.version(), valid: l.note(t.Facts.Product.Version.Pos, l.Word("ticket.valid")),
		staff: l.staff(), head: l.note(pos, l.Word("ticket.staff"))}
	if t.CheckWord != "" {
		out.word = l.note(pos, l.Word("card.check-word")+": "+t.CheckWord)
	}
	for i := range t.Told {
		out.speeches = append(out.speeches, l.speech(i))
	}
	return out, l.Done()
}

// note is words that no law asks for.
func (t *teller) note(at diag.Pos, s string) words.Said {
	return words.Said{Role: role.Note, Text: s, Src: at}
}

// speech says the buyer's words in one language.
func (t *teller) speech(i int) speech {
	told, l := t.Told[i], t.Ticket.Langs[i]
	s := speech{name: told.Name, about: t.about(l), may: told.May, contains: []words.Said{t.contains(l)}}
	for _, x := range told.Statements {
		x.Strong = [][2]int{{0, len(x.Text)}}
		s.contains = append(s.contains, x)
	}
	for _, x := range told.Loose {
		x.Strong = [][2]int{{0, len(x.Text)}}
		s.contains = append(s.contains, x)
	}
	s.more = t.more(told)
	for _, x := range told.Lists {
		said := func(y words.Said) bool { return y.Role == x.Role }
		if x.Role == role.Allergens || slices.ContainsFunc(s.more, said) {
			x.Role = role.Note // the buyer's side says it; here it is for the staff
		}
		s.lists = append(s.lists, x)
	}
	return s
}

// more is what the country asks for on the buyer's side beside name and
// allergens: the table of the market decides.
func (t *teller) more(told *words.Label) (out []words.Said) {
	needs, _ := t.Facts.Market.Needs(t.Facts.AsLoose()) // the page is refused where nobody knows
	due := func(what role.Role) bool {
		return slices.ContainsFunc(needs, func(n market.Need) bool {
			return n.Duty == market.Must && (n.Role == what || n.Role == role.Quid && n.In == what)
		})
	}
	if due(role.List) {
		for _, l := range told.Lists {
			if l.Role == role.List {
				out = append(out, l)
			}
		}
	}
	for _, s := range []words.Said{told.Keep, told.Operator} {
		if s.Text != "" && due(s.Role) {
			out = append(out, s)
		}
	}
	return out
}

// contains names the allergens of the food. A food without any says so, because
// an empty place could also be a ticket that nobody completed.
func (t *teller) contains(l *words.Lang) words.Said {
	if s := words.Contains(t.Facts, l, t.Found()); s.Text != "" {
		return s
	}
	return words.Said{Role: role.Allergens, Text: t.In(l).Word("ticket.no-allergens") + ".", Src: t.At()}
}

// about is the kitchen's own line.
func (t *teller) about(l *words.Lang) words.Said { return words.About(t.Facts, l, t.Found()) }

// price says the selling price.
func (t *teller) price() words.Said {
	p := t.Pack.Price
	if t.Pack.ByWeight() && t.Pack.PerKilo.Set() {
		return t.note(t.Pack.PerKilo.Pos, t.Lang().Money(t.Pack.PerKilo.V)+compose.NoBreak+"/"+compose.NoBreak+t.Word("unit.kg"))
	}
	if !p.Set() {
		return words.Said{}
	}
	return t.note(p.Pos, t.Lang().Money(p.V))
}

// per says the unit price where the market asks for one and it is not the
// selling price itself.
func (t *teller) per() words.Said {
	rule, ok := t.Facts.Market.UnitPrice()
	if !ok || !t.Pack.Price.Set() || !rule.Asked(t.Pack.Net.V) {
		return words.Said{}
	}
	m, ok := rule.Of(t.Pack.Price.V, t.Pack.Net.V)
	if !ok {
		t.Found().Errorf(t.Pack.Price.Pos, "price", "see whether the price and the net quantity are right", "the price of a kilogram cannot be computed")
		return words.Said{}
	}
	return t.note(t.Pack.Price.Pos, t.Lang().MoneyIn(t.Pack.Price.V.Currency, m.N, m.Decimals)+compose.NoBreak+"/"+compose.NoBreak+t.Word("unit.kg"))
}

// amount says how many pieces and how much are sold at that price.
func (t *teller) amount() words.Said {
	if t.Pack.ByWeight() {
		return words.Said{}
	}
	var all []string
	for _, l := range t.Ticket.Langs {
		if s := t.In(l).Count("count.pieces", int64(max(1, t.Pack.Pieces.V))); !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	text := strings.Join(all, " / ")
	if t.Pack.Net.V > 0 {
		text += " · " + t.Lang().Mass(t.Pack.Net.V)
	}
	return t.note(t.Pack.Net.Pos, text)
}

// version says which version the ticket is of.
func (t *teller) version() words.Said {
	p := t.Facts.Product
	return t.note(p.Version.Pos, t.Word("card.version")+compose.NoBreak+t.Plain(int64(p.Version.V))+" · "+t.Lang().Date(p.Issued.V, words.Day))
}

// staff says what only the staff need: how it is kept, how long, how to read
// the batch code, and what to do when in doubt.
func (t *teller) staff() []words.Said {
	out := []words.Said{t.keep(), t.life(), t.batch(), t.note(t.At(), t.Word("ticket.unsure"))}
	return slices.DeleteFunc(out, func(s words.Said) bool { return s.Text == "" })
}

// keep says how it is kept, also where a label need not say it.
func (t *teller) keep() words.Said {
	k := t.Facts.Product.Keep
	if s := t.Told[0].Keep; s.Text != "" || !k.Temp.Set() {
		return s
	}
	return t.note(k.Pos, t.Word("card.keep")+": "+t.Lang().Limit(k.Temp.V, false)+".")
}

// life says the last day as a rule, since a ticket outlives the day.
func (t *teller) life() words.Said {
	k, kind := t.Facts.Product.Keep, t.Facts.Date.Kind
	if kind == "none" || kind == "" {
		return words.Said{}
	}
	life := k.Life.V
	for _, x := range t.Facts.Date.Lives {
		if x.End(t.Facts.Made).Before(life.End(t.Facts.Made)) {
			life = x // of a component, which limits the whole
		}
	}
	return t.note(k.Life.Pos, t.Fill("ticket."+strings.TrimSuffix(kind, "-end"), map[string]string{"life": t.Life(life)})+".")
}

// batch says how a batch code is read, with that of the day as an example.
func (t *teller) batch() words.Said {
	rule, day := t.Shop.Profile.BatchCode, t.Facts.Made
	if day == (unit.Date{}) {
		day = t.Facts.Product.Issued.V
	}
	name := strings.NewReplacer("{yy}", "\n"+t.Word("ticket.batch-year")+"\n", "{day}", "\n"+t.Word("ticket.batch-day")+"\n",
		"{letter}", "\n"+t.Word("ticket.batch-letter")+"\n")
	parts := slices.DeleteFunc(strings.Split(name.Replace(rule.V), "\n"), func(s string) bool { return s == "" })
	return t.note(rule.Pos, t.Fill("ticket.batch", map[string]string{
		"parts": strings.Join(parts, " + "), "date": t.Lang().Date(day, words.Day), "example": t.Shop.BatchCode(shop.Run{}, day)})+".")
}
