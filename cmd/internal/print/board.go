package print

import (
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/layout/board"
)

func boardKind() *Kind {
	return &Kind{
		Name: "board", File: "board", One: "day board", Many: "day boards",
		Short: "Print who does what when: all products of the day against the clock",
		Long: "Prints the board of today's plan (or of the day given with --today): every product\nagainst the clock, a row for each oven, mixer and person, and what each person does.\n" +
			"The plan needs ready: for its runs, and the shop kitchen: with its hours and people.",
		Example: "  chablon board samples/quoin-and-crumb --today 2026-03-17",
		Next:    "Hang it where everybody passes.",
		Inside:  true,
		Of:      Plan, Speaks: Kitchen, Langs: 1, Usual: 1, Form: "card",
		Paper:   func(*Job) string { return "board-a3" },
		Compose: composeBoard,
		Day:     boardOfDay,
	}
}

// composeBoard sets the board of a plan that says when all is to be ready.
func composeBoard(j *Job) (Set, error) {
	day, err := scale.PlanDay(j.Shop, j.Plan)
	if err != nil {
		j.Found.Errorf(j.Plan.Pos, "plan", "look at the formulas of the plan", "%v", err)
		return Set{}, nil
	}
	laid := j.whole.laid(j.Plan)
	if laid == nil {
		j.Found.Warnf(j.Plan.Pos, "plan", "write ready: in the plan, or at each of its runs, such as ready: 09:00", "nobody says when what this plan makes is to be ready")
		return Set{}, nil
	}
	return Set{Pages: board.Compose(board.Board{Shop: j.Shop, Lang: j.Langs[0], Date: j.Today, Day: day, Plan: laid,
		Stock: j.Stock, Dots: j.Printer.Resolution.V}, j.faces, j.Found), Heights: board.Heights()}, nil
}

// boardOfDay asks for the board of a day that somebody has said the times of.
func boardOfDay(p *Press, of *shop.Plan) []Request {
	if p.laid(of) == nil {
		return nil
	}
	return once(p, of)
}
