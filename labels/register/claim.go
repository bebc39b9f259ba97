package register

import (
	"cmp"
	"slices"
	"strings"
)

// Claims are prints that must bear exactly their numbers, cleaned, with the
// order in which a register sees to them: rising, so that the numbers of one
// request never pass over each other. The error is an [*Error].
func Claims(all []Print) (clean []Print, order []int, err error) {
	for i, p := range all {
		p, err := p.Clean()
		if err != nil {
			return nil, nil, err
		}
		clean, order = append(clean, p), append(order, i)
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(strings.Compare(clean[a].Series, clean[b].Series), cmp.Compare(clean[a].From, clean[b].From))
	})
	return clean, order, nil
}

// Due tells whether the numbers of p, being clean, are still to be taken: given
// are the blocks of its series that hold any of them, in rising order, printed
// the prints that bear any, ended what became of any of them, and last is the
// highest number given. Numbers that
// were taken and never printed may be printed; numbers that were passed over
// may not, because they may be on paper that this register does not know of.
// The error is an [*Error]. It is the one rule of claiming, for all
// implementations.
func (p Print) Due(last int64, given []Block, printed []Print, ended []End) (take bool, err error) {
	if p.Series == "" {
		return false, nil
	}
	if err := p.VoidError(ended); err != nil {
		return false, err
	}
	switch {
	case len(printed) > 0 && p.Again == "":
		return false, p.BeforeError(printed[0])
	case Covers(given, p.From, p.To):
		return false, nil
	case p.Again != "":
		return false, p.NotTakenError()
	case p.From <= last:
		return false, Refuse(Passed, "begin above them: a number left out does no harm, one used twice does",
			"numbers %d to %d of the series %s were passed over: %d has been given", p.From, p.To, p.Series, last)
	}
	return true, nil
}

// Block is the block that p takes when it is due.
func (p Print) Block() Block {
	what := p.Kind + " of " + p.ID
	if p.Batch != "" {
		what += ", batch " + p.Batch
	}
	if len(what) > longest {
		what = p.Kind
	}
	return Block{Series: p.Series, From: p.From, To: p.To, At: p.At, For: what}
}
