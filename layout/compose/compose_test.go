package compose

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

const mm = unit.MM

func paper(t testing.TB, id string) *Paper {
	t.Helper()
	return On(layouttest.Paper(t, id), layouttest.Office(), layouttest.Faces(t))
}

func lang(t testing.TB, code string) *words.Lang {
	t.Helper()
	return layouttest.Langs(t, code)[0]
}

func note(s string) text.Para { return flow.Words(role.Note, diag.Pos{}, s) }

// A list of what to bring, on as few pages as it needs, each with its number.
func Example() {
	faces, err := text.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	a6, _ := stock.Get("card-a6")
	en, _ := words.Get("en")
	var found diag.List
	t := Tell("list", diag.Pos{}, &found, en)
	capital, _ := Legible(InHand)
	least := faces.Regular.SizeForCap(capital)
	pages := t.Pages(Fewest(least, 2*least, func(size unit.Length) ([]*page.Page, error) {
		paper, st := On(a6, unit.Dots{}, faces), flow.Style{Size: size}
		s, table := paper.Setter(), Table{Gap: mm, Cols: []Col{{W: 6 * mm}, {Share: 1}}}
		var blocks []flow.Block
		for i := range 30 {
			words := Words(note(fmt.Sprintf("tray %d", i+1)), st)
			blocks = append(blocks, s.Block(paper.Room().W, func(s *Setter, r page.Rect) unit.Length {
				return table.Row(s, r, TickCell(5*mm, 0), words)
			}))
		}
		return Pages{Paper: paper, Gap: mm, Head: func(s *Setter, r page.Rect, n, of int) unit.Length {
			return s.Para(r, note(t.Page(n, of)), st)
		}}.Deal(blocks)
	}))
	for _, pg := range pages {
		fmt.Println(pg.Items[0].Run.Text, "|", pg.Items[2].Run.Text)
	}
	// Output:
	// page 1 of 2 | tray 1
	// page 2 of 2 | tray 18
}

// In the shipped faces an x is not lower than XOfCap says; the heights are
// those that the faces themselves state (OpenType, table OS/2: sxHeight,
// sCapHeight).
func TestXOfCap(t *testing.T) {
	f := paper(t, "card-a4").Faces
	for _, face := range []*text.Face{f.Regular, f.Bold} {
		for _, capital := range []unit.Length{mm, 2 * mm, 2500 * unit.UM, 7 * mm} {
			x := face.XHeight(face.SizeForCap(capital))
			if least := XOfCap(capital); x < least || x > least.Mul(105, 100) {
				t.Errorf("%s: capitals of %s go with an x of %s, not %s", face.Name(), capital, x, least)
			}
		}
	}
}

// A two-hundredth of the distance (FAA human factors design standard), and 20
// minutes of arc: H = 2·D·tan(θ/2) (NUREG-0700, 1.3.1-4), both worked by hand.
func TestLegible(t *testing.T) {
	for _, c := range []struct{ distance, least, key unit.Length }{
		{InHand, 2000 * unit.UM, 2327 * unit.UM},
		{OnBench, 2500 * unit.UM, 2909 * unit.UM},
		{1000 * mm, 5000 * unit.UM, 5818 * unit.UM},
	} {
		least, key := Legible(c.distance)
		if least != c.least || key < c.key-unit.UM || key > c.key+unit.UM {
			t.Errorf("%s: %s and %s, want %s and %s", c.distance, least, key, c.least, c.key)
		}
	}
	if h := Heights(2*mm, role.Note); len(h) != 1 || h[role.Note] != 1480*unit.UM {
		t.Errorf("heights %v", h)
	}
}

// Best is the largest size that fits, and says why nothing does.
func TestBest(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		least := text.Hundredths(rapid.Int64Range(500, 900).Draw(rt, "least"))
		most := text.Hundredths(rapid.Int64Range(900, 2000).Draw(rt, "most"))
		fits := text.Hundredths(rapid.Int64Range(400, 2200).Draw(rt, "fits"))
		fault := errors.New("too large")
		got, size, err := Best(least, most, 10, func(at unit.Length) (unit.Length, error) {
			if at > fits {
				return 0, fault
			}
			return at, nil
		})
		step := text.Hundredths(10)
		switch {
		case fits < least:
			if !errors.Is(err, fault) || size != 0 {
				rt.Fatalf("%s is set, %v", size, err)
			}
		case err != nil || got != size || size < least || size > min(fits, most) || size+step+unit.UM < min(fits, most):
			rt.Fatalf("from %s to %s, %s fits: %s, %v", least, most, fits, size, err)
		}
	})
}

