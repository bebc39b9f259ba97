package print

import (
	"slices"

	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/register"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// A Kind is one kind of paper: what it is called, what it is of, and how it is
// set. All that makes paper safe is not here but on the road that every kind
// goes ([Press.Print]): the languages that the market asks for, the approval or
// the mark of a draft, the checks of the finished page, the numbers that no
// second label may bear. A kind that says nothing about itself is treated in
// the strictest way.
type Kind struct {
	Name      string // its command: "label"
	File      string // how the names of its files begin: "labels"
	One, Many string // what one is called, and several: "label", "labels"
	Short     string // what the command does, for its help; "" where another command prints it
	Long      string // more help; Short when left out
	Example   string
	Next      string // what to do once it is printed

	Of     Of     // what a request is about
	Inside bool   // stays in the kitchen; else it goes with food to a buyer: approved, or a draft with its mark
	Speaks Speech // who decides its languages
	Langs  int    // languages at most; 0 for as many as the pack has
	Usual  int    // how many of the usual languages it takes unasked; 0 for all
	Most   int    // pieces of one request at most; 0 where it has no number of pieces
	Bears  Bears  // what it bears of the batch
	Weighs bool   // what is sold by weight is weighed for it
	SSCC   bool   // each piece bears an SSCC of its own
	Serial bool   // each piece bears the next running number of its batch
	Form   string // the kind of stock that it must have; "" for any
	// Unmoved is set for the page that a printer is measured by: it is printed
	// where the printer puts it.
	Unmoved bool
	// Together puts the pieces of several products on the same sheets.
	Together bool
	// Places tells of the shop's files themselves, line by line, so that a
	// comment in them changes it: it is not compared from one state to another.
	Places bool

	Own     func() any                             // flags of this kind alone; nil for none
	Has     func(*Press, string) error             // why there is none of a product or formula; nil for all
	Packs   func(*shop.Product) []string           // packs that it is of; nil for each
	Wanted  func(*shop.Product) bool               // whether its files ask for it, so that it is checked and compared; nil for all that have it
	Paper   func(*Job) string                      // id of the stock when none is named
	Tells   func(*Job) []string                    // what else tells its files apart
	Says    func(*Job) string                      // what else is said of it in the line for its file
	Mark    func(*Job) string                      // word that the content is known by, for comparing
	Judge   func(*Job) market.Pack                 // the pack as the market's rules see it; that of the label when left out
	Scan    gs1.Use                                // where its bar codes are scanned; at a till when left out
	Compose func(*Job) (Set, error)                // sets it; what is wrong goes to Found of the job
	Runs    func(*Press, shop.Run) (Request, bool) // what a run of the day's plan asks of it; nil for nothing
	Day     func(*Press, *shop.Plan) []Request     // what the day's plan asks of it as a whole; nil for nothing
	Asked   bool                                   // the day prints it only where day-prints of the profile names it
}

// Of is what a request for paper is about.
type Of int

// What paper is of. A product is sold in a pack for a market.
const (
	Product  Of = iota
	Products    // one or several
	Formula
	Made    // a formula or a product
	Cartons // those of the print book, by their numbers
	Plan    // the plan of the day
	Shop    // the shop as a whole
)

// Speech is who decides the languages of a paper.
type Speech int

// Who decides. The market's law holds whatever the pack or the command says.
const (
	Market   Speech = iota // the pack's languages, and those that the market demands
	National               // the pack's, freely: for loose food the law of the country decides (Reg. (EU) No 1169/2011 Art. 44(2))
	Kitchen                // those of the shop's cards
)

// Bears is what a paper bears of the batch.
type Bears int

// What can be borne.
const (
	NoBatch  Bears = iota
	DayMade        // the day made, or a date that counts from it
	ItsBatch       // the day and the batch code
)

// sold reports whether a paper goes with food to a buyer.
func (k *Kind) sold() bool { return !k.Inside }

// Kinds lists every kind of paper, in the order in which they are told of.
func Kinds() []*Kind {
	return []*Kind{cardKind(), labelKind(), cartonKind(), partKind(), boxEndKind(), partBoxEndKind(), palletKind(), ticketKind(), tubKind(), auditKind(), recordKind(), prepKind(), boardKind(), shoppingKind(), orderKind(), cardListKind(), allergensKind(), runSheetKind(), withdrawKind(), tracedKind(), noticeKind(), calibrateKind()}
}

// KindOf finds a kind by its name.
func (p *Press) KindOf(name string) *Kind {
	i := slices.IndexFunc(p.kinds, func(k *Kind) bool { return k.Name == name })
	if i < 0 {
		return nil
	}
	return p.kinds[i]
}

// ofProduct reports whether a request may be about a product, so that it has a
// pack and a market.
func (k *Kind) ofProduct() bool { return k.Of == Product || k.Of == Products || k.Of == Made }

// ofID reports whether a request names what it is about.
func (k *Kind) ofID() bool { return k.ofProduct() || k.Of == Formula }

// IDs lists all that the kind can be printed of.
func (k *Kind) IDs(p *Press) []string {
	var all []string
	if k.ofProduct() {
		all = append(all, p.Shop.ProductIDs...)
	}
	if k.Of == Formula || k.Of == Made {
		all = append(all, p.Shop.FormulaIDs...)
	}
	return slices.DeleteFunc(all, func(id string) bool { return k.Has != nil && k.Has(p, id) != nil })
}

// Takes reports whether the kind has a flag of [Request].
func (k *Kind) Takes(flag string) bool {
	switch flag {
	case "pack":
		return k.ofProduct() && k.Packs == nil
	case "market":
		return k.ofProduct()
	case "made":
		return k.Bears != NoBatch
	case "batch":
		return k.Bears == ItsBatch || k.ofProduct() && k.Bears == DayMade
	case "count":
		return k.Most > 1
	case "sscc-from", "for", "order":
		return k.SSCC
	case "weight":
		return k.Weighs
	case "first-place", "skip":
		return k.Form == ""
	case "draft":
		return k.sold()
	}
	return true
}

// Help is the help of a flag of [Request] that is not the same for every kind.
func (k *Kind) Help(flag string) string {
	switch flag {
	case "count":
		return "how many " + k.Many + "; 1 when left out"
	case "paper":
		if k.Form != "" {
			return "id of the paper, such as card-a4 or card-letter; card-a4 when left out"
		}
		return "id of the paper, such as roll-100x60 or a4-6; the usual one when left out"
	case "languages":
		usual := "those of the pack when left out"
		if k.Speaks == Kitchen {
			usual = "those of the cards when left out"
		}
		switch k.Langs {
		case 1:
			return "language, such as en; the first of the cards when left out"
		case 2:
			return "one or two languages, such as en,fr; " + usual
		}
		return "languages, such as en,fr; " + usual
	}
	return ""
}

// Request asks for paper of one kind. What a kind does not have is not looked
// at.
type Request struct {
	IDs        []string   // products or formulas
	Pack       string     `flag:"pack" help:"id of the pack; the product's first when left out" of:"pack"`
	Market     string     `flag:"market" help:"code of the market; the shop's first when left out" of:"market"`
	Languages  []string   `flag:"languages" of:"language"`
	Paper      string     `flag:"paper" of:"paper"`
	Count      unit.Count `flag:"count" is:"number"`
	Made       unit.Date  `flag:"made" is:"day" help:"the day made; today when left out"`
	Batch      string     `flag:"batch" help:"batch code; by the shop's rule when left out"`
	SSCCFrom   string     `flag:"sscc-from" help:"serial reference of the first carton's SSCC; the next one of the print book when left out"`
	For        string     `flag:"for" help:"id of the customer that it is packed for" of:"customer"`
	Order      string     `flag:"order" help:"number of the customer's order"`
	Weight     unit.Mass  `flag:"weight" is:"mass" help:"what it weighs without its packing, where it is sold by weight, such as \"312 g\""`
	FirstPlace unit.Count `flag:"first-place" is:"number" help:"first free place on a part-used sheet, counted from 1"`
	Skip       []int      `flag:"skip" help:"places of the first sheet to leave empty, such as 3,5"`
	Draft      bool       `flag:"draft" help:"print what nobody has approved yet, with the mark of a draft across it"`
	Own        any        // flags of the kind alone, as its Own made them

	run       *shop.Run  // of the plan, that asked for it
	first     int64      // number of the first piece, where it is not the next one
	plan      *shop.Plan // nil for that of the day
	pieces    unit.Count // of the card that a ticket goes with
	day       *day       // whose run sheet it is
	stale     []register.Stale
	traced    *Traced
	recalled  *Recalled
	packed    unit.Date // day of packing; today when zero
	compare   bool      // only to be compared, never to be printed
	onlyCheck bool      // nothing is printed: what takes long and cannot be wrong is left out
}

// own gives the flags that only this kind has.
func own[T any](j *Job) T {
	var none T
	if o, ok := j.Request.Own.(*T); ok && o != nil {
		return *o
	}
	return none
}
