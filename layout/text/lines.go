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

// Lines sets c into lines no wider than width. The error is a [*TooWide].
// A paragraph without words has no lines.
func (c *Copy) Lines(size, width unit.Length) ([]Line, error) {
	room := c.room(size, width)
	var out []Line
	for start, k := 0, 0; start < len(c.runes); {
		end := c.fill(start, &k, room)
		if end == start {
			return nil, c.tooWide(start, c.cuts[k].at, size, width)
		}
		out = append(out, c.line(start, end, size))
		start = end
	}
	return out, nil
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

// fill finds the end of the line that begins at start; *k is the first cut not
// yet used. The end is start itself when not even a word fits.
func (c *Copy) fill(start int, k *int, room int64) (end int) {
	end = start
	for ; *k < len(c.cuts); *k++ {
		cut := c.cuts[*k]
		if c.width(start, cut.at) > room {
			break
		}
		end = cut.at
		if cut.hard {
			*k++
			break
		}
	}
	if end == start && c.para.Anywhere {
		end = c.squeeze(start, room)
	}
	return end
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
