package print

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"chablon/labels/scale"
	"chablon/labels/shop"
)

// line is one line of a file that means something, with its number.
type line struct {
	n    int
	text string
}

// files reads the YAML files of a shop, without comments and empty lines. The
// approvals are told apart.
func files(p *Press) (map[string][]line, error) {
	out := map[string][]line{}
	for _, dir := range append([]string{"."}, shop.Folders()...) {
		entries, err := fs.ReadDir(p.files, dir)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return nil, fmt.Errorf("cannot read the shop %s: %w", p.Title(), err)
		}
		for _, e := range entries {
			name := path.Join(dir, e.Name())
			if !e.Type().IsRegular() || path.Ext(name) != ".yaml" || name == shop.ApprovalsFile {
				continue
			}
			data, err := fs.ReadFile(p.files, name)
			if err != nil {
				return nil, fmt.Errorf("cannot read the shop %s: %w", p.Title(), err)
			}
			out[name] = meant(string(data))
		}
	}
	return out, nil
}

// meant are the lines of a file that are neither empty nor a comment.
func meant(text string) []line {
	var out []line
	for i, s := range strings.Split(text, "\n") {
		if t := strings.TrimSpace(s); t != "" && t[0] != '#' {
			out = append(out, line{i + 1, strings.TrimPrefix(t, "- ")})
		}
	}
	return out
}

func lineTexts(ls []line) []string {
	var out []string
	for _, l := range ls {
		out = append(out, l.text)
	}
	return out
}

// files tells which files have changed, and what they go into.
func (d *differ) files() error {
	was, err := files(d.old)
	if err != nil {
		return err
	}
	now, err := files(d.new)
	if err != nil {
		return err
	}
	var names []string
	for _, m := range []map[string][]line{was, now} {
		for name := range m {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	for _, name := range slices.Compact(names) {
		d.file(name, was, now)
	}
	return nil
}

// shownLines is how many changed lines of a file are told.
const shownLines = 24

func (d *differ) file(name string, was, now map[string][]line) {
	a, inOld := was[name]
	b, inNew := now[name]
	inA, inB := common(lineTexts(a), lineTexts(b))
	if inOld == inNew && !slices.Contains(inA, false) && !slices.Contains(inB, false) {
		return
	}
	d.changed()
	switch {
	case !inNew:
		d.line("%s: taken out", name)
	case !inOld:
		d.line("%s: new", name)
	default:
		d.line("%s", name)
		d.lines(a, b, inA, inB)
	}
	d.goesInto(name)
}

// lines tells the lines that differ, in the order of the file.
func (d *differ) lines(a, b []line, inA, inB []bool) {
	n := 0
	tell := func(l line, what string) {
		if n++; n <= shownLines {
			d.line("  %4d  %s  %s", l.n, what, l.text)
		}
	}
	for i, j := 0, 0; i < len(a) || j < len(b); {
		switch {
		case i < len(a) && !inA[i]:
			tell(a[i], "was")
			i++
		case j < len(b) && !inB[j]:
			tell(b[j], "now")
			j++
		default:
			i, j = i+1, j+1
		}
	}
	if n > shownLines {
		d.line("        and %d lines more", n-shownLines)
	}
}

// goesInto names the products that an ingredient or formula goes into.
func (d *differ) goesInto(name string) {
	dir, id := path.Dir(name), strings.TrimSuffix(path.Base(name), ".yaml")
	if dir != "ingredients" && dir != "formulas" {
		return
	}
	var in []string
	for _, p := range []*Press{d.old, d.new} {
		for _, q := range p.Shop.ProductIDs {
			uses := slices.ContainsFunc(scale.Expand(p.Shop, p.Shop.Products[q]), func(c scale.Contribution) bool {
				return c.Ingredient.ID == id || slices.ContainsFunc(c.Via, func(f *shop.Formula) bool { return f.ID == id })
			})
			if uses && !slices.Contains(in, q) {
				in = append(in, q)
			}
		}
	}
	slices.Sort(in)
	if in == nil {
		d.line("  goes into no product")
		return
	}
	d.item("  ", "goes into "+strings.Join(in, ", "))
}
