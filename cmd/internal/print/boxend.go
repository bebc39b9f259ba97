package print

import (
	"cmp"
	"fmt"

	"chablon/cmd/internal/usage"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/boxend"
	"chablon/layout/page"
)

// BoxEndOptions are the flags of box-end labels alone.
type BoxEndOptions struct {
	Packs unit.Count `flag:"packs" is:"number" help:"packs in each carton, where it is not full"`
}

// boxEndKind is the label on the end of a carton, to be read from across the
// cold store. It stands beside the carton label, and goes to the buyer with it:
// so it is judged as outer packaging is, and needs the same approval. It bears
// no number, and prints as often as it is asked for.
func boxEndKind() *Kind {
	return &Kind{
		Name: "box-end", File: "box-ends", One: "box-end label", Many: "box-end labels",
		Short:   "Print the labels for the ends of a product's cartons",
		Long:    "Prints labels that are read at 1.5 m in a cold store: name, contents, batch, date\nand temperature, without bars. The carton label stands beside them. Give --packs\nfor a carton that is not full.",
		Example: "  chablon box-end pear-hazelnut-tartlet --count 2 --today 2026-03-17\n  chablon box-end pear-hazelnut-tartlet --packs 7 --today 2026-03-17",
		Next:    "Stick it on the ends of the carton that face the aisle, beside no other batch.",
		Bears:   ItsBatch, Most: boxend.Most, Scan: gs1.Trade,
		Own:     func() any { return &BoxEndOptions{} },
		Has:     hasBoxEnd,
		Packs:   func(q *shop.Product) []string { return []string{q.Carton.Pack.V} },
		Wanted:  func(q *shop.Product) bool { return q.Carton.Ends.V > 0 },
		Paper:   func(j *Job) string { return j.Product.Carton.Paper.V },
		Judge:   func(j *Job) market.Pack { return j.box().Pack() },
		Compose: composeBoxEnd,
		Runs: func(p *Press, r shop.Run) (Request, bool) {
			n := p.ends(r) * r.Cartons.V
			return Request{Count: n}, n > 0
		},
	}
}

// partBoxEnd is the name of [partBoxEndKind].
const partBoxEnd = "part-box-end"

// partBoxEndKind is the end of a carton that is not full. A mixed carton has
// none: it is known by its SSCC alone.
func partBoxEndKind() *Kind {
	k := boxEndKind()
	k.Name, k.File, k.One, k.Many, k.Short = partBoxEnd, "part-box-ends", "part-box-end label", "part-box-end labels", ""
	k.Says = func(j *Job) string { return counted(int(j.endPacks()), "pack", "packs") + " in the carton" }
	k.Tells = func(j *Job) []string { return []string{fmt.Sprintf("of-%d", j.endPacks())} }
	k.Runs = func(p *Press, r shop.Run) (Request, bool) {
		if l := r.LastCarton; l != nil && len(l.With) == 0 {
			return Request{Count: p.ends(r), Own: &BoxEndOptions{Packs: l.Packs.V}}, p.ends(r) > 0
		}
		return Request{}, false
	}
	return k
}

// ends is how many ends of each carton of a run bear a label.
func (p *Press) ends(r shop.Run) unit.Count {
	q := p.Shop.Products[r.Product.V]
	if q == nil || q.Carton == nil {
		return 0
	}
	return q.Carton.Ends.V
}

// hasBoxEnd says why a product has none. A carton sold by weight has one only
// on its own label, which is weighed with it.
func hasBoxEnd(p *Press, id string) error {
	if err := hasCarton(p, id); err != nil {
		return err
	}
	q := p.Shop.Products[id]
	if k, ok := q.Pack(q.Carton.Pack.V); ok && k.ByWeight() {
		return usage.Errorf("take the carton label, which is printed when the carton is weighed", "%s is sold by weight, and its cartons differ: they have no box-end label", id)
	}
	return nil
}

// endPacks is how many packs are in the carton of a box end.
func (j *Job) endPacks() unit.Count {
	usual := j.Product.Carton.Holds.V
	if j.Kind.Name == partBoxEnd { // asked for by nobody, as the check of the shop does
		usual = max(1, usual-1)
	}
	return cmp.Or(own[BoxEndOptions](j).Packs, usual)
}

func composeBoxEnd(j *Job) (Set, error) {
	if j.canPrint(); j.Found.Errors() > 0 {
		return Set{}, nil
	}
	e := boxend.End{Facts: j.Facts, Told: j.Told, Langs: j.Langs, Batch: j.Batch, Batched: j.Batched,
		Packs: j.endPacks(), Stock: j.Stock, Dots: j.Printer.Resolution.V}
	art := boxend.Compose(e, j.faces, j.Found)
	if art == nil {
		return Set{}, nil
	}
	return Set{Arts: []*page.Art{art}, Heights: boxend.Heights(), Keys: e.Keys()}, nil
}
