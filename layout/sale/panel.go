package sale

import (
	"fmt"
	"strings"

	"chablon/labels/market"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/page"
	"chablon/layout/panel"
)

// drawn is a nutrition panel in its place: a block of a size of its own, which
// the words of the label leave free.
type drawn struct {
	*panel.Block
	below bool // at the foot of the label, not at its right
}

// rest is what the panel leaves of the room, with at least gap between.
func (d *drawn) rest(room page.Rect, gap unit.Length) page.Rect {
	switch {
	case d == nil:
	case d.below:
		room.H -= d.H + gap
	default:
		room.W -= d.W + gap
	}
	return room
}

// put sets the panel into its corner of the room.
func (d *drawn) put(s *compose.Setter, room page.Rect) {
	if d == nil || s.Err() != nil {
		return
	}
	x, y := room.Right()-d.W, room.Y
	if d.below {
		x, y = room.X, room.Bottom()-d.H
	}
	s.Add(d.Items, s.Dots.Snap(x), s.Dots.Snap(y))
}

// fitted is the best arrangement, beside the nutrition panel where the market
// wants the declaration drawn as one.
func (c *label) fitted() (*layout, error) {
	err := c.setPanels()
	if err != nil && len(c.panels) == 0 {
		return nil, err
	}
	return c.best()
}

// setPanels sets the nutrition panel in each form that the law lets this pack
// bear and that goes on the paper, the first to be taken first. The error is why
// the last of those that do not go there does not.
func (c *label) setPanels() (last error) {
	room := c.room()
	for _, f := range c.panelForms() {
		b, err := panel.Set(c.panelSays(), f, room)
		if err != nil {
			last = err
			continue
		}
		c.panels = append(c.panels, b)
	}
	return last
}

// panelForms are the forms that the pack may bear its declaration in.
func (c *label) panelForms() []market.PanelForm {
	if len(c.Told) == 0 || c.Told[0].Table == nil {
		return nil
	}
	return panel.Forms(c.Facts)
}

func (c *label) panelSays() panel.Says {
	says := panel.Says{Facts: c.Facts, Paper: c.paper}
	for _, t := range c.Told {
		says.Told = append(says.Told, t.Table)
	}
	return says
}

// remedy is what to do where the label does not fit, with how large the panel is
// in each of its forms.
func (c *label) remedy() string {
	hint := "take a larger paper, fewer languages, or a second label; the letters may not become smaller"
	var sizes []string
	for _, f := range c.panelForms() {
		if b, err := panel.Set(c.panelSays(), f, page.Rect{W: unit.CM * 100, H: unit.CM * 100}); err == nil {
			sizes = append(sizes, fmt.Sprintf("%.0f × %.0f mm (%s)", b.W.MM()+0.5, b.H.MM()+0.5, f.Key))
		}
	}
	if len(sizes) > 0 {
		hint += "; the nutrition panel alone takes " + strings.Join(sizes, " or ")
	}
	return hint
}

// withPanels is each arrangement of lines beside or above the panel, form by
// form: a form further down in the law is taken where none before it fits.
func (c *label) withPanels(lines []way) (out [][]way) {
	for _, b := range c.panels {
		var all []way
		for _, below := range []bool{false, true} {
			for _, w := range lines {
				w.drawn = &drawn{b, below}
				all = append(all, w)
			}
		}
		out = append(out, c.formed(all)...)
	}
	return out
}
