package ticket_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
	"chablon/layout/stock"
	"chablon/layout/text"
	"chablon/layout/ticket"
	"chablon/samples"
)

// of makes the ticket of a product in its last pack, made on 17 March 2026.
func of(t testing.TB, sh *shop.Shop, id, stockID string, codes []string, found *diag.List) ticket.Ticket {
	t.Helper()
	p := sh.Products[id]
	pack := &p.Packs[len(p.Packs)-1]
	k := ticket.Ticket{Facts: declare.Of(sh, p, pack, layouttest.Market(t, "eu"), layouttest.Day(), found), Shop: sh, Pack: pack, Stock: layouttest.Paper(t, stockID),
		CheckWord: "MALT", Dots: layouttest.Desk(), Langs: layouttest.Langs(t, codes...)}
	for _, l := range k.Langs {
		k.Told = append(k.Told, words.Tell(k.Facts, sh, l, found))
	}
	return k
}

// set is a ticket on a page of its stock, on a sheet at the first place; it is
// nil where there is no ticket.
func set(k ticket.Ticket, faces *text.Faces, found *diag.List) []*page.Page {
	art := ticket.Compose(k, faces, found)
	if art == nil {
		return nil
	}
	return layouttest.Sheets(k.Stock, stock.Bed{Dots: k.Dots}, art)
}

// Every demo product on every ticket stock, in one and in two languages: it
// passes preflight as food that is not prepacked, or it is refused; nothing
// that must be said is left out; two prints are the same.
func TestDemo(t *testing.T) {
	sh, faces := layouttest.Shop(t), layouttest.Faces(t)
	fits := map[string]int{}
	for _, id := range sh.ProductIDs {
		for _, st := range []string{"ticket-a7-tent", "a4-ticket-4", "a4-ticket-2", "shelf-100x39", "shelf-100x60", "a4-shelf-8"} {
			for _, codes := range [][]string{{"en"}, {"fr"}, {"de"}, {"en", "fr"}, {"de", "en"}} {
				t.Run(fmt.Sprint(id, st, codes), func(t *testing.T) {
					var found diag.List
					k := of(t, sh, id, st, codes, &found)
					pages := set(k, faces, &found)
					if pages == nil {
						layouttest.Refused(t, &found)
						return
					}
					fits[fmt.Sprint(st, len(codes))]++
					checked(t, k, pages, faces)
					if codes[0] != "en" {
						return
					}
					var again diag.List
					layouttest.Same(t, pages, set(of(t, sh, id, st, codes, &again), faces, &again))
				})
			}
		}
	}
	// One language fits on every stock, two on all tickets but small ones.
	want := map[string]int{"ticket-a7-tent1": 18, "a4-ticket-41": 18, "a4-ticket-21": 18, "a4-ticket-22": 12,
		"shelf-100x391": 18, "shelf-100x601": 18, "a4-shelf-81": 18}
	for k, n := range want {
		if fits[k] < n {
			t.Errorf("%s: %d tickets fit, want %d", k, fits[k], n)
		}
	}
}

// checked holds one finished ticket against preflight and against what was told.
func checked(t *testing.T, k ticket.Ticket, pages []*page.Page, faces *text.Faces) {
	t.Helper()
	var found diag.List
	w, h := k.Stock.Size()
	art := pages[0].Placed[0].Art
	sheet := preflight.Sheet{What: "the ticket", Src: k.Facts.Product.Pos, Safe: page.Rect{W: w, H: h}.Inset(k.Stock.Safe.V),
		Market: k.Facts.Market, Pack: market.Pack{Sale: market.Loose}, Heights: ticket.Heights(faces)}
	preflight.Label(sheet, art.Items, &found)
	sheet.Pack.Sale = market.Direct
	preflight.Label(sheet, art.Items, &found)
	for _, pg := range pages {
		preflight.Placed(sheet, pg, &found)
	}
	if found.Len() > 0 {
		t.Error(found.All())
	}
	all := layouttest.Read(art.Items)
	for i, l := range k.Langs {
		must := []string{k.Told[i].Name.Text, k.Told[i].May.Text, words.Contains(k.Facts, l, &found).Text}
		for _, s := range k.Told[i].Statements {
			must = append(must, s.Text)
		}
		for _, s := range k.Told[i].Lists {
			if k.Stock.Fold.Set() {
				must = append(must, s.Text)
			}
		}
		layouttest.Has(t, all, must...)
	}
	layouttest.Has(t, all, k.CheckWord, k.Langs[0].Money(k.Pack.Price.V))
}

