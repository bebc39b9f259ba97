// Package composition answers: what does an open table say that this food
// holds?
//
// The table is a part of CIQUAL 2020, the composition table of the French food
// agency ANSES (Etalab open licence 2.0): 455 foods that a pastry kitchen buys.
// English and French names are the table's; the German ones are our own, to be
// found by, and are printed nowhere. What the table does not know is unknown
// here, never zero.
package composition

import (
	_ "embed"
	"slices"
	"strings"
	"sync"

	"chablon/labels/unit"
)

// Source is how the table is named where its figures stand.
const Source = "CIQUAL 2020"

// Licence says whose the table is, and on which terms.
const Licence = "CIQUAL 2020, ANSES, Etalab open licence 2.0"

//go:embed ciqual-2020.tsv
var table string

// Food is one food of the table.
type Food struct {
	Code, Group string
	Names       [3]string // English, French, German
	values      []string  // as in the table, in the order of Keys
}

// Keys are what the table says of 100 g, as the keys of a shop's file name it.
func Keys() []string {
	head, _, _ := strings.Cut(table, "\n")
	return strings.Split(head, "\t")[firstValue:]
}

const firstValue = 5 // columns before it: code, three names, group

// Foods gives the whole table in its order.
func Foods() []Food { return slices.Clone(foods()) }

// foods reads the table once.
var foods = sync.OnceValue(func() []Food {
	lines := strings.Split(strings.TrimSuffix(table, "\n"), "\n")[1:]
	out := make([]Food, len(lines))
	for i, line := range lines {
		c := strings.Split(line, "\t")
		out[i] = Food{Code: c[0], Names: [3]string(c[1:4]), Group: c[4], values: c[firstValue:]}
	}
	return out
})

// Get gives the food with a code, such as "15004".
func Get(code string) (Food, bool) {
	for _, f := range foods() {
		if f.Code == code {
			return f, true
		}
	}
	return Food{}, false
}

// Value is what the table says of one key: an amount in 100 g, or that it lies
// below one. Known is false for what it does not say, and for mere traces.
type Value struct {
	Mass         unit.Mass
	Below, Known bool
}

// Value gives what the food holds in 100 g, by a key of Keys.
func (f Food) Value(key string) Value {
	for i, k := range Keys() {
		if k == key {
			return valueOf(f.values[i])
		}
	}
	return Value{}
}

func valueOf(cell string) Value {
	number, below := strings.CutPrefix(cell, "<")
	mass, err := unit.ParseMass(strings.TrimSpace(number) + " g")
	if err != nil {
		return Value{}
	}
	return Value{Mass: mass, Below: below, Known: true}
}

// Text is the value as the table prints it, "" where it says nothing.
func (f Food) Text(key string) string {
	for i, k := range Keys() {
		if k == key {
			return f.values[i]
		}
	}
	return ""
}