// Of sizes that need the same number of pages the largest is taken.
func TestFewest(t *testing.T) {
	least := text.Hundredths(600)
	at := func(size unit.Length) ([]*page.Page, error) {
		if size > text.Hundredths(900) {
			return make([]*page.Page, 3), nil
		}
		return []*page.Page{{W: size}, {}}, nil
	}
	pages, err := Fewest(least, 2*least, at)
	if err != nil || len(pages) != 2 || pages[0].W != text.Hundredths(900) {
		t.Errorf("%d pages, %v", len(pages), err)
	}
	if _, err := Fewest(least, 2*least, func(unit.Length) ([]*page.Page, error) { return nil, errMore }); err == nil {
		t.Error("what cannot be set is set")
	}
}

// Whatever the blocks: none is lost, none leaves its page, ties hold, and a
// page that begins within a group says again what it belongs to.
func TestDeal(t *testing.T) {
	p := paper(t, "card-a6")
	rapid.Check(t, func(rt *rapid.T) {
		s, w := p.Setter(), p.Room().W
		var blocks []flow.Block
		n := rapid.IntRange(1, 40).Draw(rt, "blocks")
		for i := range n {
			b := s.Block(w, func(s *Setter, r page.Rect) unit.Length {
				s.Para(r, note(fmt.Sprintf("b%d", i)), flow.Style{Size: 3 * mm})
				return unit.Length(rapid.Int64Range(4, 30).Draw(rt, "height")) * mm
			})
			b.Tied = i+1 < n && i%5 == 0
			blocks = append(blocks, b)
		}
		pages, err := Pages{Paper: p, Gap: mm, Behind: 2, Of: 50,
			Head: func(s *Setter, r page.Rect, n, of int) unit.Length {
				return s.Para(r, note(fmt.Sprintf("head%d/%d", n, of)), flow.Style{Size: 3 * mm})
			},
			Foot: func(s *Setter, r page.Rect, n, of int) unit.Length {
				return s.Para(r, note(fmt.Sprintf("foot%d", n)), flow.Style{Size: 3 * mm})
			},
			Again: func(s *Setter, at int) []flow.Block {
				return []flow.Block{s.Block(w, func(s *Setter, r page.Rect) unit.Length {
					return s.Para(r, note(fmt.Sprintf("again%d", at)), flow.Style{Size: 3 * mm})
				})}
			}}.Deal(blocks)
		if err != nil {
			rt.Fatal(err)
		}
		next := 0
		for i, pg := range pages {
			said := wordsOn(pg)
			if said[0] != fmt.Sprintf("head%d/50", i+3) || said[len(said)-1] != fmt.Sprintf("foot%d", i+3) {
				rt.Fatalf("page %d: %v", i, said)
			}
			said = said[1 : len(said)-1]
			if i > 0 {
				if said[0] != fmt.Sprintf("again%d", next) {
					rt.Fatalf("page %d begins with %v, not again%d", i, said, next)
				}
				said = said[1:]
			}
			for _, b := range said {
				if b != fmt.Sprintf("b%d", next) {
					rt.Fatalf("page %d: %v, want b%d", i, said, next)
				}
				next++
			}
			if blocks[next-1].Tied {
				rt.Fatalf("page %d ends with a block that is tied to the next", i)
			}
			for j, it := range pg.Items {
				if !p.Room().Contains(it.Box) {
					rt.Fatalf("page %d: %v leaves the page", i, it.Box)
				}
				for _, other := range pg.Items[:j] {
					if it.Box.Overlaps(other.Box) {
						rt.Fatalf("page %d: %q lies on %q", i, it.Run.Text, other.Run.Text)
					}
				}
			}
		}
		if next != n {
			rt.Fatalf("%d of %d blocks", next, n)
		}
	})
}

func wordsOn(pg *page.Page) []string {
	var out []string
	for _, it := range pg.Items {
		if it.Run != nil {
			out = append(out, it.Run.Text)
		}
	}
	return out
}

// A block that no page is high enough for is named.
func TestDealTooHigh(t *testing.T) {
	p := paper(t, "card-a6")
	at := diag.Pos{File: "a.yaml", Line: 3, Col: 1}
	_, err := Pages{Paper: p}.Deal([]flow.Block{{H: mm}, {H: 300 * mm, Src: at}})
	var high *flow.Overflow
	if !errors.As(err, &high) || high.Src != at || high.Need != 300*mm {
		t.Errorf("%v", err)
	}
	_, err = Pages{Paper: p, Head: func(s *Setter, r page.Rect, n, of int) unit.Length {
		return s.Para(r, note("烤箱"), flow.Style{Size: 3 * mm})
	}}.Deal([]flow.Block{{H: mm}})
	var hole *text.NoGlyph
	if !errors.As(err, &hole) {
		t.Errorf("a head that cannot be set: %v", err)
	}
}

