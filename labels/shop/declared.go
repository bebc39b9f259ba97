package shop

import (
	"chablon/labels/diag"
	"chablon/labels/unit"
)

// Listing is what the kitchen decides about the ingredient list of a product,
// where the law leaves it a choice.
type Listing struct {
	List      Text   `key:"list" one:"whole|by-part|none" help:"whole: the ingredients of all formulas in one list; by-part: each formula among the parts by its name, with its ingredients behind it; none: the food needs no list. Whole when left out."`
	NoList    Text   `key:"no-list" one:"single-ingredient|fresh-produce|vinegar|cultured-dairy|carbonated-water" help:"Why the food needs no ingredient list."`
	Open      []Text `key:"open" help:"Compound ingredients that are not named: their parts go into the list, joined with ingredients of the same name. This may change the order."`
	Join      []Join `key:"join" help:"Ingredients that are declared together under one name, where the law allows it."`
	Additives Text   `key:"additives" one:"names|numbers" help:"Whether additives are declared by their names or by their E numbers; names when left out."`
}

// Join declares several ingredients under one name.
type Join struct {
	Pos     diag.Pos
	As      Text          `key:"as" must:"yes" one:"spices|herbs|sugars|vegetable-oils|vegetable-fats" help:"Which category of the law they fall into."`
	Of      []Text        `key:"of" must:"yes" help:"Ids of the ingredients."`
	Name    Words         `key:"name" help:"Name of the category, per language; of oils and fats the law sets the words."`
	Varying diag.At[bool] `key:"varying" help:"Set where the proportions vary."`
}

// Claims is what the kitchen says about a product beyond its name, and what
// it must be able to stand by.
type Claims struct {
	FreeFrom []Text              `key:"free-from" help:"Allergens, or gluten or nuts, that anything printed says the food is free from; refused where they may be in it." list:"free-from"`
	Suits    []Text              `key:"suits" one:"vegan|vegetarian" help:"Whom anything printed says the food suits: vegan, vegetarian. No law of the Union defines the two words (Reg. (EU) 1169/2011 Art. 36(3)(b) asks for rules that were never made); refused where something of an animal is in it."`
	RuledOut []RuledOut          `key:"cross-contact-ruled-out" help:"Allergens that the assessment found to be kept out, each with the sources that it was found for."`
	SoldAs   Text                `key:"sold-as" one:"chocolate|milk-chocolate|family-milk-chocolate|white-chocolate|filled-chocolate|praline|honey" help:"Set for a food that is sold under a name whose composition the law sets."`
	Cocoa    diag.At[unit.Share] `key:"cocoa-solids" help:"Dry cocoa solids of a food sold as chocolate."`
	Thawed   diag.At[bool]       `key:"sold-thawed" help:"Set for food that was frozen and is sold thawed; its life counts from the day of thawing."`
	Origin   Words               `key:"origin" help:"Where the label says the food is from, per language."`
}

// RuledOut is an allergen that the assessment found to be kept out.
type RuledOut struct {
	Pos      diag.Pos
	Allergen Text   `key:"allergen" must:"yes" help:"Allergen that somebody cannot keep out, such as sesame." list:"allergen"`
	From     []Text `key:"from" must:"yes" help:"Whom the assessment found to keep it out all the same: ids of ingredients whose suppliers fear it, and site for the kitchen itself."`
}

// Nature is what a specification says about an ingredient that calls for
// words of its own.
type Nature struct {
	Exception    Text                `key:"exception" help:"Why its allergen need not be declared where the law says so, such as wheat-glucose-syrup or refined-soya-oil." list:"exception"`
	Number       Text                `key:"e-number" help:"E number of an additive, such as E 322."`
	Flags        []Text              `key:"flags" one:"sugar|aspartame|polyol|vegetable-fat-in-chocolate" help:"What calls for a statement on the label."`
	Caffeine     diag.At[unit.Share] `key:"caffeine" help:"Caffeine that was added for its effect, such as 500 mg/kg."`
	Liquorice    diag.At[unit.Share] `key:"glycyrrhizinic-acid" help:"Glycyrrhizinic acid of liquorice, such as 900 mg/kg."`
	Origin       Words               `key:"origin" help:"Where it is from, per language."`
	Plant        Words               `key:"plant" help:"Of a vegetable oil or fat: the plant as the list names it behind \"vegetable oils\", per language."`
	Hydrogenated Text                `key:"hydrogenated" one:"fully|partly" help:"Set for a hydrogenated oil or fat."`
	Fresh        diag.At[unit.Mass]  `key:"fresh" help:"Of a dried or concentrated food: mass of fresh food that 100 g of it were made from."`
}

// AtUse is what the kitchen knows about one use of an ingredient.
type AtUse struct {
	Aid           diag.At[bool]    `key:"processing-aid" help:"Set for what only helps in the making and does nothing in the finished food, such as oil for a mould. Its allergens are declared all the same."`
	Left          diag.At[Portion] `key:"left" help:"Of an ingredient that evaporates: how much of it is left in the finished food, as measured; a mass out of the line, or a share of it."`
	Or            Text             `key:"or" help:"Id of an ingredient that may take its place: the list says and/or where the law allows it."`
	Reconstituted diag.At[bool]    `key:"reconstituted" help:"Set for a dried or concentrated food that is brought back with the water of the formula."`
}
