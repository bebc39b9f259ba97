package words

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/claim"
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/stem"
)

// ClaimsIn lists what a text promises: free from something, vegan and the like.
func (l *Lang) ClaimsIn(text string) []claim.Found {
	if l.claims == nil {
		return nil
	}
	return l.claims.Find(text, l.named)
}

// named finds where a text names an allergen.
func (l *Lang) named(text string) (out []claim.Span) {
	letters := stem.Cut(text)
	for _, id := range l.ids {
		for _, r := range l.search[id].stems(letters) {
			name := strings.ReplaceAll(id, "-", " ")
			if id == "cereals-containing-gluten" {
				name = claim.Gluten
			}
			out = append(out, claim.Span{ID: name, From: r[0], To: r[1]})
		}
	}
	return out
}

// Claims looks for words of a claim in every text of a shop, in whatever
// language and wherever it stands: names, lines for the counter, names of
// formulas, ingredients and their parts, the name of the business. A promise
// that the food does not keep is refused, and so is one that nobody stated
// under free-from or suits, because nobody was asked to check it. What only the kitchen reads
// gives cautions. Nothing is printed of a shop before this was run.
func Claims(sh *shop.Shop, found *diag.List) {
	for _, id := range sh.IngredientIDs {
		i := sh.Ingredients[id]
		newPromise(sh, found, id, []*shop.Ingredient{i}).ofIngredient(i)
	}
	for _, id := range sh.FormulaIDs {
		newPromise(sh, found, id, sh.Into(id)).ofFormula(sh.Formulas[id])
	}
	for _, id := range sh.ProductIDs {
		newPromise(sh, found, id, sh.Into(id)).ofProduct(sh.Products[id])
	}
	ofHouse(sh, found)
}

// promise judges the claims of one ingredient, formula or product.
type promise struct {
	shop    *shop.Shop
	found   *diag.List
	id      string
	with    []*shop.Ingredient // that are in it
	house   []string           // allergens that the kitchen cannot keep out
	product *shop.Product      // or nil
	bought  *shop.Ingredient   // or nil
}

func newPromise(sh *shop.Shop, found *diag.List, id string, with []*shop.Ingredient) *promise {
	return &promise{shop: sh, found: found, id: id, with: with}
}

func (p *promise) ofIngredient(i *shop.Ingredient) {
	p.bought = i
	shop.EachWritten(i, p.text)
}

func (p *promise) ofFormula(f *shop.Formula) {
	p.house = texts(p.shop.Profile.CrossContact)
	shop.EachWritten(f, p.text)
}

func (p *promise) ofProduct(q *shop.Product) {
	p.product, p.house = q, texts(p.shop.Profile.CrossContact)
	shop.EachWritten(q, p.text)
	for _, s := range q.Suits {
		p.suits(s)
	}
}

// text judges the claims of one text.
func (p *promise) text(w shop.Written) {
	l, ok := Get(w.Lang)
	if !ok {
		return
	}
	for _, f := range l.ClaimsIn(w.Text) {
		p.judge(said{w, w.Text[f.From:f.To], f.About, w.Kitchen})
	}
}

// said is one claim: where it stands, its words, what it is about.
type said struct {
	shop.Written
	words   string
	about   string
	caution bool // what would be refused is a caution
}

// wrong refuses, or cautions where the kitchen alone reads it.
func (p *promise) wrong(s said, hint, format string, args ...any) {
	report := p.found.Errorf
	if s.caution {
		report = p.found.Warnf
	}
	report(s.Pos, "claim", hint, "%q in %q: %s", s.words, s.Text, fmt.Sprintf(format, args...))
}

func (p *promise) caution(s said, hint, format string, args ...any) {
	s.caution = true
	p.wrong(s, hint, format, args...)
}

func (p *promise) judge(s said) {
	switch s.about {
	case claim.Sugar:
		p.sugar(s)
	case claim.Alcohol:
		p.alcohol(s)
	case claim.Everything:
		p.everything(s)
	case claim.Vegan, claim.Vegetarian:
		p.animals(s)
	case claim.Plant, claim.Lean, claim.Lenten, claim.Flourless:
		p.vague(s)
	default:
		p.freeFrom(s)
	}
}

