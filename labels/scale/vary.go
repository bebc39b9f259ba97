package scale

import (
	"fmt"
	"maps"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Vary derives the shop of one batch, in which the run's product is made of what
// goes into that batch: what takes another's place, what is left of earlier
// batches, and what was made before. Every question to the derived shop (what is
// declared, what is weighed, how long it keeps) is answered for that batch; sh
// itself is not changed. The error says what cannot be; where the run's own
// words are wrong, the check of the shop has found it.
func Vary(sh *shop.Shop, r shop.Run, made unit.Date) (*shop.Shop, error) {
	return vary(sh, r, made, map[*shop.Plan]bool{})
}

func vary(sh *shop.Shop, r shop.Run, made unit.Date, above map[*shop.Plan]bool) (*shop.Shop, error) {
	v := *sh
	v.Of = [2]string{r.Product.V, sh.BatchCode(r, made)}
	if sh.Of == v.Of {
		return sh, nil // it is the one of this batch already
	}
	v.Formulas, v.Products = maps.Clone(sh.Formulas), maps.Clone(sh.Products)
	p := sh.Products[r.Product.V]
	if p == nil {
		return nil, fmt.Errorf("there is no product %q", r.Product.V)
	}
	q := *p
	v.Products[p.ID] = &q
	d := &derived{Shop: &v, old: sh, run: r, product: &q, above: above}
	for _, i := range r.Instead {
		if !d.replace(i) {
			return nil, fmt.Errorf("%s goes into no part of %s that could be replaced", i.Of.V, p.ID)
		}
	}
	for _, w := range r.Rework {
		if err := d.rework(w); err != nil {
			return nil, err
		}
	}
	for _, e := range r.MadeBefore {
		if err := d.earlier(e); err != nil {
			return nil, err
		}
	}
	q.Percent = slices.DeleteFunc(slices.Clone(q.Percent), func(c shop.Percent) bool {
		return slices.Contains(sh.MadeOf(p.ID), c.Of.V) && !slices.Contains(v.MadeOf(p.ID), c.Of.V)
	})
	return &v, nil
}

// derived is a shop under way.
type derived struct {
	*shop.Shop
	old     *shop.Shop
	run     shop.Run
	product *shop.Product
	above   map[*shop.Plan]bool // plans that are being varied, for rework of rework
}

// replace puts something in another's place, and reports whether it went in
// anywhere. A line keeps the name by which steps call it.
func (d *derived) replace(i shop.Instead) (done bool) {
	swap := func(lines []shop.Line) []shop.Line {
		if !slices.ContainsFunc(lines, func(l shop.Line) bool { return l.Use.V == i.Of.V }) {
			return lines
		}
		lines, done = slices.Clone(lines), true
		for n, l := range lines {
			if l.Use.V == i.Of.V {
				lines[n].As.V, lines[n].As.Pos = l.Ref(), l.Use.Pos
				lines[n].Use, lines[n].Name, lines[n].Or = i.Use, nil, shop.Text{}
			}
		}
		return lines
	}
	for _, id := range d.MadeOf(d.product.ID) {
		if i.In.Set() && i.In.V != id {
			continue
		}
		if f := d.Formulas[id]; f != nil && id != i.Use.V && len(f.Lines) > 0 {
			g := *f
			if g.Lines = swap(f.Lines); &g.Lines[0] != &f.Lines[0] {
				d.Formulas[id] = &g
			}
		}
		if id == d.product.ID {
			d.product.Parts = slices.Clone(d.product.Parts)
			for n := range d.product.Parts {
				d.product.Parts[n].Add = swap(d.product.Parts[n].Add)
			}
		}
	}
	return done
}

// rework puts what is left of an earlier batch into a formula, as it was made
// then. So much less of the formula itself is made: the batch stays as large.
func (d *derived) rework(w shop.Rework) error {
	src, err := d.asMade(w.Use.V, w.Batch.V, w.Made.V)
	if err != nil {
		return err
	}
	id := d.adopt(src, w.Use.V, shop.Suffix(w.Batch.V))
	b, err := Pieces(d.Shop, d.product, d.run.Pieces.V)
	if err != nil {
		return err
	}
	f := d.Formulas[w.In.V]
	m, ok := b.Make(f)
	if !ok || m.In <= w.Take.V {
		return fmt.Errorf("%s of %s cannot go into %s of %s: a batch of %d takes no more", w.Take.V, w.Use.V, m.In, w.In.V, d.run.Pieces.V)
	}
	sum := unit.Mass(0)
	for _, l := range f.Lines {
		sum += l.Take.V
	}
	g := *f
	line := shop.Line{Pos: w.Pos}
	line.Use.V, line.Use.Pos = id, w.Use.Pos
	line.Take.V, line.Take.Pos = sum.Mul(w.Take.V, m.In-w.Take.V), w.Take.Pos
	line.Name = slices.Clone(src.Formulas[w.Use.V].Name)
	for n := range line.Name { // so that nobody takes the fresh one for it
		line.Name[n].V.V += " " + w.Batch.V
	}
	g.Lines, g.Steps = append(slices.Clone(f.Lines), line), slices.Clone(f.Steps)
	if n := slices.IndexFunc(g.Steps, func(s shop.Step) bool {
		return slices.ContainsFunc(s.Uses, func(u shop.Use) bool { return u.Line.Set() })
	}); n >= 0 {
		g.Steps[n].Uses = append(slices.Clone(g.Steps[n].Uses), shop.Use{Pos: w.Pos, Line: line.Use}) // with what goes in first
	}
	d.Formulas[g.ID] = &g
	d.older(w.Use.V, w.Made.V, d.product.Keep.Life.V, w.Pos)
	if src := src.Formulas[w.Use.V]; src.Keep != nil && src.Keep.Life.Set() {
		d.older(w.Use.V, w.Made.V, src.Keep.Life.V, w.Pos)
	}
	return nil
}

// earlier takes a formula as it was made on an earlier day, and makes none.
func (d *derived) earlier(e shop.Earlier) error {
	src, err := d.asMade(e.Use.V, e.Batch.V, e.Made.V)
	if err != nil {
		return err
	}
	if f := src.Formulas[e.Use.V]; f != d.old.Formulas[e.Use.V] {
		d.replace(shop.Instead{Of: e.Use, Use: shop.Text{V: d.adopt(src, e.Use.V, shop.Suffix(e.Batch.V)), Pos: e.Use.Pos}})
	}
	if life, ok := d.old.LifeOf(d.product, e.Use.V); ok {
		d.older(e.Use.V, e.Made.V, life, e.Pos)
	}
	return nil
}

func (d *derived) older(of string, made unit.Date, life unit.Life, pos diag.Pos) {
	d.product.Older = append(slices.Clone(d.product.Older), shop.Older{Of: of, Made: made, Life: life, Pos: pos})
}

// asMade is the shop as it was for an earlier batch: varied, where the plan of
// its day says that a run with that code did.
func (d *derived) asMade(id, batch string, made unit.Date) (*shop.Shop, error) {
	plan, ok := d.old.PlanFor(made)
	if !ok || d.above[plan] {
		return d.old, nil
	}
	for _, r := range plan.Runs {
		if r.Varies() && d.old.BatchCode(r, made) == batch && slices.Contains(d.old.MadeOf(r.Product.V), id) {
			above := maps.Clone(d.above)
			above[plan] = true
			return vary(d.old, r, made, above)
		}
	}
	return d.old, nil
}

// adopt takes a formula of another shop, and all formulas that it is made of,
// under ids of their own, and gives the id.
func (d *derived) adopt(src *shop.Shop, id, suffix string) string {
	f := *src.Formulas[id]
	f.ID = id + suffix
	f.Lines = slices.Clone(f.Lines)
	for n, l := range f.Lines {
		if src.Formulas[l.Use.V] != nil && src.Formulas[l.Use.V] != d.old.Formulas[l.Use.V] {
			f.Lines[n].As.V, f.Lines[n].As.Pos = l.Ref(), l.Use.Pos
			f.Lines[n].Use.V = d.adopt(src, l.Use.V, suffix)
		}
	}
	if d.Formulas[f.ID] == nil {
		d.FormulaIDs = append(slices.Clone(d.FormulaIDs), f.ID)
		slices.Sort(d.FormulaIDs)
	}
	d.Formulas[f.ID] = &f
	return f.ID
}
