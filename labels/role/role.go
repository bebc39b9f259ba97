// Package role answers: what is a mark for?
//
// The law asks for particulars by role, labels/words says them by role, and a
// finished page carries each mark with its role, so that layout/preflight can
// ask the law about a page without knowing who made it.
package role

// Role is what a mark on a label, a card or a sheet is for.
type Role string

// The particulars of Regulation (EU) No 1169/2011 Art. 9(1), and what the acts
// of all markets ask for beside them.
const (
	Name      Role = "name"
	List      Role = "list"      // list of ingredients
	Allergens Role = "allergens" // the line "contains", where there is no list or behind it
	May       Role = "may"       // precautionary line
	Quid      Role = "quid"      // the percentage of an ingredient
	Net       Role = "net"       // net quantity
	Date      Role = "date"
	Keep      Role = "keep" // storage
	Use       Role = "use"  // instructions for use
	Operator  Role = "operator"
	Origin    Role = "origin"
	OriginOf  Role = "origin-of" // of the primary ingredient, where the food is from elsewhere
	Strength  Role = "strength"  // of an alcoholic drink
	Nutrition Role = "nutrition"
	Batch     Role = "batch"
	Statement Role = "statement" // other words that the law asks for
)

// What the law measures by rules of its own.
const (
	NutritionFront Role = "nutrition-front" // energy said again on the front
	Symbol         Role = "symbol"          // at the front of a pack whose food is high in something
	Substitute     Role = "substitute"      // what stands in for a usual ingredient, beside the name
)

// What no law asks for, and what is no words.
const (
	Serial    Role = "serial" // running number of one label
	Key       Role = "key"    // number of GS1 in the text: a GTIN, an SSCC, a place
	Price     Role = "price"  // what this pack costs
	Bars      Role = "bars"
	Digits    Role = "digits" // digits of a bar code for people to read
	Furniture Role = "furniture"
	Emblem    Role = "emblem" // of the shop; it says no word
	Step      Role = "step"
	Amount    Role = "amount"
	Heat      Role = "heat" // a temperature
	Limit     Role = "limit"
	Figure    Role = "figure" // of a step: its number, its minutes
	Note      Role = "note"
	Draft     Role = "draft"
	Trim      Role = "trim" // corner marks; they may lie in the margin
)

// The parts of a nutrition panel that a law gives sizes for. A row of a panel is
// named by its nutrient beside that.
const (
	Heading    = "heading"
	Servings   = "servings"     // how many portions the pack holds
	Serving    = "serving"      // what a portion is
	AmountPer  = "amount-per"   // "Amount per serving", and heads of columns
	Energy     = "energy"       // the word for the energy
	EnergyIs   = "energy-is"    // its figure
	DailyValue = "daily-value"  // the head over the percentages
	Nutrient   = "nutrient"     // a nutrient's name and amount
	Share      = "share"        // its percentage
	Mineral    = "mineral"      // a vitamin or mineral
	Footnote   = "footnote"     // what the percentages are of
	Box        = "box"          // the line around all of it
	Bar        = "bar"          // the thick line between parts
	ThinBar    = "thin-bar"     // the line under the energy and above the footnote
	Hairline   = "hairline"     // between nutrients
	Upright    = "upright-line" // between columns
)
