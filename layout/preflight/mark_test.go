package preflight

import (
	"slices"
	"strings"
	"testing"
	"time"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/page"
	"chablon/layout/symbol"
)

// marked is the good label with a batch mark that says what its words say, as a
// GS1 DataMatrix or as a link.
func marked(t testing.TB, link bool) (Sheet, []page.Item) {
	s, items := good(t)
	s.Mark = true
	els := []gs1.Element{{AI: "01", Value: "09520001000010"}, {AI: "17", Value: "260319"}, {AI: "10", Value: "L26076A"}, {AI: "21", Value: "0001"}}
	dots := unit.Dots{N: 12, Per: mm}
	var y *page.Symbol
	var err error
	if link {
		uri, e := gs1.Link("https://label.example", els)
		if e != nil {
			t.Fatal(e)
		}
		y, err = symbol.QR(uri, symbol.M, symbol.Module{X: dots.At(5), Dots: dots})
	} else {
		data, e := gs1.Encode(els)
		if e != nil {
			t.Fatal(e)
		}
		y, err = symbol.GS1DataMatrix(data, symbol.Module{X: dots.At(5), Dots: dots})
	}
	if err != nil {
		t.Fatal(err)
	}
	it := symbol.Place(y, 76*mm, 3*mm)
	it.Src = pos(10)
	return s, append(items, it, run(role.Serial, 70*mm, 52*mm, "0001", 12*mm/10))
}

// TestMarksAgree changes the printed characters only, or the mark only: the
// mark is then found, in both kinds of symbol.
func TestMarksAgree(t *testing.T) {
	for _, link := range []bool{false, true} {
		if got := findings(marked(t, link)); len(got) > 0 {
			t.Fatalf("a label whose mark agrees is refused: %v", got)
		}
		for _, c := range []struct {
			role     role.Role
			now, say string
		}{
			{role.Batch, "L26077A", "says (10) L26076A"},
			{role.Batch, "26076A", "says (10) L26076A"},
			{role.Batch, "L26076A B", "says (10) L26076A"},
			{role.Date, "Use by 20.03.2026", "says (17) 260319"},
			{role.Date, "Use by 19.04.2026", "says (17) 260319"},
			{role.Date, "Use by 19.03.2027", "says (17) 260319"},
			{role.Serial, "0002", "says (21) 0001"},
			{role.Serial, "1", "says (21) 0001"},
		} {
			s, items := marked(t, link)
			for i := range items {
				if items[i].Role == c.role && items[i].Run != nil {
					items[i].Run.Text = c.now
				}
			}
			got := findings(s, items)
			if len(got) != 1 || got[0].Rule != "batch-mark" || !strings.Contains(got[0].Msg, c.say) {
				t.Errorf("%s %q: %v", c.role, c.now, got)
			}
		}
		s, items := marked(t, link)
		for i := range items {
			if y := items[i].Symbol; y != nil && y.Kind == gs1.EAN13 {
				y.Data = "9520001000027"
			}
		}
		if got := findings(s, items); len(got) != 1 || !strings.Contains(got[0].Msg, "(01)") {
			t.Errorf("another GTIN: %v", got)
		}
		s, items = marked(t, link)
		items = slices.DeleteFunc(items, isMark)
		if got := findings(s, items); len(got) != 1 || !strings.Contains(got[0].Msg, "lacks its batch mark") {
			t.Errorf("no mark: %v", got)
		}
	}
}

// TestOwnMark: a mark that differs from label to label is held against the
// number beside it.
func TestOwnMark(t *testing.T) {
	s, items := marked(t, false)
	art, own := items[:len(items)-2], items[len(items)-2:]
	var found diag.List
	Own(s, art, own, &found)
	if found.Len() > 0 {
		t.Fatal(found.All())
	}
	own[1].Run.Text = "0002"
	Own(s, art, own, &found)
	Own(s, art, own[1:], &found)
	if got := found.All(); len(got) != 2 || !strings.Contains(got[0].Msg, "lacks") || !strings.Contains(got[1].Msg, "(21) 0001") {
		t.Error(got)
	}
}

