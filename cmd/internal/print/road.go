package print

import (
	"cmp"
	"context"
	"slices"
	"strings"
	"time"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/register"
	"chablon/labels/trace"
	"chablon/labels/words"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// Batch is what came of a request: finished papers, the numbers that they
// must claim before they are written ([Press.Save]), and all that was found.
// Where Found has errors there are no papers of what they touch.
type Batch struct {
	Papers    []Paper
	Claims    []Claim
	Found     *diag.List
	Left      []string // what the day's plan asks for and is left out, one line each
	Elsewhere int      // errors in the shop's files that touch nothing of it

	ends   []register.End // what becomes of numbers that are not wanted any more
	undone []trace.Event  // with them
	drop   []string       // files that go with them

	jobs []*Job // that its papers are of

	set string // what its files are all of: they take the place of older ones of the same
}

// Print makes the papers of a request. There is no other way to paper: look
// up, the languages of the market, approved or a draft with its mark, compose,
// preflight, claim. The error is a [usage.Error] or a fault of the machine.
func (p *Press) Print(k *Kind, r Request) (_ Batch, err error) {
	defer p.hold(&err)()
	if o, ok := r.Own.(*LabelOptions); ok && o != nil && o.Again != "" {
		return p.labelsAgain(k, r, *o)
	}
	b := Batch{Found: &diag.List{}}
	k = p.filled(k, r)
	if err := p.runs(context.Background(), b.Found); err != nil {
		return Batch{}, err
	}
	var jobs []*Job
	for _, id := range subjects(k, r) {
		j, err := p.make(k, r, id)
		if err != nil {
			return Batch{}, err
		}
		jobs = append(jobs, j)
		b.Found.AddAll(j.Found)
	}
	if b.Found.Errors() > 0 {
		b.Elsewhere = p.elsewhere(b.Found)
		return b, nil
	}
	claims, err := p.unused(context.Background(), claimsOf(jobs), b.Found)
	if err != nil || b.Found.Errors() > 0 {
		return b, err
	}
	if b.jobs, b.Claims, b.Papers = jobs, claims, papers(jobs); len(b.Papers) > 0 {
		b.set = b.Papers[0].run
	}
	for _, j := range jobs {
		b.Left = append(b.Left, j.left...)
		b.Found.AddAll(&j.unsound)
	}
	b.Elsewhere = p.elsewhere(b.Found)
	return b, nil
}

// subjects are the ids that a request is about; one that is empty where the
// kind is of no product and no formula.
func subjects(k *Kind, r Request) []string {
	if !k.ofID() || len(r.IDs) == 0 {
		return []string{""}
	}
	return r.IDs
}

// make takes a request about one thing down the road. What is wrong is in
// Found of the job; with errors there it must not become paper.
func (p *Press) make(k *Kind, r Request, id string) (*Job, error) {
	j, err := p.look(k, r, id)
	if err != nil || j.Found.Errors() > 0 {
		return j, err
	}
	for _, refuse := range []func() error{j.withdrawn, j.asUsual} {
		if err := refuse(); err != nil {
			return nil, err
		}
	}
	j.approved()
	if j.set, err = k.Compose(j); err != nil {
		return nil, err
	}
	if j.Found.Errors() == 0 && !r.compare {
		j.unfit()
		j.marked()
		j.preflight()
		err = j.picturable()
	}
	return j, err
}

// look goes as far as what is to be said, before anything is set.
func (p *Press) look(k *Kind, r Request, id string) (*Job, error) {
	p, err := p.meant(id, r.run, r.Batch, r.Made)
	if err != nil {
		return nil, err
	}
	j := &Job{Press: p.about(k, r, id), Kind: k, Request: r, ID: id, whole: p}
	p.ofRun(j.Found)
	if j.Found.Errors() > 0 && (p.Shop.Products[id] != nil || p.Shop.Formulas[id] != nil || id == "") {
		return j, nil // the shop's files are not sound enough to follow
	}
	if err := j.lookUp(); err != nil {
		return nil, err
	}
	if j.Product != nil && j.Found.Errors() == 0 {
		found := j.Found
		if k.Of == Made { // what is wrong with a label keeps no card from the bench
			found = &diag.List{}
		}
		j.Facts = declare.Of(j.Shop, j.Product, j.Pack, j.Market, j.Made, found)
		if k.sold() {
			j.Told = j.tell(j.Facts, j.Langs)
			if err := j.fill(); err != nil {
				return nil, err
			}
			j.speaks()
		}
	}
	return j, nil
}

// tell says facts in some languages.
func (p *Press) tell(f *declare.Facts, langs []*words.Lang) (out []*words.Label) {
	for _, l := range langs {
		out = append(out, words.Tell(f, p.Shop, l, p.Found))
	}
	return out
}

// speaks finds languages that the market asks for and the paper lacks.
func (j *Job) speaks() {
	asked, ok := j.spoken()
	if !ok {
		return
	}
	var have []string
	for _, lang := range j.Langs {
		have = append(have, lang.Code())
	}
	lacking := asked.Lacking(have)
	if len(lacking) == 0 {
		return
	}
	how := "one of "
	if asked.Join == market.Each {
		how = ""
	}
	j.Found.Errorf(j.Pack.Pos, "language", "name them under languages of the pack, or with --languages",
		"a %s for %s must speak %s%s (%s)", j.Kind.One, code(j.Market), how, strings.Join(lacking, ", "), asked.Cite)
}

// spoken are the languages that the law asks for; false where none does. Of food
// that is sold loose or packed where it is sold, the country decides.
func (j *Job) spoken() (market.Languages, bool) {
	if s := j.asPack().Sale; j.Market.National != nil && (s == market.Loose || s == market.Direct) {
		return j.Market.National.Languages, j.Kind.Speaks != Kitchen
	}
	return j.Market.Languages, j.Kind.Speaks == Market
}

// approved sees whether somebody stands by what goes with food to a buyer.
func (j *Job) approved() {
	if !j.Kind.sold() || j.Request.compare {
		return
	}
	if j.Facts == nil {
		j.Found.Errorf(j.at(), "not-approved", "print it of a product", "nobody can approve what %s says", j.what())
		return
	}
	j.Draft = j.forSale(j.Facts, j.Request.Draft)
	for _, in := range j.Inside {
		j.Draft = j.forSale(in.Facts, j.Request.Draft) || j.Draft
	}
	j.Demo = j.demo(j.Product)
	j.lapsed()
	j.before()
}

// marked puts the mark of a draft behind everything that was set.
func (j *Job) marked() {
	var word string
	switch {
	case j.Draft:
		word = j.markWord("sheet.draft", "DRAFT")
	case j.Demo:
		word = j.markWord("sheet.demo", "DEMO")
	default:
		return
	}
	for _, art := range j.set.Arts {
		art.Items = slices.Concat(draftRows(j.faces.Bold, j.safe(art.Area()), word, j.Why, j.at()), art.Items)
	}
	for _, pg := range j.set.Pages {
		pg.Items = slices.Concat(draftRows(j.faces.Bold, j.safe(pg.Area()), word, j.Why, j.at()), pg.Items)
	}
}

// safe is where marks may lie on a page or a piece.
func (j *Job) safe(all page.Rect) page.Rect {
	if j.set.Safe != (page.Rect{}) {
		return j.set.Safe
	}
	return all.Inset(j.Stock.Safe.V)
}

// preflight checks every page, every piece, and how the first sheet lies.
func (j *Job) preflight() {
	for _, pg := range j.set.Pages {
		preflight.Label(j.rules(pg.Area()), pg.All(), j.Found)
	}
	for pg := range j.moved(0, len(j.set.Pages)) {
		preflight.OnPaper(j.rules(pg.Area()), pg, j.Found)
	}
	if len(j.set.Arts) == 0 {
		return
	}
	for n := 1; n <= j.pieces(); n++ {
		art, own := j.set.art(n), j.set.own(n)
		rules := j.rules(art.Area())
		if n == 1 || len(j.set.Arts) > 1 || slices.ContainsFunc(own, func(it page.Item) bool { return it.Symbol != nil }) {
			preflight.Label(rules, slices.Concat(art.Items, own), j.Found)
		} else {
			preflight.Own(rules, art.Items, own, j.Found)
		}
	}
	for pg := range dealt([]*Job{j}).Pages(0, 2) { // a part-used sheet and a whole one
		preflight.Placed(j.rules(j.set.Arts[0].Area()), pg, j.Found)
	}
}

// pieces is how many pieces were set.
func (j *Job) pieces() int { return max(j.Count*j.copies(), len(j.set.Arts)) }

// copies is how often each thing bears the same piece.
func (j *Job) copies() int { return max(1, j.set.Copies) }

// rules is what a finished page or piece is checked against.
func (j *Job) rules(all page.Rect) preflight.Sheet {
	s := preflight.Sheet{What: j.what(), Src: j.at(), Safe: j.safe(all), Use: cmp.Or(j.Kind.Scan, gs1.Retail), Heights: j.set.Heights, Today: j.Today, Date: j.set.Date, Dots: j.Printer.Resolution.V,
		Area: all, Thermal: j.Stock.Kind.V == "roll", Tint: preflight.Tint{Lightness: int64(j.Stock.Tint.V), Hue: j.Stock.Hue.V}}
	if !j.Kind.sold() {
		return s
	}
	s.Market, s.Pack = j.Market, j.asPack()
	if s.Date.IsZero() {
		s.Date = j.Facts.Date.End
	}
	s.Counter, s.Front = j.atTheScale(), j.front()
	s.Mark, s.Months = j.set.Scan != "", months(j.Langs)
	return s
}

// atTheScale is what is known of a label that is printed at the counter's scale.
func (j *Job) atTheScale() *preflight.Counter {
	if j.Kind.Name != "label" || j.Pack == nil || !j.Pack.Item.Set() {
		return nil
	}
	n, err := gs1.ParseCounterNumber(j.Shop.Profile.CounterNumber.V)
	if err != nil {
		return nil // a fault of the shop's files, which keeps the label back
	}
	return &preflight.Counter{Number: n, PerKilo: j.Pack.PerKilo.V}
}

// months are the words for the months in some languages, by number.
func months(langs []*words.Lang) map[int][]string {
	out := map[int][]string{}
	for m := time.January; m <= time.December; m++ {
		for _, l := range langs {
			out[int(m)] = append(out[int(m)], l.MonthOf(m))
		}
	}
	return out
}

// marketPack is the pack as the market's rules see it.
func marketPack(j *Job) market.Pack { return j.Facts.AsPack() }
