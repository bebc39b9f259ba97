package print

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/notice"
)

// Recalled is what buyers are told of one withdrawal.
type Recalled struct {
	Of        trace.Thing
	Languages []string // those of the labels when left out
	Paper     string

	stopped []trace.Event
	foods   []recalled
}

// recalled is one batch of a product that is withdrawn.
type recalled struct {
	product *shop.Product
	trace.Made
}

// noticeKind is the notice for the shop's door. It goes with no food, and
// nobody signs it beforehand: a recall cannot wait. What it says of the food it
// takes from the label's own road where that is sound, and from the print book
// where it is not.
func noticeKind() *Kind {
	return &Kind{
		Name: "notice", File: "notice", One: "recall notice", Many: "recall notices",
		Next:   "Have a competent person read it before it hangs. Whom else to tell, and how soon, local law and the authority decide.",
		Inside: true,
		Of:     Shop, Speaks: Kitchen, Form: "card",
		Tells: func(j *Job) []string {
			if j.Request.recalled == nil {
				return nil
			}
			return []string{coded(j.Request.recalled.Of.Code)}
		},
		Compose: composeNotice,
	}
}

func composeNotice(j *Job) (Set, error) {
	q := j.Request.recalled
	if q == nil {
		return Set{}, nil // nothing is recalled
	}
	s := notice.Sheet{Shop: j.Shop, Langs: j.Langs, Day: j.Today, Why: map[string]string{}, Contact: j.contact(), Stock: j.Stock, Dots: j.Printer.Resolution.V}
	r := reasonOf(q.stopped)
	for _, l := range j.Langs {
		s.Why[l.Code()] = reasonIn(r, l)
	}
	for _, f := range q.foods {
		s.Foods = append(s.Foods, notice.Food{Product: f.product, Batch: f.Code, Dates: j.datesOf(f)})
	}
	return Set{Pages: notice.Compose(s, j.faces, j.Found), Heights: notice.Heights()}, nil
}

// datesOf is the date on the packs of a batch, by language: as its label says
// it, or else the day that the print book has.
func (j *Job) datesOf(f recalled) map[string]string {
	out := map[string]string{}
	if len(f.product.Packs) > 0 {
		all := ofPacks(f.Made, f.product, f.product.Packs[0].ID.V)
		l := linked{Made: f.Made, product: f.product, pack: &f.product.Packs[0]}
		if len(all) > 0 {
			l = all[0]
		}
		l.day, _ = unit.ParseDate(f.Day)
		if label, why, err := j.whole.labelOf(l); err == nil && why == "" {
			for _, t := range label.tell(label.Facts, j.Langs) {
				out[t.Lang] = t.Date.Text
			}
			return out
		}
	}
	day, err := unit.ParseDate(f.Until)
	kind := j.DateKind(f.ID)
	if err != nil || kind == "none" {
		return out
	}
	for _, l := range j.Langs {
		if s, err := l.Fill("date."+kind, map[string]string{"date": l.Date(day, words.Day)}); err == nil {
			out[l.Code()] = s
		}
	}
	return out
}

// Notice makes the notice of a withdrawal. It is refused where nothing is
// withdrawn, where nothing that is sold is made of it, and where a language
// lacks the reason, which consumers are to be told (Reg. (EC) No 178/2002 Art.
// 19(1)).
func (p *Press) Notice(ctx context.Context, q Recalled) (Batch, error) {
	if len(q.Languages) == 0 {
		for _, l := range p.Shop.Profile.LabelLanguages {
			q.Languages = append(q.Languages, l.V)
		}
	}
	err := p.reads(ctx, func(book keep.Books) (err error) {
		if q.stopped, err = book.With(ctx, trace.In, []trace.Thing{q.Of}, trace.Withdraw); err != nil {
			return err
		}
		q.foods, err = p.recalledOf(ctx, book, q.Of)
		return err
	})
	if err != nil {
		return Batch{}, err
	}
	if err := q.sound(); err != nil {
		return Batch{}, err
	}
	return p.Print(p.KindOf("notice"), Request{Languages: q.Languages, Paper: q.Paper, recalled: &q})
}

// recalledOf are the batches of products that a thing went into, itself among
// them.
func (p *Press) recalledOf(ctx context.Context, book trace.Book, of trace.Thing) (out []recalled, err error) {
	tree, err := trace.Walk(ctx, book, of, trace.Forth)
	if err != nil {
		return nil, err
	}
	found := map[trace.Thing]bool{}
	for _, f := range tree.Of(trace.Batch) {
		found[f.Thing] = true
	}
	made, err := trace.Batches(ctx, book)
	for _, m := range made {
		if q := p.Shop.Products[m.ID]; q != nil && found[m.Thing] && len(q.Packs) > 0 {
			out = append(out, recalled{q, m})
		}
	}
	slices.SortStableFunc(out, func(a, b recalled) int { return strings.Compare(a.ID+" "+a.Code, b.ID+" "+b.Code) })
	return out, err
}

// sound refuses a notice that would not say what it must.
func (q *Recalled) sound() error {
	switch {
	case len(q.stopped) == 0:
		return usage.Errorf("withdraw it first: chablon recall "+q.Of.Code+" --because WHY", "%s is not withdrawn", q.Of)
	case len(q.foods) == 0:
		return usage.Errorf("look at chablon trace "+q.Of.Code, "nothing that is sold in packs was noted as made of %s", q.Of)
	}
	r := reasonOf(q.stopped)
	for _, code := range q.Languages {
		if l, ok := words.Get(code); ok && l.Has("sheet") && reasonIn(r, l) == "" {
			return usage.Errorf(fmt.Sprintf("say it: chablon recall %s --tell \"%s=...\"; or name the languages with --languages", q.Of.Code, code),
				"the reason for the recall of %s is not said in %s", q.Of, l.Name())
		}
	}
	return nil
}
