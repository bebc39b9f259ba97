package shop

import (
	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/unit"
)

// Formula is one formula: what goes in, what is lost, what is done.
type Formula struct {
	Pos      diag.Pos
	ID       string
	Name     Words              `key:"name" must:"yes" help:"Name of the formula, per language."`
	Version  diag.At[int]       `key:"version" must:"yes" help:"Counts up with every change."`
	Issued   diag.At[unit.Date] `key:"issued" must:"yes" help:"Day on which this version was issued."`
	Approved Text               `key:"approved-by" help:"Who approved this version."`
	Lines    []Line             `key:"lines" must:"yes" help:"What goes in, by mass."`
	CookedIn *CookedIn          `key:"cooked-in" help:"What it is cooked in, such as a poaching syrup, of which only what soaks in is eaten."`
	Losses   []Loss             `key:"losses" help:"What is lost, stage by stage, in order."`
	Steps    []Step             `key:"steps" help:"What is done."`
	Keep     *Keep              `key:"keep" help:"How the finished formula is kept before use."`
	Base     []Text             `key:"base" help:"Lines that together are 100 % where shares are given: all the flour, or the chocolate."`
	Dough    *Warmth            `key:"dough" help:"For yeast doughs: what the temperature of the water follows from."`
	Day      diag.At[int]       `key:"day" help:"How many days before the day on which all is ready it is made, such as -1 for the day before."`
	Bowl     *Bowl              `key:"bowl" help:"What it is made in, where that sets how much is made at once."`
}

// Line is one line of a formula or of a product's make-up.
type Line struct {
	Pos            diag.Pos
	Use            Text                `key:"use" must:"yes" help:"Id of an ingredient, a formula, or, in an assortment, a product."`
	Take           diag.At[unit.Mass]  `key:"take" help:"How much of it."`
	Pieces         diag.At[unit.Count] `key:"pieces" help:"How many pieces of a product, in an assortment."`
	As             Text                `key:"as" help:"Another name for this line, where the same ingredient comes in twice."`
	Name           Words               `key:"name" help:"What the card calls this line, per language, where it differs."`
	At             diag.At[unit.Temp]  `key:"at" help:"Temperature at which it goes in, such as 80 °C; with it the temperature of the mix is worked out."`
	Exact          diag.At[bool]       `key:"exact" help:"Set for what must be weighed closely, such as gelatine, pectin, agar, yeast or colour: where the scale is more than 5 % off, the card says how to weigh it by a mix."`
	Review         diag.At[Ratio]      `key:"review-above" help:"For what does not grow in proportion, such as leavening and salt: how many times the formula as written before the card asks for a look, such as 3."`
	WeighedFor     *WeighedFor         `key:"weighed-for" help:"For gelatine: the strength that the amount was weighed for."`
	MustHave       read.Dict[Text]     `key:"must-have" help:"What the ingredient must have, such as fat: 35 ± 1 % or cocoa: ≥ 60 %." list:"strength"`
	LostInHandling diag.At[unit.Share] `key:"lost-in-handling" help:"Among parts: share of this line that is lost as it is portioned, such as trimmings; more is made to make up for it."`
	AtUse
}

// Ref is the name that steps use for the line.
func (l Line) Ref() string {
	if l.As.Set() {
		return l.As.V
	}
	return l.Use.V
}

// Medium is what something is cooked in.
type CookedIn struct {
	Pos      diag.Pos
	Use      Text               `key:"use" must:"yes" help:"Id of the formula that it is cooked in."`
	SoakedUp diag.At[unit.Mass] `key:"soaked-up" must:"yes" help:"How much of it stays in the food."`
	Make     diag.At[unit.Mass] `key:"make" help:"How much of it is made; all of its formula when left out."`
}

// Loss is what goes missing at one stage: water that evaporates, or food that
// stays in the bowl. Exactly one of WaterOff and LeftBehind is given.
type Loss struct {
	Pos        diag.Pos
	Stage      Text             `key:"stage" must:"yes" one:"boil|bake|dry|drain|cut|cool|handle" help:"What takes something away here: boiling, baking, drying, draining, cutting, cooling or handling."`
	WaterLost  diag.At[Portion] `key:"water-lost" help:"Water that evaporates, as a mass or a share of what is there."`
	LeftBehind diag.At[Portion] `key:"left-behind" help:"Food that is not used, as a mass or a share of what is there."`
}

