package emblem

import (
	"bytes"
	"math"
	"strconv"

	"chablon/labels/unit"
	"chablon/layout/page"
)

// A pathReader reads the d of one path, as SVG 2 writes it (9.3), as far as it
// is taken: absolute M, L, C and Z. It stops at the first thing that is not.
type pathReader struct {
	s    []byte
	i    int
	from page.Pt // where the viewBox begins
	out  []page.Seg

	start page.Pt // of the part of the path that is being drawn
	ended bool    // by a Z: what follows begins where that part began
	open  bool

	wrong string // what is wrong at i, or ""
}

const pathHint = "convert strokes and text to paths, and save the drawing with absolute coordinates, as M, L, C and Z alone"

// points is how many points a letter of a path is followed by.
func points(c byte) (n int, ok bool) {
	n, ok = map[byte]int{'M': 1, 'L': 1, 'C': 3, 'Z': 0}[c]
	return n, ok
}

// all reads the whole path; room is how many steps may still come.
func (p *pathReader) all(room int) {
	for p.blank(); p.i < len(p.s) && p.wrong == ""; p.blank() {
		c := p.s[p.i]
		n, ok := points(c)
		switch {
		case !ok:
			p.wrong = strconv.Quote(string(rune(c))) + " is not read in a path"
			return
		case !p.open && c != 'M':
			p.wrong = "a path begins with M"
			return
		}
		p.i++
		p.letter(c, n, room)
	}
}

// letter reads what follows a letter: its points, as often as they come. What
// follows the points of an M is a line.
func (p *pathReader) letter(c byte, n, room int) {
	if n == 0 {
		p.add(page.Seg{Op: page.Close}, room)
		p.ended = true
		return
	}
	for first := true; p.wrong == "" && (first || p.more()); first = false {
		s := page.Seg{Op: page.SegOp(c)}
		for k := range n {
			s.Pts[k].X = p.number(!first || k > 0) - p.from.X
			s.Pts[k].Y = p.number(true) - p.from.Y
		}
		if p.wrong == "" {
			p.step(s, room)
		}
		if c == 'M' {
			c = 'L'
		}
	}
}

// step adds one step; what is drawn on after a Z begins where that began.
func (p *pathReader) step(s page.Seg, room int) {
	if s.Op == page.Move {
		p.start, p.open = s.Pts[0], true
	} else if p.ended {
		p.add(page.Seg{Op: page.Move, Pts: [3]page.Pt{p.start}}, room)
	}
	p.ended = false
	p.add(s, room)
}

func (p *pathReader) add(s page.Seg, room int) {
	if len(p.out) >= room {
		p.wrong = "the drawing has more than " + strconv.Itoa(MaxSteps) + " steps"
		return
	}
	p.out = append(p.out, s)
}

func (p *pathReader) blank() {
	for p.i < len(p.s) && bytes.IndexByte([]byte(" \t\r\n\f"), p.s[p.i]) >= 0 {
		p.i++
	}
}

// more reports whether another number follows rather than a letter or the end.
func (p *pathReader) more() bool {
	p.blank()
	return p.i < len(p.s) && bytes.IndexByte([]byte("+-.0123456789,"), p.s[p.i]) >= 0
}

// number reads one number in millionths. comma says that one may part it from
// what stands before it.
func (p *pathReader) number(comma bool) unit.Length {
	p.blank()
	if comma && p.i < len(p.s) && p.s[p.i] == ',' {
		p.i++
		p.blank()
	}
	n := numberLen(p.s[p.i:])
	v, ok := millionths(string(p.s[p.i : p.i+n]))
	if !ok && p.wrong == "" {
		p.wrong = "a number is expected here"
	}
	if p.wrong == "" {
		p.i += n
	}
	return v
}

// numberLen is how many bytes of s are one number, as SVG writes it.
func numberLen(s []byte) int {
	i := 0
	digits := func() {
		for i < len(s) && s[i] >= '0' && s[i] <= '9' {
			i++
		}
	}
	if i < len(s) && (s[i] == '+' || s[i] == '-') {
		i++
	}
	digits()
	if i < len(s) && s[i] == '.' {
		i++
		digits()
	}
	if i+1 < len(s) && (s[i] == 'e' || s[i] == 'E') {
		i++
		if s[i] == '+' || s[i] == '-' {
			i++
		}
		digits()
	}
	return i
}

// maxUnits is the largest coordinate that is read.
const maxUnits = 100_000

// millionths is a number of at most 24 characters in millionths.
func millionths(s string) (unit.Length, bool) {
	if len(s) == 0 || len(s) > 24 {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || math.Abs(v) > maxUnits {
		return 0, false
	}
	return unit.Length(math.Round(v * 1e6)), true
}
