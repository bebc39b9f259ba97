// Package counter answers: what does the counter ask for?
//
// It serves the pages on which staff print without a command line: forms and
// links, in the languages of the kitchen, without a script. A form names ids that
// the shop knows, never a path, a file or the address of a printer. What is
// printed goes the one road of package print; what is noted, through package
// follow. Nothing here changes the shop's files or signs an approval.
//
// One request goes like this: the name of the host is known, the browser says
// that the form is from here, the PIN was given where one is asked for; the shop
// is as its files are now ([print.Kept]); the paper is made, judged, and shown as
// the pages that were judged; the form that prints it carries the digest of the
// run and a random word. Printing makes everything once more, refuses another
// digest, and claims the word in the print book with the numbers.
package counter

import (
	"embed"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"strings"
	"sync"
	"time"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
	"chablon/labels/register"
	"chablon/labels/unit"
)

//go:embed pages
var pages embed.FS

// Config is what the counter is told when it starts.
type Config struct {
	Shop    *print.Kept
	Today   func() unit.Date // the day that is meant
	Now     func() time.Time // what the clock of the machine says, with its zone
	Disk    keep.Disk
	Witness keep.Witness
	Out     func(unit.Date) string // the folder for the paper of a day
	Hosts   []string               // names by which it is called, without a port
	PIN     string                 // asked for before anything is shown; "" for nobody to ask
	Secure  bool                   // it is called over TLS
	Who     string                 // who notes, as the book has it
}

// Counter serves the pages. It may be used by many at once.
type Counter struct {
	Config
	serve http.Handler
	pages map[string]*template.Template

	door     door       // who may come in
	printing sync.Mutex // one run at a time
	seen     pictures   // looked at of late
	noted    asked      // words of forms that were noted
	watchers int32      // browsers that wait for a change
	closed   chan struct{}
	sending  sync.WaitGroup
}

// New makes the counter ready. The error is a fault of its own pages.
func New(cfg Config) (*Counter, error) {
	c := &Counter{Config: cfg, closed: make(chan struct{})}
	c.door.now = cfg.Now
	var err error
	if c.pages, err = parsed(); err != nil {
		return nil, err
	}
	c.serve = c.guarded(c.routes())
	return c, nil
}

// Close lets those go who wait for a change. It is called once.
func (c *Counter) Close() { close(c.closed) }

// warm is how often the shop's files are looked at while nobody asks.
const warm = time.Second

// Warm reads the shop anew soon after a file was saved, so that whoever asks next
// need not wait for it. It returns when the counter is closed.
func (c *Counter) Warm() {
	for {
		_, _ = c.Shop.Press(c.Today(), c.Now().UTC()) // whoever asks is told what is wrong
		select {
		case <-c.closed:
			return
		case <-time.After(warm):
		}
	}
}

// ServeHTTP implements [http.Handler].
func (c *Counter) ServeHTTP(w http.ResponseWriter, r *http.Request) { c.serve.ServeHTTP(w, r) }

// routes is what there is to ask for.
func (c *Counter) routes() *http.ServeMux {
	mux := http.NewServeMux()
	for path, do := range map[string]func(*ask) error{
		"GET /{$}":             (*ask).choose,
		"GET /paper":           (*ask).paper,
		"GET /picture.svg":     (*ask).picture,
		"POST /print":          (*ask).print,
		"GET /printed/{word}":  (*ask).printed,
		"GET /file/{word}/{n}": (*ask).file,
		"GET /why":             (*ask).why,
		"GET /day":             (*ask).plan,
		"GET /day/paper":       (*ask).planPaper,
		"POST /day/print":      (*ask).printDay,
		"GET /wall":            (*ask).wall,
		"POST /wall/down":      (*ask).down,
		"GET /allergens":       (*ask).allergens,
		"GET /book":            (*ask).book,
		"GET /again":           (*ask).onceMore,
		"POST /again":          (*ask).printOnceMore,
		"GET /food":            (*ask).foodBook,
		"GET /food/lot":        (*ask).lot,
		"POST /food/lot":       (*ask).noteLot,
		"GET /food/batch":      (*ask).batch,
		"POST /food/batch":     (*ask).noteBatch,
		"GET /food/ship":       (*ask).ship,
		"POST /food/ship":      (*ask).noteShip,
		"GET /food/trace":      (*ask).trace,
		"GET /bench":           (*ask).bench,
		"GET /bench/events":    (*ask).watch,
		"GET /enter":           (*ask).enter,
		"POST /enter":          (*ask).entered,
		"POST /language":       (*ask).language,
	} {
		mux.HandleFunc(path, c.answer(do))
	}
	mux.HandleFunc("GET /bench.js", static("bench.js", "text/javascript; charset=utf-8"))
	mux.HandleFunc("GET /style.css", static("style.css", "text/css; charset=utf-8"))
	mux.HandleFunc("/", c.answer((*ask).nothing))
	return mux
}

