package print

import (
	"slices"

	"chablon/labels/unit"
)

// fitsFace cautions when a label is larger than what is said to be the largest
// face of its pack and the law gives relief for so small a face: either the
// label goes round several faces, or the face was measured too small and the
// relief does not hold (Reg. (EU) No 1169/2011 Art. 13(3), 16(2)).
func (p *Press) fitsFace(l *label) {
	w, h := l.stock.Size()
	area, face := unit.AreaOf(w, h), l.pack.Face
	if !face.Set() || l.pack.WrapsRound.V || area <= face.V || !l.relieved(area) {
		return
	}
	p.Found.Warnf(face.Pos, "face", "measure the face again; where the label goes round several faces, write wraps-round: yes below it",
		"the label of %s is %s (%s), larger than the largest face of the pack, %s; letters could become too small for the law", l.product.ID, area, l.stock.ID, face.V)
}

// relieved reports whether the market asks less of the pack than of one with
// a face of this area.
func (l *label) relieved(area unit.Area) bool {
	said := marketPack(l)
	large := said
	large.Face = area
	if l.market.XHeight(said.Face).Least < l.market.XHeight(area).Least {
		return true
	}
	less, _ := l.market.Needs(said)
	more, _ := l.market.Needs(large)
	return !slices.Equal(less, more)
}
