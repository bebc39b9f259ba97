package pdf

import (
	"compress/zlib"
	"fmt"
	"math/bits"
	"strings"
	"sync"
	"unicode/utf16"

	"chablon/fonts"
	"chablon/layout/page"

	"github.com/signintech/gopdf"
	"github.com/signintech/gopdf/fontmaker/core"
)

// faces are the typefaces as read from their files, shared by all documents,
// and with them the packers of streams, each nearly a megabyte.
type faces struct {
	shelf   gopdf.FontContainer
	all     []face
	packers sync.Pool
}

// own reads a face of a shop's own, for one document.
func own(f *page.Font) (*face, *gopdf.FontContainer, error) {
	one := &faces{all: make([]face, 1)}
	if err := one.read(0, f.Name, f.Name, f.File); err != nil {
		return nil, nil, err
	}
	one.all[0].own = f
	return &one.all[0], &one.shelf, nil
}

// A face is one typeface: name as pages say it, font as the file calls itself.
type face struct {
	name, font string
	glyphs     [1 << 16]uint16 // character to glyph, 0 when there is none
	metrics    core.TTFParser
	own        *page.Font // nil for a face of the house
}

// loadFaces reads the typefaces once in the life of a program.
var loadFaces = sync.OnceValues(readFaces)

func readFaces() (*faces, error) {
	if err := fonts.Check(); err != nil {
		return nil, err
	}
	f := &faces{all: make([]face, 2), packers: sync.Pool{New: func() any { return zlib.NewWriter(nil) }}}
	if err := f.read(0, "regular", "RobotoCondensed-Regular", fonts.Regular()); err != nil {
		return nil, err
	}
	return f, f.read(1, "bold", "RobotoCondensed-Bold", fonts.Bold())
}

func (f *faces) read(i int, name, font string, file []byte) (err error) {
	defer caught(&err)
	a := &f.all[i]
	a.name, a.font = name, font
	if err := a.metrics.ParseFontData(file); err != nil {
		return fmt.Errorf("%s: %w", font, err)
	}
	for r, g := range a.metrics.Chars() {
		if r < len(a.glyphs) && g < 1<<16 {
			a.glyphs[r] = uint16(g)
		}
	}
	return f.shelf.AddTTFFontData(font, file)
}

// width is the advance of a glyph in thousandths of an em, times ten.
func (f *face) width(g uint16) int64 {
	w := f.metrics.Widths()
	n := min(int(g), int(f.metrics.NumberOfHMetrics())-1, len(w)-1)
	em := int64(f.metrics.UnitsPerEm())
	return (int64(w[n])*10_000 + em/2) / em
}

func (f *face) em(n int) int { return gopdf.DesignUnitsToPdf(n, f.metrics.UnitsPerEm()) }

// inks are the typefaces of one document with what it uses of them.
type inks struct {
	faces *faces
	used  []ink
}

// An ink is one face and the characters drawn with it so far.
type ink struct {
	*face
	runes [1 << 16 / 64]uint64
	shelf *gopdf.FontContainer
	any   bool
	id    int // object number of its first of five objects
}

func newInks(f *faces) *inks {
	k := &inks{f, make([]ink, len(f.all))}
	for i := range k.used {
		k.used[i].face, k.used[i].shelf = &f.all[i], &f.shelf
	}
	return k
}

// face finds a typeface by the name that pages use, -1 when there is none.
func (k *inks) face(name string) int {
	for i := range k.used {
		if k.used[i].name == name {
			return i
		}
	}
	return -1
}

// of finds the typeface of a run; one of a shop's own is read where it is first
// met. It is -1 when there is none.
func (k *inks) of(r *page.Run) (int, error) {
	if i := k.face(r.Face); i >= 0 || r.Font == nil {
		return i, nil
	}
	f, shelf, err := own(r.Font)
	if err != nil {
		return -1, fmt.Errorf("the typeface %s: %w", r.Font.Name, err)
	}
	k.used = append(k.used, ink{face: f, shelf: shelf})
	return len(k.used) - 1, nil
}

// glyph finds the glyph of r and notes that it is used.
func (k *ink) glyph(r rune) uint16 {
	if r >= 1<<16 {
		return 0
	}
	k.any = true
	k.note(r)
	if r == horizontalBar && k.own == nil {
		k.note(emDash)
	}
	return k.glyphs[r]
}

// gopdf takes along the parts that a glyph is made of, but not their parts.
// One glyph in our faces needs these: the horizontal bar is an em dash, which
// is itself made of another.
const emDash, horizontalBar = '\u2014', '\u2015'

func (k *ink) note(r rune) { k.runes[r>>6] |= 1 << (r & 63) }

// text is every character used, in order.
func (k *ink) text() string {
	var b strings.Builder
	for i, w := range k.runes {
		for ; w != 0; w &= w - 1 {
			b.WriteRune(rune(i<<6 | bits.TrailingZeros64(w)))
		}
	}
	return b.String()
}

// addTo gives gp the face and the characters it has to carry.
func (k *ink) addTo(gp *gopdf.GoPdf) error {
	k.id = gp.GetNextObjectID()
	if err := gp.AddTTFFontFromFontContainer(k.font, k.shelf); err != nil {
		return err
	}
	if err := gp.SetFont(k.font, "", 10); err != nil {
		return err
	}
	_, err := gp.MeasureTextWidth(k.text())
	return err
}

// backToText is the map from glyphs to characters, 9.10.3. Where two
// characters share a glyph, as the blank and the fixed blank, the first holds.
func (k *ink) backToText() string {
	var b strings.Builder
	b.WriteString("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n" +
		"/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" +
		"1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n")
	pairs := k.pairs()
	for len(pairs) > 0 {
		n := min(len(pairs), 100) // no block may hold more
		fmt.Fprintf(&b, "%d beginbfchar\n%sendbfchar\n", n, strings.Join(pairs[:n], ""))
		pairs = pairs[n:]
	}
	b.WriteString("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n")
	return b.String()
}

func (k *ink) pairs() []string {
	var out []string
	for g, r := range k.eachGlyph {
		out = append(out, fmt.Sprintf("<%04X> <%04X>\n", g, utf16.Encode([]rune{r})[0]))
	}
	return out
}

// eachGlyph yields every glyph used once, with its first character.
func (k *ink) eachGlyph(yield func(uint16, rune) bool) {
	seen := map[uint16]bool{}
	for _, r := range k.text() {
		if g := k.glyphs[r]; !seen[g] {
			seen[g] = true
			if !yield(g, r) {
				return
			}
		}
	}
}
