package prep

import (
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// blocks are the rows of a list, and at the end its foot, which does not stand
// alone on a page.
func (s *setter) blocks(w unit.Length) []flow.Block {
	var out []flow.Block
	for _, r := range s.rows {
		out = append(out, s.rowBlock(w, r))
	}
	out[len(out)-1].Tied = true
	return append(out, s.block(w, func(h *hand, room page.Rect) unit.Length {
		return h.para(room, flow.Words(page.Note, s.Shop.Profile.Pos, s.foot), flow.Style{Size: s.size})
	}))
}

func (s *setter) rowBlock(w unit.Length, r row) flow.Block {
	b := s.block(w, func(h *hand, room page.Rect) unit.Length { return s.row(h, room, r) })
	b.Tied, b.Src = r.head != "", r.src
	return b
}

// deal puts the blocks on pages with the same room. A page that begins below a
// heading of the page before says it again.
func (s *setter) deal(room page.Rect, blocks []flow.Block) ([][]page.Item, error) {
	var out [][]page.Item
	for at := 0; at < len(blocks); {
		rest := blocks[at:]
		more := s.again(room.W, at)
		pen := s.pen()
		n, _ := pen.Stack(room, gap, append(more, rest...))
		if n <= len(more) { // not even one row: let the pen say why
			return s.pen().Pages(func(int) page.Rect { return room }, gap, append(more, rest...))
		}
		out, at = append(out, pen.Items), at+n-len(more)
	}
	return out, s.err
}

// again is the heading that holds for the row at the top of a further page;
// none where that is a heading itself, or the foot.
func (s *setter) again(w unit.Length, at int) []flow.Block {
	if at == 0 || at >= len(s.rows) || s.rows[at].head != "" {
		return nil
	}
	for i := at - 1; i >= 0; i-- {
		if head := s.rows[i].head; head != "" {
			words, err := s.Lang.Fill("audit.more", map[string]string{"name": head})
			if err != nil && s.err == nil {
				s.err = err
			}
			return []flow.Block{s.rowBlock(w, row{head: words})}
		}
	}
	return nil
}
