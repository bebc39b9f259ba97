package text

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// Frag is a piece of a line in one face. X counts from the start of the line;
// W is its advance.
type Frag struct {
	Text string
	Bold bool
	X, W unit.Length
	Src  diag.Pos
}

// Line is one line of a paragraph, without the spaces at its end. W is its
// advance; Up and Down are how far its ink reaches from the baseline.
type Line struct {
	Frags    []Frag
	W        unit.Length
	Up, Down unit.Length
}

// Text is the words of the line.
func (l Line) Text() string {
	var b strings.Builder
	for _, f := range l.Frags {
		b.WriteString(f.Text)
	}
	return b.String()
}

// Break sets p into lines no wider than width, ragged right. The error is a
// [*NoGlyph] or a [*TooWide].
func (f *Faces) Break(p Para, size, width unit.Length) ([]Line, error) {
	c, err := f.Prepare(p)
	if err != nil {
		return nil, err
	}
	return c.Lines(size, width)
}

// Lines sets c into lines no wider than width, as few as it takes, their right
// ends as even as can be. The error is a [*TooWide]. A paragraph without words
// has no lines.
func (c *Copy) Lines(size, width unit.Length) ([]Line, error) {
	room := c.room(size, width)
	var out []Line
	for start, k := 0, 0; k < len(c.cuts); {
		last := c.stretch(k)
		ends := c.rag(start, k, last, room)
		if ends == nil {
			var err error
			if ends, err = c.fill(start, k, last, size, width); err != nil {
				return nil, err
			}
		}
		for _, end := range ends {
			out = append(out, c.line(start, end, size))
			start = end
		}
		k = last + 1
	}
	return out, nil
}

// stretch is the first cut from k on at which a line must end.
func (c *Copy) stretch(k int) int {
	for k < len(c.cuts)-1 && !c.cuts[k].hard {
		k++
	}
	return k
}

// room is how many design units go into width at the given size.
func (c *Copy) room(size, width unit.Length) int64 {
	if size <= 0 || width <= 0 {
		return -1
	}
	room := unit.MulDiv(int64(width), c.em(), int64(size))
	for size.Mul(room, c.em()) > width {
		room--
	}
	return room
}

func (c *Copy) em() int64 { return c.faces.Regular.em }

// fill finds where lines end when each takes as much as goes in, and a word
// that is too wide may be cut, from start to the cut last; k is the first cut
// behind start.
func (c *Copy) fill(start, k, last int, size, width unit.Length) (ends []int, err error) {
	room := c.room(size, width)
	for stop := c.cuts[last].at; start < stop; start = ends[len(ends)-1] {
		end := start
		for ; k <= last && c.width(start, c.cuts[k].at) <= room; k++ {
			end = c.cuts[k].at
		}
		if end == start && c.para.Anywhere {
			end = c.squeeze(start, room)
		}
		if end == start {
			return nil, c.tooWide(start, c.cuts[k].at, size, width)
		}
		ends = append(ends, end)
	}
	return ends, nil
}

func (c *Copy) tooWide(start, end int, size, width unit.Length) error {
	return &TooWide{Word: strings.TrimSpace(c.words(start, end)), Need: size.Mul(c.width(start, end), c.em()),
		Width: width, Src: c.place(int(c.src[start]))}
}

// squeeze is as far as a line from start can go when it may end anywhere.
func (c *Copy) squeeze(start int, room int64) int {
	end := start
	for end < len(c.runes) && c.cum[end+1]-c.cum[start] <= room {
		end++
	}
	return end
}

// width is that of the runes from start to end without blanks at the end.
func (c *Copy) width(start, end int) int64 { return c.cum[c.inked(start, end)] - c.cum[start] }

// inked is end without the blanks before it.
func (c *Copy) inked(start, end int) int {
	for end > start && blank(c.runes[end-1]) {
		end--
	}
	return end
}

func blank(r rune) bool { return r == ' ' || r == '\n' || steers(r) }

func (c *Copy) words(start, end int) string { return Drawn(string(c.runes[start:end])) }

// line makes fragments of the runes from start to end.
func (c *Copy) line(start, end int, size unit.Length) Line {
	end = c.inked(start, end)
	at := func(i int) unit.Length { return size.Mul(c.cum[i]-c.cum[start], c.em()) }
	l := Line{W: at(end)}
	for i := start; i < end; {
		j := i + 1
		for j < end && c.bold[j] == c.bold[i] {
			j++
		}
		if s := c.words(i, j); s != "" {
			up, down := c.faces.Of(c.bold[i]).Ink(s, size)
			l.Up, l.Down = max(l.Up, up), max(l.Down, down)
			l.Frags = append(l.Frags, Frag{s, c.bold[i], at(i), at(j) - at(i), c.place(int(c.src[i]))})
		}
		i = j
	}
	return l
}
