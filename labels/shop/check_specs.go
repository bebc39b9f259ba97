package shop

import (
	"cmp"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/unit"
)

// versions: formulas and products count their versions from 1.
func (c *checker) versions() {
	check := func(v diag.At[int]) {
		if v.Set() && v.V < 1 {
			c.wrong(v.Pos, "version", "count the versions from 1", "there is no version %d", v.V)
		}
	}
	c.formulas(func(f *Formula) { check(f.Version) })
	c.products(func(p *Product) { check(p.Version) })
}

// allergens: ids are those that the law's tables know, each named once; what
// is contained need not be feared as well.
func (c *checker) allergens() {
	known := market.AllergenIDs()
	c.ingredients(func(i *Ingredient) {
		c.allergenIDs(i.Contains, known)
		c.allergenIDs(i.MayContain, known)
		inners(i.MadeOf, func(in Inner) { c.allergenIDs(in.Contains, known) })
		for _, m := range i.MayContain {
			if has(i.Contains, m.V) {
				c.caution(m.Pos, "allergen", "take it out of may-contain", "%s is contained anyway", m.V)
			}
		}
		if has(i.Contains, "sulphites") && i.SO2.Set() && i.SO2.V == 0 && c.whole(i.Pos) {
			c.wrong(i.Pos, "allergen", "write sulphites: and the amount from the specification, such as 150 mg/kg",
				"it contains sulphites, but not how much; the limit in the finished food cannot be checked")
		}
	})
}

func (c *checker) allergenIDs(ids []Text, known []string) {
	for n, id := range ids {
		switch {
		case !slices.Contains(known, id.V):
			c.unsound[id.Pos.File] = true
			c.wrong(id.Pos, "allergen", allergenHint(id.V, known), "%q is not an allergen that is declared", id.V)
		case has(ids[:n], id.V):
			c.caution(id.Pos, "allergen", "take one of the two out", "%s is named twice", id.V)
		}
	}
}

// allergenHint names the substance where a group or another word was written:
// the law wants the cereal and the nut by name (Reg. (EU) 1169/2011 Annex II).
func allergenHint(word string, known []string) string {
	word = strings.ToLower(word)
	switch {
	case strings.Contains(word, "gluten") || strings.HasPrefix(word, "cereal"):
		return "name the cereal: wheat, rye, barley or oats"
	case word == "nut" || word == "nuts" || strings.HasSuffix(word, "of nuts") || strings.HasPrefix(word, "tree"):
		return "name the nut, such as almonds, hazelnuts or pistachio nuts"
	case strings.HasPrefix(word, "soy"):
		return `did you mean "soybeans"?`
	case word == "lactose" || word == "dairy" || word == "butter" || word == "cream":
		return `did you mean "milk"?`
	case strings.HasPrefix(word, "sul"):
		return `did you mean "sulphites"?`
	}
	return meant(word, known, "the ids are "+strings.Join(known, ", "))
}

func has(ids []Text, id string) bool {
	return slices.ContainsFunc(ids, func(t Text) bool { return t.V == id })
}

// inners calls do for every inner ingredient, however deep.
func inners(in []Inner, do func(Inner)) {
	for _, i := range in {
		do(i)
		inners(i.MadeOf, do)
	}
}

// ruledOut: what was ruled out is an allergen, of ingredients that there are, or
// of the kitchen itself.
func (c *checker) ruledOut() {
	c.products(func(p *Product) {
		for _, r := range p.RuledOut {
			c.allergenIDs([]Text{r.Allergen}, market.AllergenIDs())
			for _, from := range r.From {
				if from.V != "site" && c.Ingredients[from.V] == nil {
					c.wrong(from.Pos, "use", meant(from.V, append(slices.Clone(c.IngredientIDs), "site"), "name an ingredient, or site for the kitchen itself"), "there is no ingredient %q", from.V)
				}
			}
		}
	})
}

// innerAllergens: what an inner ingredient contains, the ingredient contains,
// save what the law excepts there; and where it is taken apart, each allergen
// is that of an inner ingredient that is not excepted, so that the list can
// show where it is.
func (c *checker) innerAllergens() {
	c.ingredients(func(i *Ingredient) {
		if i.Contains == nil || len(i.MadeOf) == 0 || c.unsound[i.Pos.File] {
			return
		}
		shown, excepted := map[string]bool{}, map[string]string{}
		inners(i.MadeOf, func(in Inner) {
			for _, a := range in.Contains {
				switch {
				case c.excepts(a.V, in.Exception.V):
					excepted[a.V] = in.Exception.V
				case !has(i.Contains, a.V):
					c.wrong(a.Pos, "allergen", "add it to contains: of the ingredient", "an inner ingredient contains %s, but %s does not say so", a.V, i.ID)
					fallthrough
				default:
					shown[a.V] = true
				}
			}
		})
		for _, a := range i.Contains {
			switch {
			case shown[a.V] || !c.whole(i.Pos):
			case excepted[a.V] != "":
				c.wrong(a.Pos, "allergen", "say which other part has it by contains: at that part, or take it out here",
					"%s contains %s, but the only inner ingredient that does is excepted as %s", i.ID, a.V, excepted[a.V])
			default:
				c.wrong(a.Pos, "allergen", "write contains: at the inner ingredient that it comes from", "%s contains %s, but none of its inner ingredients does", i.ID, a.V)
			}
		}
	})
}

