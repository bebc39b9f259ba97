// Package shop answers: what does this kitchen know?
//
// A shop is a folder of YAML files, one idea each:
//
//	shop.yaml              the profile: who, where, markets, languages, printers
//	ingredients/ID.yaml    one ingredient as bought: the supplier's specification
//	formulas/ID.yaml       one formula: lines by mass, losses, steps
//	products/ID.yaml       one product: make-up per piece, keep, packs, cartons
//	plans/NAME.yaml        what is made on a day
//	customers/ID.yaml      one customer: where cartons go, and what is wanted on them
//	approvals.yaml         who approved what the labels say
//	papers/ID.yaml         one sheet or roll of the shop's own, read by layout/stock
//	measured.yaml          what the kitchen weighed and timed
//	brand.yaml             how the shop's paper looks
//
// The structs of this package are the table of keys: labels/read fills them by
// their tags, and the JSON Schema for editors is made from the same tags.
package shop

import (
	"chablon/labels/diag"
	"chablon/labels/picture"
	"chablon/labels/read"
	"chablon/labels/unit"
)

// Text is one string with its place.
type Text = diag.At[string]

// Words is one text in several languages, keyed by language code.
type Words = read.Dict[Text]

// Shop is everything that was read, with links resolved. Maps are keyed by
// id, which is the file's name without its ending; the lists of ids are sorted.
type Shop struct {
	Profile     Profile
	Approvals   Approvals
	Measured    Measurements
	Ingredients map[string]*Ingredient
	Formulas    map[string]*Formula
	Products    map[string]*Product
	Plans       []*Plan
	Customers   map[string]*Customer
	Brand       *Brand // nil for a shop without a look

	IngredientIDs, FormulaIDs, ProductIDs, CustomerIDs []string

	PaperIDs []string // of the shop's own papers, which layout/stock reads

	// Of is the run whose batch the shop was derived for, by its product and batch
	// code; empty for one that was read.
	Of [2]string

	broken  map[string]bool // files in which the reader found errors
	refused map[string]bool // ids whose files have names that cannot be ids

	// Pictures are those that steps show, by the name of their file.
	Pictures map[string]*picture.Picture
}

// Profile is shop.yaml.
type Profile struct {
	Pos            diag.Pos
	Name           Text                 `key:"name" must:"yes" help:"Name of the business as it stands on labels."`
	Address        Text                 `key:"address" must:"yes" help:"Address of the business as it stands on labels."`
	Contact        Text                 `key:"contact" help:"Where buyers ask, such as a telephone number or an address for mail; it stands on a recall notice."`
	Markets        []Text               `key:"markets" must:"yes" help:"Codes of the markets that labels are made for, the first being the usual one, such as EU." list:"market"`
	Operators      read.Dict[Operator]  `key:"operators" help:"By market, such as GB: who stands behind the food there, where that is not the shop: the importer, or whom it is made for."`
	Country        Text                 `key:"country" help:"Code of the country that the kitchen is in, such as FR: whose rules hold for food that is sold loose or packed where it is sold, which limits the country sets of its own, and whether the address on a label lies in its market."`
	LabelLanguages []Text               `key:"label-languages" must:"yes" help:"Codes of the languages that labels are printed in, such as en." list:"language"`
	CardLanguages  []Text               `key:"card-languages" must:"yes" help:"Codes of the languages that bench cards are printed in, one or two." list:"language"`
	GS1Prefix      Text                 `key:"gs1-prefix" help:"GS1 company prefix, digits only."`
	CartonNumbers  *CartonNumbers       `key:"carton-numbers" help:"Lets the print book give each carton its number (SSCC)."`
	CounterNumber  Text                 `key:"counter-number" help:"How the numbers of goods weighed at the shop's own counter are made, such as 28{item:5}{weight:5}: digits from 20 to 29 on, the item, its weight in grams or its price in the smallest coin, and {inner-check} where the country has a check digit over these; the last check digit is not written."`
	MixedCartons   Text                 `key:"mixed-cartons" one:"refuse|batches|products" help:"What may be together in one carton: refuse is one batch alone, batches are several of one product, products are several products too. One batch alone when left out."`
	LinkStem       Text                 `key:"link-stem" help:"Web address that the links on packs begin with, such as https://label.example; something must answer there."`
	BatchCode      Text                 `key:"batch-code" must:"yes" help:"How batch codes are made: {yy} year, {day} day of the year as three digits, {letter} the run's letter."`
	DayPrints      []Text               `key:"day-prints" one:"card|label|carton|box-end|ticket|batch-record|prep|board|shopping|allergen-order|card-list" help:"What the command day prints beside the run sheet: card, label, carton, box-end where a carton has box-ends, and ticket when left out."`
	Hour           diag.At[unit.Money]  `key:"hour-of-work" help:"What an hour of work costs, such as 24.00 EUR; for the audit sheet alone."`
	Printers       read.Dict[Printer]   `key:"printers" help:"Printers by name."`
	Scales         []Scale              `key:"scales" help:"Scales of the bench, from small to large."`
	CrossContact   []Text               `key:"cross-contact" help:"Allergens that the kitchen itself cannot keep out of what it makes." list:"allergen"`
	Tools          read.Dict[Tool]      `key:"tools" help:"Tools that steps share, by name; the one called oven is what bakes and toasts."`
	Kitchen        *Kitchen             `key:"kitchen" help:"When the kitchen is open and how many people work in it; with it the plan of a day is held against what can be done."`
	Altitude       diag.At[unit.Length] `key:"altitude" help:"Height above the sea, such as 300 m; sugar is cooked to less by as much as water boils lower."`
	Boils          diag.At[unit.Temp]   `key:"water-boils" help:"What the kitchen's own probe shows in boiling water; better than the altitude."`
	AcceptUnread   []Accepted           `key:"accept-unread" help:"Who answers for places in the law that this program has from memory; what rests on one that nobody signed for is printed as a draft. chablon law MARKET shows their rows."`
	Grace          diag.At[unit.Life]   `key:"review-grace" help:"How long after its review-by a specification may be let lie, such as 14 days; no time when left out."`
}

