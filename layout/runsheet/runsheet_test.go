package runsheet

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/pdf/pdftest"
	"chablon/layout/preflight"
	"chablon/layout/stock"
	"chablon/layout/text"
	"chablon/samples"
)

// demo is the run sheet of the demo shop on 17 March 2026.
func demo(t testing.TB, lang string) Sheet {
	t.Helper()
	s, err := demoSheet(lang)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func demoSheet(lang string) (Sheet, error) {
	var found diag.List
	day := unit.Date{Year: 2026, Month: 3, Day: 17}
	sh := shop.Load(samples.Demo(), &found)
	l, _ := words.Get(lang)
	a4, _ := stock.Get("card-a4")
	s := Sheet{Shop: sh, Lang: l, Day: day, Stock: a4, Dots: unit.Dots{N: 600, Per: unit.Inch}}
	plan, ok := sh.PlanFor(day)
	if !ok {
		return s, fmt.Errorf("no plan for %s", day)
	}
	var carton int64
	for _, r := range plan.Runs {
		run, err := demoRun(sh, r, day, &carton, &found)
		if err != nil {
			return s, err
		}
		s.Runs = append(s.Runs, run)
	}
	if found.Errors() > 0 {
		return s, fmt.Errorf("%s", found.All()[0])
	}
	return s, nil
}

func demoRun(sh *shop.Shop, r shop.Run, day unit.Date, carton *int64, found *diag.List) (Run, error) {
	p := sh.Products[r.Product.V]
	k, _ := p.Pack(r.Pack.V)
	eu, _ := market.Get("eu")
	out := Run{Facts: declare.Of(sh, p, k, eu, day, found), Batch: sh.BatchCode(r, day), Pieces: r.Pieces.V,
		Labels: r.Pieces.V / k.Pieces.V, Numbers: fmt.Sprintf("0001-%04d", r.Pieces.V/k.Pieces.V), Paper: k.Paper.V, Cartons: int(r.Cartons.V), Packs: p.Carton.Holds.V}
	for _, code := range sh.LanguagesOf(k) {
		l, _ := words.Get(code.V)
		out.Told = append(out.Told, words.Tell(out.Facts, sh, l, found))
	}
	for range r.Cartons.V {
		*carton++
		s, err := gs1.SSCC(0, sh.Profile.GS1Prefix.V, *carton)
		if err != nil {
			return out, err
		}
		out.SSCCs = append(out.SSCCs, s)
	}
	if l := r.LastCarton; l != nil {
		*carton++
		s, err := gs1.SSCC(0, sh.Profile.GS1Prefix.V, *carton)
		if err != nil {
			return out, err
		}
		n := l.Packs.V
		for _, in := range l.With {
			n += in.Packs.V
		}
		out.Parts = []Part{{n, []string{s}}}
	}
	return out, nil
}

// compose sets s and fails on any error found.
func pagesOf(t testing.TB, s Sheet) []*page.Page {
	t.Helper()
	var found diag.List
	pages := Compose(s, layouttest.Faces(t), &found)
	if found.Len() > 0 || len(pages) == 0 {
		t.Fatalf("%d pages, %v", len(pages), found.All())
	}
	return pages
}

// said is all text of the pages, fragments of a line joined.
func said(pages []*page.Page) string {
	var b strings.Builder
	for _, pg := range pages {
		for _, it := range pg.Items {
			if it.Run != nil {
				b.WriteString(it.Run.Text + " ")
			}
		}
	}
	return strings.Join(strings.Fields(strings.ReplaceAll(b.String(), "\u200b", "")), " ")
}

func TestGolden(t *testing.T) {
	pages := pagesOf(t, demo(t, "en"))
	if len(pages) != 1 {
		t.Errorf("the demo day takes %d pages, not one", len(pages))
	}
	layouttest.Golden(t, "2026-03-17.txt", strings.ReplaceAll(said(pages)+"\n", " signature ", " signature\n"))
}

// Places of one run, so that a shift is seen in the golden file.
func TestGoldenOneRun(t *testing.T) {
	s := demo(t, "en")
	s.Runs = s.Runs[:1]
	s.Cautions = []diag.Diag{caution("products/a.yaml", "it is late")}
	layouttest.Golden(t, "one-run.dump", pagesOf(t, s)[0].Dump())
}

func caution(file, msg string) diag.Diag {
	return diag.Diag{Pos: diag.Pos{File: file, Line: 3, Col: 7}, Warning: true, Rule: "some-rule", Msg: msg, Hint: "look again"}
}

// In each language that has the words of a sheet: it passes preflight, with
// letters for 0.4 m (capitals of a two-hundredth of the distance, FAA), and
// nothing touches anything.
func TestPreflight(t *testing.T) {
	for _, lang := range []string{"en", "fr", "de"} {
		s := demo(t, lang)
		s.Cautions = []diag.Diag{caution("products/a.yaml", "it is late")}
		for _, pg := range pagesOf(t, s) {
			var found diag.List
			preflight.Label(preflight.Sheet{What: "the run sheet", Safe: pg.Area().Inset(s.Stock.Safe.V), Heights: Heights()}, pg.All(), &found)
			for _, d := range found.All() {
				t.Errorf("%s: %v", lang, d)
			}
			for _, it := range pg.Items {
				if it.Run != nil && it.Run.CapHeight < 2*unit.MM {
					t.Errorf("%s: %q is %s high", lang, it.Run.Text, it.Run.CapHeight)
				}
				if _, ok := Heights()[it.Role]; it.Run != nil && !ok {
					t.Errorf("%s: nobody says how high %s %q must be", lang, it.Role, it.Run.Text)
				}
			}
		}
	}
}

// What is printed is what the label says: dates and batch of the demo shop,
// labels by number, SSCCs first to last, allergens.
func TestDemoDay(t *testing.T) {
	all := said(pagesOf(t, demo(t, "en")))
	for _, want := range []string{
		"Run sheet · 17 March 2026", "Quoin & Crumb Pastry", "No warnings · page 1 of 1",
		"Pear and hazelnut tartlet L26076A Use by 19.03.2026", "Pistachio choux bun L26076A Use by 18.03.2026",
		"labels: 24 · 0001–0024 · roll-100x60 · EN", "48 pieces · packs: 24 · 170 g · box-of-2",
		"cartons: 2 × 12 · SSCC 095200010000000010– 095200010000000027", "cartons: 1 × 6 · SSCC 095200010000000058",
		"Contains wheat, eggs, milk, almonds, hazelnuts May contain pistachio nuts",
		"printed 24 = applied + spoilt + left time signature",
		"Best before 12.05.2026", "Best before 26.05.2026", "Best before 14.04.2026",
		"A competent person approves each label; local law and the authority decide.",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is missing in\n%s", want, all)
		}
	}
}