// Keep is how something is kept and for how long.
type Keep struct {
	Pos         diag.Pos
	Store       Text                 `key:"store" must:"yes" one:"chilled|cool|ambient|frozen" help:"Where it is kept."`
	Temp        diag.At[unit.Target] `key:"temp" help:"Temperature of the store; must stand for chilled and frozen food."`
	Life        diag.At[unit.Life]   `key:"life" must:"yes" help:"How long it keeps; the day of making is day 0."`
	Date        Text                 `key:"date" one:"use-by|best-before|none" help:"Which date the label bears."`
	Opened      diag.At[unit.Life]   `key:"after-opening" help:"How long it keeps once opened."`
	OpenedStore Text                 `key:"after-opening-store" one:"chilled|as-before" help:"Where it is kept once opened, where that is not where it was kept before; chilled is said beside how long."`
	Show        Text                 `key:"show" one:"day|month|year" help:"How much of a best-before date the label shows; the day when left out."`
	Because     Text                 `key:"because" help:"Of a product: why it may be kept warmer or longer than a part that goes in unbaked, such as: closed in chocolate on the day."`
}

// Product is one product: what a piece is made of and how it is sold.
type Product struct {
	Pos            diag.Pos
	ID             string
	Name           Words               `key:"name" must:"yes" help:"Name of the food, per language."`
	Version        diag.At[int]        `key:"version" must:"yes" help:"Counts up with every change."`
	Issued         diag.At[unit.Date]  `key:"issued" must:"yes" help:"Day on which this version was issued."`
	Approved       Text                `key:"approved-by" help:"Who approved this version."`
	Parts          []Stage             `key:"parts" must:"yes" help:"What a piece is made of, stage by stage."`
	CutTo          diag.At[unit.Mass]  `key:"cut-to" help:"Set where the parts make a slab that is cut: mass of one piece."`
	LostInHandling diag.At[unit.Share] `key:"lost-in-handling" help:"Share that is lost in handling; more is made to make up for it."`
	About          Words               `key:"about" help:"One line for the ticket on the counter: what it is like, per language. It may name no allergen that the product does not contain."`
	SameLine       Text                `key:"same-line" one:"same-ingredient|same-name" help:"Which parts are declared as one in the ingredient list."`
	Percent        []Percent           `key:"percent" help:"Ingredients whose quantity is declared, or is not, and why."`
	Assessment     Text                `key:"cross-contact-assessment" help:"Reference of the risk assessment that lets the may-contain line be printed."`
	Keep           Keep                `key:"keep" must:"yes" help:"How and how long it keeps."`
	Steps          []Step              `key:"steps" help:"What is done, in order; each with its own id."`
	Tray           *Tray               `key:"tray" help:"What the pieces are made on."`
	Packs          []Pack              `key:"packs" must:"yes" help:"How it is sold; the first is the usual one."`
	Carton         *Carton             `key:"carton" help:"How it is shipped."`
	Older          []Older             // of a product that was derived for a batch
	Listing
	Claims
	Eating
}

// Stage is one stage of a product's parts: what is added, and what the oven
// takes away from all that is there.
type Stage struct {
	Pos       diag.Pos
	Stage     Text             `key:"stage" must:"yes" one:"assemble|bake|fill|finish|coat" help:"What is done with the piece here."`
	Add       []Line           `key:"add" must:"yes" help:"What goes on or in at this stage, for one piece."`
	WaterLost diag.At[Portion] `key:"water-lost" help:"Water lost at the end of this stage."`
}

// Quid is one decision about the quantity of an ingredient.
type Percent struct {
	Pos     diag.Pos
	Of      Text `key:"of" must:"yes" help:"Id of the ingredient or of a formula declared by name; of an inner ingredient its name in any language, then all of it counts."`
	Because Text `key:"because" one:"in-name|emphasised|characterises" help:"Why the quantity is declared."`
	Exempt  Text `key:"exempt" one:"flavouring|not-decisive|fixed-in-law|drained-weight" help:"Why it is not declared."`
}

// Tray is what pieces are made on.
type Tray struct {
	Pos   diag.Pos
	Name  Words               `key:"name" must:"yes" help:"What it is called on the card, per language."`
	Holds diag.At[unit.Count] `key:"holds" must:"yes" help:"How many pieces it holds."`
	Oven  diag.At[unit.Count] `key:"oven-takes" help:"How many of them go into the oven at once."`
}

