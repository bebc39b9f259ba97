package print

import (
	"fmt"
	"slices"

	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/sale"
)

// LabelOptions are the flags of sale labels alone.
type LabelOptions struct {
	Again   string `flag:"again" help:"numbers to print once more as they were, such as 0007-0009 or 3,5"`
	Look    string `flag:"look" help:"plain for labels without the shop's own look"`
	Because string `flag:"because" help:"with --again: why, such as jam"`
}

func labelKind() *Kind {
	return &Kind{
		Name: "label", File: "labels", One: "label", Many: "labels",
		Short:   "Print the sale labels of a product",
		Long:    "Prints sale labels. Each bears the next running number of its batch; the same\ncommand again prints the next ones. A label that is spoilt or lost is printed\nonce more as it was, under its own number, with --again and a reason.",
		Example: "  chablon label pear-hazelnut-tartlet --count 24 --batch L26076A\n  chablon label lemon-thyme-marshmallow --count 9 --first-place 3 --skip 5",
		Next:    "Check the first label against the product, then print the rest without scaling.",
		Bears:   ItsBatch, Most: 1_000_000, Serial: true, Weighs: true,
		Own:   func() any { return &LabelOptions{} },
		Paper: func(j *Job) string { return j.Pack.Paper.V },
		Tells: func(j *Job) []string {
			if j.From <= 1 {
				return j.heavy()
			}
			return append(j.heavy(), fmt.Sprintf("from-%04d", j.From))
		},
		Says:    func(j *Job) string { return j.gave },
		Compose: composeLabel,
		Runs:    labelOfRun,
	}
}

func composeLabel(j *Job) (Set, error) {
	j.fitsFace()
	j.addressed()
	number, err := j.Shop.CounterNumber(j.Pack)
	if err != nil {
		j.Found.Errorf(j.Pack.Item.Pos, "counter-number", "weigh off less, or take a template with more digits", "this pack has no number: %v", err)
	}
	if number != "" || j.Pack.GTIN.Set() {
		j.canPrint()
	}
	if j.Found.Errors() > 0 {
		return Set{}, nil // the page would only repeat it
	}
	first := int(j.From)
	digits := max(4, len(fmt.Sprint(first+j.Count-1)))
	says := sale.Label{Facts: j.Facts, Pack: j.Pack, Told: j.Told, Langs: j.Langs, Number: number, Batch: j.Batch, Batched: j.Batched,
		LinkStem: j.Shop.Profile.LinkStem.V, Digits: digits, Stock: j.Stock, Dots: j.Printer.Resolution.V, Look: j.ownLook()}
	l := sale.Compose(says, j.faces, j.Found)
	if l == nil {
		return Set{}, nil
	}
	j.gave = l.Gave
	return Set{Arts: []*page.Art{l.Art}, Safe: l.Safe, Scan: sale.Scans(says, first), Own: func(n int) []page.Item { return l.Own(first + n - 1) }}, nil
}

// labelOfRun asks for the labels of a run: one for each full pack where the
// plan gives no number.
func labelOfRun(p *Press, r shop.Run) (Request, bool) {
	q := Request{Count: r.Labels.V, Paper: r.Paper.V, FirstPlace: r.FirstPlace.V}
	k, ok := p.Shop.Products[r.Product.V].Pack(r.Pack.V)
	if ok && k.ByWeight() { // its labels are printed one by one, at the scale
		return q, false
	}
	if ok && q.Count == 0 {
		q.Count = r.Pieces.V / max(1, k.Pieces.V)
	}
	for _, s := range r.Skip {
		q.Skip = append(q.Skip, int(s.V))
	}
	return q, true
}

// canPrint finds a shop without a printer, once: no bar code of it could be set
// on whole dots.
func (p *Press) canPrint() {
	if q := p.Shop.Profile; len(q.Printers) == 0 {
		p.Found.Errorf(q.Pos, "dots", "write printers: with the dots and the papers of each", "no printer is known, and bar codes must lie on its dots")
	}
}

// addressed cautions where nobody says in which country the address on the label
// is, and the market wants it to be there.
func (j *Job) addressed() {
	p, rule := &j.Shop.Profile, j.Market.Operator
	if j.Facts.Operator == nil && !p.Country.Set() && len(rule.Territory) > 0 && j.Market.Asks(j.asPack().Sale, role.Operator) {
		j.Found.Warnf(p.Address.Pos, "operator", "write country: in shop.yaml, such as FR", "nobody says in which country this address is, and the label for %s must name a house there (%s)", j.Market.Name(), rule.Cite)
	}
}

// fitsFace cautions when a label is larger than what is said to be the largest
// face of its pack and the law gives relief for so small a face: either the
// label goes round several faces, or the face was measured too small and the
// relief does not hold (Reg. (EU) No 1169/2011 Art. 13(3), 16(2)).
func (j *Job) fitsFace() {
	w, h := j.Stock.Size()
	area, face := unit.AreaOf(w, h), j.Pack.Face
	if !face.Set() || j.Pack.WrapsRound.V || area <= face.V || !j.relieved(area) {
		return
	}
	j.Found.Warnf(face.Pos, "face", "measure the face again; where the label goes round several faces, write wraps-round: yes below it",
		"the label of %s is %s (%s), larger than the largest face of the pack, %s; letters could become too small for the law", j.ID, area, j.Stock.ID, face.V)
}

// relieved reports whether the market asks less of the pack than of one with
// a face of this area.
func (j *Job) relieved(area unit.Area) bool {
	said := marketPack(j)
	large := said
	large.Face = area
	if j.Market.XHeight(said.Face).Least < j.Market.XHeight(area).Least {
		return true
	}
	less, _ := j.Market.Needs(said)
	more, _ := j.Market.Needs(large)
	return !slices.Equal(less, more)
}
