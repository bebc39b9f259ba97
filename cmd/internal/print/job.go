package print

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/register"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/carton"
	"chablon/layout/page"
	"chablon/layout/pallet"
	"chablon/layout/pdf"
	"chablon/layout/stock"
)

// Job is one paper under way: a request about one product, formula or plan,
// with everything looked up that it names. Its Found holds what is wrong in the
// shop's files and touches it, and what is found on the way.
type Job struct {
	*Press
	Kind    *Kind
	Request Request
	ID      string // of the product or formula; "" where it is of neither

	Product *shop.Product
	Formula *shop.Formula
	Pack    *shop.Pack
	Market  *market.Market
	Plan    *shop.Plan
	To      *shop.Customer // that it is packed for; nil for nobody in particular
	Langs   []*words.Lang
	Stock   *stock.Stock
	Printer shop.Printer
	Facts   *declare.Facts // of a product
	Told    []*words.Label // what is said of it in each language, where it is sold
	Count   int            // pieces, 1 at least
	Made    unit.Date
	Batch   string
	Batched diag.Pos // where the batch code comes from
	SSCCs   []string // one for each piece, or none
	From    int64    // serial reference or running number of the first
	Number  diag.Pos // where the numbers come from
	Inside  []Inside // what else is in each of its cartons
	Draft   bool     // bears the mark of a draft
	Why     []string // it stays one though somebody approved it, in few words
	// Accepted are places in the law that nobody here has read and a person in the
	// shop signed for.
	Accepted []Accepted
	more     bool             // others of its batch have numbers already
	had      []register.Print // of a run of the plan: printed before
	quiet    bool             // all of it was printed before, nothing is now
	Demo     bool             // bears the mark of an invented shop

	gave    string         // what of the shop's look gave way to the words
	load    *pallet.Pallet // the cartons of a pallet
	boxes   []trace.Part   // the same, as the trace names them
	set     Set
	whole   *Press    // with all that is wrong in the shop's files
	left    []string  // runs of the plan that are left out
	unsound diag.List // what is wrong with them
}

// Set is what a composer has set: whole pages, or pieces that are dealt out to
// the places of a stock.
type Set struct {
	Pages []*page.Page
	// Arts are pieces, one artwork for each, or one for all of them.
	Arts []*page.Art
	Own  func(n int) []page.Item // marks of piece n alone, counted from 1; nil for none
	// Copies is how often each thing that is labelled bears the same piece; once
	// when left out.
	Copies int

	Safe    page.Rect                 // where marks may lie; all within the stock's margin when left out
	Heights map[role.Role]unit.Length // least x-heights where no law asks
	Date    unit.Date                 // the last day printed on it; that of the facts when left out
	Scan    string                    // what a scanner must show of the batch mark of piece 1; "" where none is borne
	Keys    map[string][]string       // words from memory used beside Told, keys of the language files by language

	made [][]page.Item // own marks, by piece
}

// art is the artwork of piece n, counted from 1.
func (s *Set) art(n int) *page.Art { return s.Arts[min(n, len(s.Arts))-1] }

// own are the marks of piece n alone. They are asked for twice, for checking and
// for drawing, and a mark that carries a number is dear to make: it is kept.
func (s *Set) own(n int) []page.Item {
	switch {
	case s.Own == nil:
		return nil
	case n < 1 || n > mostKept:
		return s.Own(n)
	}
	for len(s.made) < n {
		s.made = append(s.made, nil)
	}
	if s.made[n-1] == nil {
		s.made[n-1] = s.Own(n)
	}
	return s.made[n-1]
}

// mostKept is how many pieces' own marks are kept, some 2 KB each: those of one
// file.
const mostKept = pdf.MaxPages

// lookUp finds all that the request names, and fills in what is usual.
func (j *Job) lookUp() error {
	for _, look := range []func() error{j.subject, j.pack, j.weighed, j.customer, j.loaded, j.languages, j.paper, j.batch, j.count, j.numbers} {
		if err := look(); err != nil {
			return err
		}
	}
	return nil
}

// subject finds the product, formula or plan.
func (j *Job) subject() error {
	k := j.Kind
	if k.ofProduct() {
		j.Product = j.Shop.Products[j.ID]
	}
	if k.Of == Formula || k.Of == Made {
		j.Formula = j.Shop.Formulas[j.ID]
	}
	if k.ofID() && j.Product == nil && j.Formula == nil {
		what := map[Of]string{Product: "product", Products: "product", Formula: "formula", Made: "formula or product"}[k.Of]
		return usage.Unknown(what, j.ID, k.IDs(j.Press))
	}
	if k.ofID() && k.Has != nil {
		if err := k.Has(j.Press, j.ID); err != nil {
			return err
		}
	}
	if k.Of != Plan {
		return nil
	}
	plan := j.Request.plan
	if plan == nil {
		var err error
		if plan, err = j.plan(); err != nil {
			return err
		}
	}
	j.Plan = j.sound(plan)
	return nil
}