// excepts reports whether a market of the shop frees an allergen for a reason.
func (c *checker) excepts(id, because string) bool {
	return slices.ContainsFunc(c.Profile.Markets, func(code Text) bool {
		m, ok := market.Get(code.V)
		return ok && m.Allergens.Excepted(id, because)
	})
}

// exceptions: an exception is one that some law has, for an allergen that is
// contained where it is written. Of a compound it is written at the part: the
// other parts are not excepted with it.
func (c *checker) exceptions() {
	known := market.ExceptionKeys()
	at := func(because Text, contains []Text, compound bool) {
		switch {
		case !because.Set():
		case !slices.Contains(known, because.V):
			c.wrong(because.Pos, "exception", meant(because.V, known, "the exceptions are "+list(known)), "no law has the exception %q", because.V)
		case compound:
			c.wrong(because.Pos, "exception", "write it at the inner ingredient that it is about", "an exception is not for a compound as a whole: its other parts are not excepted with it")
		case len(contains) == 0:
			c.caution(because.Pos, "exception", "take it out, or write the allergen under contains", "there is nothing here that %s could except", because.V)
		}
	}
	c.ingredients(func(i *Ingredient) {
		at(i.Exception, i.Contains, len(i.MadeOf) > 0)
		inners(i.MadeOf, func(in Inner) { at(in.Exception, in.Contains, len(in.MadeOf) > 0) })
	})
}

// madeOf: the shares of inner ingredients come to about 100 %, and fall.
func (c *checker) madeOf() {
	c.ingredients(func(i *Ingredient) { c.inner(i.MadeOf, i.Pos) })
}

func (c *checker) inner(in []Inner, pos diag.Pos) {
	var sum unit.Share
	complete := c.whole(pos)
	for n, i := range in {
		c.share(i.Share, "the share")
		if i.Share.Set() && i.Share.V == 0 {
			c.wrong(i.Share.Pos, "range", "write the share from the specification", "an inner ingredient has no share")
		}
		complete = complete && i.Share.Set()
		sum += min(max(i.Share.V, 0), unit.Whole)
		if n > 0 && i.Share.V > in[n-1].Share.V && in[n-1].Share.V >= 2*unit.Percent {
			c.caution(i.Share.Pos, "order", "write inner ingredients in falling order, as on the specification", "this share is larger than the one before")
		}
		c.inner(i.MadeOf, i.Pos)
	}
	switch {
	case len(in) == 0:
	case sum > unit.Whole:
		c.wrong(in[0].Pos, "made-of", "look at the shares on the specification", "the shares of the inner ingredients come to %s", sum)
	case sum < 99*unit.Percent && complete:
		c.caution(in[0].Pos, "made-of", "ask the supplier for what is missing", "the shares of the inner ingredients come to %s only", sum)
	}
}

// specs: what is bought from a supplier has a specification with sound dates.
// That it has none keeps no card from the bench: what is sold of it is refused
// where it is declared.
func (c *checker) specs() {
	c.ingredients(func(i *Ingredient) {
		switch {
		case i.Spec == nil && i.Supplier.Set() && c.whole(i.Pos):
			c.caution(i.Pos, "spec", "ask "+i.Supplier.V+" for the specification and write its version and dates", "%s has a supplier, but no specification, so nothing that holds it may be labelled", i.ID)
		case i.Spec == nil || !i.Spec.Dated.Set() || !i.Spec.ReviewBy.Set():
		case i.Spec.ReviewBy.V.Before(i.Spec.Dated.V):
			c.wrong(i.Spec.ReviewBy.Pos, "spec", "write the day by which it must be asked for again", "to be reviewed by %s, but dated %s", i.Spec.ReviewBy.V, i.Spec.Dated.V)
		}
	})
}

