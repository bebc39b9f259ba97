package print

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/url"
	"path/filepath"
	"slices"
	"strings"

	"chablon/cmd/internal/keep"
	"chablon/labels/diag"
	"chablon/labels/online"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/sale"
)

// Site is the pages behind the links on packs: what came of them, and what was
// found. A page is of one batch, and what it says is what the label of that
// batch says: it goes the road of the label, approved and sound, or there is no
// page of it.
type Site struct {
	Pages []WebPage
	Left  []string // batches without a new page, one line each
	Found *diag.List
}

// WebPage is one page that has not been written yet.
type WebPage struct {
	Folder string // behind the host's name, such as 01/09520001000041/10/L26076A
	About  string // one line for the user
	page   online.Page
}

// linked is a batch of a pack whose mark is a link.
type linked struct {
	trace.Made
	product *shop.Product
	pack    *shop.Pack
	day     unit.Date
}

// Pages makes the pages of today's plan, and anew those of all batches in the
// print book whose label still says what it said then. A batch that is
// withdrawn has a page in any case, and it says so first.
func (p *Press) Pages() (*Site, error) {
	s := &Site{Found: &diag.List{}}
	all, err := p.linkedBatches(context.Background())
	if err != nil {
		return nil, err
	}
	for _, l := range all {
		if err := p.webPage(s, l); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// linkedBatches are the batches with a link on their packs: those of the print
// book, and those of today's plan.
func (p *Press) linkedBatches(ctx context.Context) (out []linked, err error) {
	err = p.reads(ctx, func(book keep.Books) error {
		made, err := trace.Batches(ctx, book)
		for _, m := range made {
			if q := p.Shop.Products[m.ID]; q != nil {
				out = append(out, ofPacks(m, q, "")...)
			}
		}
		return err
	})
	plan, ok := p.Shop.PlanFor(p.Today)
	if err != nil || !ok {
		return out, err
	}
	for _, r := range plan.Runs {
		q := p.Shop.Products[r.Product.V]
		m := trace.Made{Thing: trace.Thing{Kind: trace.Batch, ID: r.Product.V, Code: p.Shop.BatchCode(r, p.Today)}, Day: p.Today.String()}
		if q == nil || slices.ContainsFunc(out, func(l linked) bool { return l.Thing == m.Thing }) {
			continue
		}
		out = append(out, ofPacks(m, q, r.Pack.V)...)
	}
	return out, nil
}

// ofPacks are the packs of a batch that bear a link; id names one of them.
func ofPacks(m trace.Made, q *shop.Product, id string) (out []linked) {
	day, _ := unit.ParseDate(m.Day) // one that nobody noted is none
	for i := range q.Packs {
		if k := &q.Packs[i]; k.Mark.V == "link" && (id == "" || k.ID.V == id) {
			out = append(out, linked{m, q, k, day})
		}
	}
	return out
}

// webPage makes the page of a batch, or says why there is none.
func (p *Press) webPage(s *Site, l linked) error {
	j, why, err := p.labelOf(l)
	if err != nil {
		return err
	}
	s.Found.AddAll(j.Found)
	if why != "" && len(l.Stopped) == 0 {
		s.Left = append(s.Left, fmt.Sprintf("batch %s of %s: %s", l.Code, l.ID, why))
		return nil
	}
	w := WebPage{page: online.Page{Shop: p.Shop.Profile.Name.V, Batch: l.Code, Brand: p.pageLook()}}
	if w.page.Link, w.Folder, err = p.address(l, j); err != nil {
		return err
	}
	if why == "" {
		w.page.Said = j.inAll()
	} else {
		w.page.Gone = gone(l.product)
	}
	if j.Demo {
		w.page.Mark = j.markWord("sheet.demo", "DEMO")
	}
	p.oneForAll(l, s.Found)
	w.stop(p, l, s.Found)
	w.tell(l, why)
	s.Pages = append(s.Pages, w)
	return nil
}

// labelOf takes the label of a batch down the road as far as its words, and
// says why they cannot be those that are on its packs.
func (p *Press) labelOf(l linked) (*Job, string, error) {
	none := &Job{Press: &Press{Shop: p.Shop, Found: &diag.List{}}}
	switch {
	case l.day.IsZero():
		return none, "nobody noted the day on which it was made", nil
	case p.Today.Before(l.day):
		return none, "it is made after the day that is taken as today", nil
	case l.Why != "":
		return none, "it differs from its formula (" + l.Why + ")", nil
	case l.Facts == "" && l.day != p.Today:
		return none, "nobody noted what its label said; its page stays as it was", nil
	}
	j, err := p.look(p.KindOf("label"), Request{Pack: l.pack.ID.V, Made: l.day, Batch: l.Code}, l.ID)
	if err != nil {
		return nil, "", err
	}
	if j.Found.Errors() == 0 {
		j.approved()
	}
	switch {
	case j.Found.Errors() > 0:
		return j, "its label cannot be printed", nil
	case l.Facts != "" && l.Facts != j.Facts.Digest():
		return j, "its label said something else; its page stays as it was", nil
	}
	return j, "", nil
}

// oneForAll cautions where each label has a link of its own, for a page is of a
// batch.
func (p *Press) oneForAll(l linked, found *diag.List) {
	if slices.Contains(l.pack.Says(), "number") {
		found.Warnf(l.pack.Mark.Pos, "link-number", "let the host answer what lies below the folder of a batch (21/0001) with the page of the batch, or take number out of batch-mark-says",
			"each label of %s in %s has a link of its own, but the page is of its batch", l.ID, l.pack.ID.V)
	}
}

// inAll is what the label says in its own languages, and in all others that the
// shop's words reach.
func (j *Job) inAll() (out []online.Said) {
	say := func(p *Press, l *words.Lang, t *words.Label) {
		out = append(out, online.Said{Lang: l, Label: t, Contains: words.Contains(j.Facts, l, p.Found)})
	}
	have := langCodes(j.Langs)
	for i, l := range j.Langs {
		say(j.Press, l, j.Told[i])
	}
	for _, code := range words.Codes() {
		l, ok := words.Get(code)
		if !ok || slices.Contains(have, code) {
			continue
		}
		q := *j.Press
		q.Found = &diag.List{}
		told := q.tell(j.Facts, []*words.Lang{l})
		if q.Found.Errors() == 0 {
			say(&q, l, told[0])
		}
	}
	return out
}

// gone are the names of a product in all languages that it has one in.
func gone(q *shop.Product) (out []online.Gone) {
	for _, n := range q.Name {
		if l, ok := words.Get(n.Key.V); ok {
			out = append(out, online.Gone{Lang: l, Name: n.V.V})
		}
	}
	return out
}

// address is the link to a batch without its query and its running number, and
// the folder that answers there.
func (p *Press) address(l linked, j *Job) (link, folder string, err error) {
	stem := p.Shop.Profile.LinkStem.V
	link = sale.Scans(sale.Label{Pack: l.pack, Batch: l.Code, LinkStem: stem, Facts: j.Facts}, 0)
	link, _, _ = strings.Cut(link, "?")
	u, err := url.Parse(link)
	base, stemErr := url.Parse(stem)
	if err != nil || stemErr != nil || link == "" {
		return "", "", fmt.Errorf("no page can lie behind %q", link)
	}
	return link, strings.TrimPrefix(strings.TrimPrefix(u.EscapedPath(), strings.TrimSuffix(base.Path, "/")), "/"), nil
}

// stop says that the batch is withdrawn, in every language of the page that has
// the words. It is said in any case.
func (w *WebPage) stop(p *Press, l linked, found *diag.List) {
	if len(l.Stopped) == 0 {
		return
	}
	r := reasonOf(l.Stopped)
	var langs []*words.Lang
	for _, s := range w.page.Said {
		langs = append(langs, s.Lang)
	}
	for _, g := range w.page.Gone {
		langs = append(langs, g.Lang)
	}
	for _, lang := range langs {
		w.stopIn(p, r, lang)
	}
	if len(w.page.Stop) > 0 {
		return
	}
	if en, ok := words.Get("en"); ok { // better than a page that does not say it
		w.stopIn(p, r, en)
	}
	found.Warnf(l.product.Pos, "words", "see that buyers are told in their language", "no language of %s has the words for a recall, so its page says it in English", l.ID)
}

// stopIn says it in one language, if it has the words.
func (w *WebPage) stopIn(p *Press, r trace.Reason, lang *words.Lang) {
	head, err1 := lang.Word("recall.head")
	do, err2 := lang.Word("recall.do")
	ask, err3 := lang.Fill("recall.ask", map[string]string{"contact": p.contact()})
	if errors.Join(err1, err2, err3) == nil {
		w.page.Stop = append(w.page.Stop, online.Stop{Lang: lang, Head: head, Do: do, Contact: ask, Why: reasonIn(r, lang)})
	}
}

// contact is where buyers ask.
func (p *Press) contact() string {
	q := p.Shop.Profile
	parts := []string{q.Name.V, q.Address.V, q.Contact.V}
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), ", ")
}

