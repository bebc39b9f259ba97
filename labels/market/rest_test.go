package market_test

import (
	"reflect"
	"slices"
	"testing"

	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
)

// What the paper of a pack in the Union rests on has been read, whatever the
// form of sale: what is added from memory makes drafts of it.
func TestUnionIsRead(t *testing.T) {
	eu, _ := market.Get("eu")
	for _, p := range eu.UnreadPlaces() {
		t.Errorf("%s %s: %s is from memory: read it, or every label of a shop that did not sign for it is a draft", p.Sale, p.Role, p.Cite)
	}
}

// Each row that Needs asks for is among what a pack rests on, and what is free
// by a relief rests on that relief.
func TestRestsOn(t *testing.T) {
	for _, m := range market.All() {
		for _, s := range market.Sales() {
			p := market.Pack{Sale: s, Face: 9 * unit.CM2, UseBy: true, DayMonth: true}
			needs, known := m.Needs(p)
			places, same := m.RestsOn(p)
			if known != same {
				t.Errorf("%s %s: known to Needs: %v, to RestsOn: %v", m.Code, s, known, same)
			}
			for _, n := range needs {
				if !slices.ContainsFunc(places, func(q market.Place) bool { return q.Role == n.Role && q.Cite == n.Cite && q.Sale == s }) {
					t.Errorf("%s %s %s: not among what the pack rests on", m.Code, s, n.Role)
				}
			}
		}
	}
	eu, _ := market.Get("eu")
	places, _ := eu.RestsOn(market.Pack{Sale: market.Prepacked, Face: 9 * unit.CM2})
	if !slices.ContainsFunc(places, func(q market.Place) bool { return q.Role == role.Origin && q.Article == "Art. 16(2)" }) {
		t.Error("a pack under 10 cm² needs no origin by Art. 16(2), and does not rest on it")
	}
	if slices.ContainsFunc(places, func(q market.Place) bool { return q.Role == role.Nutrition && q.Sale == "" }) {
		t.Error("a pack without a declaration of nutrition rests on its rounding")
	}
}

// Marks tell all places of a market apart, and those of markets from each other.
func TestMarks(t *testing.T) {
	of := map[string]market.Place{}
	for _, m := range market.All() {
		for _, p := range m.UnreadPlaces() {
			if q, ok := of[p.Mark()]; ok && q != p {
				t.Errorf("%v and %v are both called %s", q, p, p.Mark())
			}
			of[p.Mark()] = p
		}
	}
	if len(of) < 50 {
		t.Errorf("only %d places are unread", len(of))
	}
}

// Every table of a market is decided: paper waits until its places were read or
// signed for, or it is known why not. A new field fails here.
func TestEveryTableIsDecided(t *testing.T) {
	waits := []string{"Languages", "Kinds", "Reliefs", "Heights", "Lot", "Net", "List", "Quid", "Allergens", "Dates", "Nutrition", "Triggers", "Forbidden", "Colours", "National", "Operator"}
	not := map[string]string{
		"Code": "no rule", "Places": "no rule",
		"Kitchen":    "stands on cards, which stay in the kitchen",
		"Changes":    "rules to come; a caution tells of them",
		"Fahrenheit": "our own rule on the second scale",
		"Leeways":    "a guide for authorities; no label prints it",
		"Names":      "a figure from memory only cautions",
		"Promises":   "a figure from memory only cautions",
		"Fortified":  "asks whether a name is whole; a caution",
		"Animal":     "what the trace must hold, not what a label says",
	}
	of := reflect.TypeFor[market.Market]()
	for i := range of.NumField() {
		name := of.Field(i).Name
		if slices.Contains(waits, name) == (not[name] != "") {
			t.Errorf("is %s something that paper waits for until it was read? Put it into rules of rest.go, or say why not", name)
		}
	}
}
