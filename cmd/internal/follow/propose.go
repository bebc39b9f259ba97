package follow

import (
	"cmp"
	"context"

	"chablon/cmd/internal/usage"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
)

// Propose is what the plan of the day uses and makes, as a table to correct
// and note: each formula once, each run of the plan, every ingredient from the
// lot that keeps shortest and still has enough; "?" where none has.
func (d *Desk) Propose(ctx context.Context) ([]Row, error) {
	plan, ok := d.Shop.PlanFor(d.Today)
	if !ok {
		return nil, usage.Errorf("write plans/"+d.Today.String()+".yaml, or one for: every day", "there is no plan for %s", d.Today)
	}
	return d.Proposed(ctx, plan, nil)
}

// Proposed is [Desk.Propose] for a plan; without one it is for a batch alone.
func (d *Desk) Proposed(ctx context.Context, plan *shop.Plan, alone *scale.Batch) ([]Row, error) {
	lots, err := trace.Lots(ctx, d.Book)
	if err != nil {
		return nil, err
	}
	p := &proposal{desk: d, lots: lots, code: d.Shop.BatchCode(shop.Run{}, d.Today)}
	if plan == nil {
		p.batch(alone)
		return p.rows, nil
	}
	day, err := scale.PlanDay(d.Shop, plan)
	if err != nil {
		return nil, usage.Errorf("look at the formulas of the plan", "%v", err)
	}
	shared := p.code
	for i := range day.Prep {
		q := &day.Prep[i]
		p.code, p.varies = cmp.Or(q.Batch, shared), runOf(d, plan, q.Batch)
		p.make(&q.Make)
	}
	for i, b := range day.Runs {
		r := plan.Runs[i]
		p.code, p.varies = shared, shop.Run{}
		if r.Varies() {
			p.code, p.varies = d.Shop.BatchCode(r, d.Today), r
		}
		p.run(r, b)
	}
	return p.rows, nil
}

// runOf is the run of a plan whose batch has a code; none with "".
func runOf(d *Desk, plan *shop.Plan, code string) shop.Run {
	for _, r := range plan.Runs {
		if code != "" && r.Varies() && d.Shop.BatchCode(r, d.Today) == code {
			return r
		}
	}
	return shop.Run{}
}

// from is the batch of a formula that goes in: one of an earlier day where the
// run says so.
func (p *proposal) from(id string) (of, code string) {
	for _, w := range p.varies.Rework {
		if id == w.Use.V+shop.Suffix(w.Batch.V) {
			return w.Use.V, w.Batch.V
		}
	}
	for _, e := range p.varies.MadeBefore {
		if id == e.Use.V || id == e.Use.V+shop.Suffix(e.Batch.V) {
			return e.Use.V, e.Batch.V
		}
	}
	return id, p.code
}

// because is why something goes in that took another's place, or "".
func (p *proposal) because(id string) string {
	for _, i := range p.varies.Instead {
		if i.Use.V == id {
			return i.Because.V
		}
	}
	return ""
}

// batch proposes for one batch, of a formula or a product.
func (p *proposal) batch(b *scale.Batch) {
	for i := range b.Makes {
		p.make(&b.Makes[i])
	}
	if b.Product != nil {
		p.run(shop.Run{Product: shop.Text{V: b.Product.ID}}, b)
	}
}

// proposal is a table being written; lots hold what is left after each line.
type proposal struct {
	desk   *Desk
	lots   []trace.Held
	code   string   // of formulas
	varies shop.Run // whose batch varies, of what is proposed now
	rows   []Row
}

func (p *proposal) make(m *scale.Make) {
	id := m.Formula.ID
	for _, a := range m.Lines {
		p.amount(a, id, p.code)
	}
	if m.Medium != nil {
		p.amount(*m.Medium, id, p.code)
	}
	p.add(Row{What: "made", Of: id, Code: p.code, Mass: m.Out.Round(unit.Gram)})
}

func (p *proposal) run(r shop.Run, b *scale.Batch) {
	code := p.desk.Shop.BatchCode(r, p.desk.Today)
	for _, a := range b.Lines {
		p.amount(a, r.Product.V, code)
	}
	for _, part := range b.Parts {
		p.add(Row{What: "used", Of: part.Product.ID, Code: p.code, Pieces: part.Pieces, Into: r.Product.V, IntoCode: code})
	}
	p.add(Row{What: "made", Of: r.Product.V, Code: code, Pieces: r.Pieces.V})
}

// amount is one line of a formula: a sub-formula of the day, or an ingredient
// from the lots that there are. Tap water has no lot.
func (p *proposal) amount(a scale.Amount, into, code string) {
	if a.Formula != nil {
		of, from := p.from(a.Formula.ID)
		p.add(Row{What: "used", Of: of, Code: from, Mass: a.Shown, Into: into, IntoCode: code})
		return
	}
	if !a.Ingredient.Supplier.Set() {
		return
	}
	m := max(a.Shown, a.Buy.Round(unit.Gram))
	for i := range p.lots {
		if l := &p.lots[i]; l.ID == a.Ingredient.ID && l.Left >= m && (l.Until == "" || l.Until >= p.desk.Today.String()) {
			l.Left -= m
			p.add(Row{What: "used", Of: l.ID, Code: l.Code, Mass: m, Into: into, IntoCode: code, Why: p.because(l.ID)})
			return
		}
	}
	p.add(Row{What: "used", Of: a.Ingredient.ID, Code: "?", Mass: m, Into: into, IntoCode: code, Why: p.because(a.Ingredient.ID)})
}

func (p *proposal) add(r Row) {
	r.Day = p.desk.Today.String()
	p.rows = append(p.rows, r)
}