// Tolerable negative error, Directive 76/211/EEC Annex I 2.4: 9 % up to 50 g,
// 4.5 % from 100 to 200 g, 9 g from 200 to 300 g; percentages are rounded up to
// 0.1 g (rounding from memory). T1 is the quantity less the error, T2 less twice the error.
func TestShortfall(t *testing.T) {
	s := demo(t, "en")
	for _, c := range []struct {
		run    int
		t1, t2 string
	}{
		{0, "162.3 g", "154.6 g"}, // 170 g: 7.65 → 7.7 g
		{1, "40.9 g", "36.8 g"},   // 45 g: 4.05 → 4.1 g
		{3, "271 g", "262 g"},     // 280 g: 9 g
	} {
		one := s
		one.Runs = s.Runs[c.run : c.run+1]
		want := "few hold less than " + c.t1 + ", none less than " + c.t2
		if all := said(pagesOf(t, one)); !strings.Contains(all, want) {
			t.Errorf("%q is missing in\n%s", want, all)
		}
	}
}

// What has no cartons, no bar code, no labels has nothing to tick for them.
func TestChecksFollowTheRun(t *testing.T) {
	s := demo(t, "en")
	s.Runs = s.Runs[:1]
	r := &s.Runs[0]
	boxes := func() int {
		n := 0
		for _, it := range pagesOf(t, s)[0].Items {
			if it.Shape != nil && it.Shape.Kind == page.Outlined && it.Box.W < 5*unit.MM {
				n++
			}
		}
		return n
	}
	if n := boxes(); n != 8 {
		t.Errorf("%d boxes to tick, want 8", n)
	}
	k := *r.Facts.Pack
	k.GTIN = shop.Text{}
	r.Facts.Pack, r.Cartons, r.Parts, r.SSCCs, r.Numbers = &k, 0, nil, nil, ""
	if n := boxes(); n != 6 {
		t.Errorf("%d boxes to tick, want 6", n)
	}
	if all := said(pagesOf(t, s)); strings.Contains(all, "SSCC") || strings.Contains(all, "0001") || strings.Contains(all, "scanned") || strings.Contains(all, "artons") {
		t.Errorf("something stands that is not there: %s", all)
	}
}

