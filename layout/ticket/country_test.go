package ticket_test

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop/shoptest"
	"chablon/labels/words"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
	"chablon/layout/ticket"
)

// What a buyer reads of loose food is for the country to say (Reg. (EU)
// 1169/2011 Art. 44): the allergens everywhere; in Germany the words for
// additives (LMZDV § 5(1)); in Italy the list and the storage (D.Lgs 231/2017
// Art. 19(2)(b), (c)), in Poland the list and who makes it (Dz.U. 2015 poz. 29,
// § 19), in Spain how much there is of what the name names (Real Decreto
// 126/2015 Art. 4), in France and Ireland nothing further.
func TestCountries(t *testing.T) {
	for _, c := range []struct {
		country, lang string
		with, without []string
	}{
		{"DE", "de", []string{"Enthält", "Mit Farbstoff."}, []string{"Zutaten:", "Port Ossel"}},
		{"IE", "en", []string{"Contains"}, []string{"Ingredients:", "With colour."}},
		{"FR", "fr", []string{"Contient"}, []string{"Ingrédients", "Avec colorant."}},
		{"IT", "it", []string{"Ingredienti:", "latte", "Conservare in frigorifero"}, []string{"Port Ossel"}},
		{"PL", "pl", []string{"Składniki:", "Port Ossel"}, nil},
		{"ES", "es", []string{"Ingredientes:", "%"}, []string{"Port Ossel"}},
		{"", "en", []string{"Contains"}, []string{"Ingredients:"}},
	} {
		t.Run(c.country, func(t *testing.T) {
			sh, faces := layouttest.Shop(t), layouttest.Faces(t)
			shoptest.Translate(sh, c.lang)
			var found diag.List
			p := sh.Products["pistachio-choux"]
			m := layouttest.Market(t, "eu").In(c.country)
			k := ticket.Ticket{Facts: declare.Of(sh, p, &p.Packs[0], m, layouttest.Day(), &found), Shop: sh, Pack: &p.Packs[0], Stock: layouttest.Paper(t, "a4-ticket-2"),
				Dots: layouttest.Desk(), Langs: layouttest.Langs(t, c.lang)}
			k.Told = []*words.Label{words.Tell(k.Facts, sh, k.Langs[0], &found)}
			art := ticket.Compose(k, faces, &found)
			if art == nil || found.Errors() > 0 {
				t.Fatal(found.All())
			}
			buyer := left(art)
			for _, w := range c.with {
				if !strings.Contains(buyer, w) {
					t.Errorf("the buyer does not read %q: %s", w, buyer)
				}
			}
			for _, w := range c.without {
				if strings.Contains(buyer, w) {
					t.Errorf("the buyer reads %q, which is not asked for: %s", w, buyer)
				}
			}
			rules := preflight.Sheet{What: "the ticket", Market: m, Pack: k.Facts.AsLoose(), Heights: ticket.Heights(faces), Safe: page.Rect{W: art.W, H: art.H}}
			preflight.Label(rules, art.Items, &found)
			if found.Errors() > 0 {
				t.Error(found.All())
			}
			missingIsRefused(t, rules, art)
		})
	}
}

// missingIsRefused takes each particular that is due off the page: the page is
// then refused, whoever set it.
func missingIsRefused(t *testing.T, rules preflight.Sheet, art *page.Art) {
	t.Helper()
	needs, _ := rules.Market.Needs(rules.Pack)
	for _, n := range needs {
		if n.Duty != "must" {
			continue
		}
		var found diag.List
		preflight.Label(rules, slices.DeleteFunc(slices.Clone(art.Items), func(it page.Item) bool {
			return it.Role == n.Role || n.In != "" && it.Role == n.In
		}), &found)
		if !slices.ContainsFunc(found.All(), func(d diag.Diag) bool { return d.Rule == "missing" && strings.Contains(d.Msg, string(n.Role)) }) {
			t.Errorf("a ticket without %s passes", n.Role)
		}
	}
}

// left is what is read on the buyer's side.
func left(art *page.Art) string {
	var all []string
	for _, it := range art.Items {
		if it.Run != nil && it.Box.X < art.W/2 && it.Role != role.Draft {
			all = append(all, it.Run.Text)
		}
	}
	return strings.ReplaceAll(strings.Join(all, " "), "\u00a0", " ")
}
