package counter

import (
	"bytes"
	"crypto/rand"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"sync"

	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/svg"
)

// paperPage is the page for one paper: what is asked for, how it looks, and what
// is in the way of printing it.
type paperPage struct {
	Kind, ID string
	Name     named
	Kinds    []link

	Fields  fieldSet
	Sheets  []sheet
	Found   []finding
	Refused string // why nothing can be shown, in English
	Hint    string

	Print  bool
	Button string
	Word   string // of the asking
	Digest string
	Hidden []pair
	To     []option // printers that take it
	Left   []string // of the day: what is left out, in English
}

// pair is one hidden field.
type pair struct{ Name, Value string }

// sheet is one paper of the run.
type sheet struct {
	print.Seen
	Kind     string // in words
	Name     named
	Line     string // how much of what
	Pictures []picture
	Said     []spokenLabel
}

// picture is one page as it is shown.
type picture struct {
	Path, Alt, Caption string
	Wide               bool // larger than a label
}

// finding is one thing that is wrong, or to be looked at.
type finding struct {
	Where, Says, Hint string
	Caution           bool
}

// paper shows the paper that a form asks for.
func (a *ask) paper() error {
	if err := a.open(); err != nil {
		return err
	}
	asked, err := a.asking(a.r.URL.Query())
	if err != nil {
		return err
	}
	out := a.paperPage(asked)
	b, err := a.tried(&asked)
	var bad *usage.Error
	switch {
	case errors.As(err, &bad):
		out.Refused, out.Hint = bad.Msg, bad.Hint
	case err != nil:
		return err
	default:
		out.Found = findings(b.Found)
		a.look(asked, &b, &out)
		out.Print = len(b.Papers) > 0 && !asked.req.Draft
	}
	return a.show(http.StatusOK, "paper", out.title(a), out)
}

// onlyUnsigned reports whether nothing but a missing signature is in the way.
func onlyUnsigned(found *diag.List) bool {
	for _, d := range found.All() {
		if !d.Warning && d.Rule != "not-approved" {
			return false
		}
	}
	return found.Errors() > 0
}

func (p paperPage) title(a *ask) string {
	if p.Name.Text == "" {
		return a.Kind(p.Kind)
	}
	return p.Name.Text + " · " + a.Kind(p.Kind)
}

func (a *ask) paperPage(asked asking) paperPage {
	out := paperPage{Kind: asked.kind.Name, ID: asked.id, Kinds: a.kindsOf(asked.id, asked.kind.Name), Fields: a.fieldSet(asked)}
	if asked.id != "" {
		out.Name = a.nameOf(asked.id)
	}
	return out
}

// nameOf is the name of a product or formula in the language of the page.
func (a *ask) nameOf(id string) named {
	var w shop.Words
	if q := a.press.Shop.Products[id]; q != nil {
		w = q.Name
	} else if f := a.press.Shop.Formulas[id]; f != nil {
		w = f.Name
	} else if i := a.press.Shop.Ingredients[id]; i != nil {
		w = i.Name
	}
	return a.name(w, id)
}

// findings are the findings for the page, errors first.
func findings(found *diag.List) (out []finding) {
	all := found.All()
	slices.SortStableFunc(all, func(x, y diag.Diag) int {
		switch {
		case x.Warning == y.Warning:
			return 0
		case y.Warning:
			return -1
		}
		return 1
	})
	for _, d := range all {
		f := finding{Says: d.Msg, Hint: d.Hint, Caution: d.Warning}
		if d.Pos.Known() {
			f.Where = d.Pos.String()
		}
		out = append(out, f)
	}
	return out
}

