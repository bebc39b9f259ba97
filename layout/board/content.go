package board

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/plan"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
)

// content is what the board says.
type content struct {
	at       diag.Pos
	title    string
	side     string // the shop, its hours and its people
	lead     string
	cautions []string
	panels   []panel
	page     func(n, of int) string
}

// panel is one day of work against the clock.
type panel struct {
	title    string
	from, to unit.Span
	rows     []row
	lists    []list
}

// row is a product, a tool or a person.
type row struct {
	name, under string
	bars        []bar
	crowds      []bar     // when more would be wanted at once than there are
	ready       unit.Span // of a product; 0 for none
	begins      bool      // the first of its kind
	src         diag.Pos
}

// bar is a time, and whose it is.
type bar struct {
	from, to unit.Span
	look     look
	label    string
}

type look int

const (
	isWork look = iota // somebody's hands
	isWait             // it waits
	isOven             // it is in the oven
)

// list is what one person does, in order.
type list struct {
	name  string
	lines []line
}

type line struct{ clock, label, do string }

// teller says the board.
type teller struct {
	*compose.Teller
	Board
}

const day = 24 * unit.Hour

func (t teller) content() *content {
	c := &content{at: t.Shop.Profile.Pos, page: t.Page,
		title: compose.Capital(t.Word("board.title")) + " · " + t.Board.Lang.Date(t.Date, words.Long),
		lead:  t.Word("board.do"), side: t.side()}
	c.cautions = t.cautions()
	for _, d := range t.days() {
		c.panels = append(c.panels, t.panel(d))
	}
	return c
}

// side is the shop, its hours and its people.
func (t teller) side() string {
	k := t.Plan.Kitchen
	out := t.Shop.Profile.Name.V
	if k.Closes > 0 {
		out += "\n" + clock(k.Opens) + " – " + clock(k.Closes) + " · " + t.Count("board.people", int64(k.People))
	}
	return out
}

// clock is a time of day.
func clock(s unit.Span) string {
	s %= day
	if s < 0 {
		s += day
	}
	return fmt.Sprintf("%02d:%02d", s/unit.Hour, s%unit.Hour/unit.Minute)
}

// cautions are what cannot be as it was asked for, each with its nearest time,
// and where the products would be in each other's way.
func (t teller) cautions() []string {
	if t.Plan.Works() {
		return nil
	}
	out := []string{t.Word("board.nearest")}
	for j, jt := range t.Plan.Joints {
		if t.Plan.Late[j] == 0 && !t.Plan.Out[j] {
			continue
		}
		for _, r := range jt.Runs {
			name := t.letter(r) + " " + t.product(r)
			asked := plan.Ready(t.Day.Plan, r)
			if t.Plan.Out[j] {
				out = append(out, t.Fill("board.out", map[string]string{"name": name}))
				continue
			}
			out = append(out, t.Fill("board.late", map[string]string{"name": name, "asked": clock(asked), "ready": clock(asked + t.Plan.Late[j])}))
		}
	}
	for _, c := range t.Plan.Crowds {
		out = append(out, t.Fill("board.crowd", map[string]string{"time": clock(c.From) + "–" + clock(c.To), "what": t.what(c.By, -1),
			"n": t.Board.Lang.Plain(int64(c.Wanted), 0), "m": t.Board.Lang.Plain(int64(c.There), 0), "who": t.who(c)}))
	}
	return out
}

// who are the steps that are in each other's way.
func (t teller) who(c plan.Crowd) string {
	var all []string
	for _, h := range c.Held {
		all = append(all, t.label(h.Job, h.Task))
	}
	return strings.Join(all, ", ")
}

// letter names a run: A to Z, then A1, B1; I and O look like figures.
func (t teller) letter(run int) string {
	const all = "ABCDEFGHJKLMNPQRSTUVWXYZ"
	if run < len(all) {
		return all[run : run+1]
	}
	return fmt.Sprintf("%c%d", all[run%len(all)], run/len(all))
}

// product is the name of the product of a run.
func (t teller) product(run int) string {
	p := t.Day.Runs[run].Product
	return t.Own(p.Name, "the name of "+p.ID, p.Pos).V
}