// Columns fill the table from edge to edge, those with a share by it.
func TestColumns(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		tab := Table{Gap: rapid.SampledFrom([]unit.Length{0, mm, 3 * mm}).Draw(rt, "gap")}
		fixed := unit.Length(0)
		for range rapid.IntRange(0, 4).Draw(rt, "fixed") {
			c := Col{W: unit.Length(rapid.Int64Range(1, 20_000_000).Draw(rt, "w"))}
			fixed += c.W
			tab.Cols = append(tab.Cols, c)
		}
		shares := rapid.SliceOfN(rapid.Int64Range(1, 100), 1, 5).Draw(rt, "shares")
		sum := int64(0)
		for _, n := range shares {
			tab.Cols, sum = append(tab.Cols, Col{Share: n}), sum+n
		}
		r := page.Rect{X: 5 * mm, Y: 7 * mm, W: 200 * mm, H: 9 * mm}
		cols := tab.Columns(r)
		if far := cols[len(cols)-1].Right() - r.Right(); far < -5 || far > 5 { // nm, from rounding
			rt.Fatalf("the last column ends %d nm off", far)
		}
		rest := r.W - fixed - tab.Gap*unit.Length(len(cols)-1)
		for i, n := range shares {
			if got, want := cols[len(cols)-len(shares)+i].W, rest.Mul(n, sum); got != want {
				rt.Fatalf("a share of %d in %d is %s, not %s", n, sum, got, want)
			}
		}
		for i := range cols[1:] {
			if cols[i+1].X != cols[i].Right()+tab.Gap || cols[i].Y != r.Y || cols[i].H != r.H {
				rt.Fatalf("column %d: %v beside %v", i, cols[i], cols[i+1])
			}
		}
	})
}

// After the first fault nothing more is set, and that fault is the one told.
func TestSetterStops(t *testing.T) {
	s := paper(t, "card-a6").Setter()
	r := page.Rect{W: 20 * mm, H: 20 * mm}
	s.Must(2, 1, diag.Pos{Line: 1})
	s.Must(4, 1, diag.Pos{Line: 2})
	c := s.Column(r)
	c.Put(note("a"), flow.Style{Size: mm})
	c.Skip(30 * mm)
	s.Line(0, 0, note("a"), flow.Style{Size: mm})
	s.Figure(9*mm, 0, note("1 g"), flow.Style{Size: mm}, flow.Figures{})
	s.Boxed(r, mm, mm, func(s *Setter, r page.Rect) unit.Length { return s.Para(r, note("a"), flow.Style{Size: mm}) })
	b := s.Block(mm, func(s *Setter, r page.Rect) unit.Length { return s.Para(r, note("a"), flow.Style{Size: mm}) })
	var first *flow.Overflow
	if !errors.As(s.Err(), &first) || first.Src.Line != 1 || len(s.Items) != 0 || len(b.Items) != 0 {
		t.Errorf("%v, %d marks", s.Err(), len(s.Items))
	}
}

// A fault within a block, a box or another setter is not lost.
func TestFaultsRise(t *testing.T) {
	p := paper(t, "card-a6")
	bad := func(s *Setter, r page.Rect) unit.Length { return s.Para(r, note("烤"), flow.Style{Size: mm}) }
	r := page.Rect{W: 20 * mm, H: 20 * mm}
	for name, set := range map[string]func(*Setter){
		"block":  func(s *Setter) { s.Block(mm, bad) },
		"box":    func(s *Setter) { s.Boxed(r, 0, mm, bad) },
		"low":    func(s *Setter) { s.Low(r, bad) },
		"taken":  func(s *Setter) { in := s.Fresh(); bad(in, r); s.Take(in, 0, 0) },
		"column": func(s *Setter) { s.Column(r).Put(note("烤"), flow.Style{Size: mm}) },
		"width":  func(s *Setter) { s.Width(note("烤"), mm) },
	} {
		s := p.Setter()
		set(s)
		var hole *text.NoGlyph
		if !errors.As(s.Err(), &hole) {
			t.Errorf("%s: %v", name, s.Err())
		}
	}
}

