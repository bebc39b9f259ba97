package fonts_test

import (
	"testing"

	"chablon/fonts"
)

// Every TrueType file has the table head of 54 bytes (OpenType 1.9); what is not
// a font, or is cut off, has none.
func TestTable(t *testing.T) {
	file := fonts.Regular()
	if head := fonts.Table(file, "head"); len(head) != 54 {
		t.Errorf("head has %d bytes", len(head))
	}
	if fonts.Table(file, "none") != nil || fonts.Table(file[:200], "glyf") != nil || fonts.Table(nil, "head") != nil {
		t.Error("a table that is not there was found")
	}
}
