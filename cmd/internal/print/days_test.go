package print

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"chablon/cmd/internal/follow"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
)

const profileFile = "shop.yaml"

const demoPrints = "day-prints: [card, label, carton, ticket, batch-record, prep, board, shopping, allergen-order, card-list]"

// The words that day-prints knows are the kinds that a day can print: who adds
// such a kind adds its word to the tag.
func TestWordsOfDayPrints(t *testing.T) {
	f, _ := reflect.TypeFor[shop.Profile]().FieldByName("DayPrints")
	words := strings.Split(f.Tag.Get("one"), "|")
	var can []string
	for _, k := range Kinds() {
		if (k.Runs != nil || k.Day != nil) && k.Name != partCarton && k.Name != partBoxEnd { // they go with carton and box-end
			can = append(can, k.Name)
		}
	}
	if slices.Sort(words); !slices.Equal(words, slices.Sorted(slices.Values(can))) {
		t.Errorf("day-prints in labels/shop knows %v, the day can print %v", words, can)
	}
}

// kindsOfDay are the kinds of paper that the day makes.
func kindsOfDay(t *testing.T, p *Press) (out []string) {
	t.Helper()
	b, err := p.Day(DayOptions{})
	if err != nil || b.Found.Errors() > 0 {
		t.Fatal(err, b.Found.All())
	}
	for _, q := range b.Papers {
		var of *Kind // the one whose word is the longest: a card list is no card
		for _, k := range p.kinds {
			if strings.HasPrefix(q.Name, k.File) && (of == nil || len(k.File) > len(of.File)) {
				of = k
			}
		}
		if of != nil && !slices.Contains(out, of.Name) {
			out = append(out, of.Name)
		}
	}
	return out
}

// The profile says which papers a day has; without a word of it the day prints
// what it has for each run. The run sheet always goes with them.
func TestDayPrints(t *testing.T) {
	for _, c := range []struct{ prints, want string }{
		{"", "card label carton ticket run-sheet"},
		{"day-prints: [carton]", "carton run-sheet"},
		{"day-prints: [prep]", "prep run-sheet"},
		{"day-prints: [card-list, card]", "card card-list run-sheet"},
	} {
		p := newShop(t, profileFile, demoPrints, c.prints)
		p.Today = theDay()
		got := kindsOfDay(t, p)
		slices.Sort(got)
		want := strings.Fields(c.want)
		if slices.Sort(want); !slices.Equal(got, want) {
			t.Errorf("%q prints %v, want %v", c.prints, got, want)
		}
	}
	p := newShop(t, profileFile, demoPrints, "day-prints: [batch-rekord]")
	if d := p.Found.All(); len(d) == 0 || !strings.Contains(d[0].Hint, "batch-record") {
		t.Errorf("a word that it does not know: %v", d)
	}
}

// On a day that makes the tartlets twice, what both share has a record of its
// own, and each run has one.
func TestRecordsOfADay(t *testing.T) {
	p := newShop(t)
	p.Today = theDay().AddDays(1)
	b, err := p.Day(DayOptions{})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, q := range b.Papers {
		if name, ok := strings.CutPrefix(q.Name, "batch-record-"); ok {
			got = append(got, name)
		}
	}
	for _, want := range []string{"sweet-pastry", "poached-pear", "pear-syrup", "hazelnut-frangipane", tartlet, "bench-tin"} {
		if !slices.ContainsFunc(got, func(n string) bool { return strings.HasPrefix(n, want) }) {
			t.Errorf("no record of %s among %v", want, got)
		}
	}
	if n := len(got); n != 7+4 {
		t.Errorf("%d records, want one for each of 7 runs and 4 shared formulas: %v", n, got)
	}
}

// theDay is the day of the demo, 17 March 2026.
func theDay() unit.Date { return unit.Date{Year: 2026, Month: 3, Day: 17} }

func bare(s string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(s, "\u200b", "")), "")
}

// wordsOf is all that a job says, without white space.
func wordsOf(j *Job) string {
	var b strings.Builder
	for _, pg := range j.set.Pages {
		for _, it := range pg.All() {
			if it.Run != nil {
				b.WriteString(it.Run.Text)
			}
		}
	}
	return bare(b.String())
}

