package card

import (
	"cmp"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// The wall form is read from two distances: its figures from where the work is
// done, at the distance of the paper, its sentences by whoever steps up to it.
// Both are at least 16 minutes of arc high (NUREG-0700, 1.3.1-4; ISO 9241-3).
// Its sizes are heights of capitals on a paper that is read at 1 m, in tenths
// of a millimetre; on other papers they follow from the distance.
const (
	capSmall    = 35 // the second language, °F, the clock, furniture: read at arm's length
	capSentence = 43
	capAlone    = 47 // sentences in one language, which has the room: 16′ at the wall's distance
	capClock    = 47
	capBody     = 50 // names and amounts, allergens
	capKey      = 55 // what a step comes to, its number, limits
	capName     = 66 // the name at least
	capBatch    = 85
	capNameMost = 100
)

// units is a length on a paper that is read at 1 m, in tenths of a millimetre,
// as it is on another paper.
func units(s *stock.Stock, tenths int64) unit.Length { return s.ReadAt.V.Mul(tenths, 10_000) }

// mm is a length on a paper that is read at 1 m, as it is on this card.
func (s *sheet) mm(n int64) unit.Length { return units(s.Stock, 10*n).Mul(s.plan.grown, 100) }

// hungSizes are the sizes of the wall form.
func (s *sheet) hungSizes(p plan) sizes {
	at := func(tenths int64) unit.Length {
		return s.paper.Faces.Regular.SizeForCap(units(s.Stock, tenths).Mul(p.grown, 100))
	}
	z := sizes{small: at(capSmall), read: at(p.sentence), body: at(capBody), clock: at(capClock), key: at(capKey),
		batch: at(capBatch), title: at(capName), most: at(capNameMost)}
	z.lines()
	if p.tight {
		z.pad = z.small / 4
	}
	return z
}

// hungHeights are the least heights on a wall form.
func hungHeights(s *stock.Stock, faces *text.Faces) map[role.Role]unit.Length {
	arc, _ := market.FindReading("least")
	x := func(d unit.Length) unit.Length {
		size := faces.Regular.SizeForCap(arc.CapHeight(d))
		return min(faces.Regular.XHeight(size), faces.Bold.XHeight(size))
	}
	figures, sentences := x(s.ReadAt.V), x(cmp.Or(s.WordsAt.V, s.ReadAt.V))
	out := map[role.Role]unit.Length{}
	for _, r := range []role.Role{role.Name, role.Batch, role.Heat, role.Limit, role.Amount, role.Allergens, role.Figure, role.List} {
		out[r] = figures
	}
	for _, r := range []role.Role{role.Step, role.Keep, role.Note, role.Date, role.Furniture} {
		out[r] = sentences
	}
	return out
}

// plan is one way to share a card out to sheets.
type plan struct {
	sentence int64 // height of the sentences
	looks    bool  // short looks and tools stand under the sentences
	strip    bool  // the work against the clock
	stacked  bool  // what is done stands below what is weighed
	grown    int64 // percent of the least size
	tight    bool  // less white between the steps

	sheets [][]int // the lanes of each
}

// plans are the ways to share the card out, the best first: on one sheet, then
// on two, cut between two sub-formulas. What gives way to room is, in this
// order, the looks, the larger sentences, white, the work against the clock. A paper
// for the tub or the pocket is narrow: there what is done stands below what is
// weighed, as large as it fits.
func (s *sheet) plans() []plan {
	var out []plan
	add := func(sheets [][]int, p plan) {
		if p.sheets = sheets; p.sentence == capSentence || len(s.Langs) == 1 {
			out = append(out, p)
		}
	}
	cuts := s.cuts()
	if s.pocket() {
		for grown := int64(160); grown >= 100; grown -= 10 {
			add(cuts[0], plan{sentence: capSentence, looks: true, stacked: true, grown: grown})
		}
	}
	for _, sheets := range cuts {
		for _, p := range []plan{
			{sentence: capAlone, looks: true, strip: true}, {sentence: capAlone, strip: true},
			{sentence: capSentence, looks: true, strip: true}, {sentence: capSentence, strip: true},
			{sentence: capSentence, strip: true, tight: true}, {sentence: capSentence}, {sentence: capSentence, tight: true},
		} {
			p.grown = 100
			p.stacked = s.area.W < units(s.Stock, 2500)
			add(sheets, p)
		}
	}
	return out
}

// pocket tells a paper for the tub or the pocket from one for the wall.
func (s *sheet) pocket() bool { return s.area.W < units(s.Stock, 2700) }

// cuts are the ways to share the lanes out: all on one sheet; then two, those
// first between which the work goes back and forth least.
func (s *sheet) cuts() [][][]int {
	all := make([]int, len(s.said.Lanes))
	for i := range all {
		all[i] = i
	}
	out := [][][]int{{all}}
	for i := 1; i < len(all); i++ {
		out = append(out, [][]int{all[:i], all[i:]})
	}
	slices.SortStableFunc(out[1:], func(a, b [][]int) int { return cmp.Compare(s.turns(a), s.turns(b)) })
	return out
}

// turns counts how often the work goes from one sheet to the other.
func (s *sheet) turns(sheets [][]int) int {
	n, on := 0, -1
	for _, st := range s.said.byClock() {
		at := slices.IndexFunc(sheets, func(lanes []int) bool { return slices.Contains(lanes, st.Lane) })
		if at != on && on >= 0 {
			n++
		}
		on = at
	}
	return n
}

// byClock are the steps in the order of their numbers.
func (c *content) byClock() []row {
	var out []row
	for _, r := range c.Rows {
		if r.Step != nil && r.Step.No > 0 {
			out = append(out, r)
		}
	}
	slices.SortFunc(out, func(a, b row) int { return cmp.Compare(a.Step.No, b.Step.No) })
	return out
}

// hung sets the wall form.
func (s *sheet) hung() []*page.Page {
	if !s.few() {
		return nil
	}
	s.area = s.paper.Room()
	for _, p := range s.plans() {
		pages, ok := s.planned(p)
		switch {
		case s.found.Errors() > 0:
			return nil
		case ok:
			return pages
		}
	}
	_, src := s.id()
	s.found.Errorf(src, "overflow", "write short:, take a larger paper or one language, or print it with --form full",
		"this does not fit on two sheets of %s, and neither its letters nor its steps become fewer", s.Stock.ID)
	return nil
}

// few refuses steps that take too many words for a card that is read in
// passing.
func (s *sheet) few() bool {
	const most = 60
	before := s.found.Errors()
	for _, r := range s.said.byClock() {
		for i, in := range r.Step.Short.In {
			if n := len([]rune(in)); n > most {
				s.found.Errorf(r.Step.Src, "short", "write short: with "+s.Langs[i].Code()+": and at most 60 characters, or print it with --form full",
					"the step takes %d characters in %s, and a card on the wall has room for %d", n, s.Langs[i].Name(), most)
			}
		}
	}
	return s.found.Errors() == before
}

// planned sets a plan; not ok where it does not fit.
func (s *sheet) planned(p plan) (pages []*page.Page, ok bool) {
	s.plan, s.z = p, s.hungSizes(p)
	for i := range p.sheets {
		one, ok := s.hangs1(p, i)
		if !ok || s.found.Errors() > 0 {
			return nil, false
		}
		pages = append(pages, one)
	}
	return pages, true
}

// hangs1 sets one sheet: what stands at its head, what stands at its foot, and
// between them what is weighed beside what is done.
func (s *sheet) hangs1(p plan, i int) (*page.Page, bool) {
	h, lanes := s.setter(), p.sheets[i]
	x, y, low := s.area.X, s.area.Y, s.area.Bottom()
	for _, b := range []flow.Block{s.hungHead(i+1, len(p.sheets)), s.hungAllergens(), s.care(lanes)} {
		h.Add(b.Items, x, y)
		y += b.H
	}
	below := []flow.Block{s.hungFoot()}
	if p.strip {
		below = append(below, s.hungClock(lanes))
	}
	below = append(below, s.hungLimits(lanes))
	for _, b := range below {
		low -= b.H
		h.Add(b.Items, x, low)
	}
	if !s.between(h, p, lanes, y, low) {
		return nil, false
	}
	w, high := s.Stock.Size()
	return s.paper.Page(append(s.onDots(h.Items), corners(w, high, s.Stock.Safe.V)...)), true
}

// between sets what is weighed beside what is done, or on a narrow paper above
// it.
func (s *sheet) between(h *setter, p plan, lanes []int, y, low unit.Length) bool {
	c := s.hungCols()
	weigh, do := s.weighing(c.weigh, lanes), s.working(c, lanes, p.looks)
	top := y
	if c.stacked {
		top += weigh.H + s.z.pad
	}
	var need unit.Length
	for _, b := range do {
		need += b.H
	}
	if top+need > low || y+weigh.H > low {
		return false
	}
	h.Add(weigh.Items, s.area.X, y)
	white := min((low-top-need)/unit.Length(len(do)), s.mm(4))
	for i, b := range do {
		h.Add(b.Items, s.area.X, top)
		if top += b.H; i > 0 {
			top += white
		}
	}
	return true
}

// hungCols are the columns of the wall form: the same on every card.
type hungCols struct {
	weigh                    span
	no, lane, do, heat, time span
	stacked                  bool
}

func (s *sheet) hungCols() hungCols {
	c := hungCols{weigh: span{0, s.mm(102)}}
	left := c.weigh.W + s.mm(6)
	if s.plan.stacked {
		c.stacked, c.weigh.W, left = true, s.area.W, 0
	}
	c.no, c.lane = span{left, s.mm(9)}, span{left + s.mm(9), s.mm(5)}
	c.time = span{s.area.W - s.mm(22), s.mm(22)}
	c.heat = span{c.time.X - s.mm(38), s.mm(36)}
	from := c.lane.X + c.lane.W
	c.do = span{from, c.heat.X - s.mm(2) - from}
	return c
}

// nowhere is the place of words that come from no file.
var nowhere = diag.Pos{}