// Accepted is the signature of one person for places in the law of a market
// that nobody here has read. It covers those rows and no others.
type Accepted struct {
	Pos    diag.Pos
	Market Text               `key:"market" must:"yes" help:"Code of the market."`
	Rows   []Text             `key:"rows" must:"yes" help:"Rows as chablon law MARKET names them, such as batch-7KQ2MD9X; each has a name of its own, so a row that is added or changed later is not covered."`
	By     Text               `key:"by" must:"yes" help:"Who has read the law there, or answers for it."`
	On     diag.At[unit.Date] `key:"on" must:"yes" help:"Day of the signature."`
	Until  diag.At[unit.Date] `key:"until" help:"Last day on which it counts; a year after the signature when left out, and never later."`
}

// CartonNumbers is where the numbers of the shop's cartons begin.
type CartonNumbers struct {
	Pos  diag.Pos
	From diag.At[unit.Count] `key:"from" must:"yes" help:"Serial reference of the first carton, above all that are on cartons already; asked once, when the print book is begun."`
}

// Printer is one printer of the shop.
type Printer struct {
	Pos         diag.Pos
	Resolution  diag.At[unit.Dots]   `key:"resolution" must:"yes" help:"Fineness of the printer, such as 12 per mm or 300 dpi."`
	Right       diag.At[unit.Length] `key:"right" help:"How far everything must be moved to the right to sit straight; may be negative."`
	Down        diag.At[unit.Length] `key:"down" help:"How far everything must be moved down to sit straight; may be negative."`
	Wide100     diag.At[unit.Length] `key:"wide-100-mm" help:"What 100 mm across the paper come out as on it, such as 99.8 mm; chablon calibrate finds it."`
	High100     diag.At[unit.Length] `key:"high-100-mm" help:"What 100 mm down the paper come out as on it, such as 100.2 mm; chablon calibrate finds it."`
	Papers      []Text               `key:"papers" must:"yes" help:"Ids of the papers that this printer is loaded with." list:"paper"`
	Greys       diag.At[bool]        `key:"greys" help:"Whether the printer can print greys. One that burns each dot or leaves it cannot; left out, that is a printer with rolls."`
	Address     Text                 `key:"address" help:"Where it is printed to without a driver, such as ipp://192.0.2.7/ipp/print; chablon printers lists those on the net."`
	Certificate Text                 `key:"certificate" help:"Fingerprint (SHA-256) of the certificate of an ipps address, where nobody has signed it."`
	Sends       Text                 `key:"sends" one:"raster|pdf" help:"In which form pages are sent to it; left out, raster where the printer takes it."`
}

