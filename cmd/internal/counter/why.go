package counter

import (
	"net/http"

	"chablon/cmd/internal/print"
)

// why says why a word stands on a label, or why not.
func (a *ask) why() error {
	if err := a.open(); err != nil {
		return err
	}
	q := a.r.URL.Query()
	id, word := q.Get("id"), q.Get("word")
	if a.press.Shop.Products[id] == nil {
		return a.nothing()
	}
	p := a.press.About(id)
	w, err := p.Why(print.WhyRequest{ID: id, Word: word, Pack: q.Get("pack"), Market: q.Get("market")})
	if err != nil {
		return err
	}
	out := struct {
		ID, Word string
		Name     named
		Lines    []print.WhyLine
		Found    []finding
	}{ID: id, Word: word, Name: a.nameOf(id)}
	if w == nil {
		out.Found = findings(p.Found)
	} else {
		out.Lines = w.Lines()
	}
	return a.show(http.StatusOK, "why", a.F("why", "word", word), out)
}
