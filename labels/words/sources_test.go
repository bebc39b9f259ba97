package words_test

import (
	"os"
	"regexp"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"chablon/labels/unit"
	"chablon/labels/words"
)

// seen is a word that was seen in a published text.
type seen struct{ lang, key, term, source string }

// same compares our words with those seen: a capital at the beginning and the
// sign that stands for the date do not count.
func same(ours, theirs string) bool {
	if !strings.Contains(theirs, "…") && strings.HasSuffix(ours, "{date}") {
		theirs += " …"
	}
	return small(ours) == small(strings.ReplaceAll(theirs, "…", "{date}"))
}

func small(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToLower(r)) + strings.ReplaceAll(s[n:], "\u00a0", " ")
}

func compare(t *testing.T, rows []seen) {
	t.Helper()
	for _, r := range rows {
		l := get(t, r.lang)
		if ours := word(t, l, r.key); !same(ours, r.term) {
			t.Errorf("%s %s: we say %q, %s says %q", r.lang, r.key, ours, r.source, r.term)
		}
		if l.FromMemory(r.key) {
			t.Errorf("%s %s is marked as from memory, but was seen in %s", r.lang, r.key, r.source)
		}
	}
}

// lines are the lines of a file that are not comments.
func lines(t *testing.T, name string) []string {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for s := range strings.Lines(string(data)) {
		if s = strings.TrimRight(s, "\n"); s != "" && s[0] != '#' {
			out = append(out, s)
		}
	}
	return out
}

func TestAllergenNamesAsSeen(t *testing.T) {
	var rows []seen
	for _, s := range lines(t, "testdata/allergens.txt") {
		key, rest, _ := strings.Cut(s, " = ")
		for one := range strings.SplitSeq(rest, " | ") {
			lang, term, _ := strings.Cut(one, " ")
			rows = append(rows, seen{lang, key, term, "the table of allergens"})
		}
	}
	if len(rows) < 500 {
		t.Fatalf("only %d rows", len(rows))
	}
	compare(t, rows)
}

func TestDateWordsAsSeen(t *testing.T) {
	var rows []seen
	for _, s := range lines(t, "testdata/dates.txt") {
		f := strings.Split(s, " | ")
		rows = append(rows, seen{f[1], f[0], f[2], f[3]})
	}
	if len(rows) < 50 {
		t.Fatalf("only %d rows", len(rows))
	}
	compare(t, rows)
}

// Words seen in texts of authorities, of the law, or on packs.
func TestWordsAsSeen(t *testing.T) {
	var rows []seen
	for _, s := range lines(t, "testdata/seen.txt") {
		f := strings.Split(s, " | ")
		rows = append(rows, seen{f[1], f[0], f[2], f[3]})
	}
	if len(rows) < 140 {
		t.Fatalf("only %d rows", len(rows))
	}
	compare(t, rows)
}

// Irish piseanna are peas: a line that says it warns of nothing. Peanuts are
// piseanna talún (press release of the Department of Health, health.gov.ie).
func TestIrishPeasAreNoPeanuts(t *testing.T) {
	ga := get(t, "ga")
	if got := word(t, ga, "allergen.peanuts"); got != "piseanna talún" {
		t.Errorf("peanuts are called %q", got)
	}
	if got := marked(ga, "piseanna, im piseanna talún", []string{"peanuts"}); got != "piseanna, im [piseanna talún]" {
		t.Error(got)
	}
}

// columns are the names of the larger table for our keys.
var columns = map[string]string{
	"date_best_before": "date.best-before", "date_best_before_end": "date.best-before-end", "date_use_by": "date.use-by",
	"heading_ingredients": "heading.ingredients", "heading_nutrition_declaration": "nutrition.heading",
	"mark_lot_letter": "lot.letter", "word_lot": "lot.heading", "word_net_quantity": "net.heading",
	"phrase_per_100g": "nutrition.per-100g", "nutrition_energy": "nutrition.energy", "nutrition_fat": "nutrition.fat",
	"nutrition_of_which_saturates": "nutrition.saturates", "nutrition_saturates_bare": "nutrition.saturates-alone",
	"nutrition_carbohydrate": "nutrition.carbohydrate", "nutrition_of_which_sugars": "nutrition.sugars",
	"nutrition_sugars_bare": "nutrition.sugars-alone", "nutrition_fibre": "nutrition.fibre",
	"nutrition_protein": "nutrition.protein", "nutrition_salt": "nutrition.salt",
	"allergen_gluten_cereals": "allergen.cereals-containing-gluten",
}

