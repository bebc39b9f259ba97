package words_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"chablon/labels/words"
)

// marked shows emphasis with brackets, and what is missing behind a bar.
func marked(l *words.Lang, text string, allergens []string) string {
	strong, missing := l.Emphasis(text, allergens)
	var b strings.Builder
	at := 0
	for _, r := range strong {
		b.WriteString(text[at:r[0]] + "[" + text[r[0]:r[1]] + "]")
		at = r[1]
	}
	b.WriteString(text[at:])
	if len(missing) > 0 {
		b.WriteString(" | " + strings.Join(missing, ", "))
	}
	return b.String()
}

// That the stem is emphasised inside compound words, and the whole word where a
// language has few of them, is practice;
// that buckwheat is no wheat and an eggplant no egg is the language.
func TestEmphasis(t *testing.T) {
	for _, c := range []struct{ lang, allergens, text, want string }{
		{"de", "wheat", "Weizenmehl", "[Weizen]mehl"},
		{"de", "wheat", "Hartweizengrieß", "Hart[weizen]grieß"},
		{"de", "wheat", "WEIZENMEHL", "[WEIZEN]MEHL"},
		{"de", "wheat", "Buchweizenmehl", "Buchweizenmehl | wheat"},
		{"de", "wheat", "Buchweizen- und Weizenmehl", "Buchweizen- und [Weizen]mehl"},
		{"de", "wheat", "Dinkelmehl", "Dinkelmehl | wheat"},
		{"de", "eggs", "Eigelb", "[Ei]gelb"},
		{"de", "eggs", "Eier aus Bodenhaltung", "[Eier] aus Bodenhaltung"},
		{"de", "eggs", "Vollei, pasteurisiert", "[Vollei], pasteurisiert"},
		{"de", "eggs", "Eischnee", "[Eischnee]"},
		{"de", "eggs", "Eis, Eisen, Einkorn, Eichel, einfach, Brei, Weizen", "Eis, Eisen, Einkorn, Eichel, einfach, Brei, Weizen | eggs"},
		{"de", "milk", "Buttermilch", "Butter[milch]"},
		{"de", "milk", "Kokosmilch", "Kokosmilch | milk"},
		{"de", "milk soybeans", "Milchschokolade mit Sojalecithin", "[Milch]schokolade mit [Soja]lecithin"},
		{"de", "nuts", "Erdnüsse", "Erdnüsse | nuts"},
		{"de", "sulphites", "Kaliummetabisulfit", "Kalium[metabisulfit]"},
		{"de", "hazelnuts", "gehackte Haselnüsse, Haselnusscreme", "gehackte [Haselnüsse], [Haselnuss]creme"},
		{"de", "almonds barley", "Mandeln, Gerstenmalzextrakt", "[Mandeln], [Gersten]malzextrakt"},
		{"de", "eggs lupin", "Eierlikör, Lupinenmehl", "[Eier]likör, [Lupinen]mehl"},
		{"en", "almonds hazelnuts soybeans", "ground almonds, hazelnut paste, soya lecithins", "ground [almonds], [hazelnut] paste, [soya] lecithins"},
		{"nl", "barley hazelnuts", "gerstemoutextract, hazelnotenpasta", "[gerste]moutextract, [hazelnoten]pasta"},
		{"da", "hazelnuts", "hasselnøddepasta, hasselnødder", "[hasselnødde]pasta, [hasselnødder]"},
		{"hu", "soybeans", "szójaliszt", "[szója]liszt"},
		{"et", "milk oats", "piimapulber, kaerahelbed", "[piima]pulber, [kaera]helbed"},
		{"en", "eggs", "egg yolk", "[egg] yolk"},
		{"en", "soybeans", "soybean lecithin, soya bean oil", "[soybean] lecithin, [soya bean] oil"},
		{"en", "wheat", "wholewheat flour", "[wholewheat] flour"},
		{"de", "soybeans", "Sojabohnenmehl", "[Sojabohnen]mehl"},
		{"da", "soybeans eggs", "sojabønneolie, æggehvide", "[sojabønne]olie, [ægge]hvide"},
		{"el", "milk", "ΓΑΛΑ ΣΕ ΣΚΟΝΗ", "[ΓΑΛΑ] ΣΕ ΣΚΟΝΗ"},
		{"pl", "wheat", "mąka pszenna", "mąka [pszenna]"},
		{"tr", "hazelnuts", "kavrulmuş fındığından", "kavrulmuş [fındığından]"},
		{"en", "eggs", "Veggie, eggplant", "Veggie, eggplant | eggs"},
		{"en", "milk", "butter", "butter | milk"},
		{"en", "milk", "buttermilk powder and milk", "[buttermilk] powder and [milk]"},
		{"en", "milk", "coconut milk", "coconut milk | milk"},
		{"en", "wheat barley", "wheat flour, barley malt", "[wheat] flour, [barley] malt"},
		{"en", "wheat", "buckwheat flour", "buckwheat flour | wheat"},
		{"en", "rye", "rye flour, fryer oil", "[rye] flour, fryer oil"},
		{"en", "oats", "oatmeal, goat, coat", "[oatmeal], goat, coat"},
		{"en", "fish", "shellfish, fish", "shellfish, [fish]"},
		{"en", "sulphites", "potassium metabisulphite", "potassium [metabisulphite]"},
		{"en", "sulphites", "sulphur dioxide", "[sulphur dioxide]"},
		{"en", "wheat milk barley", "wafer flakes", "wafer flakes | wheat, milk, barley"},
		{"en", "milk milk", "butter", "butter | milk"},
		{"en", "rice", "rice", "rice | rice"},
		{"en", "milk", "", " | milk"},
		{"fr", "wheat", "farine de blé", "farine de [blé]"},
		{"fr", "wheat", "farine de blé noir", "farine de blé noir | wheat"},
		{"fr", "milk", "lait entier en poudre", "[lait] entier en poudre"},
		{"fr", "milk", "laitue", "laitue | milk"},
		{"fr", "eggs", "jaune d’œuf", "jaune d’[œuf]"},
		{"fr", "eggs", "BLANC D’ŒUF", "BLANC D’[ŒUF]"},
		{"fr", "walnuts", "noix de cajou, noix", "noix de cajou, [noix]"},
		{"fr", "walnuts", "noix de\u00a0coco", "noix de\u00a0coco | walnuts"},
		{"fr", "cashews", "noix de cajou", "[noix de cajou]"},
		{"fr", "barley", "malt d’orge, gorge, forge", "malt d’[orge], gorge, forge"},
		{"fr", "sulphites", "métabisulfite de potassium", "[métabisulfite] de potassium"},
		{"fi", "wheat", "vehnäjauho", "[vehnä]jauho"},
		{"fi", "milk", "maidoton kaurajuoma, maitojauhe", "maidoton kaurajuoma, [maito]jauhe"},
		{"fi", "eggs", "munakoiso", "munakoiso | eggs"},
		{"sv", "wheat", "bovete, vetemjöl", "bovete, [vete]mjöl"},
		{"sv", "almonds", "pistaschmandel", "pistaschmandel | almonds"},
		{"it", "wheat", "grano saraceno, granoturco, farina di grano tenero", "grano saraceno, granoturco, farina di [grano] tenero"},
		{"it", "milk", "latte di cocco", "latte di cocco | milk"},
		{"es", "wheat", "trigo sarraceno", "trigo sarraceno | wheat"},
		{"el", "milk", "γαλακτωματοποιητής, πλήρες γάλα", "γαλακτωματοποιητής, πλήρες [γάλα]"},
		{"hu", "fish", "halva, halzselatin", "halva, [halzselatin]"},
		{"mt", "wheat", "qamħirrum, dqiq tal-qamħ", "qamħirrum, dqiq tal-[qamħ]"},
		{"pl", "milk", "mleczan sodu, mleko w proszku", "mleczan sodu, [mleko] w proszku"},
		{"cs", "fish", "rybíz", "rybíz | fish"},
		{"bg", "peanuts", "шамфъстък", "шамфъстък | peanuts"},
		{"sl", "celery", "zelena paprika", "zelena paprika | celery"},
		{"tr", "hazelnuts", "FINDIK", "[FINDIK]"},
		{"uk", "cashews", "кеш'ю", "[кеш'ю]"},
	} {
		if got := marked(get(t, c.lang), c.text, strings.Fields(c.allergens)); got != c.want {
			t.Errorf("%s %s:\n got %s\nwant %s", c.lang, c.allergens, got, c.want)
		}
	}
}

