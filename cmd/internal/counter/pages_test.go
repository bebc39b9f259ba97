package counter_test

import (
	"bufio"
	"html"
	"net/http"
	"net/http/httptest"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"chablon/cmd/internal/counter"
	"chablon/labels/words"
)

// Every word of a label that is a link leads to its reason, or to the words that
// nothing is called so; the name of an ingredient, an allergen, a percentage and a
// nutrient all have one.
func TestWhy(t *testing.T) {
	h := newHouse(t)
	show := h.get(tartlet)
	asked, told := map[string]bool{}, 0
	for _, m := range links.FindAllStringSubmatch(show.body, -1) {
		to := html.UnescapeString(m[1])
		if !strings.HasPrefix(to, "/why?") || asked[to] {
			continue
		}
		asked[to] = true
		switch a := h.do("GET", to, nil); a.code {
		case http.StatusOK:
			told++
		case http.StatusBadRequest:
			has(t, a, "nothing behind the label")
		default:
			t.Errorf("%s: %d", to, a.code)
		}
	}
	if told < 25 {
		t.Errorf("%d of %d words have a reason", told, len(asked))
	}
	has(t, h.get("/why?id=pear-hazelnut-tartlet&word=hazelnuts"), "Why: hazelnuts", "hazelnuts: contained, declared", "ingredients/ground-hazelnut.yaml:4:3")
	has(t, h.get("/why?id=pear-hazelnut-tartlet&word=12%20%25"), "a declared quantity")
	h.want(http.StatusNotFound, h.do("GET", "/why?id=nothing&word=milk", nil))
}

// The day's plan with its state: nothing printed, then labels by hand, which are
// spares beside the plan, then all that the plan asks for; a second time it asks
// for nothing more of what has numbers.
func TestDay(t *testing.T) {
	h := newHouse(t)
	has(t, h.get("/day"), "The plan for 17 March 2026", "Pear and hazelnut tartlet", "batch L26076A", "0 of ")
	paper := h.get("/day/paper")
	f := form(t, paper.body, "/day/print")
	has(t, paper, "Label", "Carton label", "Run sheet", "numbers 0001-")
	if again := form(t, h.get("/day/paper").body, "/day/print"); again.Get("digest") != f.Get("digest") {
		t.Error("the same day has another digest when it is looked at again")
	}
	sent := h.want(http.StatusSeeOther, h.do("POST", "/day/print", f))
	done := h.get(sent.head.Get("Location"))
	has(t, done, "run-sheet-", "labels-pear-hazelnut-tartlet", "cartons-")
	n := strings.Count(done.body, ` download>`)
	if all, _ := filepath.Glob(filepath.Join(h.dir, "out", today.String(), "*.pdf")); len(all) != n || n < 10 {
		t.Errorf("%d files are offered of %d", n, len(all))
	}
	state := text(h.get("/day").body)
	if strings.Contains(state, "○") || !strings.Contains(state, "✓") {
		t.Errorf("not all is done: %s", state)
	}
	h.want(http.StatusSeeOther, h.do("POST", "/day/print", f))
	if next := text(h.get("/day/paper").body); strings.Contains(next, "numbers ") {
		t.Errorf("the plan asks for numbers twice: %s", next)
	}
}

