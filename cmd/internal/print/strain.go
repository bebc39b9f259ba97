package print

import (
	"fmt"
	"slices"
	"strings"

	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/plan"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// laid lays a plan out in the kitchen; nil where nobody says when all is to be
// ready, or where what the plan makes cannot be worked out, which is told
// elsewhere.
func (p *Press) laid(of *shop.Plan) *plan.Day {
	day, err := scale.PlanDay(p.Shop, of)
	if err != nil {
		return nil
	}
	out, ok, err := plan.OfDay(p.Shop, day)
	if err != nil || !ok {
		return nil
	}
	return out
}

// strained says what of a plan nobody can do, why, and the nearest plan that
// works. It is a caution: paper is not held back by it.
func (p *Press) strained(of *shop.Plan, found *diag.List) {
	day := p.laid(of)
	if day == nil || day.Works() {
		return
	}
	hint := ""
	for j := range day.Jobs {
		if !day.Out[j] && day.Late[j] == 0 {
			continue
		}
		names, pos := dueNames(of, day.Joints[j].Runs)
		asked := day.Jobs[j].Ready
		if day.Out[j] {
			found.Warnf(pos, "hours", "make it on another day, or less of it; write per: at steps that grow with the batch, and day: -1 at what is made the day before",
				"%s cannot be made on this day beside the other work", names)
			continue
		}
		hint = fmt.Sprintf("write ready: %s for it", clock(asked+day.Late[j]))
		found.Warnf(pos, "hours", hint+otherwise(day), "%s cannot be ready at %s beside the other work: %s is the earliest that was found%s",
			names, clock(asked), clock(asked+day.Late[j]), because(day, j))
	}
}

// dueNames are the products of some runs, and where it stands when they are to
// be ready.
func dueNames(of *shop.Plan, runs []int) (string, diag.Pos) {
	var names []string
	pos := of.Ready.Pos
	for _, r := range runs {
		if id := of.Runs[r].Product.V; !slices.Contains(names, id) {
			names = append(names, id)
		}
		if of.Runs[r].Ready.Set() {
			pos = of.Runs[r].Ready.Pos
		} else {
			pos = of.Runs[r].Product.Pos
		}
	}
	return strings.Join(names, ", "), pos
}

// otherwise are other plans that work.
func otherwise(day *plan.Day) string {
	out := ""
	if day.People > 0 {
		out += fmt.Sprintf("; all is ready as asked with %s", counted(day.People, "person", "people"))
	}
	if len(day.Ahead) > 0 {
		var ids []string
		for _, f := range day.Ahead {
			ids = append(ids, f.ID)
		}
		out += "; or with day: -1 in " + strings.Join(ids, ", ")
	}
	return out
}

// because says where a job and others would be in each other's way, each done
// by itself at the latest.
func because(day *plan.Day, job int) string {
	for _, c := range day.Crowds {
		if !slices.ContainsFunc(c.Held, func(h plan.Held) bool { return h.Job == job }) {
			continue
		}
		what := "people are wanted"
		if c.By != plan.Person {
			what = c.By + "s are wanted"
		}
		return fmt.Sprintf("; each by itself, at %s %d %s of %d", clock(c.From), c.Wanted, what, c.There)
	}
	return ""
}

// clock is a time of day, counted from the midnight of the day: "06:58", with
// the days before or after that it is.
func clock(s unit.Span) string {
	days := int64(0)
	for ; s < 0; s += 24 * unit.Hour {
		days--
	}
	for ; s > 24*unit.Hour; s -= 24 * unit.Hour {
		days++
	}
	said := unit.Clock(s).String()
	if days != 0 {
		said += fmt.Sprintf(" (%+d)", days)
	}
	return said
}

// starts lays the work of one batch out for the time at which it is to be
// ready. What nobody can do is refused, with the time at which it can be.
func (j *Job) starts(b *scale.Batch, ready unit.Span) ([]unit.Span, error) {
	w, err := scale.Order(j.Shop, b)
	if err != nil || len(w.Tasks) == 0 {
		return nil, nil // told when the card is set
	}
	k := plan.Of(j.Shop)
	p := plan.Make(k, []plan.Job{{Name: j.ID, Work: w, Ready: ready}})
	switch {
	case p.Works():
		return p.Starts[0], nil
	case p.Out[0]:
		return nil, usage.Errorf("make less of it at once, or write day: -1 at what is made the day before, or a range of waiting such as 12 to 16 h at what waits over night",
			"%s cannot be made within the hours of one day (%s to %s, %s)", j.ID, clock(k.Opens), clock(k.Closes), counted(k.People, "person", "people"))
	}
	at := clock(ready + p.Late[0])
	return nil, usage.Errorf("write --ready "+at+", or day: -1 at what is made the day before",
		"%s cannot be ready at %s: from %s, with %s, it is ready at %s at the earliest", j.ID, clock(ready), clock(k.Opens), counted(k.People, "person", "people"), at)
}
