package market

import (
	"reflect"
	"slices"

	"chablon/labels/role"
	"chablon/labels/unit"
)

// Row is one line of what a market asks for: a particular of one form of sale,
// and, where Why is set, what changes its duty.
type Row struct {
	Sale Sale
	Role role.Role
	Duty Duty
	In   role.Role
	Why  Why
	Face unit.Area // with SmallFace
	Net  unit.Mass // with SmallNet
	From unit.Date // in force from this day; zero where nobody here has read it
	Cite
}

// Sales are the forms of sale, in their order.
func Sales() []Sale { return []Sale{Prepacked, Direct, Loose, Remote, Case} }

// Matrix gives every row, form of sale by form of sale, what is due before what
// changes it; known is false for a form of sale of which the market's file says
// nothing: then nobody here knows, and no label is printed.
func (m *Market) Matrix(s Sale) (rows []Row, known bool) {
	i := slices.IndexFunc(m.Kinds, func(k Kind) bool { return k.Sale == s })
	if i < 0 {
		return nil, false
	}
	for _, n := range m.Kinds[i].Needs {
		rows = append(rows, Row{Sale: s, Role: n.Role, Duty: n.Duty, In: n.In, From: inForce(n.Act, n.Role), Cite: n.Cite})
	}
	for _, r := range m.Reliefs {
		if r.Sale != s {
			continue
		}
		for _, what := range r.Roles {
			rows = append(rows, Row{Sale: s, Role: what, Duty: r.Duty, Why: r.Why, Face: r.Face, Net: r.Net, From: inForce(r.Act, what), Cite: r.Cite})
		}
	}
	return rows, true
}

// Stale gives the places that were read, but not since a day, each once: a law
// is read again every year.
func (m *Market) Stale(since unit.Date) []Cite {
	var out []Cite
	cites(reflect.ValueOf(*m), func(c Cite) {
		if c.Read != "" && c.Read < since.String()[:len(c.Read)] && !slices.Contains(out, c) {
			out = append(out, c)
		}
	})
	return out
}