// All words that are missing are told in one finding, each once.
func TestMissingWords(t *testing.T) {
	var found diag.List
	at := diag.Pos{File: "shop.yaml", Line: 1, Col: 1}
	tell := Tell("run sheet", at, &found, lang(t, "en"), lang(t, "fr"))
	tell.Word("no.such")
	tell.Word("no.such")
	tell.Count("no.other", 2)
	tell.In(lang(t, "de")).Fill("no.third", nil)
	tell.Allergens(role.Allergens, "contains", []string{"kryptonite"}, at)
	if tell.Done() || found.Len() != 1 {
		t.Fatalf("%v", found.All())
	}
	d := found.All()[0]
	for _, want := range []string{"no.such", "no.other", "no.third", "kryptonite"} {
		if strings.Count(d.Msg, want) != 1 {
			t.Errorf("%q is not told once: %s", want, d.Msg)
		}
	}
	if d.Pos != at || d.Rule != "words" || d.Hint == "" {
		t.Errorf("%v", d)
	}
}

// A language without the words of a sheet is refused, with those that have
// them; they are read from the language files.
func TestSpeaks(t *testing.T) {
	var found diag.List
	if Tell("audit sheet", diag.Pos{}, &found, lang(t, "et")).Speaks("take", "sheet", "card") {
		t.Fatal("there are words for it")
	}
	d := found.All()[0]
	if want := "there are no words for an audit sheet in eesti"; d.Msg != want {
		t.Errorf("%q, want %q", d.Msg, want)
	}
	for _, code := range words.Codes() {
		l := lang(t, code)
		if named := slices.Contains(strings.FieldsFunc(d.Hint, func(r rune) bool { return r == ' ' || r == ',' }), code); named != (l.Has("sheet") && l.Has("card")) {
			t.Errorf("%s: named %v in %q", code, named, d.Hint)
		}
	}
	if !Tell("run sheet", diag.Pos{}, &found, lang(t, "en")).Speaks("take", "sheet") {
		t.Error("English has no words for a run sheet")
	}
}

// The words of a name in another language do not stand in for its own.
func TestOwn(t *testing.T) {
	var found diag.List
	at := diag.Pos{File: "a.yaml", Line: 2, Col: 1}
	name := shop.Words{{Key: shop.Text{V: "fr"}, V: shop.Text{V: "Poire", Pos: at}}}
	if got := Tell("list", at, &found, lang(t, "fr")).Own(name, "the name of pear", at); got.V != "Poire" {
		t.Errorf("%q", got.V)
	}
	if got := Tell("list", at, &found, lang(t, "en")).Own(name, "the name of pear", at); got.V == "Poire" || found.Errors() != 1 || found.All()[0].Rule != "translation" {
		t.Errorf("%q, %v", got.V, found.All())
	}
}

func TestPhrase(t *testing.T) {
	q := Phrase(words.Said{Role: role.List, Text: "rye flour, milk.", Strong: [][2]int{{0, 3}, {11, 15}}})
	var b strings.Builder
	for _, s := range q.Spans {
		if s.Bold {
			fmt.Fprintf(&b, "<%s>", s.Text)
		} else {
			b.WriteString(s.Text)
		}
	}
	if got, want := b.String(), "<rye> flour, <milk>."; got != want || q.Role != role.List {
		t.Errorf("%q as %s, want %q", got, q.Role, want)
	}
	if q := Phrase(words.Said{Role: role.List}); len(q.Spans) != 0 {
		t.Errorf("nothing is said as %v", q.Spans)
	}
}

func TestRefusal(t *testing.T) {
	s, _ := stock.Get("roll-100x60")
	at := diag.Pos{File: "a.yaml", Line: 2, Col: 1}
	r := Refusal{At: at, What: "the label of pear", Stock: s, With: "with letters 3 mm high", Hint: "take a larger paper"}
	for _, c := range []struct {
		err        error
		rule, want string
	}{
		{&flow.Overflow{Need: 70 * mm, Have: 60 * mm}, "does-not-fit", "the label of pear does not fit on 100 mm × 60 mm (roll-100x60) with letters 3 mm high: it needs 70.00 mm and there are 60.00 mm"},
		{&text.NoGlyph{Rune: '烤', Src: at}, "glyph", (&text.NoGlyph{Rune: '烤', Src: at}).Diag().Msg},
	} {
		var found diag.List
		r.Refuse(c.err, &found)
		d := found.All()[0]
		if d.Rule != c.rule || d.Msg != c.want || d.Pos != at || d.Hint == "" {
			t.Errorf("%v", d)
		}
	}
}