// However many runs and cautions: each stands once, pages are numbered, and
// every page passes preflight.
func TestNothingIsDropped(t *testing.T) {
	s := demo(t, "en")
	six := s.Runs
	s.Runs = nil
	for i := range 40 {
		r := six[i%len(six)]
		r.Batch = fmt.Sprintf("L26076-%02d", i)
		s.Runs = append(s.Runs, r)
	}
	for i := range 60 {
		s.Cautions = append(s.Cautions, caution(fmt.Sprintf("products/file-%02d.yaml", i), fmt.Sprintf("matter %02d is to be looked at", i)))
	}
	pages := pagesOf(t, s)
	if len(pages) < 5 {
		t.Fatalf("%d pages", len(pages))
	}
	all := said(pages)
	for i := range s.Runs {
		if n := strings.Count(all, s.Runs[i].Batch); n != 1 {
			t.Errorf("batch %s stands %d times", s.Runs[i].Batch, n)
		}
	}
	for i, d := range s.Cautions {
		for _, part := range []string{d.Msg, d.Pos.String()} {
			if n := strings.Count(all, part); n != 1 {
				t.Errorf("caution %d: %q stands %d times", i, part, n)
			}
		}
	}
	for i, pg := range pages {
		if want := fmt.Sprintf("Warnings: 60 · page %d of %d", i+1, len(pages)); !strings.Contains(said([]*page.Page{pg}), want) {
			t.Errorf("page %d does not say %q", i+1, want)
		}
		var found diag.List
		preflight.Label(preflight.Sheet{Safe: pg.Area().Inset(s.Stock.Safe.V), Heights: Heights()}, pg.All(), &found)
		if found.Len() > 0 {
			t.Errorf("page %d: %v", i+1, found.All()[0])
		}
	}
}

// A finding may quote anything that stands in a file.
func TestOddCautions(t *testing.T) {
	s := demo(t, "en")
	s.Runs = s.Runs[:1]
	long := "plans/" + strings.Repeat("long-name-", 40) + ".yaml"
	s.Cautions = []diag.Diag{caution(long, "梨\x00 is \u0301 not\ta name"), {Msg: "without place, rule and hint"}}
	all := said(pagesOf(t, s))
	for _, want := range []string{"? is ? not", "without place, rule and hint", "look again"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is missing in\n%s", want, all)
		}
	}
	if strings.Count(strings.ReplaceAll(all, " ", ""), "long-name-") != 40 {
		t.Error("the place was cut off")
	}
}

// Words from memory stand there in full for a native reader, each once, those
// of the carton labels too; checked words do not.
func TestWordsFromMemory(t *testing.T) {
	s := demo(t, "en")
	s.Runs[0].Keys = map[string][]string{"fr": {"carton.of", "carton.content"}}
	all := said(pagesOf(t, s))
	fr, _ := words.Get("fr")
	var keys []string
	for _, r := range s.Runs {
		for _, l := range r.Told {
			if l.Lang == "fr" {
				keys = append(keys, l.Unchecked...)
			}
		}
	}
	if len(keys) == 0 {
		t.Fatal("all French words were checked; the test shows nothing")
	}
	for _, k := range append(keys, "carton.of", "carton.content") {
		w, err := fr.Word(k)
		if err != nil {
			t.Fatal(err)
		}
		for _, slot := range fr.Slots(k) {
			w = strings.ReplaceAll(w, "{"+slot+"}", "…")
		}
		quoted := strings.Join(strings.Fields("“"+w+"”"), " ")
		if n := strings.Count(all, quoted); n != 1 {
			t.Errorf("%s: %s stands %d times", k, quoted, n)
		}
	}
	slices.Sort(keys)
	n := len(slices.Compact(keys)) + 2
	if want := fmt.Sprintf("Français: %d words were written from memory; a native reader must check them before sale.", n); !strings.Contains(all, want) {
		t.Errorf("%q is missing in\n%s", want, all)
	}
	if w, _ := fr.Word("date.use-by"); strings.Contains(all, "“"+strings.ReplaceAll(w, "{date}", "…")+"”") {
		t.Error("the words of the law are doubted")
	}
}