// TestLetters holds the sizes of the standing ticket: the name at 24 pt, the
// allergens at 12 pt and more (judgement of ours, without a published source),
// and the staff's list no smaller than on a label: an x-height of 1.2 mm, Reg.
// (EU) 1169/2011 Art. 13(2) and Annex IV.
func TestLetters(t *testing.T) {
	sh, faces := layouttest.Shop(t), layouttest.Faces(t)
	pt := func(n int64) unit.Length { return text.Hundredths(100 * n) }
	for _, id := range sh.ProductIDs {
		var found diag.List
		k := of(t, sh, id, "ticket-a7-tent", []string{"en"}, &found)
		pages := set(k, faces, &found)
		if pages == nil {
			t.Fatal(found.All())
		}
		var name, contains, list unit.Length
		for _, it := range pages[0].All() {
			switch {
			case it.Role == role.Name:
				name = max(name, it.Run.Size)
			case it.Role == role.Allergens && (contains == 0 || it.Run.Size < contains):
				contains = it.Run.Size
			case it.Role == role.List && (list == 0 || it.Run.XHeight < list):
				list = it.Run.XHeight
			}
		}
		most := pt(24)
		if id == "bench-tin" {
			most = name // its name takes three lines
		}
		if name != most || name < pt(22) || contains < pt(12) || list < 1200*unit.UM {
			t.Errorf("%s: name %s, allergens %s, list %s", id, name, contains, list)
		}
	}
}

// TestPanels: on a folded ticket no mark crosses the fold, and each side has
// its own matter.
func TestPanels(t *testing.T) {
	sh, faces := layouttest.Shop(t), layouttest.Faces(t)
	var found diag.List
	k := of(t, sh, "pear-hazelnut-tartlet", "ticket-a7-tent", []string{"en"}, &found)
	pages := set(k, faces, &found)
	if pages == nil {
		t.Fatal(found.All())
	}
	fold := 105 * unit.MM
	var statements [2]int // that of alcohol stands on both sides
	for _, it := range pages[0].All() {
		onLeft, onRight := it.Box.Right() <= fold-5*unit.MM, it.Box.X >= fold+5*unit.MM
		mark := it.Shape != nil && it.Box.X < fold && it.Box.Right() > fold
		if !onLeft && !onRight && !mark {
			t.Errorf("%s lies at the fold: %v", it.Role, it.Box)
		}
		if it.Role == role.Statement && onLeft {
			statements[0]++
		} else if it.Role == role.Statement {
			statements[1]++
		}
		if it.Role == role.Allergens && !onLeft || it.Role == role.List && !onRight {
			t.Errorf("%s is on the wrong side", it.Role)
		}
	}
	if statements[0] == 0 || statements[1] == 0 {
		t.Errorf("%d statements for the buyer, %d for the staff", statements[0], statements[1])
	}
}

func TestFaults(t *testing.T) {
	sh, faces := layouttest.Shop(t), layouttest.Faces(t)
	const id = "pear-hazelnut-tartlet"
	about := func(s string) func(*ticket.Ticket) {
		return func(k *ticket.Ticket) {
			p := *k.Facts.Product
			p.About = slices.Clone(p.About)
			p.About[0].V.V = s
			k.Facts.Product = &p
		}
	}
	for _, c := range []struct {
		name   string
		codes  []string
		change func(*ticket.Ticket)
		want   string
	}{
		{"three languages", []string{"en", "fr", "de"}, nil, "a ticket is in one or two languages, not 3 [languages]"},
		{"no language", nil, nil, "a ticket is in one or two languages, not 0 [languages]"},
		{"no words for the staff", []string{"et"}, nil, "there are no words for a ticket in eesti [words]"},
		{"praise for what is not there", []string{"en"}, about("With walnuts on top"), "this line names walnuts, which pear-hazelnut-tartlet does not contain [about]"},
		{"free from, by hand", []string{"en"}, about("Without any soya"), ""}, // words.Claims refuses it before
		{"what is there", []string{"en"}, about("Hazelnut cream, real butter and milk"), ""},
		{"no price", []string{"en"}, func(k *ticket.Ticket) { p := *k.Pack; p.Price.Pos = diag.Pos{}; k.Pack = &p }, ""},
		{"too much", []string{"en"}, func(k *ticket.Ticket) { k.Told[0].May.Text = strings.Repeat("May contain mustard. ", 60) }, "[does-not-fit]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var said, found diag.List
			k := of(t, sh, id, "ticket-a7-tent", c.codes, &said)
			if c.change != nil {
				c.change(&k)
			}
			pages := set(k, faces, &found)
			switch {
			case c.want == "" && (pages == nil || found.Len() > 0):
				t.Error(found.All())
			case c.want != "" && (pages != nil || !strings.Contains(fmt.Sprint(found.All()), c.want)):
				t.Errorf("found %v, want %s", found.All(), c.want)
			}
		})
	}
}