// A table of words with the columns language, key, term, source, seen can be
// compared as a whole; its path is given in CHABLON_WORDS.
func TestWholeTable(t *testing.T) {
	name := os.Getenv("CHABLON_WORDS")
	if name == "" {
		t.Skip("CHABLON_WORDS names no table")
	}
	var sure []seen
	for _, s := range lines(t, name)[1:] {
		f := strings.Split(s, "\t")
		key := columns[f[1]]
		if rest, ok := strings.CutPrefix(f[1], "allergen_"); ok && key == "" {
			key = "allergen." + strings.ReplaceAll(rest, "_", "-")
		}
		if f[1] == "word_contains" || f[1] == "phrase_store_at" {
			continue // ours are whole phrases
		}
		if row := (seen{f[0], key, f[2], f[3]}); f[4] == "yes" {
			sure = append(sure, row)
		} else if !get(t, f[0]).FromMemory(key) {
			t.Errorf("%s %s was not seen by anyone, but is not marked as from memory", f[0], key)
		}
	}
	compare(t, sure)
}

// Phrases printed by authorities as right, or by the law.
func TestDatePhrases(t *testing.T) {
	day := func(s string) unit.Date {
		d, err := unit.ParseDate(s)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	for _, c := range []struct {
		lang, key string
		day       string
		form      words.Form
		want      string
		source    string
	}{
		{"en", "date.best-before", "2026-03-31", words.DayMonth, "Best before 31.03", "(EU) 1169/2011 Annex X 1(c), up to 3 months"},
		{"en", "date.best-before", "2026-03-31", words.Day, "Best before 31.03.2026", "Annex X 1(c)"},
		{"en", "date.best-before-end", "2026-08-31", words.Month, "Best before end 08/2026", "Annex X 1(c), up to 18 months"},
		{"en", "date.best-before-end", "2027-12-31", words.Year, "Best before end 2027", "Annex X 1(c), over 18 months"},
		{"en", "date.use-by", "2026-03-13", words.DayMonth, "Use by 13.03", "Annex X 2"},
		{"cs", "date.best-before", "2021-12-12", words.Day, "Minimální trvanlivost do 12.12.2021", "jupc.cz"},
		{"cs", "date.best-before-end", "2021-12-31", words.Year, "Minimální trvanlivost do konce 2021", "jupc.cz"},
		{"et", "date.best-before", "2021-08-23", words.Day, "Parim enne 23.08.2021", "toiduteave.ee"},
		{"et", "date.best-before", "2021-09-25", words.DayMonth, "Parim enne 25.09", "toiduteave.ee"},
		{"et", "date.best-before-end", "2026-09-30", words.Month, "Parim enne 09.2026 lõppu", "toiduteave.ee: the word for end follows"},
		{"lt", "date.best-before-end", "2026-09-30", words.Month, "Geriausias iki 09.2026 pabaigos", "vvtat.lt: the word for end follows"},
		{"hu", "date.best-before-end", "2026-09-30", words.Month, "Minőségét megőrzi 09.2026 végéig", "public texts quoting Annex X"},
		{"fi", "date.best-before-end", "2026-09-30", words.Month, "Parasta ennen 09.2026 loppua", "from memory"},
		{"lv", "date.best-before-end", "2026-09-30", words.Month, "Ieteicams līdz 09.2026 beigām", "from memory"},
		{"sv", "date.best-before", "2021-11-12", words.Day, "Bäst före 12.11.2021", "kontrollwiki.livsmedelsverket.se art. 41 (there 12 11 21)"},
		{"sv", "date.best-before-end", "2011-12-31", words.Year, "Bäst före utgången av 2011", "livsmedelsverket.se"},
		{"da", "date.best-before", "2026-05-12", words.Day, "Bedst før 12.05.2026", "foedevarestyrelsen.dk 12.1"},
		{"de", "date.best-before-end", "2026-08-31", words.Month, "Mindestens haltbar bis Ende 08.2026", "Annex X 1(a)"},
	} {
		l := get(t, c.lang)
		got, err := l.Fill(c.key, map[string]string{"date": l.Date(day(c.day), c.form)})
		if err != nil || got != c.want {
			t.Errorf("%s: got %q (%v), want %q by %s", c.lang, got, err, c.want, c.source)
		}
	}
}

var inOrder = map[words.Form]*regexp.Regexp{
	words.Day:      regexp.MustCompile(`^19\.03\.2026$`),
	words.DayMonth: regexp.MustCompile(`^19\.03$`),
	words.Month:    regexp.MustCompile(`^03[./]2026\.?$`),
	words.Year:     regexp.MustCompile(`^2026$`),
	"no such form": regexp.MustCompile(`^19\.03\.2026$`),
}

// Regulation (EU) No 1169/2011, Annex X 1(c): day, month, year in this order;
// Lithuanian, Hungarian, Latvian and Swedish habits put the year first. In
// Croatian a full stop stands behind every number that counts (CLDR 48).
func TestDateOrderIsLawNotHabit(t *testing.T) {
	each(t, func(t *testing.T, l *words.Lang) {
		for form, want := range inOrder {
			got := l.Date(unit.Date{Year: 2026, Month: 3, Day: 19}, form)
			if l.Code() == "hr" && form != words.Year {
				got = strings.TrimSuffix(got, ".")
			}
			if !want.MatchString(got) {
				t.Errorf("%s: %s", form, got)
			}
		}
	})
}