// TestDatesRead: a date printed in any form of any language and market is read
// for the day it says, and for no other.
func TestDatesRead(t *testing.T) {
	d, err := unit.ParseDate("2026-03-19")
	if err != nil {
		t.Fatal(err)
	}
	others := map[words.Form][]string{
		words.Day: {"2026-03-20", "2026-04-19", "2027-03-19"}, words.Long: {"2026-03-20", "2026-04-19", "2027-03-19"},
		words.DayMonth: {"2026-03-20", "2026-04-19"}, words.Month: {"2026-04-19", "2027-03-19"}, words.Year: {"2027-03-19"},
	}
	for _, code := range words.Codes() {
		l, _ := words.Get(code)
		for form, wrong := range others {
			m := eu(t)
			if form == words.Long {
				m, _ = market.Get("us")
			}
			s := Sheet{Market: m, Months: map[int][]string{}}
			for n := time.January; n <= time.December; n++ {
				s.Months[int(n)] = []string{l.MonthOf(n)}
			}
			printed := "Best before: " + l.Date(d, form)
			if !s.dated(d, printed) {
				t.Errorf("%s: %q is not read as %s", code, printed, d)
			}
			for _, w := range wrong {
				o, err := unit.ParseDate(w)
				if err != nil {
					t.Fatal(err)
				}
				if s.dated(o, printed) {
					t.Errorf("%s: %q is read as %s too", code, printed, o)
				}
			}
		}
	}
}

// The bars of a carton are held against its words, Application Identifier by
// Application Identifier, as the mark of a pack is: each value that is changed
// in the words alone is found, and so are figures under the bars that are not
// theirs.
func TestBarsOfACartonSayWhatItsWordsSay(t *testing.T) {
	words := func(r role.Role, s string) page.Item { return page.Item{Role: r, Run: &page.Run{Text: s}} }
	carton := func() (Sheet, []page.Item) {
		s, _ := good(t)
		els := []gs1.Element{{AI: "02", Value: "09520001000010"}, {AI: "13", Value: "260317"}, {AI: "17", Value: "260319"}, {AI: "10", Value: "L26076A"}, {AI: "37", Value: "7"}, {AI: "400", Value: "4711"}}
		data, err := gs1.Encode(els, gs1.Element{AI: "00", Value: "095200010000000010"})
		if err != nil {
			t.Fatal(err)
		}
		bars := func(data string) page.Item {
			return page.Item{Role: role.Bars, Symbol: &page.Symbol{Kind: gs1.GS1128, Data: data}}
		}
		return s, []page.Item{bars(data), words(role.Digits, gs1.HRI(els)), bars("00095200010000000010"), words(role.Digits, "(00)095200010000000010"),
			words(role.Key, "095200010000000010"), words(role.Key, "09520001000010"), words(role.Net, "7 × 170 g"), words(role.Batch, "L26076A"),
			words(role.Date, "Use by 19.03.2026"), words(role.Note, "17.03.2026"), words(role.Note, "4711")}
	}
	marks := func(s Sheet, items []page.Item) int {
		var found diag.List
		marksAgree(s, items, &found)
		return found.Errors()
	}
	if s, items := carton(); marks(s, items) != 0 {
		t.Fatal("a carton that says what its words say is refused")
	}
	for at, other := range map[int]string{1: "(00)095200010000000010", 3: "(00)095200010000000027", 4: "095200010000000027", 5: "09520001000027", 6: "17 × 170 g", 7: "L26076B", 8: "Use by 20.03.2026", 9: "18.03.2026", 10: "4712"} {
		s, items := carton()
		items[at].Run.Text = other
		if marks(s, items) == 0 {
			t.Errorf("the bars and %q agree", other)
		}
	}
}