// sound is a plan without the runs that a fault of the shop's files touches;
// each of them is noted as left out.
func (j *Job) sound(plan *shop.Plan) *shop.Plan {
	out := *plan
	out.Runs = nil
	for i := range plan.Runs {
		r := &plan.Runs[i]
		found := j.whole.touchesRun(r)
		if found.Errors() == 0 {
			out.Runs = append(out.Runs, *r)
			continue
		}
		one := &dayRun{run: r, found: &diag.List{}}
		one.leave(j.Kind.One, found)
		j.left = append(j.left, one.tell()...)
		j.unsound.AddAll(found)
	}
	return &out
}

// pack finds the pack that the product is in, and the market it is offered in.
func (j *Job) pack() (err error) {
	if j.Product == nil {
		return nil
	}
	id := j.Request.Pack
	if packs := j.Kind.packs(j.Product); id == "" && len(packs) > 0 {
		id = packs[0]
	}
	if j.Pack, err = pack(j.Product, id); err != nil {
		return err
	}
	j.Market, err = j.market(j.Request.Market)
	return err
}

// packs lists the packs that the kind is of.
func (k *Kind) packs(q *shop.Product) []string {
	if k.Packs != nil {
		return k.Packs(q)
	}
	return q.PackIDs()
}

// languages finds the languages asked for, or the usual ones.
func (j *Job) languages() (err error) {
	k, codes := j.Kind, j.Request.Languages
	if len(codes) == 0 {
		codes = j.usualLanguages()
	}
	if j.Langs, err = languages(codes, nil); err != nil {
		return err
	}
	if k.Speaks != Kitchen && j.Market != nil {
		if err := asSpoken(j.Langs, j.Market.Code); err != nil {
			return err
		}
	}
	switch {
	case k.Langs > 0 && len(j.Langs) > k.Langs:
		return usage.Errorf("print it again for the others", "a %s speaks at most %s", k.One, counted(k.Langs, "language", "languages"))
	case len(j.Langs) == 0:
		return usage.Errorf("name one under card-languages in shop.yaml", "%s names no language for a %s", j.Title(), k.One)
	}
	return nil
}

// asSpoken puts the languages as a market speaks them in their place: with the
// words of its law, and the form that its region gives to numbers.
func asSpoken(langs []*words.Lang, market string) (err error) {
	for i, l := range langs {
		if langs[i], err = l.For(market); err != nil {
			return err
		}
	}
	return nil
}

// usualLanguages are those that the paper speaks unasked.
func (j *Job) usualLanguages() (out []string) {
	k, usual := j.Kind, j.Shop.Profile.CardLanguages
	if k.Speaks != Kitchen && j.Pack != nil {
		usual = j.Shop.LanguagesOf(j.Pack)
	}
	if j.To != nil && len(j.To.Languages) > 0 {
		usual = j.To.Languages
	}
	if k.Usual > 0 {
		usual = usual[:min(k.Usual, len(usual))]
	}
	for _, l := range usual {
		out = append(out, l.V)
	}
	return out
}

// usualPaper is the stock that it is printed on unasked.
func (j *Job) usualPaper() string {
	if j.Kind.Paper == nil {
		return "card-a4"
	}
	return j.Kind.Paper(j)
}

// paper finds the stock asked for, or the usual one, and its printer.
func (j *Job) paper() (err error) {
	if j.Stock, j.Printer, err = j.Press.stock(j.Request.Paper, j.usualPaper()); err != nil {
		return j.meantPaper(j.Request.Paper, err)
	}
	if f := j.Kind.Form; f != "" && j.Stock.Kind.V != f {
		return usage.Errorf("take one of "+strings.Join(j.Press.papers(j.Kind), ", "), "a %s cannot be printed on %s", j.Kind.One, j.Stock.ID)
	}
	return nil
}

// meantPaper proposes papers that this kind is printed on: of a card "a4" means
// card-a4, and never a sheet of labels.
func (j *Job) meantPaper(id string, err error) error {
	k, fit := j.Kind, j.Press.papers(j.Kind)
	if id == "" || len(fit) == 0 || j.Press.shelf.Broken(id) {
		return err
	}
	if i := slices.Index(fit, k.Form+"-"+id); i >= 0 {
		return usage.Errorf("did you mean "+fit[i]+"?", "there is no paper %q", id)
	}
	if sheets := slices.DeleteFunc(slices.Clone(fit), func(f string) bool { return !strings.HasPrefix(f, id+"-") }); len(sheets) > 0 {
		return usage.Errorf("did you mean "+strings.Join(sheets, ", ")+"?", "there is no paper %q", id)
	}
	return usage.Unknown("paper", id, fit)
}

