package preflight

import (
	"slices"
	"strings"
	"unicode"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// free are the roles that no law sets a height for.
func free() []role.Role {
	return []role.Role{role.Digits, role.Serial, role.Key, role.Furniture, role.Note, role.Draft}
}

// readable finds letters that are too small: below what the reading distance
// asks, or below the market's least for a particular.
func readable(s Sheet, items []page.Item, found *diag.List) {
	for _, it := range items {
		if it.Run == nil {
			continue
		}
		if least, ok := s.Heights[it.Role]; ok {
			tooSmall(s, it, it.Run.XHeight, least, "reading distance", found)
			continue
		}
		if s.Market == nil || slices.Contains(free(), it.Role) {
			continue
		}
		m := s.Market.XHeightOf(it.Role, s.Pack.Face)
		tooSmall(s, it, height(it.Run, m.Measure), m.Least, m.Cite.String(), found)
	}
}

func tooSmall(s Sheet, it page.Item, got, least unit.Length, why string, found *diag.List) {
	if got < least {
		found.Errorf(at(s, it), "too-small", "choose a larger paper, fewer languages, or print less on it",
			"%s: %s is %.2f mm high, and must be %.2f mm (%s)", s.What, name(it), got.MM(), least.MM(), why)
	}
}

// height is what the rule measures of a run.
func height(r *page.Run, m market.Measure) unit.Length {
	if m == market.CapsOrO && !strings.ContainsFunc(r.Text, unicode.IsLower) {
		return r.CapHeight
	}
	return r.XHeight
}

// complete finds particulars that the pack must bear and the page does not.
func complete(s Sheet, items []page.Item, found *diag.List) {
	if s.Market == nil {
		return
	}
	needs, ok := s.Market.Needs(s.Pack)
	if !ok {
		found.Errorf(s.Src, "market", "name a market whose rules are known", "%s: nobody here knows what %s asks of this kind of pack", s.What, s.Market.Code)
	}
	for _, n := range needs {
		if n.Duty == market.Must && !has(items, n.Role) && (n.In == "" || !has(items, n.In)) {
			found.Errorf(s.Src, "missing", "complete the shop's files", "%s: %s is missing (%s)", s.What, n.Role, n.Cite)
		}
	}
}

func has(items []page.Item, what role.Role) bool {
	return slices.ContainsFunc(items, func(it page.Item) bool {
		return it.Role == what && it.Run != nil && strings.TrimSpace(it.Run.Text) != ""
	})
}

// netFigures finds figures of the net quantity that are too low. The height of
// a figure is taken as that of a capital.
func netFigures(s Sheet, items []page.Item, found *diag.List) {
	if s.Market == nil {
		return
	}
	least, ok := s.Market.Net.DigitHeight(s.Pack.Net, s.Pack.Face)
	if !ok {
		return
	}
	for _, it := range items {
		if it.Role == role.Net && it.Run != nil && it.Run.CapHeight < least.Least && strings.ContainsFunc(it.Run.Text, unicode.IsDigit) {
			found.Errorf(at(s, it), "net-height", "choose a larger paper", "%s: the figures of %s are %.2f mm high, and must be %.2f mm (%s)",
				s.What, name(it), it.Run.CapHeight.MM(), least.Least.MM(), least.Cite)
		}
	}
}

// notPast refuses a date that is over.
func notPast(s Sheet, _ []page.Item, found *diag.List) {
	if !s.Date.IsZero() && s.Date.Before(s.Today) {
		found.Errorf(s.Src, "past", "make it again, or look at the day made", "%s: its date, %s, is past", s.What, s.Date)
	}
}
