package market

import (
	"slices"

	"chablon/labels/role"
	"chablon/labels/unit"
)

// Sale says how a pack reaches the buyer.
type Sale string

// The ways.
const (
	Prepacked Sale = "prepacked"
	Direct    Sale = "direct"   // packed on the premises where it is sold
	Loose     Sale = "loose"    // not packed, or packed at the buyer's request
	Remote    Sale = "distance" // before a purchase at a distance, such as in a web shop
	Case      Sale = "case"     // outer packaging between businesses
)

// Pack is what the law asks about a pack. An area or a mass of 0 means "not
// known", and gives no relief.
type Pack struct {
	Sale     Sale
	Face     unit.Area // largest face; where the law looks at the panel, the panel
	Surface  unit.Area // all of its outside that can bear print
	Net      Quantity
	UseBy    bool // it bears a use-by date, not a best-before date
	DayMonth bool // its date shows day and month at least
	Fresh    bool // pastry normally eaten within 24 hours of making
	Served   bool // handed over by staff, not taken by the buyer
	Local    bool // small quantities from the maker to the buyer or the local shop
	// Calls are the particulars that the food calls for: what is due "where the
	// food calls for it" must then be there.
	Calls []role.Role
}

// Duty says how strictly a particular is asked for.
type Duty string

// The duties.
const (
	Must      Duty = "must"
	When      Duty = "when"      // where the food calls for it
	Elsewhere Duty = "elsewhere" // not on the pack, but available by other means
	Free      Duty = "free"      // not asked for
)

// Need is one particular that a pack must bear. Role is the role of a page's
// mark. In names another role that may carry it: an allergen emphasised in the
// list needs no line of its own.
//
// "allergens" concerns a food that contains any; whether this one does is a
// matter of its facts, which no pack can tell.
type Need struct {
	Role role.Role
	Duty Duty
	In   role.Role
	Cite
}

// Kind lists the particulars of one kind of pack, in the order of the act,
// which prescribes no order of printing.
type Kind struct {
	Sale  Sale
	Needs []Need
}

// Relief changes the duty of some particulars of some packs.
type Relief struct {
	Why   Why
	Sale  Sale
	Face  unit.Area // with SmallFace: largest face below this
	Edge  Edge
	Net   unit.Mass // with SmallNet: net quantity below this, g or ml
	Roles []role.Role
	Duty  Duty
	Cite
}

// Why names the ground of a relief or of a stricter duty.
type Why string

// The grounds.
const (
	SmallFace  Why = "small-face"
	SmallNet   Why = "small-net"
	DayFresh   Why = "fresh"
	LocalSale  Why = "local"
	DateLot    Why = "date-as-lot"
	UseByDate  Why = "use-by"
	HandedOver Why = "handed-over"
)

func (r Relief) applies(p Pack) bool {
	if r.Sale != p.Sale {
		return false
	}
	switch r.Why {
	case SmallFace:
		return p.Face > 0 && r.Edge.holds(compare(int64(p.Face), int64(r.Face)))
	case SmallNet:
		return p.Net.count() > 0 && r.Edge.holds(compare(p.Net.count(), int64(r.Net)))
	case DayFresh:
		return p.Fresh && !p.UseBy
	case LocalSale:
		return p.Local
	case HandedOver:
		return p.Served
	case DateLot:
		return p.DayMonth
	case UseByDate:
		return p.UseBy
	}
	return false
}

// Needs gives what a pack must bear here; particulars that it need not bear
// are left out. It reports false when the market's file says nothing about
// this kind of pack: then nobody here knows, and nothing should be printed.
//
// Reliefs are applied in their order, so that a later, stricter one wins: a
// use-by date brings the storage conditions back.
func (m *Market) Needs(p Pack) ([]Need, bool) {
	needs, known := m.relieved(p)
	for i, n := range needs {
		if n.Duty == When && slices.Contains(p.Calls, n.Role) {
			needs[i].Duty = Must
		}
	}
	return slices.DeleteFunc(needs, func(n Need) bool { return n.Duty == Free }), known
}

// relieved are the rows of the pack's form of sale after every relief that it
// has, those that are free then among them.
func (m *Market) relieved(p Pack) (needs []Need, known bool) {
	i := slices.IndexFunc(m.Kinds, func(k Kind) bool { return k.Sale == p.Sale })
	if i < 0 {
		return nil, false
	}
	needs = slices.Clone(m.Kinds[i].Needs)
	for _, r := range m.Reliefs {
		if r.applies(p) {
			needs = r.change(needs)
		}
	}
	return needs, true
}

func (r Relief) change(needs []Need) []Need {
	for i, n := range needs {
		if slices.Contains(r.Roles, n.Role) {
			needs[i].Duty, needs[i].Cite = r.Duty, r.Cite
		}
	}
	return needs
}

// Small reports whether a pack of this largest face may leave a particular out
// for its size alone.
func (m *Market) Small(face unit.Area, what role.Role) bool {
	return slices.ContainsFunc(m.Reliefs, func(r Relief) bool {
		return r.Why == SmallFace && slices.Contains(r.Roles, what) && r.applies(Pack{Sale: Prepacked, Face: face})
	})
}
