package shop

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/unit"
)

// MeasuredFile is the file of a shop that says what the kitchen measured. A shop
// in which nothing was measured does not have it.
const MeasuredFile = "measured.yaml"

// Measurements is measured.yaml.
type Measurements struct {
	Pos diag.Pos
	All []Measurement `key:"measured" must:"yes" help:"One entry for each measurement; written by chablon measured, or by hand."`
}

// Measurement is what was weighed before and after a stage, or how long a step
// took.
type Measurement struct {
	Pos     diag.Pos
	On      diag.At[unit.Date]  `key:"on" must:"yes" help:"Day of the measurement."`
	Of      Text                `key:"of" must:"yes" help:"Id of the formula or product whose stage or step it is."`
	Stage   Text                `key:"stage" one:"boil|bake|dry|drain|cut|cool|handle|assemble|fill|finish|coat" help:"Stage at which something is lost, with before and after."`
	Before  diag.At[unit.Mass]  `key:"before" help:"Mass before the stage, without the pan."`
	After   diag.At[unit.Mass]  `key:"after" help:"Mass after the stage, without the pan."`
	Step    Text                `key:"step" help:"Id of the step that was timed, with pieces or mass of the batch."`
	Pieces  diag.At[unit.Count] `key:"pieces" help:"Good pieces of the batch that was timed, of a product."`
	Mass    diag.At[unit.Mass]  `key:"mass" help:"Mass of the batch that was timed, of a formula."`
	HandsOn diag.At[unit.Span]  `key:"hands-on" help:"Hands-on time that the step took."`
	Waiting diag.At[unit.Span]  `key:"waiting" help:"Waiting time that the step took."`
	By      Text                `key:"by" help:"Who measured."`
}

// ReadMeasurements reads measured.yaml in a shop's folder, if there is one, and
// reports whether there was no error in it.
func ReadMeasurements(fsys fs.FS, found *diag.List) (m Measurements, ok bool) {
	if _, err := fs.Lstat(fsys, MeasuredFile); errors.Is(err, fs.ErrNotExist) {
		return m, true
	}
	ok = read.Rows(fsys, MeasuredFile, &m, found)
	return m, ok
}

// ParseMeasurements reads the text of a measured.yaml.
func ParseMeasurements(data []byte, found *diag.List) (m Measurements, ok bool) {
	ok = read.RowsOf(MeasuredFile, data, &m, found)
	return m, ok
}

// measurements reads the file if there is one.
func (l *loader) measurements() {
	var ok bool
	if l.shop.Measured, ok = ReadMeasurements(l.fsys, l.found); !ok {
		l.shop.broken[MeasuredFile] = true
	}
}

// YAML writes the entry as it stands in the file.
func (m Measurement) YAML() string {
	var b strings.Builder
	lead := "  - "
	put := func(key, value string) {
		if value != "" {
			fmt.Fprintf(&b, "%s%s: %s\n", lead, key, value)
			lead = "    "
		}
	}
	put("on", m.On.V.String())
	put("of", scalar(m.Of.V))
	if m.Stage.V != "" {
		put("stage", m.Stage.V)
		put("before", m.Before.V.String())
		put("after", m.After.V.String())
	} else {
		put("step", scalar(m.Step.V))
		put("pieces", amount(int64(m.Pieces.V), m.Pieces.V))
		put("mass", amount(int64(m.Mass.V), m.Mass.V))
		put("hands-on", amount(int64(m.HandsOn.V), m.HandsOn.V))
		put("waiting", amount(int64(m.Waiting.V), m.Waiting.V))
	}
	if m.By.V != "" {
		put("by", scalar(m.By.V))
	}
	return b.String()
}

// amount is a value as it is written, or nothing where there is none.
func amount(n int64, v any) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprint(v)
}

// CheckMeasured checks entries against the shop, as those of its file are.
func (s *Shop) CheckMeasured(all []Measurement, found *diag.List) {
	one := *s
	one.Measured = Measurements{All: all}
	(&checker{&one, found, map[string]bool{}}).measurements()
}

// measurements: each says what it is of, and is whole: a stage of it with the
// mass before and after, or a step of it with the batch and a time.
func (c *checker) measurements() {
	for _, m := range c.Measured.All {
		if !m.Of.Set() {
			continue
		}
		stages, steps, ok := c.measurable(m.Of.V)
		switch {
		case !ok:
			c.wrong(m.Of.Pos, "measured", meant(m.Of.V, append(append([]string{}, c.FormulaIDs...), c.ProductIDs...), "write the id of a formula or product"), "there is no formula or product %q", m.Of.V)
		case m.Stage.Set() == m.Step.Set():
			c.wrong(m.Pos, "measured", "write stage with before and after, or step with pieces or mass and the time", "nobody knows what was measured here")
		case m.Stage.Set():
			c.stageMeasured(m, stages)
		default:
			c.stepMeasured(m, steps)
		}
	}
}

// measurable lists the stages and the steps of a formula or product.
func (c *checker) measurable(id string) (stages, steps []string, ok bool) {
	var all []Step
	switch f, p := c.Formulas[id], c.Products[id]; {
	case f != nil:
		for _, l := range f.Losses {
			stages = append(stages, l.Stage.V)
		}
		all = f.Steps
	case p != nil:
		for _, st := range p.Parts {
			if st.WaterLost.Set() {
				stages = append(stages, st.Stage.V)
			}
		}
		all = p.Steps
	default:
		return nil, nil, false
	}
	for _, s := range all {
		steps = append(steps, s.ID.V)
	}
	return stages, steps, true
}

func (c *checker) stageMeasured(m Measurement, stages []string) {
	switch {
	case !slices.Contains(stages, m.Stage.V):
		c.wrong(m.Stage.Pos, "measured", meant(m.Stage.V, stages, "write it as a loss first, or look at the stage"), "%s loses nothing at the stage %q", m.Of.V, m.Stage.V)
	case m.Before.V <= 0 || !m.After.Set():
		c.wrong(m.Pos, "measured", "write before: and after:, without the pan", "a stage is measured by its mass before and after")
	case m.After.V < 0 || m.After.V > m.Before.V:
		c.wrong(m.After.Pos, "measured", "look whether the two are swapped, or the pan was weighed too", "%s after the stage is more than %s before it", m.After.V, m.Before.V)
	}
}

func (c *checker) stepMeasured(m Measurement, steps []string) {
	sized := m.Pieces.V > 0
	how := "pieces"
	if c.Formulas[m.Of.V] != nil {
		sized, how = m.Mass.V > 0, "mass"
	}
	switch {
	case !slices.Contains(steps, m.Step.V):
		c.wrong(m.Step.Pos, "measured", meant(m.Step.V, steps, "look at the ids of its steps"), "%s has no step %q", m.Of.V, m.Step.V)
	case !sized:
		c.wrong(m.Pos, "measured", "times grow with the batch: write "+how+": of the batch that was timed", "nobody knows how large the batch was")
	case m.HandsOn.V <= 0 && m.Waiting.V <= 0:
		c.wrong(m.Pos, "measured", "write hands-on: or waiting:", "no time was measured here")
	}
}
