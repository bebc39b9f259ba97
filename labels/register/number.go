package register

import (
	"fmt"
	"math"
	"time"
)

// Series is a row of numbers from which each is given once. Two series with
// the same name are the same series.
type Series struct {
	Name string

	// First is the least number wanted. A series that goes on above it is not
	// disturbed; one that has not reached it jumps there, leaving a gap. It is
	// needed to begin a series; 0 goes on with one that was begun.
	First int64

	// Last is the last number that there is; 0 for no end.
	Last int64
}

// SSCC is the series of serial references for one extension digit (0 to 9) and
// GS1 company prefix; their digits together are 16 (GS1 General
// Specifications, 3.2: AI 00), so a longer prefix leaves fewer numbers. GS1
// allows a number to be used again after a year; a register never does. First
// is not set: whoever begins the series knows which numbers are on paper.
func SSCC(extension int, prefix string) Series {
	last := int64(1)
	for range 16 - len(prefix) {
		last *= 10
	}
	return Series{Name: fmt.Sprintf("sscc/%d/%s", extension, prefix), Last: max(1, last-1)}
}

// Labels is the series of running numbers on the sale labels of one batch of a
// product, from 1, whichever pack they are on: product, batch and number name
// one label.
func Labels(product, batch string) Series {
	return Series{Name: "label/" + product + "/" + batch, First: 1}
}

// Want asks for N numbers of a series; For says what they are for.
type Want struct {
	Series Series
	N      int64
	At     time.Time
	For    string
}

// most is how many numbers one call may take: more is a slip of the finger.
const most = 100_000_000

// Clean is w as a register keeps it. The error is an [*Error].
func (w Want) Clean() (Want, error) {
	var f fields
	w.Series.Name = f.must("the series", w.Series.Name)
	w.For = f.text("what the numbers are for", w.For)
	if w.N < 1 || w.N > most {
		f.refuse(fmt.Sprintf("take between 1 and %d", most), "%d numbers cannot be taken at once", w.N)
	}
	if w.Series.First < 0 || w.Series.Last < 0 {
		f.refuse("give numbers from 1 on", "a series runs from 1 on, not from %d to %d", w.Series.First, w.Series.Last)
	}
	w.At = f.moment(w.At)
	return w, f.done()
}

// Block is numbers given together, From to To.
type Block struct {
	Series   string
	From, To int64
	At       time.Time
	For      string
}

// Next is the block that w, being clean, gets when last is the highest number
// given of its series, or 0 when there is none. The error is an [*Error]. It is
// the one rule of giving numbers, for all implementations.
func (w Want) Next(last int64) (Block, error) {
	s := w.Series
	end := s.Last
	if end == 0 {
		end = math.MaxInt64
	}
	if last == 0 && s.First == 0 {
		return Block{}, Refuse(NotBegun, "say the first number, above all that are on paper already",
			"no number of the series %s was ever given", s.Name)
	}
	after := max(last, s.First-1) // the number before the first one given
	if left := end - after; left < w.N {
		return Block{}, Refuse(UsedUp, "begin another series: a used number is never used again",
			"the series %s has %d numbers left, not %d", s.Name, max(0, left), w.N)
	}
	return Block{Series: s.Name, From: after + 1, To: after + w.N, At: w.At, For: w.For}, nil
}

// Covers reports whether the blocks, in rising order, hold every number from
// one to another.
func Covers(blocks []Block, from, to int64) bool {
	for _, b := range blocks {
		if b.From <= from && from <= b.To {
			if b.To >= to {
				return true
			}
			from = b.To + 1
		}
	}
	return false
}