// label names a step: the letter of its run, and its number on the card.
func (t teller) label(job, task int) string {
	at := t.Plan.Jobs[job].Work.Tasks[task]
	w := t.Day.Works[at.Run]
	no := slices.IndexFunc(w.ByClock(), func(i int) bool { return w.Tasks[i].Step == at.Step && w.Tasks[i].Formula == at.Formula })
	return t.letter(at.Run) + compose.NoBreak + t.Board.Lang.Plain(int64(no+1), 0)
}

// what is the name of a tool, or of a person; with a number from 0 where there
// are several.
func (t teller) what(by string, no int) string {
	if by == plan.Person {
		if no < 0 {
			return t.Word("board.people-wanted")
		}
		return compose.Capital(t.Fill("board.person", map[string]string{"n": t.Board.Lang.Plain(int64(no+1), 0)}))
	}
	name := t.Word("card.oven")
	if tool, ok := t.Shop.Profile.Tools.Get(by); ok {
		name = t.Own(tool.Name, "the name of "+by, tool.Pos).V
	}
	if no >= 0 && t.Plan.Kitchen.Tools[by].There > 1 {
		name += " " + t.Board.Lang.Plain(int64(no+1), 0)
	}
	return compose.Capital(name)
}

// days are the days on which somebody works, in order: 0 for the day itself.
func (t teller) days() []int {
	var all []int
	for _, h := range t.Plan.Held {
		if d := dayOf(h.From); h.By == plan.Person && !slices.Contains(all, d) {
			all = append(all, d)
		}
	}
	slices.Sort(all)
	return all
}

func dayOf(s unit.Span) int {
	d := int(s / day)
	if s < 0 && s%day != 0 {
		d--
	}
	return d
}

// panel is one day: from the hour in which work begins to that in which all is
// over.
func (t teller) panel(d int) panel {
	p := panel{title: t.when(d), from: unit.Span(d+1) * day, to: unit.Span(d) * day}
	held := slices.DeleteFunc(slices.Clone(t.Plan.Held), func(h plan.Held) bool { return dayOf(h.From) != d })
	for _, h := range held {
		if h.By == plan.Person {
			p.from, p.to = min(p.from, h.From), max(p.to, h.To)
		}
	}
	for j := range t.Plan.Jobs {
		if ready := t.readyOf(j, d); ready > 0 {
			p.to = max(p.to, ready)
		}
	}
	p.from -= (p.from%unit.Hour + unit.Hour) % unit.Hour
	p.to += (unit.Hour - p.to%unit.Hour) % unit.Hour
	p.to = max(p.to, p.from+unit.Hour)
	p.rows = append(t.products(d, p), t.held(held, p)...)
	p.lists = t.lists(held)
	return p
}

// readyOf is when the last run of a job is ready, on the day it is.
func (t teller) readyOf(j, d int) unit.Span {
	if d != 0 || t.Plan.Out[j] {
		return 0
	}
	last := unit.Span(0)
	for _, r := range t.Plan.Joints[j].Runs {
		last = max(last, plan.Ready(t.Day.Plan, r)+t.Plan.Late[j])
	}
	return last
}

// when is the heading of a day.
func (t teller) when(d int) string {
	s := t.Word("prep.today")
	switch {
	case d == -1:
		s = t.Word("prep.day-before")
	case d < -1:
		s = t.Count("prep.days-before", int64(-d))
	}
	return compose.Capital(s) + " · " + t.Board.Lang.Date(t.Date.AddDays(d), words.Long)
}

// products are a row for each run that is worked on that day.
func (t teller) products(d int, p panel) []row {
	var out []row
	var runs []int
	for j, jt := range t.Plan.Joints {
		if t.Plan.Out[j] {
			continue
		}
		for _, r := range jt.Runs {
			w := row{name: t.letter(r) + "  " + t.product(r), src: t.Day.Plan.Runs[r].Pos}
			w.bars = t.worked(j, r, p)
			if len(w.bars) == 0 {
				continue
			}
			w.under = t.Board.Lang.Plain(int64(t.Day.Runs[r].Pieces), 0)
			if d == 0 {
				w.ready = plan.Ready(t.Day.Plan, r) + t.Plan.Late[j]
			}
			out = append(out, w)
			runs = append(runs, r)
		}
	}
	order := make([]int, len(out))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return runs[a] - runs[b] })
	var sorted []row
	for i, at := range order {
		out[at].begins = i == 0
		sorted = append(sorted, out[at])
	}
	return sorted
}