// freeFrom judges a promise that an allergen, gluten or lactose is absent.
func (p *promise) freeFrom(s said) {
	lactose := s.about == claim.Lactose
	if lactose && p.product == nil {
		return // milk without lactose is milk, and is sold as such
	}
	for _, id := range declare.Kinds(s.about) {
		if i := p.holder(id); i != nil {
			if id == "oats" && s.about == claim.Gluten && p.bought != nil {
				p.caution(s, "see that the supplier states less than 20 mg/kg (Reg. (EU) No 828/2014)", "oats that are sold as free from gluten are oats all the same")
				continue
			}
			p.wrong(s, "take the words out, or look at what it is made of", "%s contains %s%s", p.id, id, from(p.id, i))
			return
		}
	}
	for _, id := range declare.Kinds(s.about) {
		if who := p.may(id); who != "" {
			p.wrong(s, "take the words out, or have the risk assessed and ruled out", "%s may contain %s (%s)", p.id, id, who)
			return
		}
	}
	if q := p.product; q != nil && !covers(q.FreeFrom, s.about) && !s.caution {
		p.wrong(s, "take the words out, or write free-from: ["+s.about+"], which is then checked", "%s does not state it under free-from", p.id)
	}
}

// holder is the first ingredient that contains an allergen.
func (p *promise) holder(id string) *shop.Ingredient {
	for _, i := range p.with {
		if has(texts(i.Holds()), id) {
			return i
		}
	}
	return nil
}

func from(id string, i *shop.Ingredient) string {
	if i.ID == id {
		return ""
	}
	return ", from " + i.ID
}

// may says what may bring an allergen in, or "".
func (p *promise) may(id string) string {
	for _, i := range p.with {
		if has(texts(i.MayContain), id) && !p.ruledOut(id, i.ID) {
			return i.ID
		}
	}
	if has(p.house, id) && !p.ruledOut(id, "site") {
		return "the kitchen"
	}
	return ""
}

// ruledOut reports whether the assessment of the product found one source to
// keep an allergen out.
func (p *promise) ruledOut(id, source string) bool {
	return p.product != nil && slices.ContainsFunc(p.product.RuledOut, func(r shop.RuledOut) bool {
		return r.Allergen.V == id && has(texts(r.From), source)
	})
}

// covers reports whether the stated keys vouch for all that a claim is about.
func covers(stated []shop.Text, about string) bool {
	var ids []string
	for _, s := range stated {
		ids = append(ids, declare.Kinds(s.V)...)
	}
	return !slices.ContainsFunc(declare.Kinds(about), func(id string) bool { return !has(ids, id) })
}

// everything: nobody can promise that nothing at all is in a food.
func (p *promise) everything(s said) {
	if p.bought != nil && len(p.bought.Holds())+len(p.bought.MayContain) == 0 {
		p.caution(s, "see that the supplier says of which", "no food is free from everything that someone cannot eat")
		return
	}
	p.wrong(s, "say what it is free from, and write that under free-from", "no food is free from everything that someone cannot eat")
}

// sugar: a nutrition claim, with conditions of its own.
func (p *promise) sugar(s said) {
	if p.bought == nil {
		p.caution(s, "read the conditions of Reg. (EC) No 1924/2006 Annex: sugar-free is at most 0.5 g in 100 g", "words on sugar are a nutrition claim, and nobody checked it here")
	}
}

func (p *promise) alcohol(s said) {
	for _, i := range p.with {
		if i.Alcohol.V > 0 {
			p.caution(s, "see how much is left, and what the country allows", "%s is in it", i.ID)
			return
		}
	}
	if p.bought == nil {
		p.caution(s, "see what the country allows, and that no flavouring brings alcohol in", "nobody checked the absence of alcohol here")
	}
}

// vague judges words that may be a promise: "plant", "lean", "flourless".
func (p *promise) vague(s said) {
	ids := []string{"milk", "eggs"}
	if s.about == claim.Flourless {
		ids = declare.Kinds(claim.Gluten)
	}
	for _, id := range ids {
		if i := p.holder(id); i != nil {
			if s.about != claim.Lenten {
				s.caution = true
			}
			p.wrong(s, "say it in other words, or look at what it is made of", "many read that as without %s, but %s contains it%s", id, p.id, from(p.id, i))
			return
		}
	}
	if p.product != nil && s.about == claim.Plant && len(p.product.Suits) == 0 {
		p.caution(s, "if it is meant as vegan, write suits: [vegan]", "many read that as vegan, and %s does not state it", p.id)
	}
}