// Pack is one way in which the product is sold.
type Pack struct {
	Pos        diag.Pos
	ID         Text                `key:"id" must:"yes" help:"Short name of the pack, such as box-4; commands and plans name it."`
	Pieces     diag.At[unit.Count] `key:"pieces" must:"yes" help:"How many pieces are in it."`
	Net        diag.At[unit.Mass]  `key:"net" must:"yes" help:"Net quantity that the label declares."`
	GTIN       Text                `key:"gtin" help:"GTIN of the pack, as text."`
	Mark       Text                `key:"batch-mark" one:"matrix|link|none" help:"A second code beside the bars that carries the batch: matrix is a GS1 DataMatrix, link a QR with a GS1 Digital Link under link-stem of shop.yaml."`
	MarkSays   []Text              `key:"batch-mark-says" one:"batch|date|number" help:"What the batch mark says beside the GTIN: the batch code, the date on the label, the running number of the label. Batch and date when left out."`
	Paper      Text                `key:"paper" must:"yes" help:"Id of the label paper." list:"paper"`
	Languages  []Text              `key:"languages" help:"Languages of this label; the shop's when left out." list:"language"`
	Face       diag.At[unit.Area]  `key:"largest-face" must:"yes" help:"Area of the largest face of the pack; the least letter height depends on it."`
	Surface    diag.At[unit.Area]  `key:"surface" help:"All of the outside of the pack that can bear print, every face together: the United States and Canada choose by it how the nutrition panel is drawn. When left out, the pack counts as a large one."`
	WrapsRound diag.At[bool]       `key:"wraps-round" help:"Set where the label goes round several faces of the pack, so that it may be larger than the largest of them."`
	Nutrition  Text                `key:"nutrition" must:"yes" one:"declared|exempt-small-maker|exempt-small-pack" help:"Whether the nutrition declaration is printed, or why not."`
	Average    diag.At[bool]       `key:"e-mark" help:"Set to print the sign ℮."`
	Sale       Text                `key:"sale" one:"prepacked|direct" help:"direct: packed on the premises where it is sold. Prepacked when left out."`
	Served     diag.At[bool]       `key:"handed-over" help:"Of what is packed where it is sold: set where staff hand it over and buyers do not take it themselves; some countries then ask for less on it."`
	Gas        diag.At[bool]       `key:"protective-atmosphere" help:"Set where a packaging gas lengthens its life."`
	Portion    diag.At[unit.Mass]  `key:"portion" help:"Mass of a portion: the nutrition declaration then has a column for it."`
	Front      *Front              `key:"front-symbol" help:"For Canada: what decides whether a symbol stands at the front of the pack."`
	Each       diag.At[unit.Mass]  `key:"each" help:"Set where every piece is a pack of its own: its net quantity. The label then says 6 × 40 g."`
	PortionOn  diag.At[unit.Date]  `key:"portion-weighed" help:"Day on which somebody weighed a portion that is no whole number of pieces, such as a slice; without it, a label that declares for the portion is a draft."`
	Price      diag.At[unit.Money] `key:"price" help:"What the buyer pays for the pack, all taxes included, such as 4.20 EUR; for tickets, and for labels of a shop whose brand.yaml asks for it."`
	OnLabel    diag.At[bool]       `key:"price-on-label" help:"Whether the label of this pack bears the price, where that is not as in brand.yaml."`
	Arrange    Text                `key:"arrange" one:"beside|above|across|plain" help:"How the label of this pack is arranged, where that is not as in brand.yaml."`
	Weighed
}

// Front is what decides, in Canada, whether the pack bears a symbol at its front.
type Front struct {
	Pos             diag.Pos
	ReferenceAmount diag.At[unit.Mass]   `key:"reference-amount" must:"yes" help:"Reference amount of this food, as Canada's Table of Reference Amounts has it: whether it is more than 30 g decides at how much the symbol is due."`
	MainDish        diag.At[bool]        `key:"main-dish" help:"Set for a main dish whose reference amount is at least 200 g."`
	NotDue          Text                 `key:"not-due" one:"small-pack|packed-where-sold|made-where-sold|market-stall|eaten-at-once|for-business|sweetening|salt|fat-or-oil" help:"Why this pack need not bear the symbol, whatever is in the food."`
	Width           diag.At[unit.Length] `key:"width" help:"Width of the symbol with its buffer, as Health Canada's directory has it for the display surface of this pack; the label keeps an empty frame of that size."`
	Height          diag.At[unit.Length] `key:"height" help:"Height of it."`
}

// MaxSides is how many sides of a carton may bear its label: those that stand
// upright.
const MaxSides = 4

