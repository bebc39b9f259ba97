package counter_test

import (
	"fmt"
	"io/fs"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"chablon/cmd/internal/counter"
	"chablon/cmd/internal/keep"
)

func lan(c *counter.Config) { c.PIN = "246810" }

// nothing asks that nothing was printed.
func (h *house) nothing() {
	h.Helper()
	if n, f := h.prints(), h.files(); len(n) > 0 || len(f) > 0 {
		h.Errorf("it printed: %v, %v", n, f)
	}
}

// Another name that leads here is not answered (DNS rebinding): RFC 9110, 15.5.20.
func TestForeignHost(t *testing.T) {
	h := newHouse(t)
	f := form(t, h.get(tartlet).body, "/print")
	for _, host := range []string{"evil.example", "evil.example:8450", "127.0.0.1.evil.example", "", "localhost.", "[::2]:8450"} {
		named := func(r *http.Request) { r.Host = host }
		if a := h.do("GET", "/", nil, named); a.code != http.StatusMisdirectedRequest || strings.Contains(a.body, "tartlet") {
			t.Errorf("%q: %d", host, a.code)
		}
		if a := h.do("POST", "/print", f, named); a.code != http.StatusMisdirectedRequest {
			t.Errorf("%q printed: %d", host, a.code)
		}
	}
	h.nothing()
	for _, host := range []string{"localhost", "LOCALHOST:8450", "127.0.0.1:8450", "[::1]:8450"} {
		h.want(http.StatusOK, h.do("GET", "/", nil, func(r *http.Request) { r.Host = host }))
	}
}

// A form of another site prints nothing, whichever of the two marks the browser
// sets: Sec-Fetch-Site (Fetch Metadata) or Origin (RFC 6454).
func TestForeignForm(t *testing.T) {
	h := newHouse(t)
	f := form(t, h.get(tartlet).body, "/print")
	for name, tune := range map[string]func(*http.Request){
		"cross-site": func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") },
		"same-site":  func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "same-site") },
		"foreign origin": func(r *http.Request) {
			r.Header.Del("Sec-Fetch-Site")
			r.Header.Set("Origin", "http://evil.example")
		},
		"no origin that can be read": func(r *http.Request) { r.Header.Del("Sec-Fetch-Site"); r.Header.Set("Origin", "null") },
		"another port":               func(r *http.Request) { r.Header.Del("Sec-Fetch-Site"); r.Header.Set("Origin", "http://localhost:9") },
	} {
		for _, path := range []string{"/print", "/language", "/enter"} {
			if a := h.do("POST", path, f, tune); a.code != http.StatusForbidden {
				t.Errorf("%s: %s: %d", name, path, a.code)
			}
		}
	}
	h.nothing()
	h.want(http.StatusSeeOther, h.do("POST", "/print", f, func(r *http.Request) { r.Header.Del("Sec-Fetch-Site") }))
}

// With a PIN nobody sees or prints anything before it was given, a visit lasts
// twelve hours, and its cookie is out of reach of scripts and other sites.
func TestPIN(t *testing.T) {
	h := newHouse(t, lan)
	for _, path := range []string{"/", tartlet, "/printed/AAAAAAAAAAAAAAAAAAAAAAAAAA", "/nothing"} {
		if a := h.do("GET", path, nil); a.code != http.StatusSeeOther || a.head.Get("Location") != "/enter" {
			t.Errorf("%s without a PIN: %d", path, a.code)
		}
	}
	for _, a := range []answer{h.do("POST", "/print", url.Values{"kind": {"label"}}), h.do("GET", "/picture.svg?kind=label", nil)} {
		h.want(http.StatusUnauthorized, a)
	}
	h.cookie["chablon-counter"] = "AAAAAAAAAAAAAAAAAAAAAAAAAA"
	h.want(http.StatusSeeOther, h.do("GET", "/", nil))
	a := h.want(http.StatusSeeOther, h.do("POST", "/enter", url.Values{"pin": {"246810"}}))
	set := a.head.Get("Set-Cookie")
	for _, w := range []string{"HttpOnly", "SameSite=Strict", "Path=/", "Max-Age=43200"} {
		if !strings.Contains(set, w) {
			t.Errorf("the cookie %q lacks %s", set, w)
		}
	}
	if strings.Contains(set, "Secure") || strings.Contains(set, "246810") {
		t.Errorf("the cookie is %q", set)
	}
	h.want(http.StatusOK, h.do("GET", "/", nil))
	h.later(12*time.Hour + time.Second)
	h.want(http.StatusSeeOther, h.do("GET", "/", nil))
	s := newHouse(t, lan, func(c *counter.Config) { c.Secure = true })
	if a := s.do("POST", "/enter", url.Values{"pin": {"246810"}}); !strings.Contains(a.head.Get("Set-Cookie"), "Secure") {
		t.Error("over TLS the cookie may go without it")
	}
}

