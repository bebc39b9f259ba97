package shop

import (
	"errors"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/read"
)

// BrandFile is the file of a shop that says how its paper looks. A shop without
// it prints in the house's plain look.
const BrandFile = "brand.yaml"

// brandFolder is the folder of a shop that its emblem and fonts lie in.
const brandFolder = "brand"

// Brand is brand.yaml.
type Brand struct {
	Pos       diag.Pos
	Logo      Text              `key:"logo" help:"The shop's emblem, SVG or PNG, in the folder brand, such as brand/mark.svg."`
	LogoSmall Text              `key:"logo-small" help:"A simpler drawing of it for small labels, without fine strokes and holes."`
	Written   []Text            `key:"written" help:"How the shop's name is written beside the emblem, in one or two lines. Without it the emblem stands alone."`
	Under     Text              `key:"under" help:"One word in small capitals below the written name, such as Pastry."`
	Fonts     *BrandFonts       `key:"fonts" help:"Up to two fonts of the shop's own, for the name of the food, its price, and the line about it; all else stays in the house's fonts."`
	Divider   Text              `key:"divider" one:"stone|thin|none" help:"The line between blocks: stone is a thin line that begins with a thick piece. Stone when left out."`
	Frame     Text              `key:"frame" one:"none|thin" help:"A thin line around the label, 1.5 mm inside its edge, or at the margin of its paper where that is wider; it shows every drift of the cutter. None when left out."`
	Labels    *BrandLabels      `key:"labels" help:"How labels are arranged."`
	Papers    read.Dict[Unlike] `key:"papers" help:"Papers on which labels are to be otherwise, by id."`
	UseOn     []Text            `key:"use-on" one:"labels|tickets|cartons|cards|pages" help:"What bears the look: labels, counter tickets, carton labels, bench cards, the pages behind the links on packs; all when left out."`

	// Files are the emblems, fonts and licences by name, as far as they could be
	// read.
	Files map[string][]byte
}

// BrandFonts are the shop's own fonts.
type BrandFonts struct {
	Pos   diag.Pos
	Name  *BrandFont `key:"name" help:"For the name of the food, the price, and the written name of the shop."`
	About *BrandFont `key:"about" help:"For the line about the food."`
}

// BrandFont is one font with the licence that lies beside it.
type BrandFont struct {
	Pos     diag.Pos
	File    Text `key:"file" must:"yes" help:"A TrueType file in the folder brand, such as brand/Vollkorn-Bold.ttf."`
	Licence Text `key:"licence" must:"yes" help:"The text of its licence, in the folder brand."`
}

// BrandLabels is how labels are arranged. Each value that is left out is the
// usual one.
type BrandLabels struct {
	Pos     diag.Pos
	Arrange Text          `key:"arrange" one:"beside|above|across|plain" help:"Where the shop stands: in a column beside the food, above it, or with the food's name across the whole label; plain is without the look. What fits the paper best when left out."`
	Price   diag.At[bool] `key:"price" help:"Whether labels bear the price; the price of a kilogram comes with it. No when left out."`
	About   diag.At[bool] `key:"about" help:"Whether labels bear the line about the food. No when left out."`
	Letters Text          `key:"letters" one:"normal|larger" help:"Larger letters for buyers who see badly: the look gives way to them. Normal when left out."`
}

// Unlike is what is otherwise on one paper.
type Unlike struct {
	Pos     diag.Pos
	Arrange Text          `key:"arrange" one:"beside|above|across|plain" help:"Where the shop stands on this paper."`
	Price   diag.At[bool] `key:"price" help:"Whether labels on this paper bear the price."`
	About   diag.At[bool] `key:"about" help:"Whether labels on this paper bear the line about the food."`
	Letters Text          `key:"letters" one:"normal|larger" help:"How large the letters are on this paper."`
}

// Uses reports whether a kind of paper ("labels") bears the look.
func (b *Brand) Uses(what string) bool {
	if b == nil {
		return false
	}
	return len(b.UseOn) == 0 || slices.ContainsFunc(b.UseOn, func(t Text) bool { return t.V == what })
}

// On is how labels on a paper are arranged.
func (b *Brand) On(paper string) BrandLabels {
	var out BrandLabels
	if b.Labels != nil {
		out = *b.Labels
	}
	if u, ok := b.Papers.Get(paper); ok {
		take(&out.Arrange, u.Arrange)
		take(&out.Price, u.Price)
		take(&out.About, u.About)
		take(&out.Letters, u.Letters)
	}
	return out
}

// take puts a value in the place of another, if there is one.
func take[T any](into *diag.At[T], v diag.At[T]) {
	if v.Set() {
		*into = v
	}
}

// maxBrandFile is the most that a file of the look may hold; what reads it may
// allow less.
const maxBrandFile = 4 << 20

// brand reads brand.yaml, if there is one, and the files that it names.
func (l *loader) brand() {
	if _, err := fs.Lstat(l.fsys, BrandFile); errors.Is(err, fs.ErrNotExist) {
		return
	}
	b := &Brand{Files: map[string][]byte{}}
	l.file(BrandFile, b, &b.Pos)
	l.shop.Brand = b
	if len(b.Written) > 2 {
		l.found.Errorf(b.Written[2].Pos, "brand", "write it in one or two lines", "the written name has %d lines", len(b.Written))
	}
	for _, t := range b.named() {
		if t.Set() && b.Files[t.V] == nil {
			l.brandFile(b, t)
		}
	}
}

// named are the names of files.
func (b *Brand) named() []Text {
	out := []Text{b.Logo, b.LogoSmall}
	if b.Fonts != nil {
		for _, f := range []*BrandFont{b.Fonts.Name, b.Fonts.About} {
			if f != nil {
				out = append(out, f.File, f.Licence)
			}
		}
	}
	return out
}

// brandFile reads one file of the look.
func (l *loader) brandFile(b *Brand, t Text) {
	wrong := func(hint, msg string) { l.found.Errorf(t.Pos, "brand", hint, "the file %s: %s", t.V, msg) }
	if path.Dir(t.V) != brandFolder || path.Clean(t.V) != t.V {
		wrong("put it into the folder brand and write brand/ before its name, such as brand/mark.svg", "it lies somewhere else")
		return
	}
	data, err := readAtMost(l.fsys, t.V, maxBrandFile+1)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		wrong("look at its name, capitals too", "there is no such file")
	case err != nil:
		wrong("see that it is a file and may be opened", "it cannot be opened")
	case len(data) > maxBrandFile:
		wrong("save it smaller", "it holds more than 4 MB")
	default:
		b.Files[t.V] = data
	}
}

// readAtMost reads a regular file, and no more of it than a number of bytes.
func readAtMost(fsys fs.FS, name string, most int64) ([]byte, error) {
	info, err := fs.Stat(fsys, name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fs.ErrInvalid
	}
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, most))
}

// WrittenName is the written name of the shop on one line.
func (b *Brand) WrittenName() string {
	var all []string
	for _, t := range b.Written {
		all = append(all, t.V)
	}
	return strings.Join(all, " ")
}
