package tub

import (
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// foot sets the raw mark, or boxes to tick for what nobody here can know, and
// what is written when the tub is opened; it returns its height.
func (z setting) foot(room page.Rect) unit.Length {
	high := unit.Length(0)
	marks := []mark{{words: z.word["tub.opened"], blank: true}}
	if z.frozen {
		marks = append([]mark{{words: z.word["tub.thawed"], blank: true}}, marks...)
	}
	if len(z.raw) > 0 {
		high = z.band(room) + gap/2
	} else {
		marks = append([]mark{{words: z.word["tub.to-cook"]}, {words: z.word["tub.ready"]}}, marks...)
	}
	return high + z.marks(room.Below(high), marks)
}

// mark is a box to tick with its words, and a line to write on.
type mark struct {
	words string
	blank bool
}

// marks sets marks side by side, in as many lines as they need, and returns
// their height. The last line to write on of a line takes what is left.
func (z setting) marks(room page.Rect, all []mark) unit.Length {
	c := z.Column(room)
	for len(all) > 0 {
		n, used := 0, unit.Length(0)
		for n < len(all) && (n == 0 || used+4*gap+z.wide(all[n]) <= room.W) {
			used += z.wide(all[n]) + 4*gap
			n++
		}
		c.Down(z.row(c.Room, all[:n]))
		all = all[n:]
	}
	return c.Used()
}

// wide is the least width of a mark.
func (z setting) wide(m mark) unit.Length {
	w := z.TickSide(z.z.small) + gap + z.Widest(false, z.z.small, m.words)
	if m.blank {
		w += gap + blank
	}
	return w
}

// row sets marks on one line, which is higher where something is written.
func (z setting) row(room page.Rect, all []mark) unit.Length {
	var bits []bit
	lift := unit.Length(0)
	for _, m := range all {
		bits = append(bits, bit{m.words, false, z.z.small})
		if m.blank {
			lift = max(0, blankHigh-z.lead(z.z.small))
		}
	}
	up, high := z.level(bits...)
	base, x := room.Y+lift+up, room.X
	for i, m := range all {
		end := z.Tick(x, base, z.z.small) + gap
		end = z.Line(end, base, z.note(m.words), flow.Style{Size: z.z.small}).Right()
		if m.blank {
			long := blank
			if i == len(all)-1 {
				long = room.Right() - end - gap
			}
			z.Rule(end+gap, base, long, hair)
			end += gap + long
		}
		z.must(end, room.Right())
		x = end + 4*gap
	}
	return lift + high
}
