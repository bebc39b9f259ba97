package preflight

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

const nm = unit.NM

// TestEdges sets each measure to the last value that is allowed, and then one
// nanometre beyond it: Reg. (EU) 1169/2011 Art. 13(2) and Annex IV, Directive
// 76/211/EEC Annex I 3.1 (from memory), and the GS1 size tables speak of "at
// least" and "from … to".
func TestEdges(t *testing.T) {
	size, _ := gs1.SizeOf(gs1.EAN13, gs1.Retail)
	bars := func(items []page.Item) *page.Rect { return &items[0].Symbol.Bars }
	for _, c := range []struct {
		name, rule string
		set        func(s *Sheet, items []page.Item, beyond unit.Length)
	}{
		{"x-height", "too-small", func(_ *Sheet, i []page.Item, d unit.Length) { i[2].Run.XHeight = 1200*unit.UM - d }},
		{"figures of the net quantity", "net-height", func(_ *Sheet, i []page.Item, d unit.Length) { i[3].Run.CapHeight = 3*mm - d }},
		{"least module", "bars", func(_ *Sheet, i []page.Item, d unit.Length) { i[0].Symbol.Module = size.X[0] - d; room(i, size) }},
		{"largest module", "bars", func(_ *Sheet, i []page.Item, d unit.Length) {
			i[0].Symbol.Module, bars(i).H = size.X[2]+d, size.Height[2]
			room(i, size)
		}},
		{"height of the bars", "bars", func(_ *Sheet, i []page.Item, d unit.Length) {
			bars(i).H = size.HeightAt(i[0].Symbol.Module) - d
			room(i, size)
		}},
		{"white on the left", "bars", func(_ *Sheet, i []page.Item, d unit.Length) {
			room(i, size)
			i[0].Box.X += d
			i[0].Box.W -= d
		}},
		{"white on the right", "bars", func(_ *Sheet, i []page.Item, d unit.Length) { room(i, size); i[0].Box.W -= d }},
		{"the safe area", "outside", func(s *Sheet, i []page.Item, d unit.Length) { i[2].Box.W = s.Safe.Right() - i[2].Box.X + d }},
		{"the date", "past", func(s *Sheet, _ []page.Item, d unit.Length) { s.Date = s.Today.AddDays(-int(d)) }},
		{"the place of another", "overlap", func(_ *Sheet, i []page.Item, d unit.Length) { i[4].Box.Y = i[5].Box.Y - i[4].Box.H + d }},
	} {
		s, items := good(t)
		c.set(&s, items, 0)
		for _, f := range findings(s, items) {
			if f.Rule == c.rule {
				t.Errorf("%s: at the edge it is refused: %v", c.name, f)
			}
		}
		s, items = good(t)
		c.set(&s, items, nm)
		if got := rulesOf(findings(s, items)); !got[c.rule] {
			t.Errorf("%s: beyond the edge it passes: %v", c.name, got)
		}
	}
}

// room gives the bar code the white that its table asks for, and no more.
func room(items []page.Item, size gs1.Size) {
	y := items[0].Symbol
	b := y.Bars
	q := func(side int) unit.Length { return unit.Length(size.Quiet[side]) * y.Module }
	items[0].Box = page.Rect{X: b.X - q(0), Y: b.Y - q(1), W: b.W + q(0) + q(2), H: b.H + q(1) + q(3)}
}

func rulesOf(found []diag.Diag) map[string]bool {
	out := map[string]bool{}
	for _, d := range found {
		out[d.Rule] = true
	}
	return out
}

// TestWhiteOnEverySide: a square symbol wants white on every side, and lacking on
// one of them is enough (GS1 DataMatrix: one module all round).
func TestWhiteOnEverySide(t *testing.T) {
	size, ok := gs1.SizeOf(gs1.GS1DataMatrix, gs1.Trade)
	if !ok {
		size, _ = gs1.SizeOf(gs1.GS1DataMatrix, gs1.Retail)
	}
	for side, want := range size.Quiet {
		if want == 0 {
			continue
		}
		s, items := good(t)
		s.Use = gs1.Trade
		y := items[0].Symbol
		y.Kind, y.Module = gs1.GS1DataMatrix, size.X[0]
		y.Bars.W, y.Bars.H = 20*y.Module, 20*y.Module
		room(items, size)
		before := count(findings(s, items), "bars")
		b := &items[0].Box
		switch side {
		case 0:
			b.X, b.W = b.X+nm, b.W-nm
		case 1:
			b.Y, b.H = b.Y+nm, b.H-nm
		case 2:
			b.W -= nm
		case 3:
			b.H -= nm
		}
		if after := count(findings(s, items), "bars"); before != 0 || after != 1 {
			t.Errorf("side %d: %d findings with enough white, %d with too little", side, before, after)
		}
	}
}