// animals judges a promise of vegan or vegetarian food.
func (p *promise) animals(s said) {
	if why := p.animal(s.about); why != "" {
		p.wrong(s, "take the words out, or look at what it is made of", "%s", why)
		return
	}
	q := p.product
	switch {
	case q == nil:
		p.feared(s)
	case s.caution:
	case !slices.ContainsFunc(q.Suits, func(t shop.Text) bool { return t.V == s.about || t.V == claim.Vegan }):
		p.wrong(s, "take the words out, or write suits: ["+s.about+"], which is then checked", "%s does not state it under suits", p.id)
	}
}

// suits judges what a product states.
func (p *promise) suits(stated shop.Text) {
	s := said{shop.Written{Text: "suits", Pos: stated.Pos}, stated.V, stated.V, false}
	if why := p.animal(stated.V); why != "" {
		p.wrong(s, "take it away", "%s", why)
		return
	}
	p.feared(s)
}

// feared cautions where something of an animal may be in food for vegans. It is
// no refusal: traces do not make a food unfit for those who eat it by choice,
// but those who eat it for an allergy must read on.
func (p *promise) feared(s said) {
	for _, id := range ofAnimals(s.about) {
		if who := p.may(id); who != "" {
			p.caution(s, "see that the line on what it may contain stands beside it", "%s may contain %s (%s)", p.id, id, who)
		}
	}
}

// ofAnimals are the allergens that a word rules out. No law of the Union defines
// the words (Reg. (EU) No 1169/2011 Art. 36(3)(b)); what follows is common
// usage, as ISO 23662:2021 has it, from memory.
func ofAnimals(about string) []string {
	if about == claim.Vegetarian {
		return []string{"fish", "crustaceans", "molluscs"}
	}
	return []string{"milk", "eggs", "fish", "crustaceans", "molluscs"}
}

// Additives of animals (Reg. (EC) No 1333/2008, Reg. (EU) No 231/2012): of
// slaughtered animals and insects, and of living ones.
const slaughtered, living = " E120 E441 E542 ", " E901 E904 E913 E966 E1105 "

// animal says what of an animal is in it, or "".
func (p *promise) animal(about string) string {
	for _, id := range ofAnimals(about) {
		if i := p.holder(id); i != nil {
			return fmt.Sprintf("%s contains %s%s", p.id, id, from(p.id, i))
		}
	}
	for _, i := range p.with {
		if word, number := animalIn(i, about); word != "" {
			return fmt.Sprintf("%q (%s) is of an animal", word, i.ID)
		} else if number != "" {
			return fmt.Sprintf("%s (%s) is of an animal", number, i.ID)
		}
	}
	return ""
}

// animalIn finds a name or a number in an ingredient that speaks of an animal.
func animalIn(i *shop.Ingredient, about string) (word, number string) {
	vegan := about == claim.Vegan
	shop.EachWritten(i, func(w shop.Written) {
		l, ok := claim.Get(w.Lang)
		if !ok || w.Kitchen || word != "" {
			return
		}
		if kind := l.OfAnimals(w.Text); kind == "slaughter" || kind != "" && vegan {
			word = w.Text
		}
	})
	for _, n := range numbers(i.Number, i.MadeOf) {
		if key := " " + n + " "; strings.Contains(slaughtered, key) || vegan && strings.Contains(living, key) {
			number = n
		}
	}
	return word, number
}

// numbers are the E numbers of an ingredient and of what it is made of.
func numbers(own shop.Text, inner []shop.Inner) []string {
	out := []string{strings.ReplaceAll(own.V, " ", "")}
	for _, in := range inner {
		out = append(out, numbers(in.Number, in.MadeOf)...)
	}
	return out
}

// ofHouse judges what the business calls itself: it stands on every label, so
// every product must keep it.
func ofHouse(sh *shop.Shop, found *diag.List) {
	house := sh.Profile.Name
	var langs []string
	for _, c := range slices.Concat(sh.Profile.LabelLanguages, sh.Profile.CardLanguages) {
		if !has(langs, c.V) {
			langs = append(langs, c.V)
		}
	}
	for _, id := range sh.ProductIDs {
		p := newPromise(sh, found, id, sh.Into(id))
		p.product, p.house = sh.Products[id], texts(sh.Profile.CrossContact)
		for _, code := range langs {
			p.text(shop.Written{Lang: code, Text: house.V, Pos: house.Pos})
		}
		shop.EachWritten(sh.Profile, p.text)
		for _, plan := range sh.Plans {
			shop.EachWritten(plan, p.text)
		}
	}
}

func texts(in []shop.Text) (out []string) {
	for _, t := range in {
		out = append(out, t.V)
	}
	return out
}
