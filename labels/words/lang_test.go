package words_test

import (
	"fmt"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"
	"unicode"

	"chablon/labels/unit"
	"chablon/labels/words"
)

// The official languages of the EU (Regulation No 1, Article 1) and four more.
const codes = "bg cs da de el en es et fi fr ga hr hu is it lt lv mt nb nl pl pt ro sk sl sv tr uk"

// get returns a language or ends the test.
func get(t testing.TB, code string) *words.Lang {
	t.Helper()
	l, ok := words.Get(code)
	if !ok {
		t.Fatalf("no language %q: %v", code, words.Check())
	}
	return l
}

// each runs a check for every language.
func each(t *testing.T, check func(t *testing.T, l *words.Lang)) {
	for _, code := range words.Codes() {
		t.Run(code, func(t *testing.T) { check(t, get(t, code)) })
	}
}

func word(t testing.TB, l *words.Lang, key string) string {
	t.Helper()
	w, err := l.Word(key)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func TestLanguages(t *testing.T) {
	if err := words.Check(); err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(words.Codes(), " "); got != codes {
		t.Errorf("languages: %s\nwant       %s", got, codes)
	}
	for _, code := range []string{"", "EN", "en-GB", "xx", "../lang/en"} {
		if _, ok := words.Get(code); ok {
			t.Errorf("there is a language %q", code)
		}
	}
	names := map[string]bool{}
	each(t, func(t *testing.T, l *words.Lang) {
		if l.Name() == "" || names[l.Name()] {
			t.Errorf("the name %q is empty or there already", l.Name())
		}
		names[l.Name()] = true
	})
}

var plural = regexp.MustCompile(`\.(zero|one|two|few|many|other)$`)

// bases are the keys of a section, each counted phrase once.
func bases(l *words.Lang, section string) []string {
	var out []string
	for _, k := range l.Keys(section) {
		k = plural.ReplaceAllString(k, ".*")
		if !slices.Contains(out, k) {
			out = append(out, k)
		}
	}
	sort.Strings(out)
	return out
}

func TestEveryLanguageHasTheKeysOfEnglish(t *testing.T) {
	en := get(t, "en")
	each(t, func(t *testing.T, l *words.Lang) {
		for _, section := range []string{"format", "label", "card", "sheet", "audit", "counter", "due"} {
			if section != "format" && section != "label" && !l.Has(section) {
				continue // such paper is refused in this language
			}
			want, got := bases(en, section), bases(l, section)
			for _, k := range want {
				if !slices.Contains(got, k) && section != "due" { // of those, each may be left out
					t.Errorf("[%s] %s is missing", section, k)
				}
			}
			for _, k := range got {
				if !slices.Contains(want, k) {
					t.Errorf("[%s] %s is unknown", section, k)
				}
			}
		}
	})
}

func TestCardsAndSheetsInElevenLanguages(t *testing.T) {
	var have, audits []string
	for _, code := range words.Codes() {
		if l := get(t, code); l.Has("card") && l.Has("sheet") && l.Has("counter") {
			have = append(have, code)
			if l.Has("audit") {
				audits = append(audits, code)
			}
		}
	}
	if got := strings.Join(have, " "); got != "de en es fr it nl pl pt ro tr uk" {
		t.Errorf("cards, sheets and the counter in %s", got)
	}
	if got := strings.Join(audits, " "); got != "de en fr" {
		t.Errorf("audit sheets in %s", got)
	}
}

// Counted phrases need exactly the forms that whole numbers use.
func TestPluralForms(t *testing.T) {
	each(t, func(t *testing.T, l *words.Lang) {
		need := map[string]bool{}
		for _, k := range slices.Concat(l.Keys("label"), l.Keys("card"), l.Keys("sheet"), l.Keys("audit"), l.Keys("counter"), l.Keys("due")) {
			if base := plural.ReplaceAllString(k, ""); base != k {
				need[base] = true
			}
		}
		for base := range need {
			for _, n := range []int64{0, 1, 2, 3, 5, 8, 11, 20, 21, 22, 25, 100, 101, 102, 111, 1000, 1_000_000, 3_000_000_000} {
				got, err := l.Count(base, n)
				if err != nil {
					t.Errorf("%d: %v", n, err)
				} else if !strings.Contains(got, l.Plain(n, 0)) {
					t.Errorf("%s: %q does not show %d", base, got, n)
				}
			}
		}
	})
}

func TestTemplatesKeepTheSlotsOfEnglish(t *testing.T) {
	en := get(t, "en")
	slots := map[string]string{}
	for _, k := range slices.Concat(en.Keys("format"), en.Keys("label"), en.Keys("card"), en.Keys("sheet"), en.Keys("audit"), en.Keys("counter"), en.Keys("due")) {
		slots[plural.ReplaceAllString(k, ".*")] = sorted(en.Slots(k))
	}
	each(t, func(t *testing.T, l *words.Lang) {
		for _, k := range slices.Concat(l.Keys("format"), l.Keys("label"), l.Keys("card"), l.Keys("sheet"), l.Keys("audit"), l.Keys("counter"), l.Keys("due")) {
			if want, got := slots[plural.ReplaceAllString(k, ".*")], sorted(l.Slots(k)); got != want {
				t.Errorf("%s has the slots %q, English has %q", k, got, want)
			}
		}
	})
}

func sorted(s []string) string {
	s = slices.Sorted(slices.Values(s))
	return strings.Join(s, " ")
}

func TestWordsCanBeSet(t *testing.T) {
	each(t, func(t *testing.T, l *words.Lang) {
		for _, k := range slices.Concat(l.Keys("format"), l.Keys("label"), l.Keys("card"), l.Keys("sheet"), l.Keys("audit"), l.Keys("counter"), l.Keys("due")) {
			w := word(t, l, k)
			loose := strings.ContainsFunc(w, func(r rune) bool { return unicode.Is(unicode.Mn, r) })
			if !unit.Printable(w) || loose || strings.Contains(w, "  ") || strings.ContainsAny(w, "~\"\t") {
				t.Errorf("%s: %q has a character that cannot be set, a loose accent or two spaces", k, w)
			}
			if strings.HasPrefix(k, "keep.") && !strings.HasSuffix(w, ".") {
				t.Errorf("%s: %q is a sentence without its full stop", k, w)
			}
		}
	})
}

// A no-break space in a file is written _, so that a reader sees it.
func TestNoInvisibleCharacters(t *testing.T) {
	for _, code := range words.Codes() {
		for i, s := range lines(t, "lang/"+code+".txt") {
			if strings.ContainsAny(s, "\u00a0\u202f\u200b\u00ad\ufeff") {
				t.Errorf("lang/%s.txt: an invisible character in row %d: %q", code, i+1, s)
			}
		}
	}
}

func TestNothingFallsBack(t *testing.T) {
	et := get(t, "et")
	_, err := et.Word("card.batch")
	if err == nil || err.Error() != `no words for "card.batch" in lang/et.txt` {
		t.Errorf("a missing key: %v", err)
	}
	if !et.FromMemory("card.batch") || get(t, "en").FromMemory("date.use-by") {
		t.Error("a missing key is not from memory, or a known one is")
	}
	if !get(t, "nb").FromMemory("date.use-by") || !get(t, "fr").FromMemory("card.batch") {
		t.Error("marks are lost")
	}
	if _, err := et.Count("count.days", 2); err == nil {
		t.Error("a phrase that is not there was counted")
	}
	if _, err := et.Count("count.pieces", -1); err == nil {
		t.Error("minus one piece was counted")
	}
}

func TestFill(t *testing.T) {
	de := get(t, "de")
	for _, c := range []struct {
		key   string
		slots map[string]string
		want  string
	}{
		{"date.use-by", map[string]string{"date": "19.03.2026"}, "Zu verbrauchen bis 19.03.2026"},
		{"may-contain", map[string]string{"list": "Milch"}, "Kann enthalten: Milch"},
		{"date.use-by", nil, `error: nothing to put into {date} of "date.use-by" in lang/de.txt`},
		{"date.use-by", map[string]string{"date": ""}, `error: nothing to put into {date} of "date.use-by" in lang/de.txt`},
		{"date.use-by", map[string]string{"date": "x", "day": "y"}, `error: "date.use-by" in lang/de.txt takes 1 values (date), not 2`},
		{"no.such", nil, `error: no words for "no.such" in lang/de.txt`},
	} {
		got, err := de.Fill(c.key, c.slots)
		if err != nil {
			got = "error: " + err.Error()
		}
		if got != c.want {
			t.Errorf("%s %v: got %q, want %q", c.key, c.slots, got, c.want)
		}
	}
}

func TestJoinAndAnd(t *testing.T) {
	for _, c := range []struct {
		lang  string
		names string
		join  string
		and   string
	}{
		{"en", "", "", ""},
		{"en", "milk", "milk", "milk"},
		{"en", "milk eggs", "milk, eggs", "milk and eggs"},
		{"fr", "lait œufs soja", "lait, œufs, soja", "lait, œufs et soja"},
		{"lt", "pienas kiaušiniai", "pienas, kiaušiniai", "pienas ir kiaušiniai"},
	} {
		l := get(t, c.lang)
		if got := l.Join(strings.Fields(c.names)); got != c.join {
			t.Errorf("Join(%s): %q, want %q", c.names, got, c.join)
		}
		if got := l.And(strings.Fields(c.names)); got != c.and {
			t.Errorf("And(%s): %q, want %q", c.names, got, c.and)
		}
	}
	if got := get(t, "en").And([]string{"{b}", "{a}"}); got != "{b} and {a}" {
		t.Errorf("names that look like slots: %q", got)
	}
}

func ExampleLang_Fill() {
	et, _ := words.Get("et")
	end := unit.Date{Year: 2026, Month: 9, Day: 30}
	s, _ := et.Fill("date.best-before-end", map[string]string{"date": et.Date(end, words.Month)})
	fmt.Println(s)
	_, err := et.Word("card.batch")
	fmt.Println(err)
	// Output:
	// Parim enne 09.2026 lõppu
	// no words for "card.batch" in lang/et.txt
}
