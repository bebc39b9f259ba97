package card

import (
	"slices"
	"strings"

	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
)

// advice is a sentence under a step, behind an icon.
type advice struct {
	Icon flow.Icon
	Said told
	Bold bool // it must not be missed
	Hang bool // it stands on the wall too
}

// remedies says, for each amount of a lane that its scale cannot show within
// 1 %, which scale of the bench can, or how a premix helps. An amount for which
// neither is there is only flagged.
func (t *teller) remedies(l *lane, m *scale.Make) {
	for _, r := range scale.Remedies(t.Shop, m.Lines) {
		p := l.putOf(r.Amount, m)
		if p == nil || !p.Advice.empty() { // what the gelatine stands for
			continue
		}
		switch {
		case r.Scale != nil:
			step := t.grams(r.Scale.Step.V, r.Scale.Step.V)
			p.Advice = t.slots("card.finer-scale", p.Src, func(i int, _ *words.Lang) map[string]string {
				return map[string]string{"name": p.Name.In[i], "step": step}
			})
		case r.Times > 0:
			p.Advice = t.premix(p, r)
		default:
			p.Hints = append(p.Hints, t.word("card.premix"))
		}
	}
}

// premix says how to weigh a larger amount and take the right part of it. What
// is taken brings some of the other line along, which is weighed less there.
func (t *teller) premix(p *put, r scale.Remedy) told {
	finest := r.Amount.Step
	less := (r.Take - r.Take.Mul(1, unit.Mass(r.Times))).Round(r.Other.Step)
	other := t.nameOf(*r.Other)
	return t.slots("card.premix-how", p.Src, func(i int, _ *words.Lang) map[string]string {
		return map[string]string{"name": p.Name.In[i], "other": other.In[i], "weigh": t.grams(r.Weigh, finest),
			"with": t.grams(r.With, finest), "take": t.grams(r.Take, finest), "less": t.grams(less, r.Other.Step)}
	})
}

// putOf finds the amount of a lane that stands for a line of its formula.
func (l *lane) putOf(a *scale.Amount, m *scale.Make) *put {
	for i := range m.Lines {
		if &m.Lines[i] == a && i < len(l.puts) {
			return &l.puts[i]
		}
	}
	return nil
}

// reviewed flags the amounts that do not grow in proportion, where the batch is
// so large that somebody should look at them.
func (t *teller) reviewed(l *lane, m *scale.Make) {
	for _, a := range m.Reviewed() {
		if p := l.putOf(a, m); p != nil {
			p.Hints = append(p.Hints, t.word("card.check-larger"))
		}
	}
}

// bloom says what the amount of the gelatine on the shelf stands for, and how
// it follows, where the formula was written for another strength.
func (t *teller) bloom(a scale.Amount, p put) told {
	c, ok := a.Converted()
	if !ok || c.Same {
		return told{}
	}
	l := t.Lang()
	rule := l.Plain(c.From, 0) + compose.NoBreak + "÷" + compose.NoBreak + l.Plain(c.To, 0)
	if c.Rule == scale.Root {
		rule = "(" + rule + ")" + compose.NoBreak + "^" + compose.NoBreak + "½"
	}
	return t.slots("card.bloom", a.Line.Pos, func(i int, _ *words.Lang) map[string]string {
		return map[string]string{"name": p.Name.In[i], "bloom": l.Plain(c.To, 0), "mass": t.grams(a.Shown, a.Step),
			"written": t.grams(a.Written, a.Step), "from": l.Plain(c.From, 0), "rule": "×" + compose.NoBreak + rule}
	})
}

// clashes says where steps of this card want the same tool at the same time.
func (t *teller) clashes(out *content) {
	seen := map[string]bool{}
	for _, c := range scale.Clashes(t.Shop, scale.Job{Work: out.work}) {
		tool, ok := t.Shop.Profile.Tools.Get(c.Tool)
		name := t.word("card.oven")
		if ok {
			name = t.own(tool.Name, tool.Pos, "the name of "+c.Tool)
		}
		var numbers []string
		for _, h := range c.Tasks {
			numbers = append(numbers, t.Lang().Plain(int64(out.no[h.Task]), 0))
		}
		steps := strings.Join(numbers, ", ")
		if seen[c.Tool+steps] {
			continue
		}
		seen[c.Tool+steps] = true
		out.Clashes = append(out.Clashes, t.slots("card.clash", tool.Pos, func(i int, _ *words.Lang) map[string]string {
			return map[string]string{"tool": name.In[i], "steps": steps}
		}))
	}
}

// room is the temperature that the example beside the rule takes room, flour,
// preferment and tap to have; what they have today is measured.
const room = 20

