package market

import (
	"cmp"

	"chablon/labels/role"
	"chablon/labels/unit"
)

// Height is one rule on the size of type. The first rule of a market that fits
// the role and the face applies.
type Height struct {
	Role    role.Role  // "" for every mandatory particular
	Face    unit.Area  // the rule holds for a face of this size; 0 for any
	Edge    Edge       // Below or UpTo; "" for any face
	Of      role.Role  // what OfName is measured against; "" for the name
	OfName  unit.Share // also at least this share of the x-height of those words
	Least   unit.Length
	Lead    unit.Length // least line pitch
	Measure Measure
	Cite
}

func (h Height) fits(what role.Role, face unit.Area) bool {
	if h.Role != what {
		return false
	}
	return h.Edge == "" || face > 0 && h.Edge.holds(compare(int64(face), int64(h.Face)))
}

func compare(a, b int64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// XHeight gives the least size of type of a mandatory particular on a pack
// whose largest face (in the United States and Canada: principal display
// panel) has this area. A face of 0 means "not known": no relief is given.
// Min.Measure says what is measured; Min.Least is 0 where the law has no number.
func (m *Market) XHeight(face unit.Area) Min { return m.XHeightOf("", face) }

// XHeightOf is XHeight for one role, where the law has a rule of its own for
// it: the ingredient list in Canada, the repeated energy on the front in the EU.
func (m *Market) XHeightOf(what role.Role, face unit.Area) Min {
	for _, r := range []role.Role{what, ""} {
		for _, h := range m.Heights {
			if h.fits(r, face) {
				return Min{h.Least, h.Measure, h.Lead, h.Cite}
			}
		}
	}
	return Min{}
}

// Against is what words of a role are measured against, beside which they
// stand in the same field of vision: the name, or the origin of the food. It is
// "" where the market has no such rule.
func (m *Market) Against(what role.Role) role.Role {
	for _, h := range m.Heights {
		if h.Role == what && h.OfName > 0 {
			return cmp.Or(h.Of, role.Name)
		}
	}
	return ""
}

// Beside gives the least x-height of words that are measured against others
// ("substitute" against the name, "origin-of" against the origin of the food),
// for others of the given x-height. It reports false where the market has no
// such rule.
func (m *Market) Beside(what role.Role, others unit.Length, face unit.Area) (Min, bool) {
	for _, h := range m.Heights {
		if h.Role == what && h.OfName > 0 {
			least := others.Mul(int64(h.OfName), int64(unit.Whole))
			return Min{max(least, h.Least, m.XHeight(face).Least), h.Measure, h.Lead, h.Cite}, true
		}
	}
	return Min{}, false
}
