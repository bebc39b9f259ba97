// Package stock answers: what paper is in the printer?
//
// A stock is a sheet with labels, a roll, or a plain card. Each is one YAML
// file in files/, embedded; adding a stock is adding a file.
package stock

import (
	"embed"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"

	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/unit"
	"chablon/layout/page"
)

//go:embed files/*.yaml
var files embed.FS

// Stock is one paper. Lengths are those of the paper as it lies in the
// printer, from its top left corner.
type Stock struct {
	Pos     diag.Pos
	ID      string
	Kind    diag.At[string]      `key:"kind" must:"yes" one:"sheet|roll|card" help:"A sheet of labels, a roll of labels, or a card."`
	About   diag.At[string]      `key:"about" must:"yes" help:"What it is, in a few words."`
	Source  diag.At[string]      `key:"source" help:"Where its measures are from: a standard, or who measured it, and when."`
	Width   diag.At[unit.Length] `key:"width" must:"yes" help:"Width of the paper that passes the printer."`
	Height  diag.At[unit.Length] `key:"height" must:"yes" help:"Height of the paper; of one label on a roll."`
	Safe    diag.At[unit.Length] `key:"safe" must:"yes" help:"Nothing is printed nearer than this to the edge of a label or card."`
	Tint    diag.At[unit.Count]  `key:"tint" help:"How light a paper is that is not white: its lightness L* from 1, black, to 100, white, such as 85 for cream and 65 for brown."`
	Hue     diag.At[string]      `key:"hue" one:"red|orange|yellow|green|blue|violet" help:"The colour of a paper that is not white, brown being orange; scanners see green, blue and violet as black."`
	Labels  *Grid                `key:"labels" help:"Where the labels lie on a sheet."`
	Fold    diag.At[string]      `key:"fold" one:"upright" help:"Set for a ticket that is folded at an upright line in its middle and stands on two feet."`
	ReadAt  diag.At[unit.Length] `key:"read-at" help:"Distance from which a card is read; letter sizes follow from it."`
	WordsAt diag.At[unit.Length] `key:"words-at" help:"Distance from which the sentences of a card are read, by whoever steps up to it: an arm's length; that of the card when left out."`
}

// Grid is how labels lie on a sheet.
type Grid struct {
	Pos    diag.Pos
	Across diag.At[unit.Count]  `key:"across" must:"yes" help:"Labels side by side."`
	Down   diag.At[unit.Count]  `key:"down" must:"yes" help:"Labels one below the other."`
	Width  diag.At[unit.Length] `key:"width" must:"yes" help:"Width of one label."`
	Height diag.At[unit.Length] `key:"height" must:"yes" help:"Height of one label."`
	Left   diag.At[unit.Length] `key:"left" must:"yes" help:"Left edge of the first label."`
	Top    diag.At[unit.Length] `key:"top" must:"yes" help:"Top edge of the first label."`
	StepX  diag.At[unit.Length] `key:"step-across" must:"yes" help:"From the left edge of one label to that of the next."`
	StepY  diag.At[unit.Length] `key:"step-down" must:"yes" help:"From the top edge of one label to that of the next."`
}

// shelf reads the embedded stocks once.
var shelf = sync.OnceValue(func() map[string]*Stock {
	var found diag.List
	all := Load(files, &found)
	if found.Len() > 0 {
		panic(found.All()[0].String()) // the embedded files are tested
	}
	return all
})

// Get returns the stock with the id, such as "roll-100x60".
func Get(id string) (*Stock, bool) {
	s, ok := shelf()[id]
	return s, ok
}

