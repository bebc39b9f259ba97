package declare_test

import (
	"testing"

	"chablon/labels/declare"
	"chablon/labels/market"
)

func TestEveryChangeHasItsWords(t *testing.T) {
	for _, m := range market.All() {
		for _, c := range m.Changes {
			if declare.ChangeText(c.Key) == "" {
				t.Errorf("%s: no words for %q", m.Code, c.Key)
			}
		}
	}
}
