package print

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"chablon/cmd/internal/usage"
	"chablon/labels/declare"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/card"
	"chablon/layout/page"
	"chablon/layout/stock"
)

// CardOptions are the flags of bench cards alone. At most one of Pieces, Mass
// and Have says how much; with none of them it is the formula as written, or
// one tray of the product.
type CardOptions struct {
	Pieces unit.Count   `flag:"pieces" is:"number" help:"how many good pieces"`
	Mass   unit.Mass    `flag:"mass" is:"mass" help:"how much of the formula, such as \"2 kg\""`
	Have   Have         `flag:"have" help:"make as much as this allows, such as \"passion-puree=1.2 kg\""`
	Copy   Copy         `flag:"copy" help:"which copy of how many, such as 2/3"`
	Place  string       `flag:"place" help:"where this copy hangs"`
	Sizes  []unit.Count `flag:"sizes" is:"numbers" help:"up to three batch sizes to show side by side, such as 24,48,96"`
	Ready  unit.Clock   `flag:"ready" is:"time" help:"time of day at which all is to be ready, such as 09:00: shows when to start"`
	Baker  bool         `flag:"baker" help:"show amounts as a percentage of the base of their formula too"`
	Form   CardForm     `flag:"form" is:"form" help:"wall, one sheet to hang up, at most two; or full, every step with its tools and looks; wall when left out"`
	Hang   bool         `flag:"hang" help:"note in the shop's print book that this copy was hung up at its place"`
}

func cardKind() *Kind {
	return &Kind{
		Name: "card", File: "card", One: "card", Many: "cards",
		Short:   "Print the bench card of a formula or product",
		Long:    "Prints the card that hangs above the bench, for a number of pieces, a mass, or\nas much as one ingredient allows.",
		Example: "  chablon card pear-hazelnut-tartlet --pieces 48\n  chablon card sweet-pastry --mass \"2 kg\" --paper card-a5\n  chablon card pear-hazelnut-tartlet --pieces 48 --sizes 24,48,96 --ready 09:00\n  chablon card passion-caramel-bar --have \"passion-puree=1.2 kg\" --languages en,fr",
		Next:    "Laminate it, hang it where the work is done, and take the old one down.",
		Inside:  true,
		Of:      Made, Speaks: Kitchen, Langs: 2, Form: "card",
		Own:     func() any { return &CardOptions{} },
		Tells:   tellsCard,
		Mark:    checkWord,
		Says:    func(j *Job) string { return j.gave },
		Compose: composeCard,
		Runs:    cardOfRun,
	}
}

func composeCard(j *Job) (Set, error) {
	c, err := j.card()
	if err != nil || j.Found.Errors() > 0 {
		return Set{}, err
	}
	if err := j.reworded(context.Background(), c); err != nil || j.Found.Errors() > 0 {
		return Set{}, err
	}
	c.Look = j.lookOf("cards")
	pages := card.Compose(c, j.faces, j.Found)
	if c.Look != nil && c.Look.Has() && !slices.ContainsFunc(pages, emblazoned) {
		j.gave = "without the emblem"
	}
	return Set{Pages: pages, Heights: card.Heights(j.Stock, c.Form)}, nil
}

// emblazoned reports whether the emblem of the shop stands on a page.
func emblazoned(p *page.Page) bool {
	return slices.ContainsFunc(p.Items, func(it page.Item) bool { return it.Role == role.Emblem })
}

// cardOfRun asks for the card of a run.
func cardOfRun(_ *Press, r shop.Run) (Request, bool) {
	o := &CardOptions{Pieces: r.Pieces.V}
	for _, s := range r.Sizes {
		o.Sizes = append(o.Sizes, s.V)
	}
	return Request{Own: o}, true
}

// cardOf is the card that a request comes to, without setting it.
func (p *Press) cardOf(r Request, id string) (card.Card, error) {
	j, err := p.look(p.KindOf("card"), r, id)
	if err != nil {
		return card.Card{}, err
	}
	if j.Found.Errors() > 0 {
		p.Found.AddAll(j.Found)
		return card.Card{}, nil
	}
	return j.card()
}

// card scales the batch and gathers what the card says.
func (j *Job) card() (c card.Card, err error) {
	o := own[CardOptions](j)
	c = card.Card{Shop: j.Shop, Product: j.Product, Formula: j.Formula, Langs: j.Langs, Stock: j.Stock, Dots: j.Printer.Resolution.V,
		Pack: j.Pack, Copy: max(1, o.Copy.N), Copies: max(1, o.Copy.Of), Place: o.Place, Ready: unit.Span(o.Ready), Baker: o.Baker, Form: card.Form(o.Form),
		Code: coded2D(j.Stock, j.Printer.Resolution.V)}
	if o.Hang {
		if err := j.canHang(o); err != nil {
			return c, err
		}
	}
	if c.Batch, err = j.scaled(o); err != nil {
		return c, usage.Errorf("", "no batch of %s: %v", j.ID, err)
	}
	if c.Sizes, err = j.sizes(o.Sizes); err != nil {
		return c, err
	}
	if c.Ready > 0 {
		if c.Starts, err = j.starts(c.Batch, c.Ready); err != nil {
			return c, err
		}
	}
	if j.Product != nil {
		c.Contains = declare.OnCard(j.Shop, j.Product)
	} else {
		c.Contains, _ = declare.InFormula(j.Shop, j.Formula, declare.Known{})
	}
	return c, nil
}