func count(found []diag.Diag, rule string) (n int) {
	for _, d := range found {
		if d.Rule == rule {
			n++
		}
	}
	return n
}

// TestCapitals: where the law measures the small o or, of words in capitals
// only, the capitals (21 CFR 101.2(c): upper and lower case, or all capitals),
// the capital counts for those alone.
func TestCapitals(t *testing.T) {
	for _, c := range []struct {
		text    string
		measure market.Measure
		want    unit.Length
	}{
		{"INGREDIENTS: SUGAR", market.CapsOrO, 16},
		{"INGREDIENTS: SUGAR, water", market.CapsOrO, 12},
		{"170 G", market.CapsOrO, 16},
		{"INGREDIENTS: SUGAR", market.XHeight, 12},
		{"sugar", market.XHeight, 12},
	} {
		if got := height(&page.Run{Text: c.text, XHeight: 12, CapHeight: 16}, c.measure); got != c.want {
			t.Errorf("%q by %v: %d, want %d", c.text, c.measure, got, c.want)
		}
	}
}

// TestClash: which marks may lie on which. The digits of a bar code may reach
// into its white, not onto its bars; a draft's mark lies on everything.
func TestClash(t *testing.T) {
	box := func(x, w unit.Length) page.Rect { return page.Rect{X: x, W: w, H: 10} }
	words := func(r role.Role, x, w unit.Length) page.Item {
		return page.Item{Role: r, Box: box(x, w), Run: &page.Run{Text: "x"}}
	}
	code := page.Item{Box: box(0, 30), Symbol: &page.Symbol{Bars: box(10, 10)}}
	line := page.Item{Box: box(0, 30), Shape: &page.Shape{}}
	emblem := page.Item{Role: role.Emblem, Box: box(0, 10), Shape: &page.Shape{}}
	for _, c := range []struct {
		name string
		a, b page.Item
		want bool
	}{
		{"words on words", words(role.List, 0, 10), words(role.Name, 9, 10), true},
		{"words beside words", words(role.List, 0, 10), words(role.Name, 10, 10), false},
		{"words in the white", words(role.List, 0, 5), code, true},
		{"digits in the white", words(role.Digits, 0, 10), code, false},
		{"digits on the bars", words(role.Digits, 0, 11), code, true},
		{"digits on words", words(role.Digits, 0, 11), words(role.List, 5, 10), true},
		{"a draft's mark on words", words(role.Draft, 0, 10), words(role.List, 5, 10), false},
		{"a line on words", line, words(role.List, 5, 10), false},
		{"an emblem on words", emblem, words(role.List, 5, 10), true},
		{"an emblem beside words", emblem, words(role.List, 10, 10), false},
		{"an emblem in the white", emblem, code, true},
		{"an emblem beside the white", emblem, page.Item{Box: box(10, 30), Symbol: &page.Symbol{Bars: box(20, 10)}}, false},
		{"an emblem on an emblem", emblem, emblem, true},
		{"an emblem on a line", emblem, line, false},
	} {
		if clash(c.a, c.b) != c.want || clash(c.b, c.a) != c.want {
			t.Errorf("%s: %v and %v, want %v", c.name, clash(c.a, c.b), clash(c.b, c.a), c.want)
		}
	}
}

// TestInside: corner marks alone belong in the margin; any other line there is
// beyond the edge, and so are words that are called a corner mark.
func TestInside(t *testing.T) {
	out := page.Rect{X: -5 * mm, Y: 1 * mm, W: 4 * mm, H: mm}
	for _, c := range []struct {
		name string
		it   page.Item
		want int
	}{
		{"a corner mark", page.Item{Role: role.Trim, Box: out, Shape: &page.Shape{}}, 0},
		{"a line", page.Item{Role: role.Furniture, Box: out, Shape: &page.Shape{}}, 1},
		{"words", page.Item{Role: role.Trim, Box: out, Run: &page.Run{Text: "x", XHeight: 2 * mm}}, 1},
	} {
		s, items := good(t)
		if got := count(findings(s, append(items, c.it)), "outside"); got != c.want {
			t.Errorf("%s: %d findings, want %d", c.name, got, c.want)
		}
	}
}

