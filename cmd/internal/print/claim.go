package print

import (
	"cmp"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/register"
	"chablon/labels/trace"
	"chablon/layout/page"
)

// Claim is the numbers of one run of paper that is ready for printing: SSCCs of
// cartons, or running numbers of sale labels.
type Claim struct {
	register.Print
	ssccs  []string
	at     diag.Pos      // where the numbers come from
	found  *diag.List    // of the job that bears them
	events []trace.Event // what is packed under the numbers
	dealt  bool          // its numbers are the next ones; nobody typed them
}

// claimsOf are the numbers that jobs need from the register, in their order. A
// draft is not for a carton that leaves the house, so it claims nothing.
func claimsOf(jobs []*Job) (out []Claim) {
	for _, j := range jobs {
		if !j.numbered() || j.Draft {
			continue
		}
		if j.load != nil {
			out = append(out, j.palletClaim())
			continue
		}
		asked := ""
		if j.Request.run != nil {
			asked = ofDay
		}
		out = append(out, Claim{dealt: j.Request.SSCCFrom == "" && j.Request.first == 0, ssccs: j.SSCCs, at: j.Number, found: j.Found, events: j.packed(j.Clock), Print: register.Print{
			Kind: j.Kind.Name, ID: j.ID, Version: fmt.Sprintf("v%d", j.Product.Version.V), Batch: j.Batch, Made: j.Facts.Made.String(),
			Series: j.numbersOf().Name, From: j.From, To: j.From + int64(j.Count) - 1, Count: int64(j.Count),
			Digest: j.digest(), At: j.Clock, Pack: j.Pack.ID.V, Market: code(j.Market), Langs: strings.Join(langCodes(j.Langs), ","),
			Paper: j.Stock.ID, Asked: asked, File: fileName([]*Job{j}) + j.As.ending()}})
	}
	slices.SortStableFunc(out, func(a, b Claim) int {
		return cmp.Or(strings.Compare(a.Series, b.Series), cmp.Compare(a.From, b.From))
	})
	return out
}

// ofDay is what asks for the paper of the day's plan, as the print book says it.
const ofDay = "day"

// numbered reports whether each piece bears a number that is given once.
func (j *Job) numbered() bool { return len(j.SSCCs) > 0 || j.Kind.Serial }

// numbersOf is the series that the numbers of a job are of.
func (j *Job) numbersOf() register.Series {
	if j.Kind.Serial {
		return register.Labels(j.ID, j.Batch)
	}
	return j.cartonSeries()
}

// extension is the first digit of every SSCC of the shop.
const extension = 0

// digest is the same for the same paper, wherever the printer puts it.
func (j *Job) digest() string {
	h := sha256.New()
	for _, pg := range j.set.Pages {
		h.Write([]byte(pg.Dump()))
	}
	last := j.pieces()
	if j.Kind.Serial {
		last = min(last, 1) // the others differ by their number alone
	}
	for n := 1; n <= last && len(j.set.Arts) > 0; n += j.copies() { // the same label on a second side is the same paper
		art := j.set.art(n)
		h.Write([]byte((&page.Page{W: art.W, H: art.H, Items: slices.Concat(art.Items, j.set.own(n))}).Dump()))
	}
	return fmt.Sprintf("%x", h.Sum(nil))
}

// unused looks every number up in the register, and gives the claims as they
// are to be made. A number that is on another carton is an error of the job
// that bears it, and so is one that is on the same carton, unless it never
// reached the disk; a shop without a register is a caution. The demo shop has
// none and ships nothing.
func (p *Press) unused(ctx context.Context, claims []Claim, found *diag.List) (_ []Claim, err error) {
	if len(claims) == 0 || p.Name == "" {
		return nil, nil
	}
	there := false
	err = p.reads(ctx, func(book keep.Books) error {
		there = true
		for rest := claims; len(rest) > 0; {
			n := 1
			for n < len(rest) && rest[n].Series == rest[0].Series {
				n++
			}
			if err := lookUpClaims(ctx, book, rest[:n]); err != nil {
				return err
			}
			rest = rest[n:]
		}
		return try(ctx, book, claims)
	})
	if err != nil {
		return nil, err
	}
	if !there && !p.begins() {
		p.noBook(claims, found)
		return nil, nil
	}
	for _, c := range claims {
		found.AddAll(c.found)
	}
	return claims, nil
}

// noBook cautions that numbers are given without a print book.
func (p *Press) noBook(claims []Claim, found *diag.List) {
	what, hint := "running numbers of labels begin anew with each command", "begin a print book, once, in the folder of the shop: chablon wall --begin"
	if slices.ContainsFunc(claims, func(c Claim) bool { return len(c.ssccs) > 0 }) {
		what = "the SSCCs are not compared with those of earlier days, and " + what
	}
	if p.came {
		hint = "chablon new DIR --demo writes the demo shop into a folder of your own; there begin a print book: chablon wall DIR --begin"
	}
	found.Warnf(p.Shop.Profile.GS1Prefix.Pos, "sscc", hint, "%s: this shop has no print book", what)
}

