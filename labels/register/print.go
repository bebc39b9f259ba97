package register

import (
	"slices"
	"time"
)

// Print is something that was printed.
type Print struct {
	Number    int64     // given by [Register.Record], counted from 1
	Kind      string    // what it is: "label", "carton", "card"
	ID        string    // product or formula
	Version   string    // of what it was printed from
	CheckWord string    // where it bears one
	Batch     string    // batch code, or ""
	Made      string    // ISO 8601 day on which the batch was made, or ""
	Series    string    // name of the series that its numbers are of, or ""
	From, To  int64     // its numbers; 0 without a series
	Count     int64     // pieces of paper
	Digest    string    // of the printed pages
	Again     string    // why numbers are printed once more, such as "jam"; "" the first time
	At        time.Time // UTC, whole seconds
	Written   bool      // it reached the disk; set by [Register.Wrote]

	// What is needed to make it once more as it was.
	Pack, Market string
	Langs        string // codes with commas between them
	Paper        string // id of the stock

	Asked string // what asked for it: "day" for the plan of the day; "" for a command
	File  string // name of the file that it is in, without a folder
	Once  string // word of the asking that it came from, which prints once; "" where it may be asked again
}

// Clean is p as a register keeps it. The error is an [*Error].
func (p Print) Clean() (Print, error) {
	var f fields
	p.Number, p.Written = 0, false
	p.Kind, p.ID = f.must("what was printed", p.Kind), f.must("the product or formula", p.ID)
	p.Version, p.CheckWord = f.text("the version", p.Version), f.text("the check word", p.CheckWord)
	p.Batch, p.Made = f.text("the batch", p.Batch), f.day("the day of making", p.Made)
	p.Series, p.Again = f.text("the series", p.Series), f.text("the reason for printing again", p.Again)
	p.Digest = f.must("the digest of the pages", p.Digest)
	if p.Count < 1 {
		f.refuse("say how many were printed", "%d pieces of paper cannot be printed", p.Count)
	}
	if p.Series == "" && (p.From != 0 || p.To != 0) {
		f.refuse("say which series they are of", "numbers %d to %d are of no series", p.From, p.To)
	}
	if p.Series != "" && (p.From < 1 || p.To < p.From) {
		f.refuse("say the first and the last number", "numbers %d to %d cannot be printed", p.From, p.To)
	}
	p.Pack, p.Market = f.text("the pack", p.Pack), f.text("the market", p.Market)
	p.Langs, p.Paper = f.text("the languages", p.Langs), f.text("the paper", p.Paper)
	p.Asked, p.File, p.Once = f.text("what asked for it", p.Asked), f.text("the file", p.File), f.text("the word of the asking", p.Once)
	p.At = f.moment(p.At)
	return p, f.done()
}

// Bears reports whether p bears a number from one to another of the series.
func (p Print) Bears(series string, from, to int64) bool {
	return p.Series != "" && p.Series == series && p.From <= to && from <= p.To
}

// NotTakenError refuses a print of numbers that no one was given.
func (p Print) NotTakenError() *Error {
	return Refuse(NotTaken, "take them first, so that nobody else is given them",
		"numbers %d to %d of the series %s were not all taken from this print book", p.From, p.To, p.Series)
}

// BeforeError refuses a print of numbers that the print old bears.
func (p Print) BeforeError(old Print) *Error {
	return Refuse(Before, "take new numbers, or say why they are printed again and destroy the first ones",
		"numbers %d to %d of the series %s were printed before, on %s", max(p.From, old.From), min(p.To, old.To),
		p.Series, old.At.Format(time.DateOnly))
}

// TwiceError refuses what came of an asking that the print old came from.
func TwiceError(old Print) *Error {
	return Refuse(Twice, "look at what came of it; for more, ask anew", "this was asked for and printed already, on %s", old.At.Format(time.DateOnly))
}

// Askings lists the words of the askings that prints came from, each once.
func Askings(claims []Print) (out []string) {
	for _, p := range claims {
		if p.Once != "" && !slices.Contains(out, p.Once) {
			out = append(out, p.Once)
		}
	}
	return out
}

// NoPrintError refuses to note anything of a print that is not in the book.
func NoPrintError(number int64) *Error {
	return Refuse(Input, "look at the list of what was printed", "there is no print number %d", number)
}

// Query asks for prints; what is left empty matches all.
type Query struct {
	Kind, ID, Batch, Digest, Series, Once string

	Number int64 // with Series: a number that it bears
}

// Matches reports whether p is asked for.
func (q Query) Matches(p Print) bool {
	same := func(want, have string) bool { return want == "" || want == have }
	return same(q.Kind, p.Kind) && same(q.ID, p.ID) && same(q.Batch, p.Batch) && same(q.Digest, p.Digest) &&
		same(q.Series, p.Series) && same(q.Once, p.Once) && (q.Number == 0 || p.From <= q.Number && q.Number <= p.To)
}
