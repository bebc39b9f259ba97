package shop

import (
	"errors"
	"fmt"
	"io/fs"
	"path"

	"chablon/labels/picture"
	"chablon/labels/unit"
)

// picturesFolder is the folder of a shop that pictures lie in.
const picturesFolder = "pictures"

// maxPictures is how many different pictures a shop may show.
const maxPictures = 200

// pictures reads the pictures that steps show, each file once.
func (l *loader) pictures() {
	s := l.shop
	s.Pictures = map[string]*picture.Picture{}
	refused := map[string]bool{}
	look := func(steps []Step) {
		for i := range steps {
			if p := steps[i].Picture; p != nil && p.File.Set() && s.Pictures[p.File.V] == nil && !refused[p.File.V] {
				refused[p.File.V] = !l.picture(p)
			}
		}
	}
	for _, id := range s.FormulaIDs {
		look(s.Formulas[id].Steps)
	}
	for _, id := range s.ProductIDs {
		look(s.Products[id].Steps)
	}
}

// picture reads one picture and reports whether it can be shown.
func (l *loader) picture(p *Picture) bool {
	wrong := func(rule, hint, format string, args ...any) bool {
		l.found.Errorf(p.File.Pos, rule, hint, "the picture %s: %s", p.File.V, fmt.Sprintf(format, args...))
		return false
	}
	switch {
	case path.Dir(p.File.V) != picturesFolder || path.Clean(p.File.V) != p.File.V:
		return wrong("picture", "put it into the folder pictures and write pictures/ before its name, such as pictures/fold.png", "it lies somewhere else")
	case len(l.shop.Pictures) >= maxPictures:
		return wrong("too-large", "show fewer", "a shop shows at most %d", maxPictures)
	}
	data, err := readAtMost(l.fsys, p.File.V, picture.MaxBytes+1)
	if errors.Is(err, fs.ErrNotExist) {
		return wrong("picture", "look at its name, capitals too", "there is no such file")
	}
	if err != nil {
		return wrong("picture", "see that it is a file and may be opened", "it cannot be opened")
	}
	seen, err := picture.Decode(data)
	if told := new(unit.Error); errors.As(err, &told) {
		return wrong(told.Rule, told.Hint, "%s", told.Msg)
	}
	l.shop.Pictures[p.File.V] = seen
	return true
}
