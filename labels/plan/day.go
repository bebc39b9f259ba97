package plan

import (
	"slices"

	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Day is the plan of a day of a shop, with what it is the plan of.
type Day struct {
	*Plan
	Joints []scale.Joint   // of each job, its runs
	Alone  *Plan           // each job by itself
	Crowds []Crowd         // where they would then be in each other's way
	Ahead  []*shop.Formula // made the day before, all would be ready as asked; none where that is not the matter
}

// ahead finds formulas that keep for a day and with which, made the day before,
// all is ready as it is asked for: one of them if that is enough, else all.
func ahead(k Kitchen, jobs []Job) []*shop.Formula {
	var keep []*shop.Formula
	for _, j := range jobs {
		for _, l := range j.Work.Lanes {
			if f := l.Formula; f != nil && f.Keep != nil && f.Keep.Life.V != (unit.Life{}) && !slices.Contains(keep, f) {
				keep = append(keep, f)
			}
		}
	}
	if many(jobs) {
		return nil
	}
	for _, f := range keep {
		if some := []*shop.Formula{f}; attempt(k, before(jobs, some)).Works() {
			return some
		}
	}
	if attempt(k, before(jobs, keep)).Works() {
		return keep
	}
	return nil
}

// before gives the jobs with some formulas made the day before.
func before(jobs []Job, formulas []*shop.Formula) []Job {
	all := slices.Clone(jobs)
	for i := range all {
		w := *all[i].Work
		w.Tasks = slices.Clone(w.Tasks)
		for k := len(w.Tasks) - 1; k >= 0; k-- {
			t := &w.Tasks[k]
			if slices.Contains(formulas, t.Formula) {
				t.Day = min(t.Day, -1)
			}
			for _, n := range t.Behind() {
				w.Tasks[n].Day = min(w.Tasks[n].Day, t.Day)
			}
		}
		all[i].Work = &w
	}
	return all
}

// OfDay lays out a day; the bool is false where nobody says when all is to be
// ready.
func OfDay(sh *shop.Shop, d *scale.Day) (*Day, bool, error) {
	joints, err := d.Joints(sh)
	if err != nil {
		return nil, false, err
	}
	k := Of(sh)
	var jobs []Job
	var with []scale.Joint
	for _, jt := range joints {
		j := Job{Work: jt.Work, Due: make([]unit.Span, len(d.Runs))}
		for _, r := range jt.Runs {
			j.Due[r] = Ready(d.Plan, r)
			if j.Name == "" {
				j.Name = d.Runs[r].Product.ID
			}
			if j.Due[r] > 0 && (j.Ready == 0 || j.Due[r] < j.Ready) {
				j.Ready = j.Due[r]
			}
		}
		if j.Ready > 0 && len(jt.Work.Tasks) > 0 {
			jobs, with = append(jobs, j), append(with, jt)
		}
	}
	if len(jobs) == 0 {
		return nil, false, nil
	}
	out := &Day{Plan: Make(k, jobs), Joints: with, Alone: Alone(k, jobs), Crowds: Crowds(k, jobs)}
	if !out.Works() && k.Closes > 0 {
		out.Ahead = ahead(k, jobs)
	}
	return out, true, nil
}

// Ready is when a run of a plan is to be ready, from midnight; 0 where nobody
// says it.
func Ready(p *shop.Plan, run int) unit.Span {
	if run < len(p.Runs) && p.Runs[run].Ready.Set() {
		return p.Runs[run].Ready.V.Span()
	}
	return p.Ready.V.Span()
}
