package market

import (
	"reflect"
	"testing"
)

// What is cited behind pointers, in lists and in what a table holds inside is
// found; nothing and what is not exported is passed by.
func TestCitesEverywhere(t *testing.T) {
	type inside struct {
		Cite
		Next *inside
	}
	type table struct {
		Rows   []inside
		One    *inside
		None   *inside
		hidden inside
	}
	cite := func(article string) Cite { return Cite{Article: article} }
	v := table{Rows: []inside{{Cite: cite("1")}, {Cite: cite("2"), Next: &inside{Cite: cite("3")}}}, One: &inside{Cite: cite("4")}, hidden: inside{Cite: cite("5")}}
	got := ""
	cites(reflect.ValueOf(v), func(c Cite) { got += c.Article })
	if got != "1234" {
		t.Errorf("found %q, want 1234", got)
	}
}