func allergens(t *testing.T) (ids []string) {
	for _, k := range get(t, "en").Keys("label") {
		if id, ok := strings.CutPrefix(k, "allergen."); ok {
			ids = append(ids, strings.ReplaceAll(id, "-", " "))
		}
	}
	if len(ids) != 26 {
		t.Fatalf("%d allergens and groups, want 24 and 2 (Regulation (EU) No 1169/2011, Annex II)", len(ids))
	}
	return ids
}

func TestStemsFindTheirOwnName(t *testing.T) {
	ids := allergens(t)
	each(t, func(t *testing.T, l *words.Lang) {
		for _, id := range ids {
			name, stems, err := l.Allergen(id)
			if err != nil || len(stems) == 0 {
				t.Errorf("%s: %q, stems %v, %v", id, name, stems, err)
				continue
			}
			for _, text := range []string{name, "12 " + name + ".", "(" + name + ")"} {
				if _, missing := l.Emphasis(text, []string{id}); len(missing) > 0 {
					t.Errorf("the stems of %s do not find it in %q", id, text)
				}
			}
		}
	})
}

// Only in these names does one allergen show itself in the name of another.
var shared = map[string]string{
	"mt": "walnuts in nuts, nuts in walnuts", // Maltese has one word for both
}

func TestStemsFindNoOtherName(t *testing.T) {
	ids := allergens(t)
	each(t, func(t *testing.T, l *words.Lang) {
		for _, in := range ids {
			name, _, _ := l.Allergen(in)
			for _, id := range ids {
				strong, _ := l.Emphasis(name, []string{id})
				pair := id + " in " + in
				if id != in && len(strong) > 0 && !slices.Contains(strings.Split(shared[l.Code()], ", "), pair) {
					t.Errorf("%s: %s", pair, marked(l, name, []string{id}))
				}
			}
		}
	})
}

func TestAllergenErrors(t *testing.T) {
	l := get(t, "en")
	if _, _, err := l.Allergen("rice"); err == nil || err.Error() != `no words for the allergen "rice" in lang/en.txt` {
		t.Errorf("rice: %v", err)
	}
	if name, _, err := l.Allergen("Brazil nuts"); err != nil || name != "Brazil nuts" {
		t.Errorf("Brazil nuts: %q, %v", name, err)
	}
	if !get(t, "fr").AllergenFromMemory("wheat") || get(t, "fr").AllergenFromMemory("pecan nuts") {
		t.Error("marks of allergen names are lost")
	}
}

func ExampleLang_Emphasis() {
	fi, _ := words.Get("fi")
	text := "vehnäjauho, voi"
	strong, missing := fi.Emphasis(text, []string{"wheat", "milk"})
	for _, r := range strong {
		fmt.Println("bold:", text[r[0]:r[1]])
	}
	for _, id := range missing {
		name, _, _ := fi.Allergen(id)
		fmt.Println("add in brackets:", name)
	}
	// Output:
	// bold: vehnä
	// add in brackets: maito
}
