package read_test

import (
	"testing"

	"chablon/labels/read"
)

// Every key of the table is listed, at its depth, with what must stand there.
func TestDescribe(t *testing.T) {
	got := map[string]read.Key{}
	for _, k := range read.Describe(formula{}) {
		got[k.Name] = k
	}
	if k := got["version"]; !k.Must || k.Depth != 0 || k.Form != "a whole number" {
		t.Errorf("version: %+v", k)
	}
	if k := got["store"]; k.Depth != 1 || k.Form == "" {
		t.Errorf("store, which stands below keep: %+v", k)
	}
	if k := got["lines"]; k.Form != "a list" {
		t.Errorf("lines: %+v", k)
	}
}
