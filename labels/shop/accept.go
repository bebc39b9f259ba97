package shop

import (
	"bytes"
	"slices"
	"strings"

	"chablon/labels/market"
	"chablon/labels/unit"
)

// Last is the last day on which a signature counts: the law is read again every
// year.
func (a Accepted) Last() unit.Date {
	year := a.On.V.AddMonths(12)
	if a.Until.Set() && a.Until.V.Before(year) {
		return a.Until.V
	}
	return year
}

// Accepts gives the signature that covers a place in the law on a day.
func (p *Profile) Accepts(at market.Place, day unit.Date) (Accepted, bool) {
	i := slices.IndexFunc(p.AcceptUnread, func(a Accepted) bool {
		return strings.EqualFold(a.Market.V, at.Market) && !day.Before(a.On.V) && !a.Last().Before(day) &&
			slices.ContainsFunc(a.Rows, func(r Text) bool { return r.V == at.Mark() })
	})
	if i < 0 {
		return Accepted{}, false
	}
	return p.AcceptUnread[i], true
}

// WithoutSignatures is the text of a shop.yaml without what stands under
// accept-unread: whoever copies a shop has signed for nothing.
func WithoutSignatures(profile []byte) []byte {
	var out [][]byte
	in := false
	for _, line := range bytes.SplitAfter(profile, []byte("\n")) {
		if len(line) > 0 && !bytes.ContainsAny(line[:1], " \t-\r\n") {
			in = bytes.HasPrefix(line, []byte("accept-unread:"))
		}
		if !in {
			out = append(out, line)
		}
	}
	return bytes.Join(out, nil)
}

// accepted looks for signatures that cannot count.
func (c *checker) accepted() {
	for _, a := range c.Profile.AcceptUnread {
		m, ok := market.Get(a.Market.V)
		if !ok && a.Market.Set() {
			c.wrong(a.Market.Pos, "accept-unread", "markets are "+strings.ToUpper(strings.Join(market.Codes(), ", ")), "there is no market %q", a.Market.V)
		}
		if a.Until.Set() && a.On.Set() && a.Until.V.Before(a.On.V) {
			c.wrong(a.Until.Pos, "accept-unread", "write a day after the signature, or leave it out for a year", "the signature ends on %s, before it was given", a.Until.V)
		}
		if !ok {
			continue
		}
		unread := m.In(c.Profile.Country.V).UnreadPlaces()
		for _, r := range a.Rows {
			if !slices.ContainsFunc(unread, func(q market.Place) bool { return q.Mark() == r.V }) {
				c.caution(r.Pos, "accept-unread", "chablon law "+m.Name()+" names the rows that nobody has read; take this one out, or sign for the one that took its place",
					"no row that is unread in %s is called %q", m.Name(), r.V)
			}
		}
	}
}
