package words_test

import (
	"strings"
	"testing"

	"chablon/labels/market"
)

// Names that seem to name an allergen and do not: nutmeg is no nut, lactic
// acid no milk, buckwheat no wheat, sweet chestnuts and coconuts are not in
// Annex II. Common names of the languages, not law.
func TestNamesThatNameNoAllergen(t *testing.T) {
	eu, _ := market.Get("eu")
	for lang, names := range map[string]string{
		"en": "nutmeg, coconut milk, lactic acid, buckwheat flour, chestnuts, butternut squash, cocoa butter, eggplant, cream of tartar",
		"de": "Muskatnuss, Kokosmilch, Milchsäure, Buchweizenmehl, Maronen, Kakaobutter, Erdmandelsirup, Eiscreme, Einkornkaffee, Reisstärke, Kokosnuss, Weinstein, Preiselbeeren, Feigen",
		"fr": "noix de muscade, lait de coco, acide lactique, sarrasin, blé noir, châtaignes, beurre de cacao, noix de coco, laitue, pêche, mûres, épices, semoule de maïs",
		"es": "nuez moscada, leche de coco, ácido láctico, trigo sarraceno, castañas, manteca de cacao, coco rallado",
		"it": "noce moscata, latte di cocco, acido lattico, grano saraceno, castagne, burro di cacao, noce di cocco, granturco, uva passa, lattuga",
		"pt": "noz-moscada, leite de coco, ácido láctico, trigo-sarraceno, castanhas, manteiga de cacau, amido de milho, milho",
		"nl": "nootmuskaat, kokosmelk, melkzuur, boekweitmeel, kastanjes, cacaoboter, kokosnoot, rijstemeel, rozijnen",
		"sv": "muskotnöt, kokosmjölk, mjölksyra, bovete, kastanjer, kakaosmör, kokosnöt, majskorn, kornig salt",
		"da": "muskatnød, kokosmælk, mælkesyre, boghvede, kastanjer, kakaosmør, kokosnød, ægte vanilje, sukkerbyg",
		"pl": "gałka muszkatołowa, mleko kokosowe, kwas mlekowy, gryka, kasztany, masło kakaowe, wiórki kokosowe",
		"fi": "muskottipähkinä, kookosmaito, maitohappo, tattari, kastanja, kaakaovoi, kookospähkinä",
		"cs": "muškátový ořech, kokosové mléko, kyselina mléčná, pohanka, kaštany, kakaové máslo, kokosový ořech",
		"hu": "szerecsendió, kókusztej, tejsav, hajdina, gesztenye, kakaóvaj, kókuszdió",
	} {
		l := get(t, lang)
		for _, n := range strings.Split(names, ", ") {
			for _, a := range eu.Allergens.Table {
				if strong, _ := l.Emphasis(n, []string{a.ID}); len(strong) > 0 {
					t.Errorf("%s %q is taken for %s", lang, n, a.ID)
				}
			}
		}
	}
}
