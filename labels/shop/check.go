package shop

import (
	"fmt"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// checks lists every check of a shop that was read, in the order in which they
// run. Each looks at one matter. None follows a reference that another one
// has found to be broken, and what is merely missing in a file that could not
// be read as a whole is not reported again.
func checks() []func(*checker) {
	return []func(*checker){
		(*checker).profile, (*checker).operators, (*checker).accepted, (*checker).languages, (*checker).scales, (*checker).printers, (*checker).batchRule,
		(*checker).sameID, (*checker).links, (*checker).circles, (*checker).size,
		(*checker).takes, (*checker).lefts, (*checker).losses, (*checker).waters, (*checker).versions,
		(*checker).allergens, (*checker).innerAllergens, (*checker).exceptions, (*checker).ruledOut, (*checker).tradeWords, (*checker).trulyFree, (*checker).madeOf, (*checker).specs, (*checker).shares, (*checker).compositions,
		(*checker).stepIDs, (*checker).stepNeeds, (*checker).stepUses, (*checker).stepValues, (*checker).stepKeys, (*checker).namedTemps, (*checker).spokenTakes, (*checker).sentences, (*checker).endWeights,
		(*checker).kitchen, (*checker).timedFor, (*checker).ahead, (*checker).readies,
		(*checker).temps, (*checker).coldStores, (*checker).inputTemps, (*checker).heights,
		(*checker).tools, (*checker).bowls, (*checker).bases, (*checker).doughs, (*checker).portions, (*checker).servings, (*checker).reviews, (*checker).strengths, (*checker).asked,
		(*checker).foreignLetters, (*checker).ingredientNames, (*checker).productNames, (*checker).cardWords,
		(*checker).keeps, (*checker).eatings, (*checker).opened, (*checker).together, (*checker).outlive, (*checker).packs, (*checker).nets, (*checker).gtins, (*checker).marks, (*checker).ownNumbers, (*checker).cartons, (*checker).quids, (*checker).prices, (*checker).weighed, (*checker).costs, (*checker).abouts,
		(*checker).customers, (*checker).planDays, (*checker).runs, (*checker).consignments, (*checker).promises, (*checker).batches, (*checker).varies, (*checker).serials, (*checker).approvals, (*checker).measurements,
	}
}

func (s *Shop) check(found *diag.List) {
	c := &checker{s, found, map[string]bool{}}
	if len(s.IngredientIDs) == 0 && len(s.refused) == 0 && len(s.FormulaIDs)+len(s.ProductIDs) > 0 {
		c.wrong(diag.Pos{File: "ingredients"}, "empty", "write a file for each ingredient, such as ingredients/butter.yaml", "the shop has no ingredients")
		return // all else would only repeat it
	}
	for _, run := range checks() {
		run(c)
	}
}

// A checker is one round of checks.
type checker struct {
	*Shop
	found   *diag.List
	unsound map[string]bool // files whose values led to an error that others would echo
}

func (c *checker) wrong(pos diag.Pos, rule, hint, format string, args ...any) {
	c.found.Errorf(pos, rule, hint, format, args...)
}

func (c *checker) caution(pos diag.Pos, rule, hint, format string, args ...any) {
	c.found.Warnf(pos, rule, hint, format, args...)
}

// whole reports whether the file of pos was read without errors.
func (c *checker) whole(pos diag.Pos) bool { return !c.broken[pos.File] }

// ingredients, formulas and products go through the shop in the order of ids.
func (c *checker) ingredients(do func(*Ingredient)) {
	for _, id := range c.IngredientIDs {
		do(c.Ingredients[id])
	}
}

func (c *checker) formulas(do func(*Formula)) {
	for _, id := range c.FormulaIDs {
		do(c.Formulas[id])
	}
}

func (c *checker) products(do func(*Product)) {
	for _, id := range c.ProductIDs {
		do(c.Products[id])
	}
}

// meant is a hint for a word that is not among the known ones.
func meant(word string, known []string, otherwise string) string {
	if near := diag.Nearest(word, known); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	return otherwise
}

// list writes at most ten words of a list.
func list(words []string) string {
	if len(words) > 10 {
		return strings.Join(words[:10], ", ") + " and others"
	}
	return strings.Join(words, ", ")
}

// positive reports a value that was written but is nothing or less.
func positive[T ~int64](c *checker, v diag.At[T], what, hint string) {
	if v.Set() && v.V <= 0 {
		c.wrong(v.Pos, "range", hint, "%s must be more than nothing", what)
	}
}

// share reports a share that is not between nothing and all.
func (c *checker) share(v diag.At[unit.Share], what string) {
	if v.Set() && (v.V < 0 || v.V > unit.Whole) {
		c.wrong(v.Pos, "range", "write a share from 0 % to 100 %", "%s is %s", what, v.V)
	}
}
