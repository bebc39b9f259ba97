package recall

import (
	"slices"
	"strings"
	"time"

	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/list"
)

// teller says the sheet.
type teller struct {
	*compose.Teller
	Sheet
}

// list begins one of the lists; below its title stands what was followed.
func (t teller) list(title, do string) list.List {
	l := list.New(t.Teller, t.Shop.Profile.Name.V, title, do, t.Day)
	l.Lead = t.thing(t.Of) + behind(": ", t.Why) + ". " + l.Lead
	l.Sign = t.Words("trace.by", "sheet.day", "sheet.time", "sheet.signature")
	l.Foot = t.Word("trace.note")
	return l
}

func behind(sign, s string) string {
	if s == "" {
		return ""
	}
	return sign + s
}

// goods lists what left, by customer.
func (t teller) goods() list.List {
	l := t.list("trace.title", "trace.do")
	l.Tick = true
	l.Cols = []list.Col{{Head: t.Word("trace.carton"), Share: 100}, {Head: t.Word("sheet.cartons"), Kind: list.Figure}, {Head: t.Word("sheet.packs"), Kind: list.Figure},
		{Head: t.Word("trace.back"), Kind: list.Write}}
	for _, g := range t.Goods {
		head := []string{g.Customer + behind(", ", t.address(g.Customer)), t.order(g.Order), t.date(g.Day)}
		l.Rows = append(l.Rows, list.Row{Head: strings.Join(slices.DeleteFunc(head, func(s string) bool { return s == "" }), " · ")})
		for _, r := range runs(g.Boxes) {
			l.Rows = append(l.Rows, t.gone(r))
		}
		l.Rows = append(l.Rows, list.Row{Say: t.Word("trace.told"), Lines: t.Words("trace.name", "sheet.day", "sheet.time", "sheet.signature")})
	}
	return l
}

func (t teller) gone(r run) list.Row {
	code := r.first.Code
	if r.n > 1 {
		code += " – " + r.last
	}
	return list.Row{Cells: []list.Cell{{Strong: code, Under: t.inside(r.first), Role: role.Name}, {Strong: t.Plain(int64(r.n)), Role: role.Amount},
		{Strong: t.amount(0, r.packs), Role: role.Amount}, {Write: true}}}
}

// inside says what is in a box: product, batch, and until when it keeps.
func (t teller) inside(b Box) string {
	out := t.kind(b.Kind)
	if b.ID != "" {
		out = t.name(b.ID)
	}
	out += behind(" · "+t.Word("sheet.batch")+" ", b.Batch)
	if d, err := unit.ParseDate(b.Until); err == nil {
		out += " · " + t.Word("carton.date") + " " + t.Sheet.Lang.Date(d, words.Day)
	}
	return out
}

// address is that of a customer whom the shop knows.
func (t teller) address(name string) string {
	if c, ok := t.Shop.CustomerNamed(name); ok {
		return c.Address.V
	}
	return ""
}

// run is cartons of one batch with numbers that follow each other.
type run struct {
	first Box
	last  string
	n     int
	packs unit.Count
}

// runs joins cartons whose numbers follow each other: all but the last figure
// of an SSCC counts, the last is its check digit.
func runs(list []Box) (out []run) {
	list = slices.Clone(list)
	slices.SortFunc(list, func(a, b Box) int { return strings.Compare(a.ID+" "+a.Batch+" "+a.Code, b.ID+" "+b.Batch+" "+b.Code) })
	for _, p := range list {
		if n := len(out) - 1; n >= 0 && out[n].first.Kind == p.Kind && out[n].first.ID == p.ID && out[n].first.Batch == p.Batch && serial(p.Code) == serial(out[n].last)+1 {
			out[n].last, out[n].n, out[n].packs = p.Code, out[n].n+1, out[n].packs+p.Pieces
			continue
		}
		out = append(out, run{p, p.Code, 1, p.Pieces})
	}
	return out
}

// serial is an SSCC without its check digit.
func serial(sscc string) (n int64) {
	for _, c := range sscc[:max(0, len(sscc)-1)] {
		n = n*10 + int64(c-'0')
	}
	return n
}

