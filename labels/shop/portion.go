package shop

import (
	"errors"
	"fmt"
	"strings"

	"chablon/labels/unit"
)

// Portion is part of something: a mass, or a share of it.
type Portion struct {
	Mass  unit.Mass
	Share unit.Share
}

// UnmarshalText reads "253 g" or "12.5 %".
func (p *Portion) UnmarshalText(b []byte) (err error) {
	if strings.HasSuffix(string(b), "%") {
		if p.Share, err = unit.ParseShare(string(b)); err == nil && p.Share < 0 {
			err = &unit.Error{Rule: "number", Msg: fmt.Sprintf("%q is less than nothing", b), Hint: "take the minus sign out"}
		}
		return err
	}
	if p.Mass, err = unit.ParseMass(string(b)); err != nil {
		var e *unit.Error
		if errors.As(err, &e) && e.Rule == "number" {
			return err
		}
		return &unit.Error{Rule: "unit", Msg: fmt.Sprintf("%q is neither a mass nor a share", b), Hint: "write it like 253 g or 12.5 %"}
	}
	return nil
}

// Of is how much the portion is of m.
func (p Portion) Of(m unit.Mass) unit.Mass { return p.Mass + m.Of(p.Share) }

// Pattern is the regular expression that editors check a portion with.
func (Portion) Pattern() string { return `^[0-9]+(\.[0-9]+)? ?(kg|g|mg|%)$` }

// Example is a portion as it is written.
func (Portion) Example() string { return "12.5 %" }

// PlanDay is the day of a plan: one date, or every day.
type PlanDay struct {
	Every bool
	Date  unit.Date
}

// UnmarshalText reads "2026-03-17" or "every day".
func (d *PlanDay) UnmarshalText(b []byte) (err error) {
	if string(b) == "every day" {
		d.Every = true
		return nil
	}
	if d.Date, err = unit.ParseDate(string(b)); err != nil {
		return &unit.Error{Rule: "date", Msg: fmt.Sprintf("%q is neither a day that exists nor \"every day\"", b), Hint: "write it like 2026-03-17"}
	}
	return nil
}

// Pattern is the regular expression that editors check a plan's day with.
func (PlanDay) Pattern() string { return `^(every day|[0-9]{4}-[0-9]{2}-[0-9]{2})$` }

// Example is a plan's day as it is written.
func (PlanDay) Example() string { return "2026-03-17" }