// Scale is one weighing scale: the step of its display and how much it bears.
type Scale struct {
	Pos   diag.Pos
	UpTo  diag.At[unit.Mass] `key:"up-to" must:"yes" help:"Largest amount that is weighed on this scale."`
	Step  diag.At[unit.Mass] `key:"step" must:"yes" help:"Step of the display."`
	Small diag.At[bool]      `key:"small" help:"Whether this is the small scale; the card marks its amounts."`
}

// Ingredient is one ingredient as bought.
type Ingredient struct {
	Pos        diag.Pos
	ID         string
	BoughtAs   Text                  `key:"bought-as" must:"yes" help:"Trade description and pack size on the order."`
	Supplier   Text                  `key:"supplier" help:"Who sells it; left out for tap water."`
	Spec       *Spec                 `key:"spec" help:"The supplier's specification that these values are from."`
	Name       Words                 `key:"name" must:"yes" help:"Name in the ingredient list, per language."`
	Contains   []Text                `key:"contains" must:"yes" help:"Allergens that it contains; [] when it has none." list:"allergen"`
	MayContain []Text                `key:"may-contain" must:"yes" help:"Allergens that the supplier cannot keep out; [] when none." list:"allergen"`
	TrulyFree  read.Dict[Text]       `key:"truly-free" help:"Allergens that a name speaks of and that are not in it, each with the reason, such as milk: made with vegetable fat, letter of 2026-01-12." list:"allergen"`
	MadeOf     []Inner               `key:"made-of" help:"Inner ingredients of a compound ingredient, in falling order."`
	Class      Text                  `key:"class" help:"Function class, for an additive used by itself." list:"class"`
	Defined    diag.At[bool]         `key:"defined-in-law" help:"Whether its composition is set in law, as for chocolate and jam."`
	Mixture    Text                  `key:"mixture" one:"spices|herbs" help:"Set for a mixture of spices or of herbs."`
	AddedWater diag.At[bool]         `key:"added-water" help:"Set for the water that is added as such."`
	Evaporates diag.At[bool]         `key:"evaporates" help:"Set for what evaporates, as alcohol does."`
	Water      diag.At[unit.Share]   `key:"water" help:"Water in 100 g."`
	SO2        diag.At[unit.Share]   `key:"sulphites" must:"yes" help:"Sulphur dioxide as the specification states it, such as 150 mg/kg; 0 mg/kg where it states that there is none." example:"150 mg/kg"`
	Alcohol    diag.At[unit.Share]   `key:"alcohol" help:"Alcoholic strength, such as 40 % vol."`
	Density    diag.At[unit.Density] `key:"density" help:"Density at 20 °C, such as 1.03 kg/l."`
	OrderPack  diag.At[unit.Mass]    `key:"order-pack" help:"What one pack holds, as it is ordered, such as 5 kg."`
	Price      diag.At[unit.Money]   `key:"price" help:"What one order-pack costs, or 1 kg where there is none, without taxes, such as 62.50 EUR; for the audit sheet alone."`
	Thaw       diag.At[unit.Span]    `key:"thaw" help:"For what is bought frozen: how long before use it comes out of the freezer, such as 24 h."`
	Edible     diag.At[unit.Share]   `key:"edible" help:"Edible share of what is bought."`
	Piece      *Piece                `key:"piece" help:"What one piece weighs, for a hint beside the grams."`
	Strength   read.Dict[Text]       `key:"strength" help:"Strength and the like: bloom, dextrose-equivalent, fat, cocoa, cocoa-butter, milk-fat, milk-solids." list:"strength"`
	Per100     *Composition          `key:"per-100-g" help:"Composition of 100 g as bought."`
	Nature
}

// Spec tells which paper of the supplier the values are from.
type Spec struct {
	Pos      diag.Pos
	Version  Text               `key:"version" must:"yes" help:"The supplier's version of the specification."`
	Dated    diag.At[unit.Date] `key:"dated" must:"yes" help:"Day of the specification."`
	ReviewBy diag.At[unit.Date] `key:"review-by" help:"Day by which it must be asked for again; from then on it is told, and after review-grace of shop.yaml nothing made with it is sold."`
}

