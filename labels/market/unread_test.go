package market_test

import (
	"fmt"
	"slices"
	"testing"

	"chablon/labels/market"
)

// All that stands behind a label for the European Union was read, the last of it
// the height of the figures of the net quantity (Directive 76/211/EEC Annex I
// 3.1), in a guide of another government; a market that is wholly from memory
// has many.
func TestUnread(t *testing.T) {
	for _, m := range market.All() {
		all := m.Unread()
		for i, c := range all {
			if !c.Memory || slices.Contains(all[:i], c) {
				t.Errorf("%s: %s was read, or stands twice", m.Code, c)
			}
		}
		switch m.Code {
		case "eu":
			if len(all) != 0 {
				t.Errorf("eu: %v", all)
			}
		case "ch":
			if len(all) < 20 {
				t.Errorf("ch: only %d places from memory", len(all))
			}
		}
		if len(m.Kitchen) > 0 && slices.Contains(all, m.Kitchen[0].Cite) {
			t.Errorf("%s: limits of the kitchen stand on cards, not on labels", m.Code)
		}
	}
}

func ExampleMarket_Unread() {
	m, _ := market.Get("ie")
	for _, c := range m.Unread() {
		fmt.Println(c)
	}
	// Output:
	// S.I. No 489/2014, language of the particulars
}
