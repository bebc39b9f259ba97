package card

import (
	"strings"

	forecast "chablon/labels/heat"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
)

// advice is a sentence under a step, behind an icon.
type advice struct {
	Icon flow.Icon
	Said told
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

// warmth foretells how warm the mix of a step gets, where what goes in tells
// enough; a warning where that is less than the step asks for.
func (t *teller) warmth(f *shop.Formula, s *shop.Step) []advice {
	if f == nil {
		return nil
	}
	c, ok := forecast.Step(t.Shop, f, s.ID.V)
	if !ok {
		return nil
	}
	key, icon := "card.mix-at", flow.Probe
	if c.Below {
		key, icon = "card.mix-below", flow.Warning
	}
	about := unit.Celsius(unit.MulDiv(int64(c.Expected), 1, int64(unit.DegC)))
	target := unit.Target{Lo: about, Hi: about}
	return []advice{{icon, t.slots(key, s.Pos, func(_ int, l *words.Lang) map[string]string {
		return map[string]string{"temp": l.Temp(target, true)}
	})}}
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
			numbers = append(numbers, t.Lang().Plain(int64(h.Task+1), 0))
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