// TestPrintedOf: what a label prints of an element is read from the words that
// play its part, and from nothing else.
func TestPrintedOf(t *testing.T) {
	words := func(r role.Role, s string) page.Item { return page.Item{Role: r, Run: &page.Run{Text: s}} }
	items := []page.Item{words("", "no part"), words(role.Batch, "L1"), words(role.Net, "170 g"), {Role: role.Batch, Shape: &page.Shape{}},
		{Role: role.Digits, Symbol: &page.Symbol{Kind: gs1.EAN13, Data: "9520001000010"}}, {Symbol: &page.Symbol{Kind: gs1.ITF14, Data: "19520001000017"}},
		words(role.Date, "Use by"), words(role.Date, "19.03.2026")}
	for ai, want := range map[string]string{"10": "L1", "01": "9520001000010", "17": "Use by|19.03.2026|Use by 19.03.2026", "21": "", "310": ""} {
		if got := strings.Join(printedOf(Sheet{}, items, ai), "|"); got != want {
			t.Errorf("(%s): %q, want %q", ai, got, want)
		}
	}
}

// TestNoDate: what bears no date is never past, whatever day it is.
func TestNoDate(t *testing.T) {
	s, items := good(t)
	s.Date = unit.Date{}
	if got := count(findings(s, items), "past"); got != 0 {
		t.Errorf("%d findings", got)
	}
}

// TestMissingInside: allergens stand in the list (Reg. (EU) 1169/2011 Art.
// 21(1)); without a list both are missing. Words that play no part stand for
// nothing, and a part without words is missing too.
func TestMissingInside(t *testing.T) {
	s, items := good(t)
	if got := count(findings(s, without(items, role.List)), "missing"); got != 2 {
		t.Errorf("without a list %d particulars are missing, want the list and the allergens", got)
	}
	if got := count(findings(s, append(without(items, role.Name), run("", 60*mm, 10*mm, "no part", 2*mm))), "missing"); got != 1 {
		t.Errorf("words that play no part stand for the name: %d", got)
	}
	if got := count(findings(s, append(without(items, role.Name), page.Item{Role: role.Name, Box: page.Rect{X: 60 * mm, Y: 10 * mm, W: mm, H: mm}, Shape: &page.Shape{}})), "missing"); got != 1 {
		t.Errorf("a line stands for the name: %d", got)
	}
}

// TestOwnMarks: a label's own symbol is held against its own words, and one
// that lacks the mark it should bear is found, by itself and in a run.
func TestOwnMarks(t *testing.T) {
	s, items := marked(t, false)
	split := func(own func(page.Item) bool) (art, mine []page.Item) {
		for _, it := range items {
			if own(it) {
				mine = append(mine, it)
			} else {
				art = append(art, it)
			}
		}
		return art, mine
	}
	rules := func(art, own []page.Item) map[string]bool {
		var found diag.List
		Own(s, art, own, &found)
		return rulesOf(found.All())
	}
	serial := func(it page.Item) bool { return it.Role == role.Serial }
	art, own := split(func(it page.Item) bool { return isMark(it) || serial(it) })
	if got := rules(art, own); len(got) > 0 {
		t.Errorf("a good label of a run: %v", got)
	}
	for i := range own {
		if serial(own[i]) {
			other := *own[i].Run
			other.Text = "0002"
			own[i].Run = &other
		}
	}
	if got := rules(art, own); !got["batch-mark"] {
		t.Errorf("its mark says another number: %v", got)
	}
	art, own = split(serial)
	if got := rules(art, own); len(got) > 0 {
		t.Errorf("the mark stands still: %v", got)
	}
	if got := rules(slices.DeleteFunc(slices.Clone(art), isMark), own); !got["batch-mark"] {
		t.Errorf("it lacks its mark: %v", got)
	}
	s.Mark = false
	art2, own2 := split(func(it page.Item) bool { return isMark(it) || serial(it) })
	for range 2 {
		for i := range own2 {
			if serial(own2[i]) {
				other := *own2[i].Run
				other.Text = "0002"
				own2[i].Run = &other
			}
		}
		if got := rules(art2, own2); !got["batch-mark"] {
			t.Errorf("whatever its order, the mark says another number: %v", got)
		}
		slices.Reverse(own2)
	}
	if got := rules(slices.DeleteFunc(slices.Clone(art), isMark), own); len(got) > 0 {
		t.Errorf("it need not have one: %v", got)
	}
}

// TestNoMarket: what goes to no market is held against no words of one.
func TestNoMarket(t *testing.T) {
	s, items := marked(t, false)
	s.Market, s.Mark = nil, false
	for i := range items {
		if items[i].Role == role.Serial {
			items[i].Run.Text = "0002"
		}
	}
	if got := findings(s, items); len(got) > 0 {
		t.Errorf("%v", got)
	}
}

