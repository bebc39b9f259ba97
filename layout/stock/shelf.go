package stock

import (
	"io/fs"
	"maps"
	"path"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/read"
)

// OwnFolder is the folder of a shop that its own papers lie in, one file each,
// with the keys of the built-in ones.
const OwnFolder = "papers"

// Shelf is all papers that a shop can print on: the built-in ones and its own.
type Shelf struct {
	own    map[string]*Stock
	broken map[string]bool // own papers whose files have errors
}

// Own reads the shop's own papers with the given ids, from files of that name
// in [OwnFolder]. One with an error is not on the shelf; found says why.
func Own(fsys fs.FS, ids []string, found *diag.List) *Shelf {
	s := &Shelf{own: map[string]*Stock{}, broken: map[string]bool{}}
	for _, id := range ids {
		name := path.Join(OwnFolder, id+".yaml")
		if _, ok := Get(id); ok {
			found.Errorf(diag.Pos{File: name}, "paper", "choose another name, such as my-"+id+".yaml, and name that", "there is a paper %s already, and paper is known by its name", id)
			continue
		}
		own := &Stock{ID: id}
		if read.File(fsys, name, own, found) && own.check(found) {
			s.own[id] = own
		} else {
			s.broken[id] = true
		}
	}
	return s
}

// Get finds a paper by its id.
func (s *Shelf) Get(id string) (*Stock, bool) {
	if own, ok := s.own[id]; ok {
		return own, true
	}
	return Get(id)
}

// IDs lists all papers in alphabetical order.
func (s *Shelf) IDs() []string {
	return slices.Sorted(slices.Values(slices.Concat(IDs(), slices.Collect(maps.Keys(s.own)))))
}

// Broken reports whether the shop has a paper of that name that cannot be
// printed on, because of what is written in its file.
func (s *Shelf) Broken(id string) bool { return s.broken[id] }
