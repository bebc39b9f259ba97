package counter

import (
	"errors"
	"net/http"
	"net/url"
	"strings"

	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
)

// planRun is a run of the day's plan as the page shows it.
type planRun struct {
	print.RunState
	Name   named
	Path   string // the page of its label
	Papers []planPaper
	Faults []string
}

// planPaper is how much of one kind a run has.
type planPaper struct {
	Kind, Numbers, Line string
	Done                bool
}

// plan shows the day's plan and how far it has come.
func (a *ask) plan() error {
	if err := a.open(); err != nil {
		return err
	}
	out := struct {
		Runs          []planRun
		Refused, Hint string
	}{}
	runs, err := a.press.PlanState(a.r.Context())
	var bad *usage.Error
	switch {
	case errors.As(err, &bad):
		out.Refused, out.Hint = bad.Msg, bad.Hint
	case err != nil:
		return err
	}
	for _, r := range runs {
		one := planRun{RunState: r, Name: a.nameOf(r.Product), Faults: r.Faults, Path: paperPath("label", r.Product) + "&batch=" + url.QueryEscape(r.Batch)}
		if r.Pack != "" {
			one.Path += "&pack=" + url.QueryEscape(r.Pack)
		}
		for _, p := range r.Papers {
			numbers := p.Numbers
			if len(numbers) > 2 {
				numbers = []string{numbers[0] + " – " + numbers[len(numbers)-1]}
			}
			one.Papers = append(one.Papers, planPaper{Kind: a.Kind(p.Kind), Numbers: strings.Join(numbers, ", "),
				Line: a.F("of", "n", a.N(int(p.Printed)), "m", a.N(int(p.Wanted))), Done: p.Printed >= p.Wanted})
		}
		out.Runs = append(out.Runs, one)
	}
	return a.show(http.StatusOK, "plan", a.F("plan-of", "day", a.Day()), out)
}

// planPaper shows all that the day's plan still asks for.
func (a *ask) planPaper() error {
	if err := a.open(); err != nil {
		return err
	}
	b, err := a.press.Day(print.DayOptions{})
	if err != nil {
		return err
	}
	out := paperPage{Found: findings(b.Found), Print: len(b.Papers) > 0, Left: b.Left}
	a.look(asking{form: url.Values{}}, &b, &out)
	out.Button = a.C("print-papers", len(b.Papers))
	for i := range out.Sheets { // each has a page of its own
		out.Sheets[i].Said, out.Sheets[i].Pictures = nil, nil
		if id := out.Sheets[i].ID; id != "" {
			out.Sheets[i].Name = a.nameOf(id)
		}
	}
	return a.show(http.StatusOK, "day", a.W("day-paper"), out)
}

// printDay prints all that the day's plan still asks for.
func (a *ask) printDay() error {
	return a.alone(func(url.Values) (*print.Batch, error) {
		b, err := a.press.Day(print.DayOptions{})
		return &b, err
	})
}