func TestFindings(t *testing.T) {
	for _, c := range []struct {
		name, rule, say string
		change          func(*Sheet)
	}{
		{"a language without these words", "words", "no words for a run sheet in eesti", func(s *Sheet) { s.Lang, _ = words.Get("et") }},
		{"a label without a language", "words", "has no language", func(s *Sheet) { s.Runs[0].Told = nil }},
		{"a letter that no face has", "glyph", "U+68A8", func(s *Sheet) { s.Runs[0].Batch = "梨" }},
		{"a word wider than its column", "too-wide", "Birnen", func(s *Sheet) {
			l := *s.Runs[0].Told[0]
			l.Name.Text = strings.Repeat("Birnenhaselnuss", 12)
			s.Runs[0].Told = []*words.Label{&l}
		}},
		{"a name longer than a page", "overflow", "mm", func(s *Sheet) {
			l := *s.Runs[0].Told[0]
			l.Name.Text = strings.Repeat("pear and hazelnut ", 400)
			s.Runs[0].Told = []*words.Label{&l}
		}},
		{"an allergen without a name", "words", "kryptonite", func(s *Sheet) {
			f := *s.Runs[0].Facts
			f.Contains = []string{"kryptonite"}
			s.Runs[0].Facts = &f
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := demo(t, "en")
			c.change(&s)
			var found diag.List
			if pages := Compose(s, layouttest.Faces(t), &found); pages != nil {
				t.Error("a sheet was set")
			}
			all := found.All()
			if len(all) == 0 || all[0].Rule != c.rule || !strings.Contains(all[0].Msg, c.say) || all[0].Hint == "" || !all[0].Pos.Known() {
				t.Errorf("found %v, want %q [%s]", all, c.say, c.rule)
			}
		})
	}
}

// Another reader finds the words in the file, on paper of the right size.
func TestReadBack(t *testing.T) {
	s := demo(t, "de")
	pages := pagesOf(t, s)
	var b bytes.Buffer
	if err := pdf.Write(&b, pdf.Doc{Title: "Laufzettel", Lang: "de", Pages: slices.Values(pages)}); err != nil {
		t.Fatal(err)
	}
	read := pdftest.Pages(t, b.Bytes())
	if len(read) != len(pages) || read[0].W < 209.9 || read[0].W > 210.1 || read[0].H < 296.9 || read[0].H > 297.1 {
		t.Fatalf("%d pages", len(read))
	}
	for _, want := range []string{"Laufzettel · 17. März 2026", "Pear and hazelnut tartlet", "L26076A", "Datum und Charge sind von heute"} {
		if !strings.Contains(read[0].Text, want) {
			t.Errorf("%q is not read", want)
		}
	}
}

func TestSameInputSamePages(t *testing.T) {
	s := demo(t, "en")
	s.Runs[0].Keys = map[string][]string{"de": {"carton.of"}, "fr": {"carton.of"}, "it": {"contains"}}
	if a, b := pagesOf(t, s)[0].Dump(), pagesOf(t, s)[0].Dump(); a != b {
		t.Error("two sheets of the same day differ")
	}
}

func ExampleCompose() {
	s, err := demoSheet("en")
	f, err2 := text.Load()
	if err != nil || err2 != nil {
		fmt.Println(err, err2)
		return
	}
	var found diag.List
	pages := Compose(s, f, &found)
	fmt.Println(len(pages), "page,", len(s.Runs), "runs,", found.Len(), "findings")
	for _, it := range pages[0].Items {
		if it.Role == role.Date {
			fmt.Println(it.Run.Text)
		}
	}
	// Output:
	// 1 page, 6 runs, 0 findings
	// Use by 19.03.2026
	// Best before 12.05.2026
	// Best before 26.05.2026
	// Use by 18.03.2026
	// Best before 14.04.2026
	// Best before 14.04.2026
}

