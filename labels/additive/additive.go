// Package additive answers: what does this additive call for?
//
// It knows additives by their E numbers, and what follows on a label from one
// being there: a statement about sweeteners, about phenylalanine, about the
// effects of polyols or of certain colours. Nobody has to flag what the number
// says already. Which of it is asked for where, and what is forbidden, stands in
// labels/market.
package additive

import (
	"regexp"
	"strings"
	"sync"
)

// Additive is one additive with what follows from it. Names are those of the
// list in English, French and German, for a specification without a number.
type Additive struct {
	Number    string // "E 102"
	Names     []string
	Sweetener bool
	Polyol    bool
	Aspartame bool // a source of phenylalanine
	// Azo marks the colours whose sentence on activity and attention in children
	// Regulation (EC) No 1333/2008 Annex V asks for. Five of the six are azo
	// dyes; E 104 is not, but is named with them.
	Azo bool
	// Allergen is what it always is, or always comes from: "sulphites", "eggs".
	Allergen string
}

// All lists the additives that call for something. The numbers and English
// names were read in Regulation (EC) No 1333/2008 Annex II Part B (consolidated
// 2015-04-21), those of Annex V in that annex; E 960a and E 960c, the French
// and the German names, and which of them are polyols, are from memory. E 422
// (glycerol) is a polyol for the nutrition declaration only and is left out. Of
// those that may come from an allergen only the ones are here that always do.
func All() []Additive {
	azo := func(n string, names ...string) Additive { return Additive{Number: n, Names: names, Azo: true} }
	sweet := func(n string, names ...string) Additive { return Additive{Number: n, Names: names, Sweetener: true} }
	polyol := func(n string, names ...string) Additive {
		return Additive{Number: n, Names: names, Sweetener: true, Polyol: true}
	}
	source := func(n string, names ...string) Additive {
		return Additive{Number: n, Names: names, Sweetener: true, Aspartame: true}
	}
	from := func(allergen, n string, names ...string) Additive {
		return Additive{Number: n, Names: names, Allergen: allergen}
	}
	return []Additive{
		from("sulphites", "E 220", "sulphur dioxide", "sulfur dioxide", "anhydride sulfureux", "dioxyde de soufre", "schwefeldioxid"),
		from("sulphites", "E 221", "sodium sulphite", "sulfite de sodium", "natriumsulfit"),
		from("sulphites", "E 222", "sodium hydrogen sulphite", "sulfite acide de sodium", "natriumhydrogensulfit"),
		from("sulphites", "E 223", "sodium metabisulphite", "disulfite de sodium", "natriummetabisulfit"),
		from("sulphites", "E 224", "potassium metabisulphite", "disulfite de potassium", "kaliummetabisulfit"),
		from("sulphites", "E 226", "calcium sulphite", "sulfite de calcium", "calciumsulfit"),
		from("sulphites", "E 227", "calcium hydrogen sulphite", "sulfite acide de calcium", "calciumhydrogensulfit"),
		from("sulphites", "E 228", "potassium hydrogen sulphite", "sulfite acide de potassium", "kaliumhydrogensulfit"),
		from("soybeans", "E 426", "soybean hemicellulose", "hémicellulose de soja", "sojabohnen-polyose"),
		from("soybeans", "E 479b", "thermally oxidised soya bean oil interacted with mono- and diglycerides of fatty acids"),
		from("eggs", "E 1105", "lysozyme", "lysozym"),
		azo("E 102", "tartrazine", "tartrazin"),
		azo("E 104", "quinoline yellow", "jaune de quinoléine", "chinolingelb"),
		azo("E 110", "sunset yellow fcf", "orange yellow s", "jaune orangé s", "sunsetgelb fcf", "gelborange s"),
		azo("E 122", "azorubine", "carmoisine", "azorubin", "carmoisin"),
		azo("E 124", "ponceau 4r", "cochineal red a", "rouge cochenille a", "cochenillerot a"),
		azo("E 129", "allura red ac", "allura red", "rouge allura ac", "allurarot ac"),
		polyol("E 420", "sorbitols", "sorbitol"),
		polyol("E 421", "mannitol", "mannit"),
		sweet("E 950", "acesulfame k", "acésulfame k", "acesulfam k", "acesulfam-k"),
		source("E 951", "aspartame", "aspartam"),
		sweet("E 952", "cyclamates", "cyclamate"),
		polyol("E 953", "isomalt"),
		sweet("E 954", "saccharins", "saccharin", "saccharine"),
		sweet("E 955", "sucralose"),
		sweet("E 957", "thaumatin", "thaumatine"),
		sweet("E 959", "neohesperidine dc", "néohespéridine dc", "neohesperidin dc"),
		sweet("E 960a", "steviol glycosides from stevia", "glycosides de stéviol issus de stevia", "steviolglycoside aus stevia"),
		sweet("E 960c", "enzymatically produced steviol glycosides"),
		sweet("E 961", "neotame", "néotame", "neotam"),
		source("E 962", "salt of aspartame-acesulfame", "sel d’aspartame-acésulfame", "aspartam-acesulfamsalz"),
		polyol("E 964", "polyglycitol syrup", "sirop de polyglycitol", "polyglycitsirup"),
		polyol("E 965", "maltitols", "maltitol", "maltit"),
		polyol("E 966", "lactitol", "lactit"),
		polyol("E 967", "xylitol", "xylit"),
		polyol("E 968", "erythritol", "érythritol", "erythrit"),
		sweet("E 969", "advantame", "advantam"),
	}
}

// table is All by numbers and names, in small letters: every ingredient of every
// label is looked up in it.
var table = sync.OnceValue(func() map[string]Additive {
	out := map[string]Additive{}
	for _, a := range All() {
		for _, s := range append([]string{a.Number}, a.Names...) {
			out[strings.ToLower(s)] = a
		}
	}
	return out
})

var number = regexp.MustCompile(`^E ?([0-9]{3,4}[a-z]?)( ?\([ivx]+\))?$`)

// Normal gives an E number as [All] has it, without what tells its kinds apart:
// "E965(ii)" is "E 965". It is empty for what is no number.
func Normal(s string) string {
	m := number.FindStringSubmatch(strings.TrimSpace(strings.ReplaceAll(s, "\u00a0", " ")))
	if m == nil {
		return ""
	}
	return "E " + m[1]
}

// Find finds an additive by its E number, or, where there is none, by one of
// its names. A number with a letter also stands for the one without.
func Find(e string, names []string) (Additive, bool) {
	if n := Normal(e); n != "" {
		names = []string{n, strings.TrimRight(n, "abcdef")}
	}
	for _, s := range names {
		if a, ok := table()[strings.ToLower(strings.TrimSpace(s))]; ok {
			return a, true
		}
	}
	return Additive{}, false
}