// here lists what did not leave.
func (t teller) here() list.List {
	l := t.list("trace.here", "trace.here-do")
	l.Tick = true
	l.Cols = []list.Col{{Head: t.Word("sheet.product"), Share: 100}, {Head: t.Word("sheet.batch"), Kind: list.Fit}, {Head: t.Word("sheet.count"), Kind: list.Figure},
		{Head: t.Word("trace.counted"), Kind: list.Write}}
	for _, p := range t.Here {
		l.Rows = append(l.Rows, list.Row{Cells: []list.Cell{{Strong: t.name(p.ID), Under: t.kind(p.Kind), Role: role.Name}, {Strong: p.Code, Role: role.Note},
			{Strong: t.amount(p.Mass, p.Pieces), Role: role.Amount}, {Write: true}}})
	}
	return l
}

// lots lists what it was made of, by supplier.
func (t teller) lots() list.List {
	l := t.list("trace.lots", "trace.lots-do")
	l.Tick = true
	l.Cols = []list.Col{{Head: t.Word("prep.ingredient"), Share: 100}, {Head: t.Word("trace.lot"), Kind: list.Fit}, {Head: t.Word("trace.mass"), Kind: list.Figure},
		{Head: t.Word("trace.came"), Kind: list.Fit}, {Head: t.Word("trace.counted"), Kind: list.Write}}
	all := slices.Clone(t.Lots)
	slices.SortStableFunc(all, func(a, b Source) int { return strings.Compare(a.From, b.From) })
	for i, s := range all {
		if i == 0 || s.From != all[i-1].From {
			l.Rows = append(l.Rows, list.Row{Head: s.From})
		}
		l.Rows = append(l.Rows, list.Row{Cells: []list.Cell{{Strong: t.name(s.ID), Under: t.order(s.Order), Role: role.Name}, {Strong: s.Code, Role: role.Note},
			{Strong: t.amount(s.Mass, 0), Role: role.Amount}, {Strong: t.Sheet.Lang.Date(s.Day, words.Day), Role: role.Date}, {Write: true}}})
	}
	return l
}

// record says what the exercise found.
func (t teller) record() list.List {
	l := t.list("trace.mock", "trace.mock-do")
	m := t.Mock
	l.Cols = []list.Col{{Head: t.Word("trace.fact"), Share: 45}, {Head: t.Word("trace.found"), Share: 55}}
	say := func(key, value string) {
		l.Rows = append(l.Rows, list.Row{Cells: []list.Cell{{Under: t.Word(key), Role: role.Note}, {Strong: value, Role: role.Name}}})
	}
	clock := func(at time.Time) string { return t.date(unit.DateOf(at)) + ", " + at.Format("15:04:05 -07:00") }
	say("trace.asked", t.thing(t.Of))
	say("trace.began", clock(m.Began))
	say("trace.ended", clock(m.Ended))
	say("trace.took", t.Sheet.Lang.Plain(m.Took.Milliseconds(), 3)+compose.NoBreak+t.Word("unit.s"))
	say("trace.several", t.Plain(int64(len(t.Lots))))
	say("trace.suppliers", t.Plain(int64(distinct(t.Lots, func(s Source) string { return s.From }))))
	say("trace.batches", t.Plain(int64(m.Batches)))
	cartons, packs := t.counted()
	say("sheet.cartons", t.Plain(cartons))
	say("sheet.packs", t.Plain(packs))
	say("trace.customers", t.Plain(int64(distinct(t.Goods, func(g Gone) string { return g.Customer }))))
	if m.Proof != "" {
		l.Rows = append(l.Rows, list.Row{Say: t.Fill("trace.checked", map[string]string{"n": m.Proof})})
	}
	return l
}

func distinct[T any](list []T, by func(T) string) int {
	seen := map[string]bool{}
	for _, x := range list {
		seen[by(x)] = true
	}
	return len(seen)
}

// counted is how many cartons and packs left.
func (t teller) counted() (cartons, packs int64) {
	for _, g := range t.Goods {
		for _, p := range g.Boxes {
			if p.Kind == trace.Carton {
				cartons++
				packs += int64(p.Pieces)
			}
		}
	}
	return cartons, packs
}