// doughWater says below the water of a dough how warm it must be: the number
// from which the temperatures measured today are taken off, what that comes to
// in a room of 20 °C, and how much of it must be ice from a tap as warm as the
// room.
func (t *teller) doughWater(l *lane, m *scale.Make) {
	from, off, ok := scale.WaterFrom(m.Formula)
	if !ok {
		return
	}
	a := waterOf(m)
	p := l.putOf(a, m)
	if p == nil {
		t.Found().Errorf(m.Formula.Dough.Pos, "dough", "use an ingredient with added-water: yes, or take dough: out",
			"%s says how warm its water must be, and no line of it is water", m.Formula.ID)
		return
	}
	water := from - unit.Temp(off)*unit.Celsius(room)
	key := "card.dough-water"
	if off > 2 {
		key = "card.dough-water-preferment"
	}
	ice, err := scale.Ice(a.Shown, unit.Celsius(room), water)
	p.water = true
	p.Advice = t.slots(key, m.Formula.Dough.Pos, func(_ int, in *words.Lang) map[string]string {
		warm := in.Temp(whole(water), true)
		switch {
		case err != nil || water < 0:
			warm += "; " + t.In(in).Word("card.dough-no-ice")
		case ice > 0:
			warm += "; " + t.In(in).Fill("card.dough-ice", map[string]string{"ice": t.grams(ice, a.Step)})
		}
		return map[string]string{"wanted": in.Temp(whole(m.Formula.Dough.Wanted.V), true), "room": in.Temp(whole(unit.Celsius(room)), true),
			"from": in.TempPair("", round(from), inFahrenheit(from, off)), "water": warm}
	})
}

// waterOf is the water of a batch, or nil.
func waterOf(m *scale.Make) *scale.Amount {
	for i := range m.Lines {
		if g := m.Lines[i].Ingredient; g != nil && g.AddedWater.V {
			return &m.Lines[i]
		}
	}
	return nil
}

// inFahrenheit is a number from which off temperatures in °F are taken, of one
// from which as many in °C are: it is no temperature itself, and every one that
// is taken off has its own 32 degrees.
func inFahrenheit(from unit.Temp, off int) unit.Temp {
	f := from + unit.Temp(off*32)*unit.Temp(unit.DegF)
	return unit.Fahrenheit(unit.MulDiv(int64(f-unit.Fahrenheit(0)), 1, int64(unit.DegF)))
}

// round is a temperature in whole degrees Celsius.
func round(t unit.Temp) unit.Temp { return unit.Celsius(unit.MulDiv(int64(t), 1, int64(unit.DegC))) }

func whole(t unit.Temp) unit.Target { return unit.Target{Lo: round(t), Hi: round(t)} }

// notes are what has no place in the order of the steps, in a fixed order: how
// it is kept and which label it gets, the work against time, cautions, where
// else to look, what it holds.
func (s *sheet) notes() []flow.Block {
	_, src := s.id()
	all := []flow.Block{s.block(src, true, s.keepAll)}
	all = append(all, s.timeline()...)
	for _, t := range slices.Concat(s.said.Clashes, s.said.Cautions) {
		all = append(all, s.notice(t, flow.Warning))
	}
	for _, t := range s.said.Rules {
		all = append(all, s.notice(t, flow.Arrow))
	}
	if !s.said.Balance.empty() {
		all = append(all, s.notice(s.said.Balance, flow.Scale))
	}
	return all
}

// keepAll is how it is kept, and which label it gets, under a rule.
func (s *sheet) keepAll(h *setter) unit.Length {
	h.Rule(0, s.z.pad, s.area.W, s.z.thick)
	y := s.z.pad + s.z.thick + s.z.pad
	for _, t := range s.said.Keep {
		y += h.told(0, y, s.area.W, role.Keep, t, s.z.strong())
	}
	return y
}

// notice is a sentence behind an icon; on a wide paper the two languages stand
// side by side.
func (s *sheet) notice(t told, icon flow.Icon) flow.Block {
	return s.block(t.Src, false, func(h *setter) unit.Length {
		x := s.z.small * 3 / 2
		w := s.area.W - x
		h.bit(0, h.up(s.z.small), bit{kind: isIcon, icon: icon, look: s.z.note(), role: role.Note})
		if len(t.In) < 2 || s.area.W < 45*s.z.small {
			return h.told(x, 0, w, role.Note, t, s.z.note()) + s.z.pad/2
		}
		w = (w - s.z.gap) / 2
		left := h.words(x, 0, w, role.Note, t.Src, t.In[0], s.z.note())
		right := h.words(x+w+s.z.gap, 0, w, role.Note, t.Src, t.In[1], s.z.faint())
		return max(left, right) + s.z.pad/2
	})
}

// module is the width of a module of the code: 0.625 mm, the target for a
// symbol read by hand (labels/gs1, QR in retail), in whole dots.
func (s *sheet) module() unit.Length {
	const target = 625 * unit.UM
	if s.Dots.N == 0 {
		return target
	}
	return s.Dots.At(s.Dots.Floor(target))
}

// plainASCII leaves out what a code reader may show wrongly.
func plainASCII(t string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == 0xA0 || r == 0x202F:
			return ' '
		case r > 126:
			return '?'
		}
		return r
	}, t)
}