// try holds each claim against the whole book, which knows how many pieces there
// are, what a batch says, and what was withdrawn. What it refuses is a finding of
// the job, so that nothing else is left out for it.
func try(ctx context.Context, book keep.Books, claims []Claim) error {
	for _, c := range claims {
		if c.found.Errors() > 0 {
			continue
		}
		err := book.Try(ctx, []register.Print{c.Print}, c.events)
		var no *register.Error
		switch {
		case tooSlow(err):
			return quicker(err) // a moment ago the numbers were free
		case errors.As(err, &no) && refusal(no.Rule):
			c.found.Errorf(c.at, "print-book", no.Hint(), "%s of %s, batch %s: %v", c.Kind, c.ID, c.Batch, no)
		case err != nil:
			return err
		}
	}
	return nil
}

// tooSlow reports whether numbers that were free were given to somebody else.
func tooSlow(err error) bool {
	rule := register.RuleOf(err)
	return rule == register.Before || rule == register.Passed
}

func quicker(err error) error {
	return usage.Errorf("give the command again", "another program was quicker: %v; nothing was printed", err)
}

// refusal reports whether a rule is about what was asked for, and not about the
// machine.
func refusal(r register.Rule) bool {
	return slices.Contains([]register.Rule{register.Input, register.Before, register.Passed, register.NotTaken, register.Ended,
		register.Withdrawn, register.UsedUp}, r)
}

// lookUpClaims goes through the claims of one series in the order of their
// numbers. Those of labels are always the next ones.
func lookUpClaims(ctx context.Context, book register.Register, claims []Claim) error {
	series := claims[0].Series
	given, err := book.Taken(ctx, series)
	if err != nil {
		return err
	}
	done, err := book.Prints(ctx, register.Query{Series: series})
	if err != nil {
		return err
	}
	last := highestOf(given)
	for i := range claims {
		c := &claims[i]
		if running(series) {
			lookUpLabels(c, done)
			continue
		}
		before := slices.IndexFunc(done, func(d register.Print) bool { return d.Bears(c.Series, c.From, c.To) })
		switch {
		case c.dealt && c.Again == "" && (before >= 0 || c.From <= last): // they were free a moment ago
			return quicker(fmt.Errorf("SSCC %s is on a carton", c.ssccs[0]))
		case before >= 0:
			printedBefore(c, done[before], wroteAny(done, done[before]), last)
		case c.From < 1:
			c.found.Errorf(c.at, "sscc", "begin at 1", "a print book counts SSCCs from 1")
		case register.Covers(given, c.From, c.To): // taken once, and never printed
		case c.From <= last:
			c.found.Errorf(c.at, "sscc", fmt.Sprintf("begin at %d: a number left out does no harm, one used twice does", last+1),
				"SSCC %s was passed over: numbers up to %d have been given out", c.ssccs[0], last)
		default:
			last = c.To
		}
	}
	return nil
}

// lookUpLabels sees whether labels are those of a print that never reached the
// disk: then they are made once more.
func lookUpLabels(c *Claim, done []register.Print) {
	for _, d := range done {
		if c.Again == "" && d.Bears(c.Series, c.From, c.To) && !wroteAny(done, d) {
			c.Again = lostBefore
		}
	}
}

// lostBefore is why numbers are printed once more whose paper never was.
const lostBefore = "the first time it did not reach the disk"

// wroteAny reports whether any print of the same numbers reached the disk.
func wroteAny(done []register.Print, old register.Print) bool {
	return slices.ContainsFunc(done, func(d register.Print) bool { return d.Written && d.Bears(old.Series, old.From, old.To) })
}

// printedBefore says what to do when a number is on paper. The same labels may
// be printed once more; last is the highest number given so far.
func printedBefore(c *Claim, old register.Print, wrote bool, last int64) {
	day := old.At.Format(time.DateOnly)
	numbers := counted(int(old.Count), "carton", "cartons")
	switch {
	case old.Kind != c.Kind || old.ID != c.ID || old.Batch != c.Batch:
		c.found.Errorf(c.at, "sscc", fmt.Sprintf("begin at %d", last+1), "SSCC %s is already on a carton of %s, batch %s, printed on %s",
			c.ssccs[max(c.From, old.From)-c.From], old.ID, old.Batch, day)
	case old.From != c.From || old.To != c.To:
		c.found.Errorf(c.at, "sscc", fmt.Sprintf("for more cartons begin at %d; to print those once more, ask for %s from %d on", last+1, numbers, old.From),
			"SSCC %s is already on a carton of %s, batch %s, printed on %s", c.ssccs[max(c.From, old.From)-c.From], old.ID, old.Batch, day)
	case !wrote:
		c.Again, c.events = lostBefore, nil
	case old.Digest != c.Digest:
		c.found.Errorf(c.at, "sscc", fmt.Sprintf("throw the first labels away and begin at %d", last+1),
			"SSCC %s is on a carton of %s, batch %s, printed on %s, and the label has changed since", c.ssccs[0], old.ID, old.Batch, day)
	case c.Again == "":
		c.found.Errorf(c.at, "sscc", "to print one again: chablon again "+c.ssccs[0]+" --because WHY",
			"the labels of %s of %s, batch %s, from SSCC %s on, were printed on %s", numbers, c.ID, c.Batch, c.ssccs[0], day)
	}
}

