package counter

import (
	"crypto/rand"
	"net"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"
)

// mostForm is how many bytes a form may have.
const mostForm = 64 << 10

// policy lets a page load its style and its pictures from here, and nothing run
// (Content Security Policy Level 3).
const policy = "default-src 'none'; style-src 'self'; img-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// guarded puts in front of the pages all that keeps others out.
func (c *Counter) guarded(next http.Handler) http.Handler {
	own := http.NewCrossOriginProtection() // forms of other sites (Fetch Metadata)
	own.SetDenyHandler(c.answer(func(*ask) error { return &refusal{http.StatusForbidden, "foreign", nil} }))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		head := w.Header()
		head.Set("Content-Security-Policy", policy)
		head.Set("Cache-Control", "no-store")
		head.Set("X-Content-Type-Options", "nosniff")
		head.Set("X-Frame-Options", "DENY")
		head.Set("Referrer-Policy", "same-origin")
		head.Set("Cross-Origin-Resource-Policy", "same-origin")
		head.Set("Cross-Origin-Opener-Policy", "same-origin")
		if !c.called(r.Host) {
			c.answer(func(*ask) error { return &refusal{http.StatusMisdirectedRequest, "wrong-name", nil} })(w, r)
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, mostForm)
		own.Handler(c.inside(next)).ServeHTTP(w, r)
	})
}

// called reports whether the counter is called by one of its names: a page of
// another site that leads its own name here (DNS rebinding) is not answered.
func (c *Counter) called(host string) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	}
	name = strings.ToLower(strings.Trim(name, "[]"))
	return slices.Contains(c.Hosts, name)
}

// inside lets nobody see more than the door who has not given the PIN.
func (c *Counter) inside(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		free := r.URL.Path == "/enter" || r.URL.Path == "/style.css" || r.URL.Path == "/language"
		if c.PIN == "" || free || c.door.knows(r) {
			next.ServeHTTP(w, r)
			return
		}
		if r.Method == http.MethodGet && !strings.Contains(r.URL.Path, ".") {
			http.Redirect(w, r, "/enter", http.StatusSeeOther)
			return
		}
		c.answer(func(*ask) error { return &refusal{http.StatusUnauthorized, "pin-first", nil} })(w, r)
	})
}

// How long a visit lasts, and how often a PIN may be tried.
const (
	visit      = 12 * time.Hour
	fewTries   = 5
	closedFor  = time.Minute
	mostTries  = 30
	triesOver  = time.Hour
	mostVisits = 1000
	visitName  = "chablon-counter"
)

// door knows who is in, and who has tried to come in.
type door struct {
	mu     sync.Mutex
	now    func() time.Time
	visits map[string]time.Time // until when, by the word of the visit
	wrong  []try                // wrong tries of the last hour
}

// try is one wrong PIN.
type try struct {
	from string
	at   time.Time
}

// knows reports whether a request bears the word of a visit that is not over.
func (d *door) knows(r *http.Request) bool {
	k, err := r.Cookie(visitName)
	if err != nil {
		return false
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	until, ok := d.visits[k.Value]
	return ok && d.now().Before(until)
}

// mayTry reports whether an address may try now, and notes the try as a wrong one
// until it is [door.forgiven]: five close the address for a minute, and thirty of
// all addresses within an hour close the door to all, or a row of addresses would
// guess the PIN.
func (d *door) mayTry(from string) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	now := d.now()
	d.wrong = slices.DeleteFunc(d.wrong, func(t try) bool { return now.Sub(t.at) >= triesOver })
	n := 0
	for _, t := range d.wrong {
		if t.from == from && now.Sub(t.at) < closedFor {
			n++
		}
	}
	if n >= fewTries || len(d.wrong) >= mostTries {
		return false
	}
	d.wrong = append(d.wrong, try{from, now})
	return true
}

// forgiven takes back the last try of an address: it was right.
func (d *door) forgiven(from string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for i := len(d.wrong) - 1; i >= 0; i-- {
		if d.wrong[i].from == from {
			d.wrong = slices.Delete(d.wrong, i, i+1)
			return
		}
	}
}

// admit begins a visit and gives its word.
func (d *door) admit() string {
	d.mu.Lock()
	defer d.mu.Unlock()
	now := d.now()
	for word, until := range d.visits {
		if !now.Before(until) || len(d.visits) >= mostVisits {
			delete(d.visits, word)
		}
	}
	if d.visits == nil {
		d.visits = map[string]time.Time{}
	}
	word := rand.Text()
	d.visits[word] = now.Add(visit)
	return word
}

// address is where a request comes from.
func address(r *http.Request) string {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return r.RemoteAddr
	}
	return host
}