// TestAgrees: a batch may have the letter in front of it that its law asks for
// (Directive 2011/91/EU Art. 4: L); a GTIN-8 is the same with zeros in front.
func TestAgrees(t *testing.T) {
	s, _ := good(t)
	for _, c := range []struct {
		ai, value, printed string
		want               bool
	}{
		{"10", "26076A", "26076A", true}, {"10", "26076A", "L 26076A", true}, {"10", "26076A", "X 26076A", false},
		{"01", "00000095200019", "95200019", true}, {"01", "00000095200019", "no number", false},
		{"17", "260319", "19.03.2026", true}, {"17", "260319", "no date", false}, {"17", "261319", "19.03.2026", false},
		{"21", "0001", "0001", true}, {"21", "0001", "1", false},
	} {
		if got := s.agrees(gs1.Element{AI: c.ai, Value: c.value}, c.printed); got != c.want {
			t.Errorf("(%s) %s and %q: %v", c.ai, c.value, c.printed, got)
		}
	}
	if got := quote(strings.Repeat("é", 30)); got != "“"+strings.Repeat("é", 30)+"”" {
		t.Error("thirty letters are cut")
	}
	if got := quote(strings.Repeat("é", 31)); got != "“"+strings.Repeat("é", 29)+"…”" {
		t.Error("thirty-one letters are not cut")
	}
	eight := page.Item{Symbol: &page.Symbol{Kind: gs1.EAN8, Data: "95200019"}}
	if got := printedOf(s, []page.Item{eight}, "01"); len(got) != 1 {
		t.Errorf("an EAN-8 bears the number: %v", got)
	}
}

// TestDated: a date says its day as far as it says one, in the form of its
// market: the year first with letters for the month in Canada (B.01.007), words
// in the United States, figures elsewhere; words without figures say none.
func TestDated(t *testing.T) {
	d := unit.Date{Year: 2026, Month: 3, Day: 19}
	names := map[int][]string{3: {"March"}}
	for _, c := range []struct {
		market  string
		months  map[int][]string
		printed string
		want    bool
	}{
		{"ca", nil, "2026 MR 19", true}, {"ca", nil, "2026 MR 18", false}, {"ca", nil, "2026 AL 19", false},
		{"us", names, "March 19, 2026", true}, {"us", names, "March 18, 2026", false}, {"us", nil, "03/2026", true}, {"us", nil, "04/2026", false},
		{"eu", names, "03/2026", true}, {"eu", names, "19.03", true}, {"eu", names, "2026", true}, {"eu", names, "2027", false}, {"eu", names, "soon", false},
		{"au", names, "March 19, 2026", true}, // its year alone agrees: the day stands first there, in figures
	} {
		m, _ := market.Get(c.market)
		if got := (Sheet{Market: m, Months: c.months}).dated(d, c.printed); got != c.want {
			t.Errorf("%s %q: %v", c.market, c.printed, got)
		}
	}
	months := Sheet{Market: &market.Market{Dates: market.Dates{Order: []string{"day", "month", "year"}, Months: make([]string, 12)}}}
	if !months.dated(d, "19.03") {
		t.Error("letters for the months are for dates with the year first")
	}
}

// TestShared: labels that touch may share a dot and a nanometre, and not one
// more.
func TestShared(t *testing.T) {
	art := &page.Art{W: 99 * mm, H: 67 * mm}
	s := Sheet{What: "the sheet", Dots: unit.Dots{N: 600, Per: unit.Inch}}
	for more, want := range map[unit.Length]int{0: 0, nm: 1} {
		var found diag.List
		Placed(s, &page.Page{W: 210 * mm, H: 297 * mm, Placed: []page.Placed{{Art: art}, {Art: art, Y: 67*mm - s.dot() - more}}}, &found)
		if found.Errors() != want {
			t.Errorf("%d nm more than they may: %v", more, found.All())
		}
	}
}

// TestNetWords: the height is that of the figures; words and lines beside them
// may be smaller.
func TestNetWords(t *testing.T) {
	s, items := good(t)
	small := run(role.Net, 70*mm, 30*mm, "e", 1200*unit.UM)
	line := page.Item{Role: role.Net, Box: page.Rect{X: 80 * mm, Y: 30 * mm, W: mm, H: mm}, Shape: &page.Shape{}}
	if got := findings(s, append(items, small, line)); len(got) > 0 {
		t.Errorf("%v", got)
	}
	small.Run.Text = "2"
	if got := count(findings(s, append(items, small)), "net-height"); got != 1 {
		t.Errorf("a small figure: %d findings", got)
	}
}
