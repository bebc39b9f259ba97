package shop

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// Kitchen is when a kitchen is open and how many people work in it.
type Kitchen struct {
	Pos    diag.Pos
	Opens  diag.At[unit.Clock] `key:"opens" must:"yes" help:"Time of day at which work begins, such as 05:00."`
	Closes diag.At[unit.Clock] `key:"closes" must:"yes" help:"Time of day at which nobody is there any more, such as 18:00."`
	People diag.At[unit.Count] `key:"people" must:"yes" help:"How many people work at the benches at once."`
}

// Per is what the hands-on time of a step is for: so many of something
// countable, or a mass. It is zero where the time is for the whole batch.
type Per struct {
	N    int64     // how many pieces, trays, loads or bowls
	Of   Timed     // of what
	Mass unit.Mass // of what is made, where Of is ByMass
}

// Timed is what a time grows with.
type Timed string

// What a time can be for. Loads of the oven and bowls go one after the other,
// so that the waiting of a step is repeated with them.
const (
	ByBatch Timed = "batch" // the same whatever the batch
	ByPiece Timed = "piece"
	ByTray  Timed = "tray"
	ByLoad  Timed = "load"
	ByBowl  Timed = "bowl"
	ByMass  Timed = "mass"
)

var timedFor = regexp.MustCompile(`^(?:(\d{1,6}) ?)?(piece|tray|load|bowl)s?$`)

// UnmarshalText reads "48 pieces", "tray", "load", "2 bowls", "1.5 kg" or
// "batch".
func (t *Per) UnmarshalText(b []byte) error {
	s := strings.Join(strings.Fields(strings.ReplaceAll(string(b), "\u00a0", " ")), " ")
	if s == string(ByBatch) {
		t.Of = ByBatch
		return nil
	}
	if m := timedFor.FindStringSubmatch(s); m != nil {
		t.N, t.Of = 1, Timed(m[2])
		if m[1] != "" {
			t.N, _ = strconv.ParseInt(m[1], 10, 64)
		}
		if t.N < 1 {
			return &unit.Error{Rule: "number", Msg: fmt.Sprintf("%q is nothing that a time can be for", b), Hint: "write it like 48 pieces"}
		}
		return nil
	}
	m, err := unit.ParseMass(s)
	if err != nil || m <= 0 {
		return &unit.Error{Rule: "unit", Msg: fmt.Sprintf("%q is not what a time can be for", b),
			Hint: "write it like 48 pieces, tray, load, bowl, 1.5 kg or batch"}
	}
	t.Of, t.Mass = ByMass, m
	return nil
}

// Pattern is the regular expression that editors check it with.
func (Per) Pattern() string {
	return `^(batch|([0-9]{1,6} ?)?(pieces?|trays?|loads?|bowls?)|[0-9]+(\.[0-9]+)? ?(kg|g))$`
}

// Example is what a time is for as it is written.
func (Per) Example() string { return "48 pieces" }