// IDs lists all stocks in alphabetical order.
func IDs() []string {
	var ids []string
	for id := range shelf() {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	return ids
}

// Load reads every *.yaml file of files/ in fsys and checks it.
func Load(fsys fs.FS, found *diag.List) map[string]*Stock {
	names, _ := fs.Glob(fsys, "files/*.yaml")
	all := map[string]*Stock{}
	for _, name := range names {
		s := &Stock{ID: strings.TrimSuffix(path.Base(name), ".yaml")}
		if read.File(fsys, name, s, found) && s.check(found) {
			all[s.ID] = s
		}
	}
	return all
}

// check reports a stock that cannot be: labels off the sheet or overlapping.
func (s *Stock) check(found *diag.List) bool {
	before := found.Errors()
	bad := func(pos diag.Pos, format string, args ...any) {
		found.Errorf(pos, "paper", "measure the paper again", format, args...)
	}
	for _, l := range []diag.At[unit.Length]{s.Width, s.Height} {
		if l.V < 10*unit.MM || l.V > 1000*unit.MM {
			bad(l.Pos, "a paper measures between 10 mm and 1000 mm, not %s", l.V)
		}
	}
	if s.Safe.V < 0 || 4*s.Safe.V > min(s.Width.V, s.Height.V) {
		bad(s.Safe.Pos, "the safe margin of %s leaves no room", s.Safe.V)
	}
	if s.Tint.Set() && (s.Tint.V < 1 || s.Tint.V > 100) || s.Hue.Set() && !s.Tint.Set() {
		found.Errorf(diag.Pos{File: s.Pos.File, Line: max(s.Tint.Pos.Line, s.Hue.Pos.Line), Col: max(s.Tint.Pos.Col, s.Hue.Pos.Col)}, "paper", "write its lightness, such as tint: 85", "a paper with a colour has a lightness from 1 to 100")
	}
	if least := s.whiteToTheCut(); s.Safe.Set() && s.Safe.V < least {
		found.Warnf(s.Safe.Pos, "paper", "write safe: "+least.String()+" at least", "the cutter drifts by more than %s, and would cut into what is printed", s.Safe.V)
	}
	if (s.Kind.V == "sheet") != (s.Labels != nil) {
		bad(s.Pos, "a sheet says where its labels lie; a roll or a card does not")
	}
	if s.Kind.V == "card" && (s.ReadAt.V < 200*unit.MM || s.WordsAt.V > s.ReadAt.V) {
		bad(s.Pos, "a card says from which distance it is read, and from which, no larger, its sentences are")
	}
	if g := s.Labels; g != nil {
		s.checkGrid(g, bad)
	}
	return found.Errors() == before
}

// whiteToTheCut is what stays white at the edge of a label, because labels are
// not cut where they should be: 1.5 mm on rolls, 2.5 mm on sheets (common
// practice, no source).
func (s *Stock) whiteToTheCut() unit.Length {
	switch s.Kind.V {
	case "roll":
		return 1500 * unit.UM
	case "sheet":
		return 2500 * unit.UM
	}
	return 0
}

func (s *Stock) checkGrid(g *Grid, bad func(diag.Pos, string, ...any)) {
	if g.Across.V < 1 || g.Down.V < 1 || g.Across.V*g.Down.V > 1000 {
		bad(g.Pos, "a sheet has between 1 and 1000 labels")
		return
	}
	for _, d := range []struct {
		step, size diag.At[unit.Length]
		how        string
	}{{g.StepX, g.Width, "wide"}, {g.StepY, g.Height, "high"}} {
		if d.step.V < d.size.V {
			bad(d.step.Pos, "the labels overlap: the next one begins after %s, and each is %s %s", d.step.V, d.size.V, d.how)
		}
	}
	first, last := s.Place(0), s.Place(s.Places()-1)
	if first.X < 0 || last.Right() > s.Width.V {
		bad(g.Left.Pos, "the labels run off the sheet: they reach from %s to %s across it, and it is %s wide", first.X, last.Right(), s.Width.V)
	}
	if first.Y < 0 || last.Bottom() > s.Height.V {
		bad(g.Top.Pos, "the labels run off the sheet: they reach from %s to %s down it, and it is %s high", first.Y, last.Bottom(), s.Height.V)
	}
}

// Places is how many labels lie on one sheet; a roll or card has one.
func (s *Stock) Places() int {
	if s.Labels == nil {
		return 1
	}
	return int(s.Labels.Across.V * s.Labels.Down.V)
}

// Place is where label i (from 0, row by row) lies on its sheet.
func (s *Stock) Place(i int) page.Rect {
	g := s.Labels
	if g == nil {
		return page.Rect{W: s.Width.V, H: s.Height.V}
	}
	col, row := unit.Length(i%int(g.Across.V)), unit.Length(i/int(g.Across.V))
	return page.Rect{X: g.Left.V + col*g.StepX.V, Y: g.Top.V + row*g.StepY.V, W: g.Width.V, H: g.Height.V}
}

// Size is the size of one label or card.
func (s *Stock) Size() (w, h unit.Length) {
	r := s.Place(0)
	return r.W, r.H
}
