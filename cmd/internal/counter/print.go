package counter

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
	"chablon/labels/register"
	"chablon/labels/unit"
)

// asWord is how the word of an asking is written ([rand.Text]).
var asWord = regexp.MustCompile(`^[A-Z2-7]{20,40}$`)

// alone makes what a form asks for and prints it, one run at a time, so that none
// waits for the numbers of another. It is the one way from a form to paper.
func (a *ask) alone(make func(url.Values) (*print.Batch, error)) error {
	if err := a.r.ParseForm(); err != nil {
		return tooLarge(err)
	}
	a.printing.Lock()
	defer a.printing.Unlock()
	if err := a.open(); err != nil {
		return err
	}
	b, err := make(a.r.PostForm)
	if err != nil {
		return err
	}
	return a.run(b, a.r.PostForm)
}

// print prints what was looked at, once for each asking.
func (a *ask) print() error {
	return a.alone(func(q url.Values) (*print.Batch, error) {
		asked, err := a.asking(q)
		if err != nil {
			return nil, err
		}
		a.press.To = q.Get("to")
		b, err := a.press.Print(asked.kind, asked.req)
		return &b, err
	})
}

// run prints a batch that was looked at: the form says its digest, and the word
// that lets it print once.
func (a *ask) run(b *print.Batch, q url.Values) error {
	word := q.Get("word")
	if !asWord.MatchString(word) {
		return &refusal{http.StatusBadRequest, "no-word", nil}
	}
	if done, err := a.cameOf(word); err != nil || len(done) > 0 {
		return errors.Join(err, a.to("/printed/"+word))
	}
	if len(b.Papers) == 0 {
		return &refusal{http.StatusConflict, "refused", errors.New(firstError(b))}
	}
	if b.Digest() != q.Get("digest") {
		return &refusal{http.StatusConflict, "changed", nil}
	}
	ctx := context.WithoutCancel(a.r.Context()) // whoever goes away does not stop it half way
	to, err := a.reach(ctx, q, b)
	if err != nil {
		return err
	}
	if err := a.press.Once(ctx, b, word); err != nil {
		return err
	}
	_, err = a.press.Save(ctx, a.Disk, *b, a.Out(a.press.Today), nil)
	if register.RuleOf(err) == register.Twice {
		return a.to("/printed/" + word)
	}
	if err != nil {
		return a.failed(word, err)
	}
	a.send(to)
	return a.to("/printed/" + word)
}

// failed says what came of a run that could not be finished.
func (a *ask) failed(word string, err error) error {
	done, e := a.cameOf(word)
	var bad *usage.Error
	switch {
	case e != nil:
		return errors.Join(err, e)
	case errors.As(err, &bad):
		return err
	case len(done) == 0:
		return &refusal{http.StatusInternalServerError, "not-printed", err}
	}
	return &refusal{http.StatusInternalServerError, "half-printed", err}
}

// tooLarge says that a form is too large, or cannot be read.
func tooLarge(err error) error {
	var most *http.MaxBytesError
	if errors.As(err, &most) {
		return &refusal{http.StatusRequestEntityTooLarge, "too-large", nil}
	}
	return &refusal{http.StatusBadRequest, "cannot", err}
}

// firstError is the first thing that is wrong with a batch.
func firstError(b *print.Batch) string {
	for _, d := range b.Found.All() {
		if !d.Warning {
			return d.Msg
		}
	}
	return "there is no paper"
}

// cameOf is what the print book knows of an asking.
func (a *ask) cameOf(word string) (out []register.Print, err error) {
	err = a.press.Reads(a.r.Context(), func(book keep.Books) (err error) {
		out, err = book.Prints(a.r.Context(), register.Query{Once: word})
		return err
	})
	return out, err
}

// printed shows what came of an asking.
func (a *ask) printed() error {
	word := a.r.PathValue("word")
	if err := a.open(); err != nil {
		return err
	}
	if !asWord.MatchString(word) {
		return a.nothing()
	}
	done, err := a.cameOf(word)
	if err != nil {
		return err
	}
	out := struct {
		Lines []printedLine
		Files []file
		Lost  bool
		Sent  []sentLine
		Going bool
	}{}
	for _, p := range done {
		out.Lines = append(out.Lines, a.printedLine(p))
		out.Lost = out.Lost || !p.Written
	}
	if out.Files, err = a.files(done); err != nil {
		return err
	}
	if out.Sent, err = a.sent(done); err != nil {
		return err
	}
	for _, s := range out.Sent {
		out.Going = out.Going || s.Going
	}
	title := a.W("printed")
	if len(done) == 0 {
		title = a.W("printed-nothing")
	}
	return a.show(http.StatusOK, "printed", title, out)
}

// printedLine is one entry of the print book.
type printedLine struct {
	register.Print
	Kind, Numbers, When string
	Name                named
	Again               string // the page on which it is printed once more
}

func (a *ask) printedLine(p register.Print) printedLine {
	l := printedLine{Print: p, Kind: a.Kind(p.Kind), Name: a.nameOf(p.ID)}
	at := p.At.In(a.Now().Location())
	l.When = a.DateLong(unit.DateOf(at)) + ", " + at.Format("15:04")
	if p.Series != "" {
		l.Numbers = register.Span{From: p.From, To: p.To}.String()
		if all := a.press.SSCCs(p); len(all) > 0 {
			l.Numbers = strings.Join(slices.Compact([]string{all[0], all[len(all)-1]}), " – ")
		}
		l.Again = "/again?" + url.Values{"number": {fmt.Sprint(p.Number)}}.Encode()
	}
	return l
}

// file is one finished file.
type file struct{ Name, Path string }

// paths are the files that prints are in, each once, with its folder: all parts
// of one that was cut.
func (a *ask) paths(done []register.Print) (out []string, err error) {
	for _, p := range done {
		if p.File == "" || !p.Written {
			continue
		}
		dir := a.Out(unit.DateOf(p.At.In(a.Now().Location())))
		all, err := a.Disk.List(dir)
		if err != nil {
			continue // the folder was taken away
		}
		stem := strings.TrimSuffix(p.File, ".pdf")
		for _, f := range all {
			part := strings.HasPrefix(f.Name(), stem+"-part-") && strings.HasSuffix(f.Name(), ".pdf")
			path := filepath.Join(dir, f.Name())
			if (f.Name() == p.File || part) && !slices.Contains(out, path) {
				out = append(out, path)
			}
		}
	}
	return out, nil
}

func (a *ask) files(done []register.Print) (out []file, err error) {
	names, err := a.paths(done)
	for i, path := range names {
		out = append(out, file{filepath.Base(path), fmt.Sprintf("/file/%s/%d", done[0].Once, i)})
	}
	return out, err
}

// file hands out one finished file of an asking, found by the print book: no
// name of a file is asked for.
func (a *ask) file() error {
	if err := a.open(); err != nil {
		return err
	}
	word := a.r.PathValue("word")
	n, err := strconv.Atoi(a.r.PathValue("n"))
	if err != nil || !asWord.MatchString(word) {
		return a.nothing()
	}
	done, err := a.cameOf(word)
	if err != nil {
		return err
	}
	names, err := a.paths(done)
	if err != nil {
		return err
	}
	if n < 0 || n >= len(names) {
		return a.nothing()
	}
	data, err := a.Disk.ReadFile(names[n])
	if err != nil {
		return err
	}
	a.w.Header().Set("Content-Type", "application/pdf")
	a.w.Header().Set("Content-Disposition", fmt.Sprintf("attachment; filename=%q", filepath.Base(names[n])))
	_, err = io.Copy(a.w, strings.NewReader(string(data)))
	return err
}