// worked are the bars of a run: its waiting, what the oven does, and hands on
// top.
func (t teller) worked(job, run int, p panel) []bar {
	var waits, ovens, hands []bar
	for i, at := range t.Plan.Starts[job] {
		task := t.Plan.Jobs[job].Work.Tasks[i]
		if task.Run != run {
			continue
		}
		for r := range max(task.Rounds, 1) {
			h := task.Round(r)
			if h > 0 {
				hands = append(hands, bar{from: at, to: at + h, look: isWork})
			}
			wait := bar{from: at + h, to: at + h + task.Wait, look: isWait}
			if at += h + task.Wait; scale.Baked(task.Step) {
				wait.look = isOven
				ovens = append(ovens, wait)
			} else {
				waits = append(waits, wait)
			}
		}
	}
	return slices.DeleteFunc(slices.Concat(waits, ovens, hands), func(b bar) bool { return b.to <= p.from || b.from >= p.to || b.to == b.from })
}

// held are a row for each tool and each person.
func (t teller) held(held []plan.Held, p panel) []row {
	type which struct {
		by string
		no int
	}
	var all []which
	bars := map[which][]bar{}
	for _, h := range held {
		w := which{h.By, h.No}
		if bars[w] == nil {
			all = append(all, w)
		}
		look := isWork
		if h.By == shop.Oven {
			look = isOven
		}
		bars[w] = append(bars[w], bar{h.From, h.To, look, t.label(h.Job, h.Task)})
	}
	slices.SortStableFunc(all, func(a, b which) int {
		if (a.by == plan.Person) != (b.by == plan.Person) {
			return map[bool]int{true: 1, false: -1}[a.by == plan.Person]
		}
		if a.by != b.by {
			return strings.Compare(b.by, a.by) // the oven before the mixer
		}
		return a.no - b.no
	})
	var out []row
	for i, w := range all {
		var crowds []bar
		for _, c := range t.Plan.Crowds {
			if c.By == w.by && w.no == 0 && c.From < p.to && c.To > p.from {
				crowds = append(crowds, bar{from: c.From, to: c.To})
			}
		}
		out = append(out, row{crowds: crowds, name: t.what(w.by, w.no), bars: bars[w], src: t.Shop.Profile.Pos, begins: i == 0 || (w.by == plan.Person) != (all[i-1].by == plan.Person)})
	}
	return out
}

// lists are what each person does, in order.
func (t teller) lists(held []plan.Held) (out []list) {
	for _, h := range held {
		if h.By != plan.Person {
			continue
		}
		for len(out) <= h.No {
			out = append(out, list{name: t.what(plan.Person, len(out))})
		}
		out[h.No].lines = append(out[h.No].lines, line{clock(h.From), t.label(h.Job, h.Task), t.do(t.Plan.Jobs[h.Job].Work.Tasks[h.Task])})
	}
	return out
}

// do is what is done, in few words: the short sentence of the step, else the
// first of its sentences. The card says the rest.
func (t teller) do(task scale.Task) string {
	st := task.Step
	do := t.Own(st.Do, "step "+st.ID.V, st.Pos).V
	if i := strings.Index(do, ". "); i > 0 {
		do = do[:i+1]
	}
	if short, ok := st.Short.Get(t.Board.Lang.Code()); ok {
		do = short.V
	}
	return strings.ReplaceAll(amounts.ReplaceAllStringFunc(do, func(s string) string { return t.each(task, amounts.FindStringSubmatch(s)[1]) }), " ,", ",")
}

// amounts are the places of a sentence at which the card puts an amount.
var amounts = regexp.MustCompile(`\{take:([^}]*)\}`)

// each is how much of a line goes into a piece; the amounts of a batch are for
// the card.
func (t teller) each(task scale.Task, ref string) string {
	if task.Formula != nil {
		return ""
	}
	for _, l := range t.Day.Runs[task.Run].Product.Lines() {
		if l.Ref() == ref {
			return strings.ReplaceAll(t.Board.Lang.Mass(l.Take.V), " ", compose.NoBreak)
		}
	}
	return ""
}
