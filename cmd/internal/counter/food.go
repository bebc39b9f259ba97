package counter

import (
	"context"
	"crypto/rand"
	"errors"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"chablon/cmd/internal/follow"
	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
)

// desk opens the book for noting, and closes it when do is done. A fault in the
// shop's files does not stop it.
func (a *ask) desk(do func(context.Context, *follow.Desk) error) error {
	if a.press.Name == "" {
		return usage.Errorf("chablon new DIR writes it into a folder", "nothing can be noted of the demo shop")
	}
	ctx := context.WithoutCancel(a.r.Context())
	book, err := keep.Book(ctx, a.press.Name)
	if err != nil {
		return err
	}
	err = do(ctx, &follow.Desk{Shop: a.press.Shop, Book: book, Today: a.Today(), Now: a.Now(), Who: a.Who})
	return errors.Join(err, book.Close())
}

// lotLine is a lot of which something is left.
type lotLine struct {
	Name              named
	Code, Left, Until string
}

// foodPage is the page of all that comes in, is made, and leaves.
type foodPage struct {
	Lots   []lotLine
	Events []string
}

// food shows what is left of each lot, and what was noted of late.
func (a *ask) foodBook() error {
	if err := a.open(); err != nil {
		return err
	}
	out := foodPage{}
	err := a.desk(func(ctx context.Context, d *follow.Desk) error {
		lots, err := trace.Lots(ctx, d.Book)
		if err != nil {
			return err
		}
		for _, l := range lots {
			out.Lots = append(out.Lots, lotLine{a.nameOf(l.ID), l.Code, a.l.Mass(l.Left), a.day(l.Until)})
		}
		all, err := d.Book.Events(ctx)
		for i := len(all) - 1; i >= 0 && len(out.Events) < 20; i-- {
			out.Events = append(out.Events, follow.Line(all[i]))
		}
		return err
	})
	if err != nil {
		return err
	}
	return a.show(http.StatusOK, "food", a.W("nav-food"), out)
}

// day is a day of the book in words; "" stays.
func (s say) day(iso string) string {
	d, err := unit.ParseDate(iso)
	if err != nil {
		return iso
	}
	return s.DateLong(d)
}

// noting is a form of something to be noted.
type noting struct {
	Word      string
	Today     dayFields
	Until     dayFields
	Things    []option
	Others    []option // what else may have gone in
	Customers []option
	ID        string
	Name      named
	Parts     []part
	Batch     string
	Made      bool // by pieces, not by mass
}

// part is one thing that a batch is made of, with the lots and batches that there
// are of it.
type part struct {
	ID   string
	Name named
	Have []string
}

func (a *ask) noting() noting {
	return noting{Word: rand.Text(), Today: dayOf("on", a.Today()), Until: dayFields{Name: "until"}}
}

// things are ids with their names, in the order of the names.
func (a *ask) things(ids []string, now string) (out []option) {
	for _, id := range ids {
		n := a.nameOf(id)
		out = append(out, option{Value: id, Text: n.Text, Lang: n.Lang, On: id == now})
	}
	slices.SortFunc(out, func(x, y option) int { return strings.Compare(strings.ToLower(x.Text), strings.ToLower(y.Text)) })
	return out
}

// lot is the form for what came in.
func (a *ask) lot() error {
	if err := a.open(); err != nil {
		return err
	}
	out := a.noting()
	out.Things = a.things(a.press.Shop.IngredientIDs, a.r.FormValue("id"))
	return a.show(http.StatusOK, "lot", a.W("lot"), out)
}

