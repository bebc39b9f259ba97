package market

import (
	"crypto/sha256"
	"encoding/base32"
	"reflect"
	"slices"

	"chablon/labels/role"
)

// Place is a place in the law that a pack rests on: a row of the matrix, or a
// rule on what a row asks for, whose Sale and Duty are empty.
type Place struct {
	Market string
	Sale   Sale
	Role   role.Role
	Duty   Duty
	Cite
}

// What rests on rules of its own though it is no particular.
const (
	language role.Role = "language"
	letters  role.Role = "letters"
)

// Mark is the name under which a person signs for a place that nobody has read:
// its particular, and 40 bits of the SHA-256 (FIPS 180-4) of all that it says,
// in Base32 (RFC 4648). A place that is added or changed later has another one,
// so no older signature covers it.
func (p Place) Mark() string {
	sum := sha256.Sum256([]byte(p.Market + "\n" + string(p.Sale) + "\n" + string(p.Role) + "\n" + string(p.Duty) + "\n" + p.Act + "\n" + p.Article))
	return string(p.Role) + "-" + base32.StdEncoding.EncodeToString(sum[:5])
}

// RestsOn gives the places that decide what a pack must bear: for each
// particular the row that holds for this pack, be it that the particular is
// free, and the rules on the particulars that are due. It reports false where
// nobody here knows the form of sale.
func (m *Market) RestsOn(p Pack) (out []Place, known bool) {
	needs, known := m.relieved(p)
	if !known {
		return nil, false
	}
	due := m.general(p.Sale)
	for _, n := range needs {
		out = append(out, Place{m.Code, p.Sale, n.Role, n.Duty, n.Cite})
		if n.Duty != Free {
			due = append(due, n.Role)
		}
	}
	for _, q := range m.rules() {
		if slices.Contains(due, q.Role) {
			out = append(out, q)
		}
	}
	return append(out, m.nationals(p.Sale)...), true
}

// general is what holds for all words of a pack. On loose food the law of the
// country decides the language, and no law the size of letters.
func (m *Market) general(s Sale) []role.Role {
	if s == Loose {
		return nil
	}
	return []role.Role{language, letters, role.Statement}
}

// rules lists the places of the market's rules, by what they are about.
func (m *Market) rules() (out []Place) {
	for _, r := range []struct {
		about role.Role
		rule  any
	}{ // the mark "e" beside the net quantity is for who wants it
		{language, m.Languages}, {letters, m.Heights}, {role.List, m.List}, {role.Quid, m.Quid},
		{role.Allergens, m.Allergens}, {role.Net, []any{m.Net.Digits, m.Net.Errors, m.Net.Cite}}, {role.Date, m.Dates}, {role.Nutrition, m.Nutrition},
		{role.Batch, m.Lot}, {role.Operator, m.Operator}, {role.Statement, m.Triggers}, {role.Statement, m.Forbidden}, {role.Statement, m.Colours},
	} {
		cites(reflect.ValueOf(r.rule), func(c Cite) {
			q := Place{Market: m.Code, Role: r.about, Cite: c}
			if c.Act != "" && !slices.Contains(out, q) {
				out = append(out, q)
			}
		})
	}
	return out
}

// nationals lists the places of the country's rules, which hold for what is sold
// loose or packed where it is sold.
func (m *Market) nationals(s Sale) (out []Place) {
	if m.National == nil || s != Loose && s != Direct {
		return nil
	}
	out = append(out, Place{m.Code, s, language, "", m.National.Languages.Cite})
	for _, w := range m.National.Additives {
		out = append(out, Place{m.Code, s, role.Statement, "", w.Cite})
	}
	return out
}

// UnreadOf gives the places that a pack rests on and that were written from
// memory: what bears them is a draft until a person signs for each.
func (m *Market) UnreadOf(p Pack) []Place {
	all, _ := m.RestsOn(p)
	return slices.DeleteFunc(all, func(q Place) bool { return !q.Memory })
}

// UnreadPlaces gives all that a pack of any form of sale may rest on and that
// was written from memory, in the order of the matrix, the rules last.
func (m *Market) UnreadPlaces() (out []Place) {
	for _, s := range Sales() {
		rows, _ := m.Matrix(s)
		for _, r := range rows {
			out = append(out, Place{m.Code, s, r.Role, r.Duty, r.Cite})
		}
	}
	out = append(out, m.rules()...)
	return slices.DeleteFunc(out, func(q Place) bool { return !q.Memory })
}