// Places in the law that were written from memory stand there too: for Great
// Britain those on batch marks.
func TestFiguresFromMemory(t *testing.T) {
	s := demo(t, "en")
	s.Runs[0].Facts.Market, _ = market.Get("gb")
	all := said(pagesOf(t, s))
	if n := strings.Count(all, "SI 1996/1502: as 2011/91/EU Art. 2(1); as 2011/91/EU Art. 2(2);"); n != 1 {
		t.Errorf("the place stands %d times in\n%s", n, all)
	}
	ch, _ := market.Get("ch")
	if got := byAct(ch.Unread()); strings.Count(got, "SR 817.022.16:") != 1 {
		t.Errorf("an act is named twice: %s", got)
	}
}

// Who signed for places that nobody has read stands there, each signature once
// with all that it was relied on for.
func TestAccepted(t *testing.T) {
	gb, _ := market.Get("gb")
	unread := gb.UnreadPlaces()
	on, until := unit.Date{Year: 2026, Month: 3, Day: 17}, unit.Date{Year: 2027, Month: 3, Day: 17}
	for lang, want := range map[string]string{"en": "GB: Ilo signed on 17.03.2026, until 17.03.2027", "de": "GB: Ilo hat am 17.03.2026, bis 17.03.2027"} {
		s := demo(t, lang)
		for _, q := range unread {
			s.Accepted = append(s.Accepted, Accepted{Place: q, By: "Ilo", On: on, Until: until})
		}
		s.Accepted = append(s.Accepted, Accepted{Place: unread[0], By: "Mara B.", On: on, Until: until})
		all := said(pagesOf(t, s))
		if strings.Count(all, want) != 1 || strings.Count(all, "Mara B.") != 1 {
			t.Errorf("%s: no %q once in\n%s", lang, want, all)
		}
		if !strings.Contains(all, byAct([]market.Cite{unread[0].Cite})) {
			t.Errorf("%s: the place is not named", lang)
		}
	}
}

// TestLeftOutFirst: what is left out stands before the runs, with what is wrong
// and where, and is counted in the head; without it the sheet is as it was.
func TestLeftOutFirst(t *testing.T) {
	for lang, want := range map[string]string{"en": "Left out, not printed: 1", "de": "Ausgelassen, nicht gedruckt: 1", "fr": "Laissé de côté, non imprimé: 1"} {
		s := demo(t, lang)
		s.Left = []Left{{Product: "bench-tin", Pieces: 10, What: "labels", Why: []diag.Diag{{Pos: diag.Pos{File: "ingredients/rye-flour.yaml", Line: 7, Col: 3}, Rule: "overdue", Msg: "the specification is overdue"}}}}
		var found diag.List
		pages := Compose(s, layouttest.Faces(t), &found)
		if found.Errors() > 0 || len(pages) == 0 {
			t.Fatal(found.All())
		}
		var all []string
		for _, it := range pages[0].All() {
			if it.Run != nil {
				all = append(all, it.Run.Text)
			}
		}
		text := strings.Join(all, " ")
		fault, first := strings.Index(text, "ingredients/rye-flour.yaml:7:3"), strings.Index(text, s.Runs[0].Told[0].Name.Text)
		if fault < 0 || first < 0 || fault > first || !strings.Contains(text, "bench-tin") || !strings.Contains(text, want) {
			t.Errorf("%s: at %d and %d of %s", lang, fault, first, text)
		}
	}
}

// A batch of which paper was printed many times that day stays within its
// sheet: a run that does not fit would hold back the whole day.
func TestManyNumbers(t *testing.T) {
	s := demo(t, "en")
	r := &s.Runs[0]
	r.Numbers, r.SSCCs = "0801", []string{"095200010000009999"}
	for i := range 400 {
		r.Before = append(r.Before, fmt.Sprintf("%04d", 2*i+1))
		r.SSCCsBefore = append(r.SSCCsBefore, []string{fmt.Sprintf("0952000100%08d", i)})
	}
	all := said(pagesOf(t, s))
	for _, want := range []string{"0001", "(+389)", "(+788)", "0801", "095200010000009999"} {
		if !strings.Contains(all, want) {
			t.Errorf("the sheet does not say %s", want)
		}
	}
}