// What was printed is printed once more as it was, with its own number, for a
// reason that the book keeps; without one it is not.
func TestAgain(t *testing.T) {
	h := newHouse(t)
	h.want(http.StatusSeeOther, h.do("POST", "/print", form(t, h.get(tartlet).body, "/print")))
	book := h.get("/book")
	has(t, book, "numbers 0001-0024", "Print once more")
	if a := h.get("/again?number=1&numbers=3"); strings.Contains(a.body, `method="post" action="/again"`) {
		t.Error("it is printed without a reason")
	}
	show := h.get("/again?number=1&numbers=0003-0004&because=jam")
	has(t, show, "numbers 0003-0004", "Print 2 pieces")
	f := form(t, show.body, "/again")
	f.Set("numbers", "0005")
	h.want(http.StatusConflict, h.do("POST", "/again", f))
	f.Set("numbers", "0003-0004")
	f.Set("because", "")
	h.want(http.StatusBadRequest, h.do("POST", "/again", f))
	f.Set("because", "jam")
	sent := h.want(http.StatusSeeOther, h.do("POST", "/again", f))
	h.want(http.StatusSeeOther, h.do("POST", "/again", f))
	has(t, h.get(sent.head.Get("Location")), "numbers 0003-0004", "jam", "again-0003-0004-")
	if all := h.prints(); len(all) != 2 || all[1].Again != "jam" || all[1].From != 3 || all[1].To != 4 {
		t.Errorf("the book has %+v", all)
	}
	for _, number := range []string{"", "0", "99", "x", "-1"} {
		h.want(http.StatusNotFound, h.do("GET", "/again?number="+number, nil))
	}
}

// A carton label goes the same way, by its SSCC.
func TestCartonAgain(t *testing.T) {
	h := newHouse(t)
	show := h.get("/paper?kind=carton&id=bench-tin&count=2")
	has(t, show, "Print 2 pieces", "095200010000000010")
	h.want(http.StatusSeeOther, h.do("POST", "/print", form(t, show.body, "/print")))
	again := h.get("/again?number=1&numbers=095200010000000010&because=torn")
	sent := h.want(http.StatusSeeOther, h.do("POST", "/again", form(t, again.body, "/again")))
	has(t, h.get(sent.head.Get("Location")), "again-095200010000000010")
}

// Unsigned paper is shown with the mark of a draft, and not printed.
func TestDraftIsShownAndNotPrinted(t *testing.T) {
	h := newHouse(t)
	h.write("approvals.yaml", "approvals: []\n")
	show := h.get(tartlet)
	if strings.Contains(show.body, `action="/print"`) {
		t.Error("a draft can be printed")
	}
	has(t, show, "DRAFT", "may not be sold yet")
	pic := h.get(html.UnescapeString(images.FindStringSubmatch(show.body)[1]))
	h.open()
	if other := h.get(html.UnescapeString(images.FindStringSubmatch(show.body)[1])); other.body != pic.body {
		t.Error("the picture that is made again is another one")
	}
	signed := newHouse(t)
	clean := signed.get(html.UnescapeString(images.FindStringSubmatch(signed.get(tartlet).body)[1]))
	if len(pic.body) <= len(clean.body) {
		t.Error("the picture does not bear the mark")
	}
	has(t, h.get("/allergens"), "Not settled: ask in the kitchen")
}

// The allergens of everything on sale, as the labels say them.
func TestAllergens(t *testing.T) {
	h := newHouse(t)
	page := h.get("/allergens")
	rows := regexp.MustCompile(`(?s)<tr><th scope="row".*?</tr>`).FindAllString(page.body, -1)
	want := map[string][]string{"Pear and hazelnut tartlet": {"wheat", "eggs", "milk", "almonds, hazelnuts", "may contain pistachio nuts"}}
	for name, words := range want {
		for _, r := range rows {
			if strings.Contains(r, name) {
				has(t, answer{body: r}, words...)
			}
		}
	}
	if len(rows) != 7 {
		t.Errorf("%d products", len(rows))
	}
	paper := h.get("/paper?kind=allergens")
	has(t, paper, "List of allergens for the wall", "Print 1 page")
	h.want(http.StatusSeeOther, h.do("POST", "/print", form(t, paper.body, "/print")))
}

// Which cards hang, and that one was taken down; a second press does nothing.
func TestWall(t *testing.T) {
	h := newHouse(t)
	has(t, h.get("/wall"), "No card hangs")
	h.hang()
	has(t, h.get("/wall"), "oven wall", "Pear and hazelnut tartlet", "It was taken down", "copy 1 of 1")
	f := form(t, h.get("/wall").body, "/wall/down")
	for range 2 {
		h.want(http.StatusSeeOther, h.do("POST", "/wall/down", f))
	}
	has(t, h.get("/wall"), "No card hangs")
}

