package card

import (
	"strings"
	"testing"

	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
)

// TestCheckWordStays: paper, copy, place and the comments of a file are not
// what a card says.
func TestCheckWordStays(t *testing.T) {
	base := CheckWord(cardOf(t, layouttest.Shop(t), "pistachio-choux", "card-a4", "en"))
	other := cardOf(t, layouttest.Shop(t), "pistachio-choux", "card-a6", "en")
	other.Copy, other.Copies, other.Place, other.Dots, other.Code = 3, 9, "cold room", unit.Dots{}, true
	f := other.Shop.Formulas["choux-paste"]
	f.Pos.Line += 7
	f.Steps[0].Pos.Line += 7
	if got := CheckWord(other); got != base {
		t.Errorf("%s became %s", base, got)
	}
}

// TestCheckWordChanges: one change to anything that the bench reads gives
// another word.
func TestCheckWordChanges(t *testing.T) {
	base := CheckWord(cardOf(t, layouttest.Shop(t), "pistachio-choux", "card-a4", "en"))
	if base == "" {
		t.Fatal("no word")
	}
	seen := map[string]string{base: "nothing"}
	for name, change := range changes() {
		c := cardOf(t, layouttest.Shop(t), "pistachio-choux", "card-a4", "en")
		change(t, &c)
		got := CheckWord(c)
		if was, twice := seen[got]; twice || got == "" {
			t.Errorf("after a change of %s the word is %q, as after %s", name, got, was)
		}
		seen[got] = name
	}
}

func changes() map[string]func(*testing.T, *Card) {
	cream := func(c *Card) *shop.Formula { return c.Shop.Formulas["pistachio-pastry-cream"] }
	again := func(t *testing.T, c *Card) {
		full := cardOf(t, c.Shop, c.Product.ID, "card-a4", "en")
		c.Batch, c.Contains = full.Batch, full.Contains
	}
	return map[string]func(*testing.T, *Card){
		"language":   func(t *testing.T, c *Card) { c.Langs = tongues(t, "fr") },
		"languages":  func(t *testing.T, c *Card) { c.Langs = tongues(t, "en+fr") },
		"name":       func(_ *testing.T, c *Card) { c.Product.Name[0].V.V = "Choux" },
		"version":    func(_ *testing.T, c *Card) { c.Product.Version.V++ },
		"issue date": func(_ *testing.T, c *Card) { c.Product.Issued.V = c.Product.Issued.V.AddDays(1) },
		"approver":   func(_ *testing.T, c *Card) { c.Product.Approved.V = "Ilo" },
		"amount": func(t *testing.T, c *Card) {
			cream(c).Lines[0].Take.V += 20 * unit.Gram
			again(t, c)
		},
		"batch": func(t *testing.T, c *Card) {
			b := cardOf(t, c.Shop, c.Product.ID, "card-a4", "en").Batch
			b.Pieces++
			c.Batch = b
		},
		"step":    func(_ *testing.T, c *Card) { cream(c).Steps[0].Do[0].V.V += " Stir." },
		"tool":    func(_ *testing.T, c *Card) { cream(c).Steps[0].Tool[0].V.V = "pan" },
		"hands":   func(_ *testing.T, c *Card) { cream(c).Steps[0].HandsOn.V += unit.Minute },
		"waiting": func(_ *testing.T, c *Card) { cream(c).Steps[1].Waiting.V.Least += unit.Minute },
		"reach":   func(_ *testing.T, c *Card) { cream(c).Steps[0].Reach[0].To.V.Hi += unit.Temp(unit.DegC) },
		"oven": func(_ *testing.T, c *Card) {
			c.Product.Steps[1].Phases[0].Set.V = unit.Target{Lo: unit.Celsius(185), Hi: unit.Celsius(185)}
		},
		"limit":      func(_ *testing.T, c *Card) { cream(c).Steps[1].Limit.Reach.V.Hi -= unit.Temp(unit.DegC) },
		"limit time": func(_ *testing.T, c *Card) { cream(c).Steps[1].Limit.Within.V -= unit.Minute },
		"hold":       func(_ *testing.T, c *Card) { cream(c).Steps[0].Limit.Hold.V += unit.Minute },
		"measure":    func(_ *testing.T, c *Card) { cream(c).Steps[0].Limit.Measure[0].V.V = "probe" },
		"if not":     func(_ *testing.T, c *Card) { cream(c).Steps[0].Limit.IfNot[0].V.V = "discard" },
		"caution":    func(_ *testing.T, c *Card) { cream(c).Steps[0].Cautions[0].V = "hot-sugar" },
		"look":       func(_ *testing.T, c *Card) { c.Product.Steps[1].Look[0].V.V = "brown" },
		"shelf life": func(_ *testing.T, c *Card) { c.Product.Keep.Life.V.Days++ },
		"allergen":   func(_ *testing.T, c *Card) { c.Contains = append(c.Contains, "lupin") },
		"pack":       func(_ *testing.T, c *Card) { c.Pack = nil },
		"tray":       func(_ *testing.T, c *Card) { c.Product.Tray.Holds.V = 15 },
	}
}

// TestCheckWordIsSpeakable: consonant and vowel by turns, no letter that looks
// like another or like a figure, no syllable twice in a row.
func TestCheckWordIsSpeakable(t *testing.T) {
	sh := layouttest.Shop(t)
	seen := map[string]bool{}
	for _, id := range append(sh.ProductIDs, sh.FormulaIDs...) {
		w := CheckWord(cardOf(t, sh, id, "card-a4", "en"))
		if len(w) != 9 || w[4] != '-' {
			t.Errorf("%s: %q", id, w)
			continue
		}
		plain := strings.ReplaceAll(w, "-", "")
		for i := 0; i < len(plain); i += 2 {
			if !strings.Contains(consonants, plain[i:i+1]) || !strings.Contains(vowels, plain[i+1:i+2]) {
				t.Errorf("%s: %q cannot be spoken", id, w)
			}
			if i > 0 && plain[i:i+2] == plain[i-2:i] {
				t.Errorf("%s: %q stammers", id, w)
			}
		}
		if strings.ContainsAny(w, "BDGIOQSUVZ"[:5]+"OQSVZ") {
			t.Errorf("%s: %q has a letter that is mistaken for another", id, w)
		}
		if seen[w] {
			t.Errorf("%s: %q is the word of another card", id, w)
		}
		seen[w] = true
	}
}

func TestNoCheckWord(t *testing.T) {
	if w := CheckWord(cardOf(t, layouttest.Shop(t), "marshmallow", "card-a4", "de")); w != "" {
		t.Errorf("a card that cannot be set has the word %q", w)
	}
}