// says fails for each of what that does not stand in all.
func says(t *testing.T, all string, what ...string) {
	t.Helper()
	for _, s := range what {
		if !strings.Contains(all, bare(s)) {
			t.Errorf("%q is not on the paper", s)
		}
	}
}

// The record proposes the lot that the print book knows to keep shortest, and
// none that was withdrawn.
func TestRecordProposesLots(t *testing.T) {
	p := withBook(t)
	events := book(t, p).(trace.Book)
	desk := &follow.Desk{Shop: p.Shop, Book: events, Today: p.Today, Now: p.Clock}
	for code, until := range map[string]int{"HD-OLD": 5, "HD-NEW": 50} {
		e, err := desk.Lot(follow.Lot{Ingredient: "butter", Code: code, Mass: 10 * unit.Kilogram, Until: p.Today.AddDays(until)})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := events.Note(t.Context(), e); err != nil {
			t.Fatal(err)
		}
	}
	j := sound(t, p, "batch-record", tartlet, Request{Own: &RecordOptions{Pieces: 48}})
	says(t, wordsOf(j), "proposed: HD-OLD")
	e, err := desk.Withdraw(t.Context(), "HD-OLD", "", trace.Reason{Note: "glass"})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := events.Note(t.Context(), e...); err != nil {
		t.Fatal(err)
	}
	if j = sound(t, p, "batch-record", tartlet, Request{Own: &RecordOptions{Pieces: 48}}); strings.Contains(wordsOf(j), "HD-OLD") {
		t.Error("a lot that was withdrawn is proposed")
	}
	says(t, wordsOf(j), "proposed: HD-NEW")
	if j = sound(t, newShop(t), "batch-record", tartlet, Request{Own: &RecordOptions{Pieces: 48}}); strings.Contains(wordsOf(j), "proposed") {
		t.Error("a shop without a print book proposes lots")
	}
}

// The list of current cards has what hangs, with the word that it should bear,
// and the cards of the day's plan.
func TestCardList(t *testing.T) {
	p := withBook(t)
	p.Today = theDay()
	o := &CardOptions{Mass: 2 * unit.Kilogram, Place: "pastry mixer", Hang: true}
	if _, err := p.Post(t.Context(), Request{IDs: []string{"sweet-pastry"}, Own: o}); err != nil {
		t.Fatal(err)
	}
	j := sound(t, p, "card-list", "", Request{})
	all := wordsOf(j)
	says(t, all, "pastry mixer", "copy 1 of 1", "for this day's plan", "48 pieces", checkWord(sound(t, p, "card", "sweet-pastry", Request{Own: o})),
		checkWord(sound(t, p, "card", tartlet, Request{Own: &CardOptions{Pieces: 48}})))
	if strings.Contains(all, bare("take it down –")) || strings.Contains(all, bare("hangs with the word")) {
		t.Error("a card that is current is told to come down")
	}
}

// Days without a plan make nothing, and too many are refused.
func TestSpanOfDays(t *testing.T) {
	p := newShop(t)
	p.Today = theDay()
	if b := asked(t, p, "shopping", "", Request{Own: &Span{Days: 3}}); len(b.Papers) != 1 || b.Papers[0].Name != "shopping-3-days-2026-03-17.pdf" {
		t.Errorf("%+v", b.Papers)
	}
	if _, err := p.Print(p.KindOf("shopping"), Request{Own: &Span{Days: 46}}); err == nil {
		t.Error("a month and a half and more")
	}
}

// Prices stand on the audit sheet, and on no other paper: a shop whose prices all
// differ prints the same cards, records, lists and labels.
func TestPricesAreNotForTheWall(t *testing.T) {
	was, now := newShop(t), newShop(t)
	for _, in := range now.Shop.Ingredients {
		in.Price.V.Minor += 777
	}
	now.Shop.Profile.Hour.V.Minor *= 3
	before, err := was.drawings()
	if err != nil {
		t.Fatal(err)
	}
	after, err := now.drawings()
	if err != nil || len(after) != len(before) || len(after) < 50 {
		t.Fatal(len(before), len(after), err)
	}
	for key, d := range after {
		if d.digest != before[key].digest || d.digest == "" {
			t.Errorf("%s of %s tells a price", d.kind.One, d.of)
		}
	}
	o := func(p *Press) string { return wordsOf(sound(t, p, "audit", tartlet, Request{})) }
	if o(was) == o(now) {
		t.Error("the audit sheet tells no price")
	}
}