// papers lists the papers that a kind may be printed on.
func (p *Press) papers(k *Kind) (out []string) {
	for _, id := range p.shelf.IDs() {
		if s, ok := p.shelf.Get(id); ok && (s.Kind.V == k.Form || k.Form == "" && s.Kind.V != "card") {
			out = append(out, id)
		}
	}
	return out
}

// batch finds the day made and the batch code.
func (j *Job) batch() error {
	if j.Made = j.Request.Made; j.Made.IsZero() {
		j.Made = j.Today
	}
	if err := j.madeBy(j.Made); err != nil {
		return err
	}
	if err := soundBatch(j.Request.Batch); err != nil {
		return err
	}
	var run shop.Run
	if j.Request.run != nil {
		run, j.Batched = *j.Request.run, j.Request.run.Pos
	}
	if j.Batch = j.Request.Batch; j.Batch == "" {
		j.Batch = j.Shop.BatchCode(run, j.Made)
		if !j.Batched.Known() {
			j.Batched = j.Shop.Profile.BatchCode.Pos
		}
	}
	return nil
}

// count bounds the number of pieces, and the places of the first sheet.
func (j *Job) count() error {
	j.Count = int(max(1, j.Request.Count))
	if most := max(1, j.Kind.Most); j.Count > most {
		return usage.Errorf(fmt.Sprintf("print at most %d in one run", most), "%d %s are too many for one run", j.Count, j.Kind.Many)
	}
	return places(j.Stock, j.Request)
}

// numbers makes the SSCCs of the pieces, from the company prefix and the serial
// reference of the first: the one that was asked for, or the next one that the
// print book has.
func (j *Job) numbers() (err error) {
	from, given := j.Request.SSCCFrom, j.Shop.Profile.CartonNumbers
	switch {
	case j.Kind.Serial:
		return j.serials()
	case !j.Kind.SSCC:
		return nil
	case from != "":
		if j.Request.run != nil {
			j.Number = j.Request.run.SSCCFrom.Pos
		}
		if j.From, err = strconv.ParseInt(from, 10, 64); err != nil || j.From < 0 || strings.Trim(from, "0123456789") != "" {
			return usage.Errorf("write digits only", "%q is not a serial reference", from)
		}
	case given != nil:
		j.Number = given.From.Pos
		if j.From, err = j.Press.next.take(j.Press, j.cartonSeries(), j.Count); err != nil {
			return err
		}
	default:
		if p := j.Shop.Profile.GS1Prefix; p.Set() && !j.Request.compare {
			j.Found.Errorf(p.Pos, "sscc", "write carton-numbers: {from: 1} below it, with the first number that is on no carton yet", "nothing says which numbers (SSCC) cartons get")
		}
		return nil
	}
	done, err := j.printedOf(context.Background(), j.Kind, j.ID, j.Batch)
	if err != nil {
		return err
	}
	j.more = slices.ContainsFunc(done, func(d register.Print) bool { return d.From != j.From })
	prefix := j.Shop.Profile.GS1Prefix
	if j.SSCCs, err = carton.Numbers(prefix.V, j.From, j.Count); err != nil {
		j.Found.Errorf(prefix.Pos, "sscc", "look at gs1-prefix and the serial reference", "no SSCC can be made: %v", err)
	}
	return nil
}

// serials deals the running numbers of the pieces: the next ones of the batch.
func (j *Job) serials() (err error) {
	j.Number, j.From = j.Pack.Pos, 1
	switch {
	case j.Request.first > 0:
		j.From = j.Request.first
	case !j.Request.compare:
		j.From, err = j.Press.next.take(j.Press, j.numbersOf(), j.Count)
	}
	return err
}

// withdrawn refuses paper of a batch that was withdrawn, or is made of what was.
func (j *Job) withdrawn() error {
	bound := j.Kind.Bears != NoBatch || j.Kind.SSCC || j.Kind.Serial
	if !bound || j.ID == "" || j.Request.compare {
		return nil
	}
	ctx := context.Background()
	return j.reads(ctx, func(book keep.Books) error {
		err := trace.Free(ctx, book, j.batchThing())
		var no *register.Error
		if errors.As(err, &no) && no.Rule == register.Withdrawn {
			j.Found.Errorf(j.at(), "withdrawn", no.Hint(), "nothing is printed of batch %s of %s: %v", j.Batch, j.ID, no)
			return nil
		}
		return err
	})
}

// at is the place of what the job is about.
func (j *Job) at() diag.Pos {
	switch {
	case j.Product != nil:
		return j.Product.Pos
	case j.Formula != nil:
		return j.Formula.Pos
	case j.Plan != nil:
		return j.Plan.Pos
	}
	return j.Shop.Profile.Pos
}

// what is the paper in a message: "the label of pear-hazelnut-tartlet".
func (j *Job) what() string {
	if j.ID == "" {
		return "the " + j.Kind.One
	}
	return "the " + j.Kind.One + " of " + j.ID
}
