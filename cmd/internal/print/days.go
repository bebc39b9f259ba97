package print

import (
	"fmt"
	"slices"

	"chablon/cmd/internal/usage"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// maxDays bounds how far ahead a kitchen looks.
const maxDays = 45

// once asks for one paper over the whole plan.
func once(*Press, *shop.Plan) []Request { return []Request{{}} }

// prints reports whether the day prints a kind: what the profile names under
// day-prints; without that what it has for each run, unless it waits to be asked.
func (p *Press) prints(k *Kind) bool {
	named, name := p.Shop.Profile.DayPrints, k.Name
	switch name { // whoever wants cartons wants the last one too
	case partCarton:
		name = "carton"
	case partBoxEnd:
		name = "box-end"
	}
	if named == nil {
		return k.Runs != nil && !k.Asked
	}
	return (k.Runs != nil || k.Day != nil) && slices.ContainsFunc(named, func(t shop.Text) bool { return t.V == name })
}

// tellsSpan tells lists of several days apart from that of one.
func tellsSpan(j *Job) []string { return tellsDays(own[Span](j).Days) }

func tellsPrep(j *Job) []string { return tellsDays(own[PrepOptions](j).Days) }

func tellsDays(n unit.Count) []string {
	if n > 1 {
		return []string{fmt.Sprintf("%d-days", n)}
	}
	return nil
}

// days works out the plan of the job and those of the days behind it. A day
// without a plan is one on which nothing is made.
func (j *Job) days(o Span) (out []*scale.Day, err error) {
	if o.Days > maxDays {
		return nil, usage.Errorf(fmt.Sprintf("take at most %d", maxDays), "%d days are too many", o.Days)
	}
	for n := range max(1, int(o.Days)) {
		plan := j.Plan
		if n > 0 {
			var ok bool
			if plan, ok = j.Shop.PlanFor(j.Today.AddDays(n)); !ok {
				plan = &shop.Plan{Pos: j.Plan.Pos}
			}
			plan = j.sound(plan)
		}
		day, err := scale.PlanDay(j.Shop, plan)
		if err != nil {
			j.Found.Errorf(plan.Pos, "plan", "look at the formulas of the plan", "%v", err)
			return nil, nil
		}
		out = append(out, day)
	}
	return out, nil
}

// sheets makes what the plan asks of each kind as a whole.
func (p *Press) sheets(d *day, plan *shop.Plan, like Request) error {
	for _, k := range p.kinds {
		if k.Day == nil || !p.prints(k) {
			continue
		}
		for _, q := range k.Day(p, plan) {
			id := ""
			if len(q.IDs) > 0 {
				id = q.IDs[0]
			}
			q.plan, q.day, q.Draft, q.compare = plan, d, like.Draft, like.compare
			j, err := p.make(k, q, id)
			if err != nil {
				return err
			}
			d.found.AddAll(j.Found)
			d.keep(j)
		}
	}
	return nil
}

// keep takes a sheet over the plan among the day's paper, or notes that it is
// left out.
func (d *day) keep(j *Job) {
	if j.Found.Errors() == 0 {
		d.sheets = append(d.sheets, j)
		return
	}
	for _, e := range j.Found.All() {
		if !e.Warning {
			d.lacks = append(d.lacks, j.what()+": "+e.Msg)
			return
		}
	}
}
