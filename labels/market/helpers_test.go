package market_test

import (
	"testing"

	"chablon/labels/market"
	"chablon/labels/unit"
)

// Sources that the rows below name by their short form. All of them are
// published texts; "boundary" marks a value derived from the rule itself.
const (
	fic      = "Regulation (EU) No 1169/2011, consolidated 2025-04-01"
	d76      = "Directive 76/211/EEC Annex I"
	guide    = "Commission guidance on tolerances, December 2012, section 6"
	cfr101   = "21 CFR 101"
	foodCode = "FDA Food Code"
)

func get(t *testing.T, code string) *market.Market {
	t.Helper()
	m, ok := market.Get(code)
	if !ok {
		t.Fatalf("no market %q", code)
	}
	return m
}

func day(t *testing.T, s string) unit.Date {
	t.Helper()
	d, err := unit.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func mass(t *testing.T, s string) unit.Mass {
	t.Helper()
	m, err := unit.ParseMass(s)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func length(t *testing.T, s string) unit.Length {
	t.Helper()
	l, err := unit.ParseLength(s)
	if err != nil {
		t.Fatal(err)
	}
	return l
}