// A food without any allergen says so, because an empty place says nothing.
func TestNoAllergens(t *testing.T) {
	sh, faces := layouttest.Shop(t), layouttest.Faces(t)
	var found diag.List
	k := of(t, sh, "lemon-thyme-marshmallow", "shelf-100x60", []string{"en", "de"}, &found)
	k.Facts.Contains = nil
	pages := set(k, faces, &found)
	if pages == nil {
		t.Fatal(found.All())
	}
	all := layouttest.Read(pages[0].All())
	layouttest.Has(t, all, "No allergen to declare.", "Keine kennzeichnungspflichtigen Allergene.")
}

// TestUnitPrice: the price of a kilogram stands beside the selling price, but
// not where both are the same (Directive 98/6/EC Art. 2(b), 3(1), from memory).
func TestUnitPrice(t *testing.T) {
	sh, faces := layouttest.Shop(t), layouttest.Faces(t)
	for net, want := range map[unit.Mass]bool{85 * unit.Gram: true, unit.Kilogram: false} {
		var found diag.List
		k := of(t, sh, "pear-hazelnut-tartlet", "shelf-100x60", []string{"en"}, &found)
		p := *k.Pack
		p.Net.V = net
		k.Pack = &p
		pages := set(k, faces, &found)
		if pages == nil {
			t.Fatal(found.All())
		}
		if got := strings.Contains(layouttest.Read(pages[0].All()), "/kg"); got != want {
			t.Errorf("for %s a unit price is shown: %v", net, got)
		}
	}
}

func TestGolden(t *testing.T) {
	sh, faces := layouttest.Shop(t), layouttest.Faces(t)
	for _, c := range []struct {
		id, stock string
		codes     []string
	}{
		{"pear-hazelnut-tartlet", "ticket-a7-tent", []string{"en"}},
		{"passion-caramel-bar", "ticket-a7-tent", []string{"fr", "en"}},
		{"rye-shortbread-tin", "shelf-100x60", []string{"de"}},
		{"pistachio-choux", "shelf-100x39", []string{"en"}},
		{"lemon-thyme-marshmallow", "a4-ticket-4", []string{"de", "fr"}},
		{"bench-tin", "a4-ticket-2", []string{"en", "fr"}},
	} {
		t.Run(c.id, func(t *testing.T) {
			var found diag.List
			pages := set(of(t, sh, c.id, c.stock, c.codes, &found), faces, &found)
			if pages == nil {
				t.Fatal(found.All())
			}
			layouttest.Golden(t, c.id+".txt", pages[0].Dump())
		})
	}
}

func Example() {
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	faces, _ := text.Load()
	p := sh.Products["pistachio-choux"]
	en, _ := words.Get("en")
	eu, _ := market.Get("eu")
	k := ticket.Ticket{Shop: sh, Pack: &p.Packs[0], Langs: []*words.Lang{en}, CheckWord: "MALT"}
	k.Stock, _ = stock.Get("shelf-100x60")
	k.Facts = declare.Of(sh, p, k.Pack, eu, layouttest.Day(), &found)
	k.Told = []*words.Label{words.Tell(k.Facts, sh, en, &found)}
	said := map[role.Role]string{}
	for _, it := range ticket.Compose(k, faces, &found).Items {
		if it.Run != nil {
			said[it.Role] += it.Run.Text
		}
	}
	fmt.Println(said[role.Name])
	fmt.Println(said[role.Allergens])
	fmt.Println(said[role.May])
	// Output:
	// Pistachio choux bun
	// Contains wheat, eggs, milk, pistachio nuts.
	// May contain peanuts, almonds, hazelnuts.
}