// Save writes the papers of a batch into a folder, and gives their paths. All
// are brought to the disk without a name; then the numbers that they bear are
// claimed; and only then they get their names: a full disk costs no number, and
// no number is on two cartons. It is the only way in which paper gets onto the
// disk. tick, which may be nil, is called for each page.
func (p *Press) Save(ctx context.Context, disk keep.Disk, b Batch, dir string, tick func()) (paths []string, err error) {
	f, err := keep.OpenFolder(disk, dir)
	if err != nil {
		return nil, err
	}
	if tick == nil {
		tick = func() {}
	}
	var files []keep.File
	for _, q := range b.Papers {
		files = append(files, keep.File{Name: q.Name, Run: q.run, Stays: q.stays, Write: func(w io.Writer) error { return q.write(w, tick) }})
		paths = append(paths, f.Path(q.Name))
	}
	draft, err := f.Draft(b.set, files)
	if err != nil {
		return nil, err
	}
	draft.Drop(b.drop...)
	if err := p.end(ctx, b); err != nil {
		return nil, errors.Join(err, draft.Discard())
	}
	numbers, err := p.claim(ctx, disk, b.Claims)
	if err != nil {
		return nil, errors.Join(err, draft.Discard())
	}
	if err := draft.Name(); err != nil {
		return nil, err
	}
	return paths, p.wrote(ctx, numbers)
}

// end notes what became of numbers that are not wanted any more. Their files go
// only after it.
func (p *Press) end(ctx context.Context, b Batch) (err error) {
	if len(b.ends) == 0 {
		return nil
	}
	book, err := p.register(ctx, false)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	return book.EndWith(ctx, b.ends, b.undone)
}

// wrote notes that claimed papers have their final names: from now on they may
// be on cartons. Until then they are made once more as they were.
func (p *Press) wrote(ctx context.Context, numbers []int64) (err error) {
	if len(numbers) == 0 {
		return nil
	}
	book, err := p.register(ctx, false)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	return book.Wrote(ctx, numbers, p.Clock)
}

// claim takes the numbers of all claims and notes that they are printed, or none.
func (p *Press) claim(ctx context.Context, disk keep.Disk, claims []Claim) (numbers []int64, err error) {
	if len(claims) == 0 {
		return nil, nil
	}
	book, err := p.register(ctx, p.begins())
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	var all []register.Print
	var events []trace.Event
	for _, c := range claims {
		all, events = append(all, c.Print), append(events, c.events...)
	}
	if err := p.witnessed(ctx, book, claims); err != nil {
		return nil, err
	}
	done, err := book.ClaimWith(ctx, all, events)
	if tooSlow(err) {
		return nil, quicker(err)
	}
	if err != nil {
		return nil, err
	}
	seen := map[string]int64{}
	for i, c := range claims {
		numbers = append(numbers, done[i].Number)
		if c.Series != "" {
			seen[p.witnessOf(c.Series)] = max(seen[p.witnessOf(c.Series)], c.To)
		}
	}
	p.Unseen = errors.Join(p.Unseen, p.Witness.Saw(disk, seen, p.Name, p.Today.String()))
	return numbers, nil
}

// witnessed refuses new numbers of a book that knows less than was given on
// this machine: a copy, a backup put back, or a book begun anew.
func (p *Press) witnessed(ctx context.Context, book keep.Books, claims []Claim) error {
	for _, c := range claims {
		if c.Series == "" || c.Again != "" {
			continue
		}
		seen, err := p.Witness.Of(p.witnessOf(c.Series))
		if err != nil {
			return err
		}
		given, err := book.Taken(ctx, c.Series)
		if err != nil {
			return err
		}
		if c.From <= seen.Last && running(c.Series) && !register.Covers(given, c.From, c.To) {
			return usage.Errorf("give the command again", "labels up to number %d of %s, batch %s, were printed in %s in the meantime", seen.Last, c.ID, c.Batch, seen.Folder)
		}
		if c.From <= seen.Last && !register.Covers(given, c.From, c.To) {
			return usage.Errorf(fmt.Sprintf("go on in that folder; or put its print book back here; or, if neither is to be had, write carton-numbers: {from: %d} in shop.yaml", seen.Last+1),
				"this print book knows carton numbers up to %d, but numbers up to %d were given on this machine, in %s", highestOf(given), seen.Last, seen.Folder)
		}
	}
	return nil
}

func highestOf(given []register.Block) int64 {
	if len(given) == 0 {
		return 0
	}
	return given[len(given)-1].To
}

// Begin begins an empty register beside the shop, where none may be.
func (p *Press) Begin(ctx context.Context) error {
	if err := p.ownFolder(); err != nil {
		return err
	}
	book, err := keep.Begin(ctx, p.Name)
	if err != nil {
		return err
	}
	return book.Close()
}