// look puts the pictures of a batch on the page, and what the form that prints it
// must bear.
func (a *ask) look(asked asking, b *print.Batch, out *paperPage) {
	out.Digest, out.Word = b.Digest(), rand.Text()
	pieces, pages := 0, 0
	for i, s := range b.Seen() {
		one := sheet{Seen: s, Kind: a.Kind(s.Kind.Name), Said: a.spokenLabels(s)}
		one.Line = a.line(s)
		one.Pictures = a.pictures(asked, out.Digest, i, s)
		pieces, pages = pieces+s.Count, pages+s.Sheets
		out.Sheets = append(out.Sheets, one)
	}
	out.Button = a.C("print-pieces", pieces)
	if len(out.Sheets) > 0 && out.Sheets[0].Seen.Kind.Most <= 1 {
		out.Button = a.C("print-pages", pages)
	}
	for name, v := range asked.form {
		out.Hidden = append(out.Hidden, pair{name, v[0]})
	}
	if len(out.Sheets) == 1 {
		out.To = a.printers(out.Sheets[0].Paper)
	}
	slices.SortFunc(out.Hidden, func(x, y pair) int { return strings.Compare(x.Name, y.Name) })
}

// line says how much of what is printed on which paper.
func (a *ask) line(s print.Seen) string {
	said := []string{a.C("sheets", s.Sheets), a.F("on-paper", "paper", s.Paper)}
	if s.Numbers != "" {
		said = append(said, a.F("numbers", "n", s.Numbers))
	}
	if s.Batch != "" && s.Kind.Bears == print.ItsBatch {
		said = append(said, a.F("batch-is", "code", s.Batch))
	}
	return strings.Join(said, " · ")
}

// pictures are the pages of one paper, kept for when the browser asks for them.
func (a *ask) pictures(asked asking, digest string, i int, s print.Seen) (out []picture) {
	all := s.Pictures
	if s.FirstPage != nil {
		all = append(slices.Clone(all), s.FirstPage)
	}
	for n, pg := range all {
		key := fmt.Sprintf("%s.%d.%d.%s", digest, i, n, s.Numbers)
		a.seen.keep(key, pg)
		q := url.Values{"of": {strconv.Itoa(i)}, "n": {strconv.Itoa(n)}, "digest": {digest}, "key": {key}}
		for name, v := range asked.form {
			q[name] = v
		}
		p := picture{Path: "/picture.svg?" + q.Encode(), Wide: pg.W > 150*unit.MM}
		switch {
		case pg == s.FirstPage:
			p.Caption = a.W("first-sheet")
		case len(s.Pictures) == 1:
			p.Caption = ""
		case s.Kind.Most > 1:
			p.Caption = a.W([]string{"first", "last"}[min(n, 1)])
		default:
			p.Caption = a.F("page-of", "n", a.N(n+1), "m", a.N(s.Sheets))
		}
		p.Alt = strings.Join(slices.DeleteFunc([]string{a.W("picture"), a.Kind(s.Kind.Name), a.nameOf(s.ID).Text, p.Caption}, func(t string) bool { return t == "" }), ", ")
		out = append(out, p)
	}
	return out
}

// picture answers with one page as a picture: that which was looked at, or, where
// it is kept no more, the same page made again. Where it has changed since, there
// is none.
func (a *ask) picture() error {
	q := a.r.URL.Query()
	pg := a.seen.get(q.Get("key"))
	if pg == nil {
		var err error
		if pg, err = a.again(q); err != nil {
			return err
		}
	}
	var b bytes.Buffer
	if err := svg.Write(&b, pg, a.W("picture")); err != nil {
		return err
	}
	a.w.Header().Set("Content-Type", "image/svg+xml")
	_, _ = a.w.Write(b.Bytes())
	return nil
}

// again makes a page again that was shown.
func (a *ask) again(q url.Values) (*page.Page, error) {
	gone := &refusal{http.StatusConflict, "changed", nil}
	if err := a.open(); err != nil {
		return nil, err
	}
	asked, err := a.asking(q)
	if err != nil {
		return nil, err
	}
	for _, asked.req.Draft = range []bool{false, true} {
		b, err := a.press.Print(asked.kind, asked.req)
		if err != nil {
			return nil, err
		}
		i, err1 := strconv.Atoi(q.Get("of"))
		n, err2 := strconv.Atoi(q.Get("n"))
		all := b.Seen()
		if err1 != nil || err2 != nil || len(b.Papers) == 0 || b.Digest() != q.Get("digest") || i < 0 || i >= len(all) {
			continue
		}
		if pgs := append(slices.Clone(all[i].Pictures), all[i].FirstPage); n >= 0 && n < len(pgs) && pgs[n] != nil {
			return pgs[n], nil
		}
	}
	return nil, gone
}

