package print

import "chablon/layout/runsheet"

// runSheetKind is the sheet that goes with the day's paper; the day prints it.
func runSheetKind() *Kind {
	return &Kind{
		Name: "run-sheet", File: "run-sheet", One: "run sheet", Many: "run sheets",
		Of: Plan, Speaks: Kitchen, Langs: 1, Usual: 1, Form: "card",
		Compose: composeRunSheet,
	}
}

// composeRunSheet sets the sheet over what the day's runs came to.
func composeRunSheet(j *Job) (Set, error) {
	d := j.Request.day
	if d == nil {
		var err error
		if d, err = j.dayOf(j.Plan, j.Request.compare); err != nil {
			return Set{}, err
		}
	}
	sheet := runsheet.Sheet{Shop: j.Shop, Lang: j.Langs[0], Day: j.Today, Runs: d.sheet(), Cautions: d.found.All(), Stock: j.Stock, Dots: j.Printer.Resolution.V}
	return Set{Pages: runsheet.Compose(sheet, j.faces, j.Found), Heights: runsheet.Heights()}, nil
}