// batch is the form for what went into a batch and what came out. First it is
// asked of what.
func (a *ask) batch() error {
	if err := a.open(); err != nil {
		return err
	}
	out := a.noting()
	out.ID = a.r.FormValue("id")
	sh := a.press.Shop
	out.Things = a.things(slices.Concat(sh.FormulaIDs, sh.ProductIDs), out.ID)
	if sh.Formulas[out.ID] == nil && sh.Products[out.ID] == nil {
		out.ID = ""
		return a.show(http.StatusOK, "batch", a.W("batch-note"), out)
	}
	out.Others = a.things(a.press.Shop.IngredientIDs, "")
	out.Name, out.Made, out.Batch = a.nameOf(out.ID), sh.Products[out.ID] != nil, sh.BatchCode(shop.Run{}, a.Today())
	err := a.desk(func(ctx context.Context, d *follow.Desk) error {
		lots, err := trace.Lots(ctx, d.Book)
		for _, id := range d.Parts(out.ID) {
			p := part{ID: id, Name: a.nameOf(id)}
			for _, l := range lots {
				if l.ID == id {
					p.Have = append(p.Have, l.Code)
				}
			}
			if sh.Formulas[id] != nil || sh.Products[id] != nil {
				p.Have = append(p.Have, out.Batch)
			}
			out.Parts = append(out.Parts, p)
		}
		return err
	})
	if err != nil {
		return err
	}
	return a.show(http.StatusOK, "batch", a.W("batch-note"), out)
}

// ship is the form for cartons that leave.
func (a *ask) ship() error {
	if err := a.open(); err != nil {
		return err
	}
	out := a.noting()
	for _, id := range a.press.Shop.CustomerIDs {
		out.Customers = append(out.Customers, option{Value: id, Text: a.press.Shop.Customers[id].Name.V})
	}
	return a.show(http.StatusOK, "ship", a.W("ship"), out)
}

// note notes what a form says, once for each form.
func (a *ask) note(read func(*ask, context.Context, *follow.Desk, url.Values) (trace.Event, error)) error {
	if err := a.r.ParseForm(); err != nil {
		return tooLarge(err)
	}
	q := a.r.PostForm
	if !asWord.MatchString(q.Get("word")) {
		return &refusal{http.StatusBadRequest, "no-word", nil}
	}
	if err := a.open(); err != nil {
		return err
	}
	to, err := a.noted.once(q.Get("word"), func() (string, error) {
		return "/food", a.desk(func(ctx context.Context, d *follow.Desk) error {
			e, err := read(a, ctx, d, q)
			if err == nil {
				_, err = d.Book.Note(ctx, e)
			}
			return err
		})
	})
	if err != nil {
		return err
	}
	return a.to(to)
}

func (a *ask) noteLot() error   { return a.note((*ask).readLot) }
func (a *ask) noteBatch() error { return a.note((*ask).readBatch) }
func (a *ask) noteShip() error  { return a.note((*ask).readShip) }

func (a *ask) readLot(_ context.Context, d *follow.Desk, q url.Values) (e trace.Event, err error) {
	l := follow.Lot{Ingredient: q.Get("id"), Code: strings.TrimSpace(q.Get("code")), From: strings.TrimSpace(q.Get("from")), Order: strings.TrimSpace(q.Get("order"))}
	if l.Mass, err = a.massIn(q.Get("mass")); err != nil {
		return e, err
	}
	if l.Until, err = a.dayIn(q, "until"); err != nil {
		return e, err
	}
	if l.Day, err = a.dayIn(q, "on"); err != nil {
		return e, err
	}
	return d.Lot(l)
}

func (a *ask) readBatch(_ context.Context, d *follow.Desk, q url.Values) (e trace.Event, err error) {
	b := follow.Batch{ID: q.Get("id"), Code: strings.TrimSpace(q.Get("batch")), Why: strings.TrimSpace(q.Get("because"))}
	if b.Made, err = a.dayIn(q, "on"); err != nil {
		return e, err
	}
	if b.Mass, err = a.massIn(q.Get("mass")); err != nil {
		return e, err
	}
	if b.Pieces, err = countIn(q.Get("pieces")); err != nil {
		return e, err
	}
	use := func(id, field string) error {
		u := follow.Use{ID: id, Code: strings.TrimSpace(q.Get(field))}
		if u.Code == "" {
			return nil
		}
		if u.Mass, u.Pieces, err = a.amountIn(q.Get(field + "-amount")); err != nil {
			return err
		}
		b.Used = append(b.Used, u)
		return nil
	}
	for _, id := range d.Parts(b.ID) {
		if err := use(id, "part-"+id); err != nil {
			return e, err
		}
	}
	if err := use(q.Get("other"), "other-code"); err != nil {
		return e, err
	}
	return d.Batch(b)
}