// reasonOf is why something is withdrawn, as all withdrawals of it say.
func reasonOf(list []trace.Event) (r trace.Reason) {
	for _, e := range list {
		r = r.With(trace.ReadReason(e.Why))
	}
	return r
}

// reasonIn is the reason as buyers are told it in a language; "" where nobody
// said it in that language.
func reasonIn(r trace.Reason, l *words.Lang) string {
	var out []string
	if len(r.Undeclared) > 0 {
		if s, err := l.Fill("recall.undeclared", map[string]string{"list": named(l, r.Undeclared)}); err == nil {
			out = append(out, s)
		}
	}
	if s := r.In(l.Code()); s != "" {
		if s, err := l.Fill("recall.reason", map[string]string{"text": s}); err == nil {
			out = append(out, s)
		}
	}
	return strings.Join(out, " ")
}

// tell says in one line what the page is.
func (w *WebPage) tell(l linked, why string) {
	var codes []string
	for _, s := range w.page.Said {
		codes = append(codes, s.Lang.Code())
	}
	w.About = fmt.Sprintf("page of batch %s of %s, %s", l.Code, l.ID, strings.Join(codes, ", "))
	if len(l.Stopped) > 0 {
		w.About = fmt.Sprintf("page of batch %s of %s: WITHDRAWN", l.Code, l.ID)
	}
	if why != "" {
		w.About += ", without its label: " + why
	}
	if w.page.Mark != "" {
		w.About = "DEMO, " + w.About
	}
}

// Publish writes the pages of a site into a folder, each with the set of links
// for a resolver beside it, and gives their paths. The two of a batch change
// together, and other batches stay as they are.
func (p *Press) Publish(disk keep.Disk, s *Site, dir string) (paths []string, err error) {
	for _, w := range s.Pages {
		f, err := keep.OpenFolder(disk, filepath.Join(dir, filepath.FromSlash(w.Folder)))
		if err != nil {
			return paths, err
		}
		d, err := f.Draft("page", []keep.File{
			{Name: "index.html", Write: func(to io.Writer) error { return w.page.HTML(to) }},
			{Name: "linkset.json", Write: func(to io.Writer) error { return w.page.Linkset(to) }},
		})
		if err != nil {
			return paths, err
		}
		if err := d.Name(); err != nil {
			return paths, err
		}
		paths = append(paths, f.Path("index.html"))
	}
	return paths, nil
}
