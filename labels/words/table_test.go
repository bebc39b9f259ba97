package words_test

import (
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// bagged sells a food of one ingredient in a bag of 10 pieces of 12 g, for
// which a nutrition declaration with a portion of two pieces is made.
func bagged(s scene) *shop.Product {
	i := bought("i")
	g := func(milligrams unit.Mass) diag.At[unit.Mass] { return at(milligrams * unit.Milligram) }
	i.Per100 = &shop.Composition{Carbohydrate: g(50_000), Fibre: g(3000), Protein: g(6000), Fat: g(25_000), Saturates: g(10_000),
		Sugars: g(30_000), Salt: g(1000), Trans: g(0), Cholesterol: g(18), AddedSugars: g(20_000), VitaminD: at(2 * unit.Microgram),
		Calcium: g(125), Iron: g(4), Potassium: g(300)}
	s.buys(i)
	p := s.sells("food", line("i", 12))
	p.Packs[0].Nutrition, p.Packs[0].Pieces = at("declared"), at(unit.Count(10))
	p.Packs[0].Net, p.Packs[0].Portion = at(120*unit.Gram), at(24*unit.Gram)
	p.Packs[0].Front = &shop.Front{ReferenceAmount: at(40 * unit.Gram)}
	return p
}

// The columns of each market, heads first. Words and order of the panels:
// 21 CFR 101.9(b) to (d) and the tables of C.R.C., c. 870, both from memory;
// Food Standards Code, Standard 1.2.8 and Schedule 12, from memory; Regulation
// (EU) No 1169/2011 Annex XV and Art. 32(5), 33, read.
func TestTableColumns(t *testing.T) {
	for _, c := range []struct{ in, lang, want string }{
		{"eu", "en", `
Nutrition declaration; per 100~g; 5 portions
 | per 100~g | per portion (24~g) | %*
energy | 1901~kJ / 455~kcal | 456~kJ / 109~kcal | 5~%
fat | 25~g | 6.0~g | 9~%
- of which saturates | 10~g | 2.4~g | 12~%
carbohydrate | 50~g | 12~g | 5~%
- of which sugars | 30~g | 7.2~g | 8~%
protein | 6.0~g | 1.4~g | 3~%
salt | 1.0~g | 0.24~g | 4~%
* Reference intake of an average adult (8~400~kJ/2~000~kcal).
`},
		{"au", "en", `
NUTRITION INFORMATION; Quantity per 100~g; Servings per package: 5
 | Quantity per serving | Quantity per 100~g
Energy | 456~kJ | 1900~kJ
Protein | 1.4~g | 6.0~g
Fat, total | 6.0~g | 25.0~g
- – saturated | 2.4~g | 10.0~g
Carbohydrate | 12.0~g | 50.0~g
- – sugars | 7.2~g | 30.0~g
Sodium | 96~mg | 400~mg
`},
		{"us", "en", `
Nutrition Facts; Serving size 2 pieces (24~g); 5 servings per container
 | Amount per serving | % Daily Value*
Calories | 110 | 
Total Fat | 6~g | 8~%
- Saturated Fat | 2.5~g | 12~%
- Trans Fat | 0~g | 
Cholesterol | less than 5~mg | 1~%
Sodium | 95~mg | 4~%
Total Carbohydrate | 13~g | 5~%
- Dietary Fiber | less than 1~g | 3~%
- Total Sugars | 7~g | 
- Includes 5~g Added Sugars |  | 10~%
Protein | 1~g | 
Vitamin D | 0.5~mcg | 2~%
Calcium | 30~mg | 2~%
Iron | 1~mg | 6~%
Potassium | 70~mg | 0~%
* The % Daily Value (DV) tells you how much a nutrient in a serving of food contributes to a daily diet. 2,000 calories a day is used for general nutrition advice.
`},
		{"ca", "fr", `
Valeur nutritive; pour 2 pièces (24~g); 5 portions par contenant
 |  | % valeur quotidienne*
Calories | 110 | 
Lipides | 6~g | 8~%
- saturés | 2,5~g | 
- + trans | 0~g | 12~%
Glucides | 13~g | 
- Fibres | 1~g | 3~%
- Sucres | 7~g | 7~%
Protéines | 1~g | 
Cholestérol | 5~mg | 
Sodium | 95~mg | 4~%
Potassium | 75~mg | 2~%
Calcium | 30~mg | 2~%
Fer | 1~mg | 6~%
* 5~% ou moins c’est peu, 15~% ou plus c’est beaucoup.
`},
	} {
		s := newScene()
		label, found := s.tell(t, bagged(s), c.in, c.lang)
		if label.Table == nil || found.Errors() > 0 {
			t.Errorf("%s %s: %v", c.in, c.lang, found.All())
			continue
		}
		tab := label.Table
		var b strings.Builder
		b.WriteString("\n" + tab.Heading + "; " + tab.Per + "; " + tab.Portions + "\n")
		b.WriteString(" | " + strings.Join(tab.Heads, " | ") + "\n")
		for _, r := range tab.Rows {
			if r.Sub {
				b.WriteString("- ")
			}
			b.WriteString(r.Name + " | " + strings.Join(r.Cells, " | ") + "\n")
			if len(r.Cells) != len(tab.Heads) {
				t.Errorf("%s: %d cells under %d heads", c.in, len(r.Cells), len(tab.Heads))
			}
		}
		if tab.ReferenceOf != "" {
			b.WriteString(tab.ReferenceOf + "\n")
		}
		if got := strings.ReplaceAll(b.String(), "\u00a0", "~"); got != c.want {
			t.Errorf("%s %s:\n got %s\nwant %s", c.in, c.lang, got, c.want)
		}
	}
}

// A panel in a language that the market has no words in is refused.
func TestTableWithoutWords(t *testing.T) {
	s := newScene()
	if _, found := s.tell(t, bagged(s), "us", "de"); found.Errors() == 0 || found.All()[0].Rule != "words" {
		t.Errorf("a panel of the United States in German: %v", found.All())
	}
}
