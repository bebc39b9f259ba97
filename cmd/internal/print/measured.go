package print

import (
	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/measured"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// MeasureRequest is what somebody weighed or timed.
type MeasureRequest struct {
	ID      string     // formula or product
	Stage   string     `flag:"stage" help:"stage at which something is lost, such as boil or bake; with --before and --after"`
	Before  unit.Mass  `flag:"before" is:"mass" help:"mass before the stage, without the pan"`
	After   unit.Mass  `flag:"after" is:"mass" help:"mass after the stage, without the pan"`
	Step    string     `flag:"step" help:"id of the step that was timed; with --pieces or --mass of the batch"`
	Pieces  unit.Count `flag:"pieces" is:"number" help:"good pieces of the batch that was timed"`
	Mass    unit.Mass  `flag:"mass" is:"mass" help:"mass of the batch that was timed"`
	HandsOn unit.Span  `flag:"hands-on" is:"time" help:"hands-on time that the step took, such as \"62 min\""`
	Waiting unit.Span  `flag:"waiting" is:"time" help:"waiting time that the step took"`
	On      unit.Date  `flag:"on" is:"day" help:"day of the measurement; today when left out"`
	By      string     `flag:"by" help:"who measured"`
}

// Measure notes in the shop's folder what was measured, and says in one line how
// it stands beside what is written. What cannot be is refused, and then nothing is
// written.
func (p *Press) Measure(r MeasureRequest) (said, file string, err error) {
	if p.Name == "" {
		return "", "", usage.Errorf("chablon new DIR --demo writes it into a folder; then add --shop DIR", "nothing can be noted of the demo shop")
	}
	if r.On.IsZero() {
		r.On = p.Today
	}
	m := r.entry()
	if err := p.soundMeasurement(m); err != nil {
		return "", "", err
	}
	if file, err = keep.Measure(keep.Machine{}, p.Name, m); err != nil {
		return "", file, err
	}
	p.Shop.Measured.All = append(p.Shop.Measured.All, m)
	for _, g := range measured.All(p.Shop) {
		if g.Of == r.ID && (g.Where == r.Stage || g.Where == r.Step) {
			said = g.String()
		}
	}
	return said, file, nil
}

// entry is the entry of the file that a request comes to.
func (r MeasureRequest) entry() (m shop.Measurement) {
	at := diag.Pos{File: shop.MeasuredFile, Line: 1, Col: 1}
	text := func(s string) shop.Text {
		if s == "" {
			return shop.Text{}
		}
		return shop.Text{V: s, Pos: at}
	}
	m.Pos, m.Of, m.Stage, m.Step, m.By = at, text(r.ID), text(r.Stage), text(r.Step), text(r.By)
	m.On.V, m.Before.V, m.After.V, m.Pieces.V, m.Mass.V, m.HandsOn.V, m.Waiting.V = r.On, r.Before, r.After, r.Pieces, r.Mass, r.HandsOn, r.Waiting
	m.On.Pos, m.Before.Pos, m.After.Pos = at, at, at
	return m
}

// soundMeasurement refuses an entry that the check of the shop would refuse.
func (p *Press) soundMeasurement(m shop.Measurement) error {
	var found diag.List
	p.Shop.CheckMeasured([]shop.Measurement{m}, &found)
	for _, d := range found.All() {
		return usage.Errorf(d.Hint, "%s", d.Msg)
	}
	return nil
}
