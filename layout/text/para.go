package text

import (
	"github.com/go-text/typesetting/segmenter"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
)

// Span is a stretch of words in one face. Src is where they came from; the
// paragraph's place stands in where it is not known.
type Span struct {
	Text string
	Bold bool
	Src  diag.Pos
}

// Para is what is set together: its spans follow each other without a gap.
// A "\n" ends a line; other runs of white space count as one space. With
// Anywhere a word that is wider than the line is cut where the line ends,
// which suits identifiers and nothing else.
type Para struct {
	Spans    []Span
	Role     role.Role
	Src      diag.Pos
	Anywhere bool
}

// Copy is a paragraph made ready: measured, with its possible breaks known.
// It never changes and may be used by several goroutines.
type Copy struct {
	para  Para
	faces *Faces
	runes []rune
	bold  []bool
	src   []int32 // span of each rune
	cum   []int64 // design units before each rune; one more than runes
	cuts  []cut   // in order, the last at the end
}

// cut is a place where a line may end: before rune at. Hard means it must;
// hangs that the word before it would rather stand on the next line.
type cut struct {
	at    int
	hard  bool
	hangs bool
}

// Prepare measures p and finds where it may break. The error is a [*NoGlyph].
func (f *Faces) Prepare(p Para) (*Copy, error) {
	c := &Copy{para: p, faces: f}
	if err := c.gather(); err != nil {
		return nil, err
	}
	c.measure()
	c.findCuts()
	return c, nil
}

// Para is what c was made from.
func (c *Copy) Para() Para { return c.para }

// gather joins the spans, white space cleaned.
func (c *Copy) gather() error {
	for i, s := range c.para.Spans {
		face := c.faces.Of(s.Bold)
		for _, r := range s.Text {
			switch {
			case r == '\t' || r == '\r':
				r = ' '
			case r == '\n', steers(r), face.has(r) && !invisible(r):
			case invisible(r):
				continue
			default:
				return &NoGlyph{r, c.place(i)}
			}
			c.push(r, s.Bold, i)
		}
	}
	c.trim()
	return nil
}

// steers are the invisible letters that say where to break: zero width space,
// word joiner, zero width no-break space. A soft hyphen is not among them,
// because a word broken there would have to show a hyphen.
func steers(r rune) bool { return r == 0x200B || r == 0x2060 || r == 0xFEFF }

func (c *Copy) push(r rune, bold bool, span int) {
	last := rune('\n')
	if n := len(c.runes); n > 0 {
		last = c.runes[n-1]
	}
	if r == ' ' && (last == ' ' || last == '\n') {
		return
	}
	if r == '\n' {
		c.trim()
	}
	c.runes, c.bold, c.src = append(c.runes, r), append(c.bold, bold), append(c.src, int32(span))
}

// trim takes spaces off the end.
func (c *Copy) trim() {
	n := len(c.runes)
	for n > 0 && c.runes[n-1] == ' ' {
		n--
	}
	c.runes, c.bold, c.src = c.runes[:n], c.bold[:n], c.src[:n]
}

func (c *Copy) place(span int) diag.Pos {
	if s := c.para.Spans[span].Src; s.Known() {
		return s
	}
	return c.para.Src
}

func (c *Copy) measure() {
	c.cum = make([]int64, len(c.runes)+1)
	for i, r := range c.runes {
		c.cum[i+1] = c.cum[i]
		if r != '\n' {
			c.cum[i+1] += int64(c.faces.Of(c.bold[i]).glyph(r).adv)
		}
	}
}

// findCuts keeps the breaks of Unicode that a label can bear; see [glued].
func (c *Copy) findCuts() {
	for _, u := range breaks(c.runes) {
		if u.at == len(c.runes) || u.hard || !glued(c.runes, u.at) {
			u.hangs = hangs(c.runes, u.at)
			c.cuts = append(c.cuts, u)
		}
	}
}

// breaks are the places where a line may or must end by Unicode Standard
// Annex #14, the end of t among them.
func breaks(t []rune) []cut {
	var seg segmenter.Segmenter
	seg.Init(t)
	var out []cut
	for it := seg.LineIterator(); it.Next(); {
		l := it.Line()
		at := l.Offset + len(l.Text)
		out = append(out, cut{at: at, hard: l.IsMandatoryBreak && at < len(t)})
	}
	return out
}

// Width is how wide c is at the given size when nothing breaks but its own
// line ends.
func (c *Copy) Width(size unit.Length) unit.Length {
	var widest int64
	start := 0
	for i, r := range c.runes {
		if r == '\n' {
			widest, start = max(widest, c.cum[i]-c.cum[start]), i
		}
	}
	widest = max(widest, c.cum[len(c.runes)]-c.cum[start])
	return c.faces.Regular.scaled(widest, size)
}