// keys are the words that a page or a Go file asks for.
var keys = regexp.MustCompile(`(?:\.|\$\.|a\.|s\.)(?:W|F|C|DayBox) "([a-z-]+)"|(?:a\.|s\.)(?:W|F|C)\("([a-z-]+)"|refusal\{[^,]*, "([a-z-]+)"|\{"(nav-[a-z]+)"`)

// Every word that the pages ask for is there, and none is there that nobody asks
// for.
func TestEveryWordIsThere(t *testing.T) {
	en, _ := words.Get("en")
	have := map[string]bool{}
	for _, k := range en.Keys("counter") {
		k = strings.TrimPrefix(k, "counter.")
		for _, end := range []string{".one", ".other"} {
			k = strings.TrimSuffix(k, end)
		}
		have[k] = false
	}
	files, _ := filepath.Glob("pages/*.html")
	more, _ := filepath.Glob("*.go")
	for _, f := range append(files, more...) {
		if strings.HasSuffix(f, "_test.go") {
			continue
		}
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range keys.FindAllStringSubmatch(string(data), -1) {
			k := strings.Join(m[1:], "")
			if _, ok := have[k]; !ok {
				t.Errorf("%s asks for %q, which has no words", path.Base(f), k)
			}
			have[k] = true
		}
		for k := range have {
			if strings.Contains(string(data), `"`+k+`"`) {
				have[k] = true
			}
		}
	}
	for k, asked := range have {
		if !asked && !strings.HasPrefix(k, "kind.") && !strings.HasPrefix(k, "own.") && !strings.HasPrefix(k, "came-") {
			t.Errorf("nobody asks for %q", k)
		}
	}
	for _, name := range counter.Names() {
		if _, err := en.Word("counter." + name); err != nil {
			t.Error(err)
		}
	}
}

// The workbench shows a product beside its label, card and declaration; a slip is
// shown with its line; and only it runs a script, of its own.
func TestBench(t *testing.T) {
	h := newHouse(t)
	page := h.get("/bench?id=pear-hazelnut-tartlet")
	has(t, page, "products/pear-hazelnut-tartlet.yaml", "Label", "Card", "fingerprint", "What it declares")
	if n := len(images.FindAllString(page.body, -1)); n < 2 {
		t.Errorf("%d pictures", n)
	}
	csp := page.head.Get("Content-Security-Policy")
	if !strings.Contains(csp, "script-src 'self'") || strings.Contains(csp, "unsafe") || strings.Count(page.body, "<script") != 1 || !strings.Contains(page.body, `<script src="/bench.js" defer></script>`) {
		t.Errorf("the policy is %s", csp)
	}
	h.edit("products/pear-hazelnut-tartlet.yaml", "use: sweet-pastry", "use: sweet-pasty")
	slip := h.get("/bench?id=pear-hazelnut-tartlet")
	has(t, slip, "there is no ingredient or formula", "did you mean", "►")
	h.edit("products/pear-hazelnut-tartlet.yaml", "name:", "name: [")
	h.get("/bench?id=pear-hazelnut-tartlet")
	h.get("/bench")
	h.get("/bench?id=../../etc/passwd")
}

// Whoever watches is told of a change within two seconds, with the state of the
// files.
func TestWatch(t *testing.T) {
	h := newHouse(t)
	srv := httptest.NewServer(h.at)
	t.Cleanup(srv.Close)
	t.Cleanup(h.at.Close)
	r, err := http.Get(srv.URL + "/bench/events")
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	lines := bufio.NewScanner(r.Body)
	next := func() string {
		for lines.Scan() {
			if s, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
				return s
			}
		}
		t.Fatal("the line is cut")
		return ""
	}
	first := next()
	if want, err := h.kept.State(); err != nil || first != want {
		t.Errorf("the first state is %q, not %q", first, want)
	}
	began := time.Now()
	h.edit("shop.yaml", "name: Quoin", "name: Quoyn")
	if second := next(); second == first || time.Since(began) > 2*time.Second {
		t.Errorf("after %s: %q", time.Since(began), second)
	}
}