// static serves one file of the program.
func static(name, kind string) http.HandlerFunc {
	data, err := pages.ReadFile("pages/" + name)
	return func(w http.ResponseWriter, r *http.Request) {
		if err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		w.Header().Set("Content-Type", kind)
		_, _ = w.Write(data) // whoever went away reads nothing
	}
}

// parsed reads the pages, each with what all share.
func parsed() (map[string]*template.Template, error) {
	base, err := template.New("base.html").Funcs(template.FuncMap{"int": whole}).ParseFS(pages, "pages/base.html")
	if err != nil {
		return nil, err
	}
	all, err := pages.ReadDir("pages")
	out := map[string]*template.Template{}
	for _, e := range all {
		name, html := strings.CutSuffix(e.Name(), ".html")
		if !html || name == "base" {
			continue
		}
		one, err := base.Clone()
		if err == nil {
			one, err = one.ParseFS(pages, "pages/"+e.Name())
		}
		if err != nil {
			return nil, err
		}
		out[name] = one
	}
	return out, err
}

// whole is a count as a page counts it.
func whole(n unit.Count) int { return int(n) }

// An ask is one request and what it is answered with.
type ask struct {
	*Counter
	say
	w     http.ResponseWriter
	r     *http.Request
	press *print.Press // nil until [ask.open]
}

// answer turns a page into a handler. What it refuses is said on a page.
func (c *Counter) answer(do func(*ask) error) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		a := &ask{Counter: c, say: spoken(r), w: w, r: r}
		if err := do(a); err != nil {
			a.refuse(err)
		}
	}
}

// open reads the shop for this request.
func (a *ask) open() error {
	now := a.Now()
	p, err := a.Shop.Press(a.Today(), now.UTC())
	if err != nil {
		return err
	}
	p.Now, p.Clock, p.Witness = now, now.UTC(), a.Witness
	a.press = p
	return nil
}

// A refusal is an answer other than a page: a status of HTTP and words.
type refusal struct {
	status int
	key    string // words under [counter]
	err    error  // more, in English; nil for none
}

// Error implements error.
func (r *refusal) Error() string {
	if r.err != nil {
		return r.err.Error()
	}
	return r.key
}

// refuse says what cannot be, and what to do.
func (a *ask) refuse(err error) {
	var no *refusal
	var bad *usage.Error
	var book *register.Error
	out := struct{ Says, More, Hint string }{}
	status := http.StatusInternalServerError
	switch {
	case errors.As(err, &no):
		status, out.Says = no.status, a.W(no.key)
		if no.err != nil {
			out.More = no.err.Error()
		}
		if errors.As(no.err, &bad) {
			out.Hint = bad.Hint
		}
	case errors.As(err, &bad):
		status, out.Says, out.More, out.Hint = http.StatusBadRequest, a.W("cannot"), bad.Msg, bad.Hint
	case errors.As(err, &book):
		status, out.Says, out.More, out.Hint = http.StatusConflict, a.W("cannot"), book.Error(), book.Hint()
	default:
		out.Says, out.More = a.W("machine"), err.Error()
	}
	if e := a.show(status, "refused", a.W("cannot"), out); e != nil {
		http.Error(a.w, out.Says, status)
	}
}

// nothing answers what there is not.
func (a *ask) nothing() error {
	return &refusal{http.StatusNotFound, "no-page", nil}
}

// view is what every page is made of.
type view struct {
	*ask
	Title string
	Page  string
	Body  any
}

// show answers with a page.
func (a *ask) show(status int, page, title string, body any) error {
	t, ok := a.pages[page]
	if !ok {
		return fmt.Errorf("there is no page %q", page)
	}
	var b strings.Builder
	if err := t.Execute(&b, view{a, title, page, body}); err != nil {
		return err
	}
	a.w.Header().Set("Content-Type", "text/html; charset=utf-8")
	a.w.Header().Set("Content-Language", a.Lang())
	a.w.WriteHeader(status)
	_, _ = a.w.Write([]byte(b.String())) // whoever went away reads nothing
	return nil
}

// to sends the browser on to another page.
func (a *ask) to(path string) error {
	http.Redirect(a.w, a.r, path, http.StatusSeeOther)
	return nil
}

// ShopName is what the business is called.
func (a *ask) ShopName() string {
	if a.press == nil {
		return "chablon"
	}
	return a.press.Shop.Profile.Name.V
}

// Day is the day that is meant, in words.
func (a *ask) Day() string { return a.DateLong(a.Today()) }

// Open tells whether the visitor may see more than the door.
func (a *ask) Open() bool { return a.press != nil }