// Inner is one inner ingredient of a compound ingredient.
type Inner struct {
	Pos        diag.Pos
	Name       Words               `key:"name" must:"yes" help:"Name in the ingredient list, per language."`
	Share      diag.At[unit.Share] `key:"share" must:"yes" help:"Share of the compound ingredient."`
	Class      Text                `key:"class" help:"Function class of an additive." list:"class"`
	Contains   []Text              `key:"contains" help:"Allergens of this inner ingredient." list:"allergen"`
	Varying    diag.At[bool]       `key:"varying" help:"Set for a mixture in varying proportions."`
	CarryOver  diag.At[bool]       `key:"carried-over" help:"Set for an additive that has no function in the food that it comes into."`
	AddedWater diag.At[bool]       `key:"added-water" help:"Set for water that the supplier added."`
	MadeOf     []Inner             `key:"made-of" help:"Its own inner ingredients."`
	Exception  Text                `key:"exception" help:"Why its allergen need not be declared where the law says so." list:"exception"`
	Number     Text                `key:"e-number" help:"E number of an additive, such as E 322."`
}

// Piece is the mass of one egg, leaf or pod.
type Piece struct {
	Pos  diag.Pos
	Mass diag.At[unit.Mass] `key:"mass" must:"yes" help:"Mass of one piece."`
	Name Words              `key:"name" must:"yes" help:"What a piece is called, per language."`
}

// Composition is what 100 g hold. An absent value is unknown, never zero.
type Composition struct {
	Pos          diag.Pos
	Source       Text               `key:"source" help:"Table and code, or the supplier's specification."`
	Table        Text               `key:"from-table" help:"Code of a food in the table that comes with the program, such as 15004; what is not written below is taken from it. chablon composition WORD finds it."`
	Fat          diag.At[unit.Mass] `key:"fat" help:"Fat in 100 g."`
	Saturates    diag.At[unit.Mass] `key:"saturates" help:"Saturated fatty acids in 100 g."`
	Carbohydrate diag.At[unit.Mass] `key:"carbohydrate" help:"Carbohydrate in 100 g, fibre not among it."`
	Sugars       diag.At[unit.Mass] `key:"sugars" help:"Sugars in 100 g, all mono- and disaccharides."`
	Polyols      diag.At[unit.Mass] `key:"polyols" help:"Sugar alcohols in 100 g."`
	Fibre        diag.At[unit.Mass] `key:"fibre" help:"Fibre in 100 g."`
	Protein      diag.At[unit.Mass] `key:"protein" help:"Protein in 100 g."`
	Salt         diag.At[unit.Mass] `key:"salt" help:"Salt in 100 g: sodium × 2.5."`
	Alcohol      diag.At[unit.Mass] `key:"alcohol" help:"Ethanol in 100 g, by mass."`
	Acids        diag.At[unit.Mass] `key:"organic-acids" help:"Organic acids in 100 g, such as citric acid."`

	MoreFrom    Text               `key:"more-from" help:"Where the values below are from, when it is not source."`
	Trans       diag.At[unit.Mass] `key:"trans" help:"Trans fat; this and what follows is asked for by the panels of the United States and Canada."`
	Cholesterol diag.At[unit.Mass] `key:"cholesterol" help:"Cholesterol in 100 g; asked for by the panels of the USA."`
	AddedSugars diag.At[unit.Mass] `key:"added-sugars" help:"Sugars that are added sugars in the food: all of sugar and syrups, none of milk and fruit."`
	VitaminD    diag.At[unit.Mass] `key:"vitamin-d" help:"Vitamin D in 100 g; asked for by the panels of the USA."`
	Calcium     diag.At[unit.Mass] `key:"calcium" help:"Calcium in 100 g; asked for by the panels of the USA and Canada."`
	Iron        diag.At[unit.Mass] `key:"iron" help:"Iron in 100 g; asked for by the panels of the USA and Canada."`
	Potassium   diag.At[unit.Mass] `key:"potassium" help:"Potassium in 100 g; asked for by the panels of the USA and Canada."`
}
