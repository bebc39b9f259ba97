package print

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/layout/runsheet"
)

// runSheetKind is the sheet that goes with the day's paper; the day prints it.
func runSheetKind() *Kind {
	return &Kind{
		Name: "run-sheet", File: "run-sheet", One: "run sheet", Many: "run sheets",
		Inside: true,
		Of:     Plan, Speaks: Kitchen, Langs: 1, Usual: 1, Form: "card",
		Compose: composeRunSheet,
	}
}

// composeRunSheet sets the sheet over what the day's runs came to.
func composeRunSheet(j *Job) (Set, error) {
	d := j.Request.day
	if d == nil {
		var err error
		if d, err = j.whole.dayOf(j.Request.plan, j.Request); err != nil {
			return Set{}, err
		}
	}
	sheet := runsheet.Sheet{Shop: j.Shop, Lang: j.Langs[0], Day: j.Today, Runs: d.sheet(j.whole), Accepted: d.accepted(), Stock: j.Stock, Dots: j.Printer.Resolution.V}
	if !j.Request.compare { // they name places in the files
		sheet.Left, sheet.Void, sheet.Cautions = d.left(), d.void, cautions(d.found)
	}
	return Set{Pages: runsheet.Compose(sheet, j.faces, j.Found), Heights: runsheet.Heights()}, nil
}

// accepted are the places in the law that the day's paper relies on by somebody's
// signature, each once.
func (d *day) accepted() (out []runsheet.Accepted) {
	for _, j := range d.jobs() {
		for _, a := range j.Accepted {
			one := runsheet.Accepted{Place: a.Place, By: a.By.By.V, On: a.By.On.V, Until: a.By.Last()}
			if !slices.Contains(out, one) {
				out = append(out, one)
			}
		}
	}
	return out
}

// left is what the run sheet says of what is left out.
func (d *day) left() (out []runsheet.Left) {
	for _, r := range d.runs {
		if len(r.left) > 0 {
			out = append(out, runsheet.Left{Product: r.run.Product.V, Pieces: r.run.Pieces.V, What: strings.Join(r.left, ", "), Why: r.found.All()})
		}
	}
	return out
}

// cautions are the findings that are no errors.
func cautions(found *diag.List) []diag.Diag {
	return slices.DeleteFunc(found.All(), func(d diag.Diag) bool { return !d.Warning || d.Rule == printedEarlier })
}
