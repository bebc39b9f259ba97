package counter_test

import (
	"context"
	"html"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"chablon/cmd/internal/counter"
	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/print"
	"chablon/labels/register"
	"chablon/labels/unit"
)

var (
	today = unit.Date{Year: 2026, Month: 3, Day: 17}
	now   = time.Date(2026, 3, 17, 9, 30, 0, 0, time.UTC)
)

// A house is a shop with a counter, and a browser that stands in front of it.
type house struct {
	testing.TB
	dir    string
	cfg    counter.Config
	at     *counter.Counter
	kept   *print.Kept
	mu     sync.Mutex
	clock  time.Time
	cookie map[string]string
}

// newHouse is a copy of the demo shop with an empty print book.
func newHouse(t testing.TB, tune ...func(*counter.Config)) *house {
	t.Helper()
	h := &house{TB: t, dir: filepath.Join(t.TempDir(), "shop"), clock: now, cookie: map[string]string{}}
	if err := os.CopyFS(h.dir, os.DirFS("../../../samples/quoin-and-crumb")); err != nil {
		t.Fatal(err)
	}
	book, err := keep.Begin(context.Background(), h.dir)
	if err == nil {
		err = book.Close()
	}
	if err != nil {
		t.Fatal(err)
	}
	return h.open(tune...)
}

// open starts the counter, as after the machine was started anew.
func (h *house) open(tune ...func(*counter.Config)) *house {
	h.Helper()
	var err error
	if h.kept, err = print.Keep(h.dir); err != nil {
		h.Fatal(err)
	}
	h.cfg = counter.Config{Shop: h.kept, Today: func() unit.Date { return today }, Now: h.now, Disk: keep.Machine{},
		Witness: keep.WitnessIn(filepath.Join(h.dir, "..", "state")), Hosts: []string{"localhost", "127.0.0.1", "::1"}, Who: "test",
		Out: func(d unit.Date) string { return filepath.Join(h.dir, "out", d.String()) }}
	for _, f := range tune {
		f(&h.cfg)
	}
	if h.at, err = counter.New(h.cfg); err != nil {
		h.Fatal(err)
	}
	return h
}

func (h *house) now() time.Time {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.clock
}

func (h *house) later(d time.Duration) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.clock = h.clock.Add(d)
}

// answer is what comes back.
type answer struct {
	code int
	body string
	head http.Header
}

// do sends one request; tune changes it on the way.
func (h *house) do(method, path string, form url.Values, tune ...func(*http.Request)) answer {
	var body io.Reader
	if form != nil {
		body = strings.NewReader(form.Encode())
	}
	r := httptest.NewRequest(method, "http://localhost:8450"+path, body)
	r.RemoteAddr = "192.0.2.7:40000"
	if form != nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Origin", "http://localhost:8450")
		r.Header.Set("Sec-Fetch-Site", "same-origin")
	}
	h.mu.Lock()
	for k, v := range h.cookie {
		r.AddCookie(&http.Cookie{Name: k, Value: v})
	}
	h.mu.Unlock()
	for _, f := range tune {
		f(r)
	}
	w := httptest.NewRecorder()
	h.at.ServeHTTP(w, r)
	h.mu.Lock()
	for _, k := range w.Result().Cookies() {
		h.cookie[k.Name] = k.Value
	}
	h.mu.Unlock()
	return answer{w.Code, w.Body.String(), w.Header()}
}

func (h *house) get(path string) answer {
	h.Helper()
	return h.want(http.StatusOK, h.do("GET", path, nil))
}

// want ends the test where the answer has another status.
func (h *house) want(code int, a answer) answer {
	h.Helper()
	if a.code != code {
		h.Fatalf("status %d, want %d: %s", a.code, code, text(a.body))
	}
	return a
}

var (
	tags   = regexp.MustCompile(`(?s)<style.*?</style>|<[^>]*>`)
	hidden = regexp.MustCompile(`<input type="hidden" name="([^"]*)" value="([^"]*)">`)
	images = regexp.MustCompile(`<img src="([^"]*)"`)
	links  = regexp.MustCompile(`href="([^"]*)"`)
)

// text is what a page says.
func text(body string) string {
	return strings.Join(strings.Fields(html.UnescapeString(tags.ReplaceAllString(body, " "))), " ")
}