// amountIn reads a mass, or a number of pieces; empty is not known.
func (a *ask) amountIn(text string) (m unit.Mass, n unit.Count, err error) {
	if n, err := unit.ParseCount(strings.TrimSpace(text)); err == nil {
		return 0, n, nil
	}
	m, err = a.massIn(text)
	return m, 0, err
}

func (a *ask) readShip(ctx context.Context, d *follow.Desk, q url.Values) (e trace.Event, err error) {
	s := follow.Ship{SSCCs: strings.Fields(strings.ReplaceAll(q.Get("sscc"), ",", " ")), To: q.Get("to"), Order: strings.TrimSpace(q.Get("order"))}
	if len(s.SSCCs) == 0 {
		return e, usage.Errorf("give the 18 digits under the bars", "which cartons?")
	}
	if s.Day, err = a.dayIn(q, "on"); err != nil {
		return e, err
	}
	return d.Ship(ctx, s)
}

// traced is what a trace found.
type traced struct {
	Code, Of string
	Way      string
	Report   *follow.Report
	Gone     []gone
	Here     []traceLine
	Batches  []traceLine
	Lots     []traceLine
}

// gone is what left for one customer.
type gone struct {
	To, Order, On string
	Things        []traceLine
}

// traceLine is one thing that was found.
type traceLine struct {
	Name         named
	Code, Amount string
	More         string // supplier, or batch, in the words of the book
	Until        string
}

// trace follows a code both ways or one: a lot or batch to the customers, a carton
// back to the lots.
func (a *ask) trace() error {
	if err := a.open(); err != nil {
		return err
	}
	q := a.r.URL.Query()
	out := traced{Code: strings.TrimSpace(q.Get("code")), Of: strings.TrimSpace(q.Get("of")), Way: q.Get("way")}
	if out.Code != "" {
		err := a.desk(func(ctx context.Context, d *follow.Desk) error {
			way, err := d.Way(ctx, out.Code, out.Of, out.Way == "back", out.Way == "forth")
			if err == nil {
				out.Report, err = d.Trace(ctx, out.Code, out.Of, way, a.Now)
			}
			return err
		})
		if err != nil {
			return err
		}
		a.tell(&out)
	}
	return a.show(http.StatusOK, "trace", a.W("trace"), out)
}

// tell says what was found.
func (a *ask) tell(out *traced) {
	r := out.Report
	for _, g := range r.Goods {
		one := gone{To: g.Customer, Order: g.Order, On: a.DateLong(unit.DateOf(g.At.In(a.Now().Location())))}
		for _, b := range g.Things {
			l := a.traceLine(b.Part)
			l.More, l.Until = b.Batch, a.day(b.Until)
			one.Things = append(one.Things, l)
		}
		out.Gone = append(out.Gone, one)
	}
	for _, p := range r.Here {
		out.Here = append(out.Here, a.traceLine(p))
	}
	for _, f := range r.Of(trace.Batch) {
		if f.Depth > 0 {
			out.Batches = append(out.Batches, a.traceLine(f.Part))
		}
	}
	for _, s := range r.Lots {
		l := a.traceLine(s.Part)
		l.More, l.Until = s.From, a.day(s.Until)
		out.Lots = append(out.Lots, l)
	}
}

func (a *ask) traceLine(p trace.Part) traceLine {
	l := traceLine{Name: a.nameOf(p.ID), Code: p.Code}
	switch {
	case p.Mass > 0:
		l.Amount = a.l.Mass(p.Mass)
	case p.Pieces > 0:
		l.Amount = a.C("pieces", int(p.Pieces))
	}
	return l
}
