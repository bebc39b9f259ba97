package sale

import (
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/text"
)

// listed sets a paragraph of running words; a list below a solid line, as wide as
// its column, where the market wants it set off (C.R.C., c. 870, B.01.008.2(2)).
func (l *layout) listed(c *compose.Column, q text.Para, st flow.Style) {
	if q.Role == role.List && len(q.Spans) > 0 && l.Facts.Market.List.SetOff.Act != "" {
		c.Skip(quarter)
		c.Rule(c.Room.X, c.Room.Y, c.Room.W, 200*unit.UM)
		c.Skip(2 * quarter)
	}
	c.Put(q, st)
}