// coded2D tells whether a card bears a code: where the printer's dots are known
// and the paper is A5 or larger.
func coded2D(s *stock.Stock, dots unit.Dots) bool {
	w, h := s.Size()
	return dots.N > 0 && min(w, h) >= 148*unit.MM
}

// sizes scales the other batch sizes that are shown on the card of a product.
func (j *Job) sizes(all []unit.Count) (out []*scale.Batch, err error) {
	switch {
	case j.Product == nil && len(all) > 0:
		return nil, usage.Errorf("batch sizes are for the card of a product", "%s is a formula, which is not made by pieces", j.ID)
	case len(all) > 3:
		return nil, usage.Errorf("leave three", "a card has no room for %d batch sizes", len(all))
	}
	for _, n := range all {
		b, err := scale.Pieces(j.Shop, j.Product, n)
		if err != nil {
			return nil, usage.Errorf("", "no batch of %s: %v", j.ID, err)
		}
		out = append(out, b)
	}
	return out, nil
}

// scaled scales what the card is about.
func (j *Job) scaled(o CardOptions) (*scale.Batch, error) {
	switch {
	case o.Have.Ingredient != "":
		return scale.Have(j.Shop, j.ID, o.Have.Ingredient, o.Have.Mass)
	case j.Formula != nil && o.Mass > 0:
		return scale.Mass(j.Shop, j.Formula, o.Mass)
	case j.Formula != nil && o.Pieces == 0:
		return scale.Mass(j.Shop, j.Formula, j.Formula.Out())
	case j.Product == nil:
		return nil, fmt.Errorf("a formula is made by mass: give --mass")
	case o.Mass > 0:
		return nil, fmt.Errorf("a product is made by pieces: give --pieces")
	case o.Pieces > 0:
		return scale.Pieces(j.Shop, j.Product, o.Pieces)
	case j.Product.Tray != nil:
		return scale.Pieces(j.Shop, j.Product, j.Product.Tray.Holds.V)
	}
	return scale.Pieces(j.Shop, j.Product, 24)
}

// tellsCard tells cards apart by size of batch, paper, copy, and letter of the
// run.
func tellsCard(j *Job) []string {
	o := own[CardOptions](j)
	b, err := j.scaled(o)
	if err != nil {
		return nil
	}
	out := []string{fmt.Sprint(b.Pieces), strings.TrimPrefix(j.Stock.ID, "card-")}
	if j.Formula != nil {
		out[0] = strings.ReplaceAll(b.Out.String(), " ", "")
	}
	if o.Copy.Of > 1 {
		out = append(out, fmt.Sprintf("%dof%d", o.Copy.N, o.Copy.Of))
	}
	switch run := j.Request.run; {
	case run == nil:
	case run.Batch.Set():
		out = append(out, coded(run.Batch.V))
	case run.Letter.Set():
		out = append(out, coded(run.Letter.V))
	}
	return out
}

// checkWord is the check word that a card bears.
func checkWord(j *Job) string {
	c, err := j.card()
	if err != nil || j.Found.Errors() > 0 {
		return ""
	}
	return card.CheckWord(c)
}

// Have is how much there is of one ingredient: "passion-puree=1.2 kg".
type Have struct {
	Ingredient string
	Mass       unit.Mass
}

// UnmarshalText reads "ID=MASS".
func (h *Have) UnmarshalText(b []byte) error {
	id, mass, ok := strings.Cut(string(b), "=")
	m, err := unit.ParseMass(mass)
	if !ok || err != nil {
		return usage.Errorf(`write it like --have "passion-puree=1.2 kg"`, "--have %q cannot be read", b)
	}
	h.Ingredient, h.Mass = strings.TrimSpace(id), m
	return nil
}

// Copy is which copy of how many a card is: "2/3".
type Copy struct{ N, Of int }

// UnmarshalText reads "N/OF".
func (c *Copy) UnmarshalText(b []byte) error {
	var n, of int
	if _, err := fmt.Sscanf(string(b), "%d/%d", &n, &of); err != nil || n < 1 || of < n || of > 99 {
		return usage.Errorf("write it like --copy 2/3", "--copy %q cannot be read", b)
	}
	c.N, c.Of = n, of
	return nil
}

// CardForm is how a card is set out.
type CardForm card.Form

// UnmarshalText reads "wall" or "full".
func (f *CardForm) UnmarshalText(b []byte) error {
	switch string(b) {
	case "wall":
		*f = CardForm(card.Wall)
	case "full":
		*f = CardForm(card.Full)
	default:
		return usage.Errorf("write --form wall or --form full", "there is no form %q of a card", b)
	}
	return nil
}
