package counter

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
)

// benchPolicy lets the workbench run the one script of its own, and listen.
const benchPolicy = policy + "; script-src 'self'; connect-src 'self'"

// benchPage is the page for whoever writes the files: one product beside what
// comes of it.
type benchPage struct {
	State     string // of the files that were read
	Things    []option
	ID        string
	Name      named
	File      string
	Source    []sourceLine
	Found     []finding
	Elsewhere int
	Sheets    []sheet
	Declared  string // in English
}

// sourceLine is one line of a file.
type sourceLine struct {
	N     int
	Text  string
	Wrong bool // a finding stands there
}

// bench shows one product beside its label, its card and its declaration. It
// edits nothing.
func (a *ask) bench() error {
	a.w.Header().Set("Content-Security-Policy", benchPolicy)
	out := benchPage{}
	var err error
	if out.State, err = a.Shop.State(); err != nil { // before the files are read: a change after it is noticed
		return err
	}
	if err := a.open(); err != nil {
		return err
	}
	out.ID = a.r.FormValue("id")
	out.Things = a.things(a.press.Shop.ProductIDs, out.ID)
	if !slices.Contains(a.press.Shop.ProductIDs, out.ID) {
		out.ID = ""
		out.Found = findings(a.press.Found)
		return a.show(http.StatusOK, "bench", a.W("nav-bench"), out)
	}
	out.Name = a.nameOf(out.ID)
	p := a.press.About(out.ID)
	found := p.Found
	for i, kind := range []string{"label", "card"} {
		asked, err := a.asking(url.Values{"kind": {kind}, "id": {out.ID}})
		if err != nil {
			return err
		}
		b, err := a.tried(&asked)
		var bad *usage.Error
		if errors.As(err, &bad) {
			out.Found = append(out.Found, finding{Says: bad.Msg, Hint: bad.Hint})
			continue
		}
		if err != nil {
			return err
		}
		one := paperPage{}
		a.look(asked, &b, &one)
		out.Sheets = append(out.Sheets, one.Sheets...)
		out.Elsewhere = b.Elsewhere
		if i == 0 {
			found.AddAll(b.Found)
		}
	}
	if err := a.declared(p, &out); err != nil {
		return err
	}
	out.Found = append(findings(found), out.Found...)
	out.Found = slices.CompactFunc(out.Found, func(x, y finding) bool { return x == y })
	if out.File, out.Source, err = a.source(out); err != nil {
		return err
	}
	return a.show(http.StatusOK, "bench", out.Name.Text+" · "+a.W("nav-bench"), out)
}

// tried makes paper, as a draft where nothing but a signature is missing.
func (a *ask) tried(asked *asking) (print.Batch, error) {
	b, err := a.press.Print(asked.kind, asked.req)
	if err != nil || len(b.Papers) > 0 || !onlyUnsigned(b.Found) {
		return b, err
	}
	first := b.Found
	asked.req.Draft = true
	if b, err = a.press.Print(asked.kind, asked.req); err == nil {
		b.Found.AddAll(first)
	}
	return b, err
}

// declared is what the label says, without paper.
func (a *ask) declared(p *print.Press, out *benchPage) error {
	d, err := p.Declare(print.DeclareRequest{ID: out.ID})
	var bad *usage.Error
	switch {
	case errors.As(err, &bad):
		out.Found = append(out.Found, finding{Says: bad.Msg, Hint: bad.Hint})
		return nil
	case err != nil:
		return err
	}
	if d.Facts != nil {
		out.Declared = d.Text()
	}
	return nil
}

// source is the file of a product, with the lines marked that findings speak of.
func (a *ask) source(out benchPage) (name string, lines []sourceLine, err error) {
	name = "products/" + out.ID + ".yaml"
	text, err := a.Shop.Source(name)
	if err != nil {
		return name, nil, err
	}
	for i, l := range strings.Split(strings.TrimSuffix(text, "\n"), "\n") {
		at := fmt.Sprintf("%s:%d:", name, i+1)
		lines = append(lines, sourceLine{i + 1, l, slices.ContainsFunc(out.Found, func(f finding) bool { return strings.HasPrefix(f.Where, at) })})
	}
	return name, lines, nil
}

// How often the files are looked at for those who watch, and how many may watch.
const (
	lookEvery    = 300 * time.Millisecond
	mostWatchers = 20
)

// watch tells a browser whenever a file of the shop says something else, as
// server-sent events (HTML Living Standard, 9.2): each bears the state of the
// files.
func (a *ask) watch() error {
	if atomic.AddInt32(&a.watchers, 1) > mostWatchers {
		atomic.AddInt32(&a.watchers, -1)
		return &refusal{http.StatusServiceUnavailable, "cannot", nil}
	}
	defer atomic.AddInt32(&a.watchers, -1)
	to := http.NewResponseController(a.w)
	_ = to.SetReadDeadline(time.Time{}) // who watches says nothing more; where there is no connection there is no deadline
	a.w.Header().Set("Content-Type", "text/event-stream")
	a.w.WriteHeader(http.StatusOK)
	last, quiet := "", 0
	for {
		state, err := a.Shop.State()
		if err != nil {
			state = "unreadable"
		}
		quiet++
		switch {
		case state != last:
			_, err = fmt.Fprintf(a.w, "data: %s\n\n", state)
			last, quiet = state, 0
		case quiet > 50:
			_, err = fmt.Fprint(a.w, ":\n\n")
			quiet = 0
		default:
			err = nil
		}
		if err != nil || to.Flush() != nil {
			return nil // it went away
		}
		select {
		case <-a.r.Context().Done():
			return nil
		case <-a.closed:
			return nil
		case <-time.After(lookEvery):
		}
	}
}
