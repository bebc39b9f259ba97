package print

import (
	"bytes"
	"io/fs"
	"path"
	"strings"

	"chablon/labels/gs1"
	"chablon/labels/shop"
	"chablon/samples"
)

// demo reports whether paper of a product must say that it is of an invented
// shop: it bears numbers of the demonstration prefix, and the shop is not the
// demo shop as it came, which nobody takes for their own.
func (p *Press) demo(q *shop.Product) bool {
	return !p.came && (strings.HasPrefix(p.Shop.Profile.GS1Prefix.V, demonstration) || q != nil && invented(q))
}

// invented reports whether a pack or carton bears a number of the prefix.
func invented(q *shop.Product) bool {
	var all []string
	for _, k := range q.Packs {
		all = append(all, k.GTIN.V)
	}
	if q.Carton != nil {
		all = append(all, q.Carton.GTIN.V)
	}
	for _, g := range all {
		if full, err := gs1.Pad(g); err == nil && strings.HasPrefix(full[1:], demonstration) {
			return true
		}
	}
	return false
}

// AsItCame reports whether the shop is the demo shop, byte for byte: the one in
// the program, or its folder.
func (p *Press) AsItCame() bool { return p.came }

// asItCame reports whether a folder holds the files of the demo shop as they
// are, and no others in their folders.
func asItCame(fsys fs.FS) bool {
	names := 0
	err := fs.WalkDir(samples.Demo(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			return nil
		}
		names++
		want, err := fs.ReadFile(samples.Demo(), name)
		if err != nil {
			return err
		}
		if got, err := fs.ReadFile(fsys, name); err != nil || !bytes.Equal(got, want) {
			return fs.ErrNotExist
		}
		return nil
	})
	if err != nil {
		return false
	}
	for _, dir := range shop.Folders() {
		all, _ := fs.ReadDir(fsys, dir)
		for _, e := range all {
			if _, err := fs.Stat(samples.Demo(), path.Join(dir, e.Name())); err != nil {
				return false
			}
		}
	}
	return names > 0
}
