package print

import (
	"cmp"
	"fmt"
	"strconv"

	"chablon/cmd/internal/usage"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/carton"
	"chablon/layout/page"
)

// CartonOptions are the flags of carton labels alone.
type CartonOptions struct {
	Packs unit.Count `flag:"packs" is:"number" help:"packs in each carton, where it is not full"`
	With  []string   `flag:"with" help:"what else is in each carton: a product and how many packs of it, such as pistachio-choux:5, or with its batch pistachio-choux=L26075A:5" of:"product"`
	Sides unit.Count `flag:"sides" is:"number" help:"sides of each carton that bear its label"`

	with []with // what the plan, or an older print, says is in it
}

// full reports whether the cartons are full of one batch.
func (o CartonOptions) full() bool { return o.Packs == 0 && len(o.With) == 0 }

func cartonKind() *Kind {
	return &Kind{
		Name: "carton", File: "cartons", One: "carton label", Many: "carton labels",
		Short:   "Print the carton labels of a product",
		Long:    "Prints one label for each shipped carton. Print it after the carton is closed\nand counted. A serial reference must never be used for a second carton.",
		Example: "  chablon carton pear-hazelnut-tartlet --count 2 --today 2026-03-17\n  chablon carton pear-hazelnut-tartlet --packs 7 --today 2026-03-17\n  chablon carton pistachio-choux --packs 4 --with pear-hazelnut-tartlet:5 --today 2026-03-17\n  chablon carton passion-caramel-bar --for ossel-larder --order OL-4711 --shop my-shop",
		Next:    "Stick it on the closed and counted carton, on a dry face.",
		Bears:   ItsBatch, Most: carton.MaxCartons, SSCC: true, Weighs: true, Scan: gs1.Trade,
		Own:   func() any { return &CartonOptions{} },
		Has:   hasCarton,
		Packs: func(q *shop.Product) []string { return []string{q.Carton.Pack.V} },
		Paper: func(j *Job) string { return j.Product.Carton.Paper.V },
		Judge: func(j *Job) market.Pack { return j.box().Pack() },
		Tells: func(j *Job) []string {
			if !j.more {
				return j.heavy()
			}
			return append(j.heavy(), "from-"+strconv.FormatInt(j.From, 10))
		},
		Says:    func(j *Job) string { return j.gave },
		Compose: composeCarton,
		Runs: func(p *Press, r shop.Run) (Request, bool) {
			return Request{Count: r.Cartons.V, SSCCFrom: p.Shop.SSCCFrom(r, p.Today), For: r.For.V, Order: r.Order.V}, r.Cartons.V > 0
		},
	}
}

// partKind is a carton that is not full of one batch: what is left over at the
// end of a run, or several batches or products by the shop's rule. The command
// and the label are those of a carton; the print book counts them apart, for a
// run of the plan asks for so many full ones, and one that is not.
func partKind() *Kind {
	k := cartonKind()
	k.Name, k.File, k.One, k.Many, k.Short = partCarton, "part-cartons", "part-carton label", "part-carton labels", ""
	k.Says = func(j *Job) string {
		said := counted(int(j.packs()), "pack", "packs") + " in it"
		for _, in := range j.Inside {
			said += fmt.Sprintf(", and %d of %s, batch %s", in.Packs, in.Product.ID, in.Batch)
		}
		if j.gave != "" {
			said += ", " + j.gave
		}
		return said
	}
	k.Runs = func(p *Press, r shop.Run) (Request, bool) {
		if r.LastCarton == nil {
			return Request{}, false
		}
		return Request{Count: 1, For: r.For.V, Order: r.Order.V, Own: ofPlan(r.LastCarton)}, true
	}
	return k
}

// partCarton is the name of [partKind].
const partCarton = "part-carton"

// filled is the kind that a request for cartons, or for their ends, is of.
func (p *Press) filled(k *Kind, r Request) *Kind {
	switch o := r.Own.(type) {
	case *CartonOptions:
		if !o.full() {
			return p.KindOf(partCarton)
		}
	case *BoxEndOptions:
		if o.Packs != 0 {
			return p.KindOf(partBoxEnd)
		}
	}
	return k
}

func hasCarton(p *Press, id string) error {
	if p.Shop.Products[id].Carton == nil {
		return usage.Errorf("write carton: into products/"+id+".yaml", "%s has no carton", id)
	}
	return nil
}

func composeCarton(j *Job) (Set, error) {
	if j.canPrint(); j.Found.Errors() > 0 {
		return Set{}, nil
	}
	sides := j.sides()
	if sides > shop.MaxSides {
		return Set{}, usage.Errorf("count the sides that bear its label", "a carton has 1 to %d sides for its label, not %d", shop.MaxSides, sides)
	}
	c := carton.Compose(carton.Carton{Facts: j.Facts, Told: j.Told, Langs: j.Langs, Batch: j.Batch, Batched: j.Batched,
		Packs: j.packs(), With: j.with(), Of: j.Count, Goes: j.goes(), SSCCs: j.SSCCs, Numbered: j.Number, Stock: j.Stock, Dots: j.Printer.Resolution.V, Look: j.lookOf("cartons")}, j.faces, j.Found)
	if c == nil {
		return Set{}, nil
	}
	j.gave = c.Gave
	return Set{Arts: []*page.Art{c.Art}, Safe: c.Safe, Date: j.box().First().Date.End, Scan: c.Scan, Copies: sides, Own: func(n int) []page.Item { return c.Own((n-1)/sides + 1) }, Keys: c.Keys}, nil
}

// packs is how many packs are in each carton of the job.
func (j *Job) packs() unit.Count {
	usual := j.Product.Carton.Holds.V
	if j.Kind.Name == partCarton { // asked for by nobody, as the check of the shop does
		usual = max(1, usual-1)
	}
	return cmp.Or(own[CartonOptions](j).Packs, usual)
}

// sides is on how many sides of each carton its label stands.
func (j *Job) sides() int {
	return max(1, int(cmp.Or(own[CartonOptions](j).Sides, j.Product.Carton.Sides.V)))
}