// pictures keeps the pages that were looked at of late.
type pictures struct {
	mu   sync.Mutex
	page map[string]*page.Page
	keys []string // from old to new
}

// mostKept is how many pages are kept.
const mostKept = 200

func (p *pictures) keep(key string, pg *page.Page) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.page == nil {
		p.page = map[string]*page.Page{}
	}
	if _, there := p.page[key]; !there {
		p.keys = append(p.keys, key)
	}
	p.page[key] = pg
	for len(p.keys) > mostKept {
		delete(p.page, p.keys[0])
		p.keys = p.keys[1:]
	}
}

func (p *pictures) get(key string) *page.Page {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.page[key]
}

// fieldSet is what a form lets the visitor set.
type fieldSet struct {
	Packs, Papers, Markets, Customers []option
	Count, Batch, Weight, Place       string
	Order, Languages                  string
	Made                              dayFields
	Own                               []field
	Has                               map[string]bool
}

// field is one plain field.
type field struct{ Name, Text, Value string }

func (a *ask) fieldSet(asked asking) fieldSet {
	k, q := asked.kind, asked.form
	f := fieldSet{Has: map[string]bool{}, Count: q.Get("count"), Batch: q.Get("batch"), Weight: q.Get("weight"), Place: q.Get("first-place"),
		Order: q.Get("order"), Languages: q.Get("languages"), Made: dayFields{"made", q.Get("made-d"), q.Get("made-m"), q.Get("made-y")}}
	for _, name := range []string{"pack", "market", "made", "batch", "count", "for", "weight", "first-place"} {
		f.Has[name] = k.Takes(name)
	}
	if of := a.press.Shop.Products[asked.id]; of != nil {
		f.Has["weight"] = f.Has["weight"] && slices.ContainsFunc(of.Packs, func(p shop.Pack) bool { return p.ByWeight() })
	}
	if f.Made == (dayFields{Name: "made"}) {
		f.Made = dayOf("made", a.Today())
	}
	if f.Count == "" {
		f.Count = "1"
	}
	of := a.press.Shop.Products[asked.id]
	if of != nil && f.Has["pack"] {
		for _, id := range of.PackIDs() {
			f.Packs = append(f.Packs, option{Value: id, Text: id, On: id == q.Get("pack")})
		}
	}
	if of != nil && f.Has["market"] {
		for _, m := range a.press.Shop.Profile.Markets {
			f.Markets = append(f.Markets, option{Value: m.V, Text: m.V, On: m.V == q.Get("market")})
		}
	}
	for _, id := range a.press.Shop.CustomerIDs {
		f.Customers = append(f.Customers, option{Value: id, Text: a.press.Shop.Customers[id].Name.V, On: id == q.Get("for")})
	}
	f.Papers = a.papers(k, q.Get("paper"))
	for _, name := range hasOwn(k) {
		f.Own = append(f.Own, field{name, a.W("own." + name), q.Get(name)})
	}
	return f
}

// papers are those that lie in the shop's printers and that a kind can be printed
// on.
func (a *ask) papers(k *print.Kind, now string) (out []option) {
	for _, e := range a.press.Shop.Profile.Printers {
		for _, t := range e.V.Papers {
			s, ok := stock.Get(t.V)
			if !ok || (s.Kind.V == "card") != (k.Form == "card") {
				continue
			}
			out = append(out, option{Value: t.V, Text: t.V + " · " + e.Key.V, On: t.V == now})
		}
	}
	return out
}
