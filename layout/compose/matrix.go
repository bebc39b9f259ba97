package compose

import (
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/symbol"
)

// Matrix is a GS1 DataMatrix of a logistic label, which says at once all that
// the label says, for scanners that see a picture. The GS1-128 with the SSCC
// stays beside it (GGS release 18, 6.6: two-dimensional symbols may be added to
// the linear ones; from memory). Make one with [Paper.Matrix].
type Matrix struct {
	els    []gs1.Element
	module symbol.Module
	w, h   unit.Length
	src    diag.Pos
}

// Matrix makes the matrix of elements. The error is what keeps them from being
// encoded, or from being printed.
func (p *Paper) Matrix(els []gs1.Element, src diag.Pos) (*Matrix, error) {
	if err := sound(els); err != nil {
		return nil, wrongData{err, src}
	}
	x, _, err := symbol.Choose(gs1.GS1DataMatrix, gs1.Trade, p.Dots)
	if err != nil {
		return nil, err
	}
	m := &Matrix{els: els, module: symbol.Module{X: x, Dots: p.Dots}, src: src}
	s, err := m.symbol("")
	if err != nil {
		return nil, wrongData{err, src}
	}
	m.w, m.h = symbol.Room(s)
	return m, nil
}

// symbol is the matrix of the unit with an SSCC; "" for that of the elements.
func (m *Matrix) symbol(number string) (*page.Symbol, error) {
	els := make([]gs1.Element, len(m.els))
	for i, e := range m.els {
		if e.AI == sscc && number != "" {
			e.Value = number
		}
		els[i] = e
	}
	s, err := gs1.Encode(els)
	if err != nil {
		return nil, err
	}
	return symbol.GS1DataMatrix(s, m.module)
}

// Room is the size that the matrix takes with its white; none for no matrix.
func (m *Matrix) Room() (w, h unit.Length) {
	if m == nil {
		return 0, 0
	}
	return m.w, m.h
}

// Put sets the matrix of the unit with an SSCC, its corner at (x, y); without a
// number that of the elements.
func (m *Matrix) Put(s *Setter, x, y unit.Length, number string) {
	if m == nil {
		return
	}
	of, err := m.symbol(number)
	if err != nil {
		s.Fail(err)
		return
	}
	s.Bars(x, y, of, "", 0, m.src)
}

// Says is what a scanner must show of the matrix of the first unit, in
// brackets; "" for no matrix.
func (m *Matrix) Says() string {
	if m == nil {
		return ""
	}
	return gs1.HRI(m.els)
}
