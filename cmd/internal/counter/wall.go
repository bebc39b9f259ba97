package counter

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"

	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
	"chablon/labels/market"
	"chablon/labels/register"
	"chablon/labels/unit"
)

// hanging is one card on the wall.
type hanging struct {
	register.Copy
	Name  named
	Since string
	Old   bool   // it must come down
	Now   string // the word that a current one shows; "" where there is none any more
}

// wall lists the cards that hang, by where.
func (a *ask) wall() error {
	if err := a.open(); err != nil {
		return err
	}
	if a.press.Name == "" {
		return a.show(http.StatusOK, "wall", a.W("nav-wall"), []hanging(nil))
	}
	got, err := a.press.Posted(a.r.Context(), nil)
	if err != nil {
		return err
	}
	stale := map[int64]register.Stale{}
	for _, s := range got.Stale {
		stale[s.Copy.Number] = s
	}
	var out []hanging
	for _, c := range got.Copies {
		s, old := stale[c.Number]
		out = append(out, hanging{Copy: c, Name: a.nameOf(c.ID), Since: a.DateLong(unit.DateOf(c.At.In(a.Now().Location()))), Old: old, Now: s.Now.CheckWord})
	}
	return a.show(http.StatusOK, "wall", a.W("nav-wall"), out)
}

// down notes that a card was taken down. Whoever presses twice takes down one:
// its number is on no other.
func (a *ask) down() error {
	n, err := strconv.ParseInt(a.r.PostFormValue("number"), 10, 64)
	if err != nil {
		return &refusal{http.StatusBadRequest, "cannot", &usage.Error{Msg: "no card has that number"}}
	}
	if err := a.open(); err != nil {
		return err
	}
	if _, err := a.press.Posted(a.r.Context(), []int64{n}); err != nil && register.RuleOf(err) != register.NotPosted {
		return err
	}
	return a.to("/wall")
}

// food is one product with its allergens by group.
type food struct {
	Name  named
	Known bool
	Cells []cell
}

// cell is what a product has of one group.
type cell struct{ Contains, May string }

// allergens shows what is in everything on sale, by the groups of the law.
func (a *ask) allergens() error {
	if err := a.open(); err != nil {
		return err
	}
	out := struct {
		Heads []string
		Foods []food
	}{}
	groups := market.AllergenGroups()
	for _, g := range groups {
		out.Heads = append(out.Heads, a.names(g))
	}
	for _, f := range a.press.Allergens() {
		one := food{Name: a.name(f.Product.Name, f.Product.ID), Known: f.Known}
		for _, g := range groups {
			one.Cells = append(one.Cells, cell{a.names(both(g, f.Contains)), a.names(both(g, f.May))})
		}
		out.Foods = append(out.Foods, one)
	}
	return a.show(http.StatusOK, "allergens", a.W("nav-allergens"), out)
}

// both is what two lists have in common, in the order of the first.
func both(x, y []string) (out []string) {
	for _, s := range x {
		if slices.Contains(y, s) {
			out = append(out, s)
		}
	}
	return out
}

// names are allergens in the language of the page.
func (s say) names(ids []string) string {
	var out []string
	for _, id := range ids {
		name, _, err := s.l.Allergen(id)
		if err != nil {
			name = id // one that only another market knows is not left out
		}
		out = append(out, name)
	}
	return s.l.Join(out)
}

// book lists what was printed, the newest first.
func (a *ask) book() error {
	if err := a.open(); err != nil {
		return err
	}
	below, _ := strconv.ParseInt(a.r.FormValue("below"), 10, 64) // what is no number is the beginning
	all, err := a.press.Printed(a.r.Context(), below, perPage)
	if err != nil {
		return err
	}
	out := struct {
		Lines []printedLine
		Below int64
	}{}
	for _, p := range all {
		out.Lines = append(out.Lines, a.printedLine(p))
	}
	if len(all) == perPage {
		out.Below = all[perPage-1].Number
	}
	return a.show(http.StatusOK, "book", a.W("nav-book"), out)
}

// perPage is how many entries of the print book a page has.
const perPage = 50

// once more: what was printed is printed as it was, for a reason.
func (a *ask) onceMore() error {
	if err := a.open(); err != nil {
		return err
	}
	q := a.r.URL.Query()
	out, b, err := a.repeat(q)
	if err != nil {
		return err
	}
	if b != nil {
		out.Found, out.Print = findings(b.Found), len(b.Papers) > 0
		a.look(asking{form: out.form}, b, &out.paperPage)
	}
	return a.show(http.StatusOK, "again", a.W("again"), out)
}

// againPage is the page on which something is printed once more.
type againPage struct {
	paperPage
	Number  string
	Numbers string
	SSCCs   []option
	Because string
	Line    printedLine
	form    map[string][]string
}

// repeat reads what is to be printed once more, and makes it where numbers and a
// reason are given.
func (a *ask) repeat(q map[string][]string) (out againPage, b *print.Batch, err error) {
	get := func(k string) string {
		if v := q[k]; len(v) > 0 {
			return v[0]
		}
		return ""
	}
	n, err := strconv.ParseInt(get("number"), 10, 64)
	if err != nil {
		return out, nil, &refusal{http.StatusNotFound, "no-page", nil}
	}
	all, err := a.press.Printed(a.r.Context(), n+1, 1)
	if err != nil {
		return out, nil, err
	}
	if len(all) == 0 || all[0].Number != n || all[0].Series == "" {
		return out, nil, &refusal{http.StatusNotFound, "no-page", nil}
	}
	p := all[0]
	out = againPage{Number: get("number"), Numbers: get("numbers"), Because: get("because"), Line: a.printedLine(p)}
	out.Kind, out.ID, out.Name = p.Kind, p.ID, a.nameOf(p.ID)
	for _, code := range a.press.SSCCs(p) {
		out.SSCCs = append(out.SSCCs, option{Value: code, Text: code, On: code == out.Numbers})
	}
	if out.Numbers == "" || out.Because == "" {
		return out, nil, nil
	}
	out.form = map[string][]string{"number": {out.Number}, "numbers": {out.Numbers}, "because": {out.Because}}
	made, err := a.madeAgain(p, out)
	return out, made, err
}

// madeAgain makes labels or a carton label as they were.
func (a *ask) madeAgain(p register.Print, out againPage) (*print.Batch, error) {
	if len(out.SSCCs) > 0 {
		b, err := a.press.PrintAgain(print.Again{SSCCs: []string{out.Numbers}, Why: out.Because})
		return &b, err
	}
	made, err := unit.ParseDate(p.Made)
	if err != nil {
		return nil, err
	}
	b, err := a.press.Print(a.press.KindOf("label"), print.Request{IDs: []string{p.ID}, Batch: p.Batch, Made: made,
		Own: &print.LabelOptions{Again: out.Numbers, Because: out.Because}})
	return &b, err
}

// printOnceMore prints what was looked at.
func (a *ask) printOnceMore() error {
	return a.alone(func(q url.Values) (*print.Batch, error) {
		_, b, err := a.repeat(q)
		if err == nil && b == nil {
			err = &refusal{http.StatusBadRequest, "why-again", nil}
		}
		return b, err
	})
}