// balance says how the masses add up.
func (t teller) balance() list.List {
	l := t.list("trace.balance", "trace.balance-do")
	l.Cols = []list.Col{{Head: t.Word("sheet.batch"), Share: 100}, {Head: t.Word("trace.in"), Kind: list.Figure}, {Head: t.Word("trace.out"), Kind: list.Figure},
		{Head: t.Word("trace.left"), Kind: list.Figure}, {Head: t.Word("trace.share"), Kind: list.Fit}, {Head: t.Word("trace.counted"), Kind: list.Write}}
	for _, b := range t.Mock.Balances {
		mass, pieces := b.Left()
		share := "–"
		if n, ok := b.Gone(); ok {
			share = t.Sheet.Lang.Percent(n, 1)
		} else if b.Unknown > 0 {
			share = t.Fill("trace.unknown", map[string]string{"n": t.Plain(int64(b.Unknown))})
		}
		l.Rows = append(l.Rows, list.Row{Cells: []list.Cell{{Strong: b.Code, Under: t.name(b.ID), Role: role.Name},
			{Strong: t.amount(unit.Mass(b.Mass.In), unit.Count(b.Pieces.In)), Role: role.Amount}, {Strong: t.amount(unit.Mass(b.Mass.Out), unit.Count(b.Pieces.Out)), Role: role.Amount},
			{Strong: t.left(b, mass, pieces), Role: role.Amount}, {Under: share, Role: role.Note}, {Write: true}}})
	}
	return l
}

// left is what is left by the book, in the unit that the thing is counted in.
func (t teller) left(b trace.Balance, m unit.Mass, n unit.Count) string {
	switch {
	case b.Mass.In > 0:
		return list.GramsIn(t.Sheet.Lang, m, list.Step(unit.Mass(b.Mass.In)))
	case b.Pieces.In > 0:
		return t.Plain(int64(n))
	}
	return ""
}

// animal lists the lots of animal origin with what Reg. (EU) No 931/2011 Art.
// 3(1) wants of each: description, quantity, sender, owner, receiver, lot, day.
func (t teller) animal() list.List {
	l := t.list("trace.animal", "trace.animal-do")
	l.Cols = []list.Col{{Head: t.Word("prep.ingredient"), Share: 55}, {Head: t.Word("trace.mass"), Kind: list.Figure}, {Head: t.Word("trace.to"), Share: 45}}
	for _, s := range t.Lots {
		if !s.Animal {
			continue
		}
		l.Rows = append(l.Rows, list.Row{Tied: true, Cells: []list.Cell{{Strong: t.name(s.ID), Under: t.Word("trace.lot") + " " + s.Code, Role: role.Name},
			{Strong: t.amount(s.Mass, 0), Role: role.Amount}, {Under: t.Shop.Profile.Name.V + ", " + t.Shop.Profile.Address.V, Role: role.Note}}})
		l.Rows = append(l.Rows, list.Row{Say: t.Word("trace.supplier") + ": " + s.From + " · " + t.Word("trace.came") + ": " + t.date(s.Day), Lines: append(t.Words("trace.from", "trace.owner", "trace.sent"), t.Word("trace.to")+": "+t.Word("trace.owner"))})
	}
	return l
}

// thing says a thing: "Butter, lot HD-4471".
func (t teller) thing(x trace.Thing) string {
	if x.ID == "" {
		return t.kind(x.Kind) + " " + x.Code
	}
	return t.name(x.ID) + ", " + t.kind(x.Kind) + " " + x.Code
}

func (t teller) kind(k trace.Kind) string {
	switch k {
	case trace.Lot:
		return t.Word("trace.lot")
	case trace.Batch:
		return t.Word("sheet.batch")
	}
	return t.Word("trace.carton")
}

// name is what an id stands for in the language of the sheet, or the id: a
// recall does not wait for a translation.
func (t teller) name(id string) string {
	var names shop.Words
	if i := t.Shop.Ingredients[id]; i != nil {
		names = i.Name
	} else if f := t.Shop.Formulas[id]; f != nil {
		names = f.Name
	} else if p := t.Shop.Products[id]; p != nil {
		names = p.Name
	}
	if v, ok := shop.In(names, t.Sheet.Lang.Code()); ok {
		return v.V
	}
	return id
}

func (t teller) order(n string) string {
	if n == "" {
		return ""
	}
	return t.Fill("trace.order", map[string]string{"n": n})
}

func (t teller) date(d unit.Date) string { return t.Sheet.Lang.Date(d, words.Long) }

// amount is a mass in grams or a number, "" where neither is known.
func (t teller) amount(m unit.Mass, n unit.Count) string {
	switch {
	case m > 0:
		return list.Grams(t.Sheet.Lang, m)
	case n > 0:
		return t.Plain(int64(n))
	}
	return ""
}
