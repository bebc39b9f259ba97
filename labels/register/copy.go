package register

import (
	"cmp"
	"slices"
	"strings"
	"time"
)

// Copy is one card that hangs somewhere, or hung.
type Copy struct {
	Number    int64     // given by [Register.Post], counted from 1
	ID        string    // product or formula
	Version   string    // as printed on it
	Issued    string    // ISO 8601 day as printed on it, or ""
	CheckWord string    // as printed on it
	Size      string    // the batch it is for, such as "48 pieces"
	N, Of     int       // copy n of m
	Place     string    // where it hangs
	Paper     string    // id of its stock
	Langs     []string  // codes of its languages, in order
	At        time.Time // when it was hung up: UTC, whole seconds
	Down      time.Time // when it was taken down; zero while it hangs
	By        int64     // number of the copy that took its place, or 0
}

// Hangs reports whether the copy has not been taken down.
func (c Copy) Hangs() bool { return c.Down.IsZero() }

// Clean is c as a register keeps it: single spaces, UTC, and nothing set that
// Post sets. The error is an [*Error].
func (c Copy) Clean() (Copy, error) {
	var f fields
	c.Number, c.Down, c.By = 0, time.Time{}, 0
	c.ID, c.Version = f.must("the card", c.ID), f.must("the version", c.Version)
	c.CheckWord = f.must("the check word", c.CheckWord)
	c.Issued = f.day("the day of issue", c.Issued)
	c.Place = f.must("where the card hangs", c.Place)
	c.Size, c.Paper = f.text("the batch size", c.Size), f.text("the paper", c.Paper)
	c.Langs = f.words("a language", c.Langs)
	if c.N < 1 || c.Of < c.N {
		f.refuse("write copy and copies like 2 of 3", "copy %d of %d cannot be", c.N, c.Of)
	}
	c.At = f.moment(c.At)
	return c, f.done()
}

// SameAs reports whether a new copy c takes the place of d: the same copy
// number of the same card for the same batch size, on the same paper, in the
// same languages, at the same place. Anything less alike may still be hanging
// beside it, and a card that hangs unknown to the register is the danger.
func (c Copy) SameAs(d Copy) bool {
	return c.Beside(d) && c.Size == d.Size && c.Paper == d.Paper && c.N == d.N && slices.Equal(c.Langs, d.Langs)
}

// Beside reports whether c and d are of one card and hang at one place.
func (c Copy) Beside(d Copy) bool { return c.ID == d.ID && c.Place == d.Place }

// Posting is what came of posting a copy.
type Posting struct {
	Copy     Copy   // as kept, with its number
	Replaced []Copy // noted as taken down: take them down
	Beside   []Copy // other copies of the card noted at the same place
}

// CompareCopies orders copies as one walks through the kitchen: by place, card
// and number.
func CompareCopies(a, b Copy) int {
	return cmp.Or(strings.Compare(a.Place, b.Place), strings.Compare(a.ID, b.ID), cmp.Compare(a.Number, b.Number))
}

// SortCopies puts copies in the order of [CompareCopies].
func SortCopies(all []Copy) { slices.SortFunc(all, CompareCopies) }

// Current is what a copy printed today would show.
type Current struct{ Version, CheckWord string }

// Stale is a copy that must come down.
type Stale struct {
	Copy Copy
	Now  Current
	Gone bool // the card is no longer made; Now is empty
}

// OutOfDate lists the copies whose version or check word is not the current
// one. current says what a copy of the same card, size, paper and languages
// would show today, and false when there is no such card any more.
func OutOfDate(posted []Copy, current func(Copy) (Current, bool)) []Stale {
	var out []Stale
	for _, c := range posted {
		if !c.Hangs() {
			continue
		}
		now, ok := current(c)
		if !ok {
			out = append(out, Stale{Copy: c, Gone: true})
		} else if now != (Current{c.Version, c.CheckWord}) {
			out = append(out, Stale{Copy: c, Now: now})
		}
	}
	return out
}