// Five wrong tries close an address for a minute; thirty of a row of addresses
// close the door for the hour. The right PIN does not help then.
func TestWrongPIN(t *testing.T) {
	h := newHouse(t, lan)
	from := func(addr string) func(*http.Request) {
		return func(r *http.Request) { r.RemoteAddr = addr + ":1234" }
	}
	try := func(pin, addr string) int {
		return h.do("POST", "/enter", url.Values{"pin": {pin}}, from(addr)).code
	}
	for i := range 5 {
		if got := try("000000", "192.0.2.1"); got != http.StatusForbidden {
			t.Fatalf("try %d: %d", i, got)
		}
	}
	if a, b := try("246810", "192.0.2.1"), try("246810", "192.0.2.2"); a != http.StatusTooManyRequests || b != http.StatusSeeOther {
		t.Errorf("the sixth try: %d; another address: %d", a, b)
	}
	h.later(61 * time.Second)
	if got := try("246810", "192.0.2.1"); got != http.StatusSeeOther {
		t.Errorf("after a minute: %d", got)
	}
	for i := range 25 {
		if got := try("000000", fmt.Sprintf("198.51.100.%d", i)); got != http.StatusForbidden {
			t.Fatalf("address %d: %d", i, got)
		}
	}
	if got := try("246810", "203.0.113.9"); got != http.StatusTooManyRequests {
		t.Errorf("after thirty tries within the hour: %d", got)
	}
	h.later(time.Hour)
	if got := try("246810", "203.0.113.9"); got != http.StatusSeeOther {
		t.Errorf("after the hour: %d", got)
	}
}

// A hundred tries at once are no more than five.
func TestWrongPINAtOnce(t *testing.T) {
	h := newHouse(t, lan)
	var wg sync.WaitGroup
	tried := make(chan int, 100)
	for range 100 {
		wg.Go(func() { tried <- h.do("POST", "/enter", url.Values{"pin": {"000000"}}).code })
	}
	wg.Wait()
	close(tried)
	n := 0
	for code := range tried {
		if code == http.StatusForbidden {
			n++
		}
	}
	if n != 5 {
		t.Errorf("%d tries were looked at", n)
	}
}

func TestLargeBody(t *testing.T) {
	h := newHouse(t)
	f := form(t, h.get(tartlet).body, "/print")
	f.Set("order", strings.Repeat("x", 70_000))
	h.want(http.StatusRequestEntityTooLarge, h.do("POST", "/print", f))
	h.nothing()
}