// form is the form of a page that goes to an address.
func form(t testing.TB, body, action string) url.Values {
	t.Helper()
	i := strings.Index(body, `method="post" action="`+action+`"`)
	if i < 0 {
		t.Fatalf("no form for %s: %s", action, text(body))
	}
	out := url.Values{}
	part, _, _ := strings.Cut(body[i:], "</form>")
	for _, m := range hidden.FindAllStringSubmatch(part, -1) {
		out.Set(html.UnescapeString(m[1]), html.UnescapeString(m[2]))
	}
	return out
}

// has asks for words on a page.
func has(t testing.TB, a answer, words ...string) {
	t.Helper()
	all := text(a.body)
	for _, w := range words {
		if !strings.Contains(all, w) {
			t.Errorf("nothing says %q: %s", w, all)
		}
	}
}

const tartlet = "/paper?kind=label&id=pear-hazelnut-tartlet&count=24"

// prints are the entries of the print book.
func (h *house) prints() []register.Print {
	h.Helper()
	book, err := keep.Book(context.Background(), h.dir)
	if err != nil {
		h.Fatal(err)
	}
	all, err := book.Prints(context.Background(), register.Query{})
	if err := errorsJoin(err, book.Close()); err != nil {
		h.Fatal(err)
	}
	return all
}

func errorsJoin(all ...error) error {
	for _, err := range all {
		if err != nil {
			return err
		}
	}
	return nil
}

// files are the PDFs in the folder of the day.
func (h *house) files() (out []string) {
	all, _ := filepath.Glob(filepath.Join(h.dir, "out", today.String(), "*"))
	for _, f := range all {
		out = append(out, filepath.Base(f))
	}
	return out
}

// From choosing to the finished file: 24 labels of today's batch, with a picture
// of the first and of the last, numbers in the print book, and the PDF to take.
func TestPrints(t *testing.T) {
	h := newHouse(t)
	home := h.get("/")
	has(t, home, "What do you print?", "Pear and hazelnut tartlet", "Quoin & Crumb Pastry")
	show := h.get(tartlet)
	has(t, show, "24 sheets", "numbers 0001-0024", "batch L26076A", "Print 24 pieces", "hazelnuts", "Use by 19.03.2026")
	pics := images.FindAllStringSubmatch(show.body, -1)
	if len(pics) != 2 {
		t.Fatalf("%d pictures", len(pics))
	}
	for _, m := range pics {
		pic := h.get(html.UnescapeString(m[1]))
		if pic.head.Get("Content-Type") != "image/svg+xml" || !strings.Contains(pic.body, `width="100mm" height="60mm"`) {
			t.Errorf("the picture is %s, %.120s", pic.head.Get("Content-Type"), pic.body)
		}
	}
	f := form(t, show.body, "/print")
	sent := h.want(http.StatusSeeOther, h.do("POST", "/print", f))
	done := h.get(sent.head.Get("Location"))
	has(t, done, "Printed", "numbers 0001-0024", "labels-pear-hazelnut-tartlet-L26076A.pdf")
	file := links.FindAllStringSubmatch(done.body[strings.Index(done.body, "<main"):], -1)[0][1]
	pdf := h.get(file)
	if !strings.HasPrefix(pdf.body, "%PDF-") || pdf.head.Get("Content-Type") != "application/pdf" {
		t.Errorf("the file is %.20q", pdf.body)
	}
	if all := h.prints(); len(all) != 1 || all[0].Count != 24 || !all[0].Written || all[0].Once != f.Get("word") {
		t.Errorf("the book has %+v", all)
	}
	next := h.get(tartlet)
	has(t, next, "numbers 0025-0048")
	if form(t, next.body, "/print").Get("digest") != f.Get("digest") {
		t.Error("the same labels with the next numbers are said to be others")
	}
}

// hang notes that a card was hung up, as chablon card --hang does.
func (h *house) hang() {
	h.Helper()
	p, err := h.kept.Press(today, h.now())
	if err != nil {
		h.Fatal(err)
	}
	r := print.Request{IDs: []string{"pear-hazelnut-tartlet"}, Own: &print.CardOptions{Pieces: 48, Place: "oven wall", Hang: true}}
	if _, err := p.Post(context.Background(), r); err != nil {
		h.Fatal(err)
	}
}
