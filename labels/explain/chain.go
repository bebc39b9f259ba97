package explain

import (
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/measured"
	"chablon/labels/shop"
)

// rounding tells by which rule a figure is rounded, and by how much the food may
// part from what is printed.
func (f *finder) rounding(r *Reason, row declare.Row) {
	n, ok := f.Facts.Market.Nutrition.Find(row.Key)
	if !ok {
		return
	}
	r.add("rounded-by", Values{"source": declare.Text(sourceText(n.Cite))})
	leeway, ok := f.Facts.Market.Leeway(row.Key, row.Shown.Amount())
	if !ok {
		r.add("no-tolerance", nil)
		return
	}
	r.add("tolerance", Values{"by": declare.Mass(leeway.Amount), "source": declare.Text(sourceText(leeway.Cite))})
}

// sourceText is a place in the law and how it is known.
func sourceText(c market.Cite) string {
	switch {
	case c.Memory:
		return c.String() + ", from memory"
	case c.House:
		return c.String() + ", our own rule"
	}
	return c.String() + ", read " + c.Read
}

// finished tells what a sum is divided by, and what was lost on the way.
func (f *finder) finished(r *Reason) {
	d := r.add("divided-by", Values{"finished": declare.Mass(each(f.Facts.Finished)), "used": declare.Mass(each(f.Facts.AtUse))})
	f.losses(d, f.Facts.Product.ID)
	for _, x := range f.foods {
		if x.product != f.Facts.Product {
			f.losses(d, x.product.ID)
		}
	}
	for _, v := range f.through() {
		f.losses(d, v.ID)
	}
}

// losses tells what goes missing of a formula or product, stage by stage, and
// whether somebody weighed it.
func (f *finder) losses(r *Reason, id string) {
	tell := func(stage string, p diag.At[shop.Portion]) {
		if p.V.Mass == 0 && p.V.Share == 0 {
			return
		}
		var lost declare.Value = declare.Mass(p.V.Mass)
		if p.V.Share > 0 {
			lost = declare.Percent(p.V.Share)
		}
		v := Values{"stage": declare.Text(stage), "of": declare.ID(id), "lost": lost}
		for _, g := range measured.All(f.Shop) {
			if g.Kind == measured.Loss && g.Of == id && g.Where == stage {
				v["count"], v["got"], v["last"] = Count(g.N), declare.Percent(g.MeasuredLoss), declare.Day(g.Last)
				r.add("loss-weighed", v, p.Pos)
				return
			}
		}
		r.add("loss-assumed", v, p.Pos)
	}
	if p := f.Shop.Products[id]; p != nil {
		for _, s := range p.Parts {
			tell(s.Stage.V, s.WaterLost)
		}
	}
	if v := f.Shop.Formulas[id]; v != nil {
		for _, l := range v.Losses {
			tell(l.Stage.V, l.WaterLost)
			tell(l.Stage.V, l.LeftBehind)
		}
	}
}

// specified tells of the supplier's sheet.
func (f *finder) specified(r *Reason, i *shop.Ingredient) {
	s := i.Spec
	if s == nil {
		r.add("no-specification", nil, i.Pos)
		return
	}
	v := Values{"version": declare.Text(s.Version.V), "dated": declare.Day(s.Dated.V), "supplier": declare.Text(i.Supplier.V)}
	if !s.ReviewBy.Set() {
		r.add("specification-kept", v, s.Pos)
		return
	}
	v["review-by"] = declare.Day(s.ReviewBy.V)
	r.add("specification", v, s.Pos)
}