// Overdue asks about specifications that should have been asked for again by
// today, and refuses sheets that are dated after today: what rests on them is
// not there yet. What is sold of an overdue one is settled by [Shop.Lapsed].
func (s *Shop) Overdue(today unit.Date, found *diag.List) {
	c := &checker{s, found, map[string]bool{}}
	c.ingredients(func(i *Ingredient) {
		if i.Spec == nil {
			return
		}
		if by := i.Spec.ReviewBy; by.Set() && by.V.Before(today) {
			d := i.overdue()
			d.Warning = true
			found.Add(d)
		}
		c.notYet(i.Spec.Dated, today)
	})
	c.formulas(func(f *Formula) { c.notYet(f.Issued, today) })
	c.products(func(p *Product) {
		c.notYet(p.Issued, today)
		for _, k := range p.Packs {
			c.notYet(k.PortionOn, today)
		}
	})
}

// overdue is what is said of a specification past its review.
func (i *Ingredient) overdue() diag.Diag {
	return diag.Diag{Pos: i.Spec.ReviewBy.Pos, Rule: "overdue", Hint: "ask " + cmp.Or(i.Supplier.V, "the supplier") + " whether it still holds, then write the new dates",
		Msg: "the specification of " + i.ID + " was to be reviewed by " + i.Spec.ReviewBy.V.String()}
}

// Lapsed gives an error for each specification that a product rests on, was to
// be asked for again, and was let lie for longer than review-grace of shop.yaml:
// nothing that rests on it is sold, though drafts may be read.
func (s *Shop) Lapsed(product string, today unit.Date) (out []diag.Diag) {
	for _, id := range s.MadeOf(product) {
		i := s.Ingredients[id]
		if i == nil || i.Spec == nil || !i.Spec.ReviewBy.Set() {
			continue
		}
		if s.Profile.Grace.V.End(i.Spec.ReviewBy.V).Before(today) {
			out = append(out, i.overdue())
		}
	}
	return out
}

func (c *checker) notYet(d diag.At[unit.Date], today unit.Date) {
	if d.Set() && today.Before(d.V) {
		c.wrong(d.Pos, "date", "see whether the date and the day are right; nothing is printed of it before that day", "%s is still to come on %s", d.V, today)
	}
}

// shares: shares are shares, and what divides is not nothing.
func (c *checker) shares() {
	c.ingredients(func(i *Ingredient) {
		c.share(i.Water, "the water")
		c.share(i.SO2, "the sulphur dioxide")
		c.share(i.Alcohol, "the alcohol")
		c.share(i.Edible, "the edible share")
		positive(c, i.Edible, "the edible share", "write the share that is left after peeling, such as 75 %")
		positive(c, i.Density, "the density", "write it like 1.03 kg/l")
		if i.Piece != nil {
			positive(c, i.Piece.Mass, "the mass of a piece", "write it like 50 g")
		}
	})
}

// compositions: parts are no more than what they are part of, and all of them
// no more than 100 g. Tables round, so the sum may be a little more.
func (c *checker) compositions() {
	c.ingredients(func(i *Ingredient) {
		p := i.Per100
		if p == nil {
			return
		}
		c.tabled(p)
		var sum unit.Mass
		for _, m := range []diag.At[unit.Mass]{p.Fat, p.Carbohydrate, p.Fibre, p.Protein, p.Salt, p.Alcohol, p.Acids} {
			sum += min(max(m.V, 0), 100*unit.Gram)
		}
		before := c.found.Errors()
		for _, m := range []diag.At[unit.Mass]{p.Fat, p.Saturates, p.Carbohydrate, p.Sugars, p.Polyols, p.Fibre, p.Protein, p.Salt, p.Alcohol, p.Acids,
			p.Trans, p.Cholesterol, p.AddedSugars, p.VitaminD, p.Calcium, p.Iron, p.Potassium} {
			if m.Set() && (m.V < 0 || m.V > 100*unit.Gram) {
				c.wrong(m.Pos, "composition", "write grams in 100 g", "100 g cannot hold %s", m.V)
			}
		}
		c.partOf(p.Saturates, p.Fat, "saturates", "fat")
		c.partOf(p.Trans, p.Fat, "trans fat", "fat")
		c.partOf(p.AddedSugars, p.Sugars, "added sugars", "sugars")
		c.partOf(p.Sugars, p.Carbohydrate, "sugars", "carbohydrate")
		c.partOf(p.Polyols, p.Carbohydrate, "polyols", "carbohydrate")
		if sum > 102*unit.Gram && c.found.Errors() == before {
			c.caution(p.Pos, "composition", "see whether all values are for 100 g", "the parts of 100 g come to %s", sum)
		}
	})
}

func (c *checker) partOf(part, of diag.At[unit.Mass], name, ofName string) {
	if part.Set() && of.Set() && part.V > of.V {
		c.wrong(part.Pos, "composition", "look at the specification again", "%s of %s are more than the %s, %s", part.V, name, ofName, of.V)
	}
}