// Every answer forbids others to frame, keep, guess or run anything.
func TestHeaders(t *testing.T) {
	h := newHouse(t)
	show := h.get(tartlet)
	pic := images.FindStringSubmatch(show.body)[1]
	for _, path := range []string{"/", tartlet, strings.ReplaceAll(pic, "&amp;", "&"), "/style.css", "/nothing", "/enter"} {
		a := h.do("GET", path, nil)
		for k, want := range map[string]string{"Cache-Control": "no-store", "X-Content-Type-Options": "nosniff", "Referrer-Policy": "same-origin"} {
			if got := a.head.Get(k); got != want {
				t.Errorf("%s: %s: %q", path, k, got)
			}
		}
		csp := a.head.Get("Content-Security-Policy")
		for _, want := range []string{"default-src 'none'", "frame-ancestors 'none'", "form-action 'self'", "base-uri 'none'"} {
			if !strings.Contains(csp, want) {
				t.Errorf("%s: the policy lacks %s", path, want)
			}
		}
		if strings.Contains(csp, "script-src") || strings.Contains(csp, "unsafe") || strings.Contains(a.body, "<script") || strings.Contains(a.body, "style=") {
			t.Errorf("%s: something may run", path)
		}
	}
}

// What has changed since it was looked at is not printed: a word of the shop's
// files, and the form itself.
func TestStaleDigest(t *testing.T) {
	h := newHouse(t)
	f := form(t, h.get(tartlet).body, "/print")
	f.Set("count", "25")
	has(t, h.want(http.StatusConflict, h.do("POST", "/print", f)), "changed since you looked")
	f.Set("count", "24")
	old := h.edit("products/pear-hazelnut-tartlet.yaml", "en: Pear and hazelnut tartlet", "en: Pear and hazelnut tart")
	if a := h.do("POST", "/print", f); a.code != http.StatusConflict {
		t.Errorf("another name of the food: %d %s", a.code, text(a.body))
	}
	h.nothing()
	h.write("products/pear-hazelnut-tartlet.yaml", old)
	h.want(http.StatusSeeOther, h.do("POST", "/print", f))
}

// edit changes one word of a file of the shop and gives the file as it was.
func (h *house) edit(file, from, to string) string {
	h.Helper()
	data, err := os.ReadFile(filepath.Join(h.dir, file))
	if err != nil || !strings.Contains(string(data), from) {
		h.Fatalf("%s: %v, or there is no %q", file, err, from)
	}
	h.write(file, strings.Replace(string(data), from, to, 1))
	return string(data)
}

func (h *house) write(file, data string) {
	h.Helper()
	if err := os.WriteFile(filepath.Join(h.dir, file), []byte(data), 0o666); err != nil {
		h.Fatal(err)
	}
}

// A shop that breaks between the picture and the print prints nothing.
func TestBrokenBetween(t *testing.T) {
	h := newHouse(t)
	f := form(t, h.get(tartlet).body, "/print")
	h.edit("formulas/hazelnut-frangipane.yaml", "lines:", "lines: [")
	if a := h.do("POST", "/print", f); a.code == http.StatusSeeOther {
		t.Errorf("a broken shop printed: %d", a.code)
	}
	h.nothing()
}

// The same form twice, ten times at once, and after the machine was started anew
// prints once, and says what came of the first.
func TestSameOrderTwice(t *testing.T) {
	h := newHouse(t)
	f := form(t, h.get(tartlet).body, "/print")
	first := h.want(http.StatusSeeOther, h.do("POST", "/print", f))
	var wg sync.WaitGroup
	for range 10 {
		wg.Go(func() {
			if a := h.do("POST", "/print", f); a.code != http.StatusSeeOther || a.head.Get("Location") != first.head.Get("Location") {
				t.Errorf("once more: %d %s", a.code, text(a.body))
			}
		})
	}
	wg.Wait()
	h.open()
	again := h.want(http.StatusSeeOther, h.do("POST", "/print", f))
	has(t, h.get(again.head.Get("Location")), "numbers 0001-0024")
	h.edit("products/pear-hazelnut-tartlet.yaml", "en: Pear and hazelnut tartlet", "en: Pear and hazelnut tart") // also where it could not be printed any more
	h.want(http.StatusSeeOther, h.do("POST", "/print", f))
	if all := h.prints(); len(all) != 1 {
		t.Errorf("%d prints", len(all))
	}
	for _, word := range []string{"", "short", "../../etc/passwd", strings.Repeat("A", 500), "abcdefghijklmnopqrstuvwxyz"} {
		f.Set("word", word)
		h.want(http.StatusBadRequest, h.do("POST", "/print", f))
	}
}

