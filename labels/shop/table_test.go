package shop_test

import (
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// withFigures loads the small shop with a composition of its flour.
func withFigures(t *testing.T, block string) (*shop.Ingredient, string) {
	t.Helper()
	files := small(t)
	files[flour].Data = append(files[flour].Data, []byte(block)...)
	var found diag.List
	s := shop.Load(files, &found)
	var said strings.Builder
	for _, d := range found.All() {
		if d.Pos.File == flour {
			said.WriteString(d.Msg + " / " + d.Hint + "\n")
		}
	}
	return s.Ingredients["flour"], said.String()
}

// 9436 is wheat flour T55: fat 1 g, saturates 0.19 g, salt below 0.13 g.
func TestFromTable(t *testing.T) {
	i, said := withFigures(t, "per-100-g:\n  from-table: \"9436\"\n  fat: 1.2 g\n")
	p := i.Per100
	if p.Fat.V != 1200*unit.Milligram || p.Saturates.V != 190*unit.Milligram || p.Salt.V != 130*unit.Milligram {
		t.Errorf("fat %v (written 1.2 g), saturates %v, salt %v", p.Fat.V, p.Saturates.V, p.Salt.V)
	}
	if p.Source.V != "CIQUAL 2020, 9436: Wheat flour, type 55 (for bread)" || p.Saturates.Pos != p.Table.Pos || said != "" {
		t.Errorf("source %q at %v, said %q", p.Source.V, p.Saturates.Pos, said)
	}
	// 15004, hazelnut: the table says nothing of polyols.
	i, _ = withFigures(t, "per-100-g: {from-table: \"15004\"}\n")
	if i.Per100.Polyols.Set() || !i.Per100.Fat.Set() {
		t.Error("what the table does not know is not zero")
	}
}

func TestTableFaults(t *testing.T) {
	for block, want := range map[string]string{
		"per-100-g: {from-table: \"1\"}\n":                                      `CIQUAL 2020 has no food "1" / look it up: chablon composition WORD`,
		"per-100-g: {fat: 1 g}\n":                                               "nothing says where these figures are from",
		"per-100-g: {source: \"?\", fat: 1 g}\n":                                "nobody can look \"?\" up",
		"per-100-g: {source: Estimated., fat: 1 g}\n":                           "nobody can look \"Estimated.\" up",
		"per-100-g: {source: \"by letter\", more-from: geschätzt, fat: 1 g}\n":  "nobody can look \"geschätzt\" up",
		"per-100-g: {source: \"estimated: 60 % CIQUAL 2020 9436\", fat: 1 g}\n": "",
		"per-100-g: {source: \"CIQUAL 2020, 9436\", fat: 1.9 g}\n":              "CIQUAL 2020 9436 has fat 1 g, not 1.9 g",
		"per-100-g: {source: \"CIQUAL 2020, 9436\", salt: 0.14 g}\n":            "CIQUAL 2020 9436 has salt <0.13 g",
		"per-100-g: {source: \"CIQUAL 2020, 9436\", salt: 0.1 g}\n":             "",
		"per-100-g: {source: \"letter of 2026-01-05\", fat: 1.9 g}\n":           "",
		"per-100-g: {source: \"CIQUAL 2020, 999999\", fat: 1.9 g}\n":            "",
		"per-100-g: {from-table: \"9436\", source: my own, fat: 2 g}\n":         "",
	} {
		if _, said := withFigures(t, block); !strings.HasPrefix(said, want) || want == "" && said != "" {
			t.Errorf("%s: said %q, want %q", block, said, want)
		}
	}
}

func TestTableHint(t *testing.T) {
	i, _ := withFigures(t, "")
	if h := i.TableHint(); !strings.HasPrefix(h, "from-table: ") || !strings.Contains(h, "Wheat flour") {
		t.Errorf("hint for wheat flour: %q", h)
	}
}