// Carton is the shipped box.
type Carton struct {
	Pos   diag.Pos
	Pack  Text                `key:"pack" must:"yes" help:"Id of the pack that is in it."`
	Holds diag.At[unit.Count] `key:"holds" must:"yes" help:"How many packs are in it."`
	GTIN  Text                `key:"gtin" help:"GTIN of the carton itself, of 12, 13 or 14 digits, as text. Without one, its label names the pack and how many of it are inside."`
	Paper Text                `key:"paper" must:"yes" help:"Id of the label paper." list:"paper"`
	Tare  diag.At[unit.Mass]  `key:"tare" help:"Mass of the empty carton with its packing."`
	Tie   diag.At[unit.Count] `key:"tie" help:"How many cartons make one layer of a pallet."`
	High  diag.At[unit.Count] `key:"high" help:"How many layers of them stand on a pallet at most."`
	Bars  diag.At[bool]       `key:"bars-only" help:"Set where scanners read bars alone and no matrix: then all data stand in bars, and the words become smaller, or the label is refused."`
	Sides diag.At[unit.Count] `key:"sides" help:"On how many sides of the carton the same label is stuck, 1 to 4; it is then printed as often. 1 when left out."`
	Ends  diag.At[unit.Count] `key:"box-ends" help:"On how many sides of the carton a box-end label is stuck, which is read from across the cold store, 1 to 4; the command day prints as many for each carton. None when left out."`
}

// Plan is what is made on a day.
type Plan struct {
	Pos   diag.Pos
	ID    string
	Day   diag.At[PlanDay]    `key:"day" must:"yes" help:"A date, or: every day."`
	Ready diag.At[unit.Clock] `key:"ready" help:"Time of day at which all is to be ready, such as 09:00."`
	Runs  []Run               `key:"runs" must:"yes" help:"What is made, in the order in which it is printed."`
}

// Run is one product made on the day.
type Run struct {
	Pos        diag.Pos
	Product    Text                  `key:"product" must:"yes" help:"Id of the product."`
	Pieces     diag.At[unit.Count]   `key:"pieces" must:"yes" help:"How many good pieces are wanted."`
	Ready      diag.At[unit.Clock]   `key:"ready" help:"Time of day at which it is to be ready, where that is not the time of the whole plan."`
	Pack       Text                  `key:"pack" help:"Id of the pack; the product's first when left out."`
	Letter     Text                  `key:"letter" help:"Letter of the run in the batch code; A when left out."`
	Batch      Text                  `key:"batch" help:"Batch code, where the shop's rule does not make it."`
	Labels     diag.At[unit.Count]   `key:"labels" help:"How many labels; one a pack when left out."`
	Paper      Text                  `key:"paper" help:"Label paper, where it is not the pack's." list:"paper"`
	FirstPlace diag.At[unit.Count]   `key:"first-place" help:"First free place on a part-used sheet, counted from 1."`
	Skip       []diag.At[unit.Count] `key:"skip" help:"Places of the first sheet to leave empty."`
	Cartons    diag.At[unit.Count]   `key:"cartons" help:"How many cartons are shipped."`
	For        Text                  `key:"for" help:"Id of the customer that the cartons are packed for."`
	Order      Text                  `key:"order" help:"Number of the customer's order."`
	LastCarton *LastCarton           `key:"last-carton" help:"One more carton, which is not full of the run's packs."`
	SSCCFrom   Text                  `key:"sscc-from" help:"Serial reference of the first carton's SSCC; {yy} and {day} as in the batch code."`
	Sizes      []diag.At[unit.Count] `key:"card-sizes" help:"Batch sizes to show on the card beside the one of the day."`
	Instead    []Instead             `key:"instead" help:"What goes into this batch alone in the place of something else; it has a declaration and an approval of its own where that changes what is declared."`
	Rework     []Rework              `key:"rework" help:"What is left of earlier batches and goes into this one, such as offcuts."`
	MadeBefore []Earlier             `key:"made-before" help:"Formulas that were made on an earlier day, such as a dough of which half is baked today."`
}

// LastCarton is a carton that is filled with what is left over.
type LastCarton struct {
	Pos   diag.Pos
	Packs diag.At[unit.Count] `key:"packs" must:"yes" help:"How many packs of the run are in it."`
	With  []InCarton          `key:"with" help:"What else is in it; mixed-cartons in shop.yaml says what may be."`
}

// InCarton is packs of another batch or product that go into the same carton.
type InCarton struct {
	Pos     diag.Pos
	Product Text                `key:"product" must:"yes" help:"Id of the product."`
	Packs   diag.At[unit.Count] `key:"packs" must:"yes" help:"How many packs of it, as its carton holds them."`
	Batch   Text                `key:"batch" help:"Its batch code; that of today when left out."`
}
