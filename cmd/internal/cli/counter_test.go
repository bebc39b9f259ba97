package cli

import (
	"bytes"
	"io"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"
)

// counterOn starts the counter of a shop and gives its address and what it said;
// stop ends it and gives its exit status.
func counterOn(t *testing.T, args ...string) (at string, said *bytes.Buffer, stop func() int) {
	t.Helper()
	said = &bytes.Buffer{}
	end, up, done := make(chan struct{}), make(chan string, 1), make(chan int, 1)
	s := Streams{Out: said, Err: io.Discard, Getenv: func(string) string { return "" }, Stop: end,
		Now: func() time.Time { return time.Date(2026, 3, 17, 9, 0, 0, 0, time.UTC) }}
	s.Listen = func(address string) (net.Listener, error) {
		l, err := net.Listen("tcp", "127.0.0.1:0")
		if err == nil {
			up <- l.Addr().String()
		}
		return l, err
	}
	go func() { done <- Main(s, append([]string{"counter"}, args...)) }()
	select {
	case at = <-up:
	case status := <-done:
		t.Fatalf("it ended with %d", status)
	}
	return "http://" + at, said, func() int { close(end); return <-done }
}

// The command serves the shop until it is stopped, and ends well; the paper lies
// in the shop's own out folder.
func TestCounter(t *testing.T) {
	t.Chdir(t.TempDir())
	quiet := Streams{Out: io.Discard, Err: io.Discard, Getenv: func(string) string { return "" }}
	if Main(quiet, []string{"new", "my-shop", "--demo"}) != Fine || Main(quiet, []string{"wall", "my-shop", "--begin"}) != Fine {
		t.Fatal("no shop")
	}
	at, _, stop := counterOn(t, "my-shop")
	r, err := http.Get(at + "/paper?kind=card&id=sweet-pastry")
	if err != nil {
		t.Fatal(err)
	}
	body, err := io.ReadAll(r.Body)
	if err != nil || r.StatusCode != http.StatusOK || !strings.Contains(string(body), "almond sweet pastry") {
		t.Errorf("%d %v", r.StatusCode, err)
	}
	q := url.Values{}
	for _, m := range regexp.MustCompile(`type="hidden" name="(\w+)" value="([^"]*)"`).FindAllStringSubmatch(string(body), -1) {
		q.Set(m[1], m[2])
	}
	if r, err = http.PostForm(at+"/print", q); err != nil || r.StatusCode != http.StatusOK {
		t.Fatalf("%v %v", r.Status, err)
	}
	if body, err = io.ReadAll(r.Body); err != nil || !strings.Contains(string(body), "card-sweet-pastry") {
		t.Errorf("%s", body)
	}
	if got := stop(); got != Fine {
		t.Errorf("it ended with %d", got)
	}
	if _, err := http.Get(at); err == nil {
		t.Error("it still answers")
	}
}

// On the net a PIN is shown, asked for, and lets in; each start has another one.
func TestCounterLAN(t *testing.T) {
	t.Chdir(t.TempDir())
	pins := map[string]bool{}
	for range 2 {
		at, said, stop := counterOn(t, "--demo", "--lan", "--name", "Kitchen.local")
		jar, _ := cookiejar.New(nil)
		visitor := &http.Client{Jar: jar}
		r, err := visitor.Get(at)
		if err != nil || !strings.HasSuffix(r.Request.URL.Path, "/enter") {
			t.Fatalf("it came to %v, %v", r.Request.URL, err)
		}
		pin := ""
		if m := regexp.MustCompile(`PIN (\d{6})\n`).FindStringSubmatch(said.String()); m != nil {
			pin = m[1]
		}
		pins[pin] = true
		if r, err = visitor.PostForm(at+"/enter", url.Values{"pin": {pin}}); err != nil || r.Request.URL.Path != "/" || r.StatusCode != http.StatusOK {
			t.Errorf("the PIN %q led to %v, %v", pin, r.Request.URL, err)
		}
		ask, _ := http.NewRequest("GET", at+"/enter", nil)
		ask.Host = "kitchen.local:8450"
		if r, err = http.DefaultClient.Do(ask); err != nil || r.StatusCode != http.StatusOK {
			t.Errorf("by its name: %v, %v", r.Status, err)
		}
		if !strings.Contains(said.String(), "http://kitchen.local:") {
			t.Errorf("it said %s", said)
		}
		if got := stop(); got != Fine {
			t.Errorf("it ended with %d", got)
		}
	}
	if len(pins) != 2 || pins[""] {
		t.Errorf("the PINs are %v", pins)
	}
}

func TestCounterRefused(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, c := range [][]string{{"--demo", "--cert", "a.pem"}, {"--demo", "--key", "a.pem"}, {"nowhere"}, {"a", "b"}, {"--demo", "--port", "99999"}} {
		var out, errs bytes.Buffer
		if got := Main(still(Streams{Out: &out, Err: &errs, Getenv: func(string) string { return "" }}), append([]string{"counter"}, c...)); got != BadLine {
			t.Errorf("%v: %d %s", c, got, errs.String())
		}
	}
}
