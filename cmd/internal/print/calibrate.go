package print

import (
	"errors"
	"slices"
	"strings"

	"chablon/cmd/internal/usage"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/calibrate"
	"chablon/layout/page"
	"chablon/layout/stock"
)

// CalibrateOptions are what is asked of a printer's page to measure.
type CalibrateOptions struct {
	Printer string // its name in shop.yaml
}

func calibrateKind() *Kind {
	return &Kind{
		Name: "calibrate", File: "calibrate", One: "page to measure", Many: "pages to measure",
		Inside: true, Unmoved: true, // the command of this name asks for it
		Of: Shop, Speaks: Kitchen, Langs: 1, Usual: 1,
		Own:     func() any { return &CalibrateOptions{} },
		Tells:   func(j *Job) []string { return []string{word(own[CalibrateOptions](j).Printer)} },
		Compose: composeCalibrate,
	}
}

func composeCalibrate(j *Job) (Set, error) {
	pg := calibrate.Compose(calibrate.Sheet{Printer: own[CalibrateOptions](j).Printer, Stock: j.Stock, Dots: j.Printer.Resolution.V}, j.faces, j.Found)
	if pg == nil {
		return Set{}, nil
	}
	return Set{Pages: []*page.Page{pg}, Safe: pg.Area().Inset(calibrate.Inset - j.Printer.Resolution.V.At(1)), Heights: map[role.Role]unit.Length{role.Note: unit.MM}}, nil
}

// PrinterIDs lists the printers for completion.
func (p *Press) PrinterIDs() (out []string) {
	for _, e := range p.Shop.Profile.Printers {
		out = append(out, e.Key.V)
	}
	return out
}

// loaded finds a printer, and a paper that it is loaded with: the one asked
// for, or its first.
func (p *Press) loaded(printer, paper string) (shop.Printer, *stock.Stock, error) {
	q, ok := p.Shop.Profile.Printers.Get(printer)
	if !ok {
		return q, nil, usage.Unknown("printer", printer, p.PrinterIDs())
	}
	var ids []string
	for _, t := range q.Papers {
		ids = append(ids, t.V)
	}
	switch {
	case len(ids) == 0:
		return q, nil, usage.Errorf("name one under papers in shop.yaml", "the printer %s is loaded with no paper", printer)
	case paper == "":
		paper = ids[0]
	case !slices.Contains(ids, paper):
		return q, nil, usage.Errorf("name it under papers in shop.yaml", "the printer %s is not loaded with %s", printer, paper)
	}
	s, _, err := p.stock(paper, "")
	return q, s, err
}

// Calibrate makes the page that a printer is measured by. Its marks stand where
// the printer puts them, whatever is set for it. meant are the flags that say
// what would be measured if they stood where they are meant to.
func (p *Press) Calibrate(printer, paper string) (b Batch, meant string, err error) {
	_, s, err := p.loaded(printer, paper)
	if err != nil {
		return Batch{}, "", err
	}
	flat := func(l unit.Length) string { return strings.ReplaceAll(l.String(), " ", "") }
	in := flat(calibrate.Inset)
	meant = "--paper " + s.ID + " --left " + in + " --top " + in + " --wide " + flat(s.Width.V-2*calibrate.Inset) + " --high " + flat(s.Height.V-2*calibrate.Inset)
	b, err = p.Print(p.KindOf("calibrate"), Request{Paper: s.ID, Own: &CalibrateOptions{Printer: printer}})
	return b, meant, err
}

// Measured says what to write for a printer, by what was measured on that page.
func (p *Press) Measured(printer, paper string, m calibrate.Measured) (calibrate.Setting, error) {
	_, s, err := p.loaded(printer, paper)
	if err != nil {
		return calibrate.Setting{}, err
	}
	got, err := calibrate.Found(s.Width.V, s.Height.V, m)
	if told := new(unit.Error); errors.As(err, &told) {
		return got, usage.Errorf(told.Hint, "%s", told.Msg)
	}
	return got, err
}
