package counter_test

import (
	"math/rand/v2"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"chablon/labels/words"
)

// all are the pages of the counter, each with what it needs to show something.
var all = []string{"/", "/?find=pear", tartlet, "/paper?kind=card&id=pear-hazelnut-tartlet&pieces=48", "/paper?kind=carton&id=bench-tin&count=2", "/paper?kind=ticket&id=pistachio-choux",
	"/paper?kind=tub&id=sweet-pastry", "/paper?kind=batch-record&id=sweet-pastry", "/paper?kind=prep", "/paper?kind=allergens", "/why?id=pear-hazelnut-tartlet&word=hazelnuts", "/day", "/day/paper", "/wall", "/allergens",
	"/book", "/again?number=1", "/again?number=1&numbers=0001&because=jam", "/food", "/food/lot", "/food/batch", "/food/batch?id=pear-hazelnut-tartlet", "/food/ship", "/food/trace", "/food/trace?code=L26076A&of=pear-hazelnut-tartlet", "/bench", "/bench?id=pear-hazelnut-tartlet"}

// lived is a house in which something was printed, hung and noted.
func lived(t testing.TB) *house {
	t.Helper()
	h := newHouse(t)
	h.want(http.StatusSeeOther, h.do("POST", "/print", form(t, h.get(tartlet).body, "/print")))
	h.hang()
	lot := fill(form(t, h.get("/food/lot").body, "/food/lot"), "id", "butter", "code", "HD-4471", "mass", "10 kg")
	h.want(http.StatusSeeOther, h.do("POST", "/food/lot", lot))
	return h
}

// Every page in every language that has the words: whole, in that language, and
// none in a language that lacks them.
func TestEveryLanguage(t *testing.T) {
	h := lived(t)
	spoken := 0
	for _, code := range words.Codes() {
		l, _ := words.Get(code)
		h.want(http.StatusSeeOther, h.do("POST", "/language", url.Values{"language": {code}}))
		if !l.Has("counter") {
			continue
		}
		spoken++
		for _, path := range all {
			a := h.get(path)
			if !strings.Contains(a.body, `<html lang="`+code+`">`) || strings.Contains(a.body, "counter.") || strings.Contains(a.body, "{n}") {
				t.Errorf("%s in %s: %.300s", path, code, text(a.body))
			}
		}
	}
	if spoken != 11 {
		t.Errorf("%d languages", spoken)
	}
}

// The language is the one that was chosen; else the first that the browser asks
// for and the counter has, by its base alone (RFC 9110, 12.5.4).
func TestLanguageIsChosen(t *testing.T) {
	h := newHouse(t)
	for header, want := range map[string]string{"": "en", "fr": "fr", "de-AT,de;q=0.9": "de", "sv,fr;q=0.5,it;q=0.7": "it", "xx": "en", "fr;q=0,nl": "nl", "*": "en", "FR-ca": "fr", ",,;q=x,": "en"} {
		a := h.do("GET", "/", nil, func(r *http.Request) { r.Header.Set("Accept-Language", header) })
		if !strings.Contains(a.body, `<html lang="`+want+`">`) {
			t.Errorf("%q: not %s", header, want)
		}
	}
	h.want(http.StatusSeeOther, h.do("POST", "/language", url.Values{"language": {"pl"}}))
	if a := h.do("GET", "/", nil, func(r *http.Request) { r.Header.Set("Accept-Language", "fr") }); !strings.Contains(a.body, `<html lang="pl">`) {
		t.Error("the choice is not kept")
	}
}

// A number has the decimal sign of the language; that of another is refused, so
// that 1.200 kg is never a little more than one and meant as more than a thousand.
func TestNumbersAreOfTheLanguage(t *testing.T) {
	h := newHouse(t)
	for _, c := range []struct {
		lang, mass string
		code       int
	}{{"de", "1,2 kg", 303}, {"de", "1.2 kg", 400}, {"de", "1.200 g", 400}, {"en", "1.2 kg", 303}, {"en", "1,200 g", 400}, {"uk", "1,5 кг", 303}, {"fr", "750 g", 303}, {"fr", "750", 400}} {
		h.want(http.StatusSeeOther, h.do("POST", "/language", url.Values{"language": {c.lang}}))
		lot := fill(form(t, h.get("/food/lot").body, "/food/lot"), "id", "butter", "code", "X1", "mass", c.mass)
		if a := h.do("POST", "/food/lot", lot); a.code != c.code {
			t.Errorf("%s %q: %d %s", c.lang, c.mass, a.code, text(a.body))
		}
	}
}

// Five hundred random requests: none panics (the recorder would), none prints
// half, and no answer is a fault of the machine.
func TestRandomRequests(t *testing.T) {
	h := lived(t)
	before := len(h.prints())
	rnd := rand.New(rand.NewPCG(7, 11))
	pick := func(of ...string) string { return of[rnd.IntN(len(of))] }
	values := func() url.Values {
		q := url.Values{}
		for range rnd.IntN(9) {
			name := pick("kind", "id", "pack", "count", "batch", "made-d", "made-m", "made-y", "paper", "market", "languages", "first-place", "weight", "for", "order", "pieces", "mass", "word", "digest", "number", "numbers", "because", "code", "of", "way", "key", "n", "below", "sscc", "to", "find", "until-d", "part-butter", "other")
			q.Set(name, pick("label", "card", "carton", "ticket", "tub", "audit", "box-end", "part-carton", "board", "run-sheet", "notice", "pear-hazelnut-tartlet", "sweet-pastry", "bench-tin", "butter", "1", "0", "-1", "24", "2001", "99999999999999999999", "2026", "EU", "US", "en,fr", "xx", "roll-100x60", "a4-8", "card-a4", "../../shop.yaml", "http://evil.example/", "<script>", "\x00", "é", "10 kg", "1,5 kg", "HD-4471", "095200010000000010", "AAAAAAAAAAAAAAAAAAAAAAAAAA", strings.Repeat("9", 300), ""))
		}
		return q
	}
	gets := []string{"/", "/paper", "/picture.svg", "/printed/AAAAAAAAAAAAAAAAAAAAAAAAAA", "/file/AAAAAAAAAAAAAAAAAAAAAAAAAA/0", "/why", "/day", "/wall", "/book", "/again", "/food", "/food/lot", "/food/batch", "/food/ship", "/food/trace", "/bench", "/nothing"}
	posts := []string{"/print", "/day/print", "/wall/down", "/again", "/food/lot", "/food/batch", "/food/ship", "/language", "/enter", "/paper"}
	for i := range 500 {
		q := values()
		var a answer
		what := ""
		if rnd.IntN(2) == 0 {
			what = pick(gets...) + "?" + q.Encode()
			a = h.do("GET", what, nil)
		} else {
			what = pick(posts...) + " " + q.Encode()
			a = h.do("POST", strings.Fields(what)[0], q)
		}
		if a.code >= 500 {
			t.Errorf("request %d, %s: %d %s", i, what, a.code, text(a.body))
		}
	}
	for _, p := range h.prints() {
		if !p.Written {
			t.Errorf("half a print: %+v", p)
		}
	}
	if n := len(h.prints()); n != before {
		t.Errorf("%d prints that nobody looked at", n-before)
	}
}