// Twenty people at once, each with a form of their own, and two with one: no
// number is on two labels, and none is left out.
func TestTwentyAtOnce(t *testing.T) {
	h := newHouse(t)
	var forms []url.Values
	for range 20 {
		forms = append(forms, form(t, h.get("/paper?kind=label&id=pear-hazelnut-tartlet&count=3").body, "/print"))
	}
	forms = append(forms, forms[0])
	var wg sync.WaitGroup
	for _, f := range forms {
		wg.Go(func() {
			if a := h.do("POST", "/print", f); a.code != http.StatusSeeOther {
				t.Errorf("%d %s", a.code, text(a.body))
			}
		})
	}
	wg.Wait()
	on := map[int64]bool{}
	for _, p := range h.prints() {
		for n := p.From; n <= p.To; n++ {
			if on[n] {
				t.Errorf("number %d is on two labels", n)
			}
			on[n] = true
		}
	}
	if len(on) != 60 || !on[1] || !on[60] {
		t.Errorf("%d numbers", len(on))
	}
	if all, _ := filepath.Glob(filepath.Join(h.dir, "out", today.String(), "*.pdf")); len(all) != 20 {
		t.Errorf("%d files: %v", len(all), all)
	}
}

// fullDisk refuses the step that is named.
type fullDisk struct {
	keep.Machine
	at string
}

func (d fullDisk) full(step string) error {
	if d.at != step {
		return nil
	}
	return &fs.PathError{Op: step, Path: "disk", Err: syscall.ENOSPC}
}

func (d fullDisk) Create(dir string) (keep.Temp, error) {
	if err := d.full("create"); err != nil {
		return nil, err
	}
	return d.Machine.Create(dir)
}

func (d fullDisk) Rename(from, to string) error {
	if err := d.full("rename"); err != nil {
		return err
	}
	return d.Machine.Rename(from, to)
}

// A full disk prints nothing and gives no number; where it was full only after
// the numbers were given, that is said, and no half file can be seen. The form
// prints once there is room.
func TestFullDisk(t *testing.T) {
	h := newHouse(t)
	f := form(t, h.get(tartlet).body, "/print")
	h.open(func(c *counter.Config) { c.Disk = fullDisk{at: "create"} })
	has(t, h.want(http.StatusInternalServerError, h.do("POST", "/print", f)), "Nothing was printed, and no number was given.", "no space left")
	h.nothing()
	h.open(func(c *counter.Config) { c.Disk = fullDisk{at: "rename"} })
	has(t, h.want(http.StatusInternalServerError, h.do("POST", "/print", f)), "The numbers are given, but the file was not finished")
	all := h.prints()
	if len(all) != 1 || all[0].Written || all[0].To != 24 {
		t.Errorf("the book has %+v", all)
	}
	for _, name := range h.files() {
		if strings.HasSuffix(name, ".pdf") {
			t.Errorf("%s can be seen", name)
		}
	}
	h.open()
	again := h.want(http.StatusSeeOther, h.do("POST", "/print", f))
	has(t, h.get(again.head.Get("Location")), "the file did not reach the disk")
}

// Without a print book nothing is printed, and what to do is said.
func TestNoBook(t *testing.T) {
	h := newHouse(t)
	if err := os.Remove(filepath.Join(h.dir, "print-book.db")); err != nil {
		t.Fatal(err)
	}
	f := form(t, h.get(tartlet).body, "/print")
	has(t, h.want(http.StatusBadRequest, h.do("POST", "/print", f)), "keeps no print book", "--begin")
	if _, err := os.Stat(filepath.Join(h.dir, "print-book.db")); err == nil {
		t.Error("a book was begun that nobody asked for")
	}
}
