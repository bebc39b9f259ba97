package shop

import (
	"errors"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/read"
)

// maxFiles is how many files a shop may have; far more than a kitchen writes.
const maxFiles = 5000

// ProfileFile is the file of a shop that says who and where it is.
const ProfileFile = "shop.yaml"

// Load reads a shop folder, links it and checks it. Findings name files by
// their slash-separated path inside the folder, such as
// "formulas/sweet-pastry.yaml". The shop is returned whatever was found, with
// all that could be read; use it only when found has no errors.
func Load(fsys fs.FS, found *diag.List) *Shop {
	s := &Shop{
		Ingredients: map[string]*Ingredient{},
		Formulas:    map[string]*Formula{},
		Products:    map[string]*Product{},
		Customers:   map[string]*Customer{},
		broken:      map[string]bool{},
		refused:     map[string]bool{},
	}
	l := &loader{fsys: fsys, shop: s, found: found}
	l.profile()
	l.approvals()
	l.measurements()
	l.folder("ingredients", func(id, file string) {
		v := &Ingredient{}
		l.file(file, v, &v.Pos)
		v.fromTable()
		v.ID, s.Ingredients[id] = id, v
		s.IngredientIDs = append(s.IngredientIDs, id)
	})
	l.folder("formulas", func(id, file string) {
		v := &Formula{}
		l.file(file, v, &v.Pos)
		v.ID, s.Formulas[id] = id, v
		s.FormulaIDs = append(s.FormulaIDs, id)
	})
	l.folder("products", func(id, file string) {
		v := &Product{}
		l.file(file, v, &v.Pos)
		v.ID, s.Products[id] = id, v
		s.ProductIDs = append(s.ProductIDs, id)
	})
	l.folder("customers", func(id, file string) {
		v := &Customer{}
		l.file(file, v, &v.Pos)
		v.ID, s.Customers[id] = id, v
		s.CustomerIDs = append(s.CustomerIDs, id)
	})
	l.folder("plans", func(id, file string) {
		v := &Plan{}
		l.file(file, v, &v.Pos)
		v.ID = id
		s.Plans = append(s.Plans, v)
	})
	l.folder(papersFolder, func(id, _ string) { s.PaperIDs = append(s.PaperIDs, id) })
	l.pictures()
	l.brand()
	s.check(found)
	return s
}

// A loader walks the shop folder.
type loader struct {
	fsys  fs.FS
	shop  *Shop
	found *diag.List
	files int
}

// profile reads shop.yaml and looks for what does not belong beside it.
func (l *loader) profile() {
	top, err := fs.ReadDir(l.fsys, ".")
	if err != nil {
		l.found.Errorf(diag.Pos{File: ProfileFile}, "file", "give the folder that shop.yaml is in", "the shop folder cannot be read")
		return
	}
	for _, e := range top {
		switch name := e.Name(); {
		case name == ProfileFile, name == ApprovalsFile, name == MeasuredFile, name == BrandFile, bystander(name), slices.Contains(Folders(), name), (name == picturesFolder || name == brandFolder) && e.IsDir(), e.IsDir() && l.written(name):
		default:
			l.found.Warnf(diag.Pos{File: name}, "file", hintFile(name), "this is not part of a shop and is not read")
		}
	}
	l.file(ProfileFile, &l.shop.Profile, &l.shop.Profile.Pos)
}

// written reports whether a folder is one that the program writes: paper in its
// usual place, or with a list of it, or the schemas for editors.
func (l *loader) written(dir string) bool {
	if dir == "out" || dir == "schemas" {
		return true
	}
	_, err := fs.Stat(l.fsys, path.Join(dir, PapersFile))
	return err == nil
}

// papersFolder is the folder of the shop's own papers. What they hold is no
// matter of this package, which knows no paper.
const papersFolder = "papers"

// Folders lists the folders of a shop that files are read from.
func Folders() []string {
	return []string{"ingredients", "formulas", "products", "plans", "customers", papersFolder}
}

// bystander reports whether a file may lie in a shop without being read.
func bystander(name string) bool {
	for _, start := range []string{".", "README", "LICENSE", "print-book.db"} {
		if strings.HasPrefix(name, start) {
			return true
		}
	}
	return false
}

func hintFile(name string) string {
	if meant := diag.Nearest(name, append(Folders(), ProfileFile, ApprovalsFile, MeasuredFile, BrandFile)); meant != "" {
		return "did you mean " + meant + "?"
	}
	return "a shop has shop.yaml and the folders " + strings.Join(Folders(), ", ") + "; move this out of it"
}

// folder calls read for each file of one folder, in the order of their ids.
func (l *loader) folder(dir string, read func(id, file string)) {
	entries, err := fs.ReadDir(l.fsys, dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return
	case err != nil:
		l.found.Errorf(diag.Pos{File: dir}, "file", "see that it is a folder and may be opened", "this folder cannot be read")
		return
	}
	for _, e := range entries {
		file := path.Join(dir, e.Name())
		id, isYAML := strings.CutSuffix(e.Name(), ".yaml")
		switch {
		case bystander(e.Name()):
		case !e.IsDir() && strings.HasSuffix(e.Name(), ".yml"):
			l.found.Errorf(diag.Pos{File: file}, "file", "rename it to "+strings.TrimSuffix(e.Name(), "yml")+"yaml", "this is not read: its name ends in .yml")
		case e.IsDir() || !isYAML:
			l.found.Warnf(diag.Pos{File: file}, "file", "every file here is called ID.yaml; move the rest out of the shop", "this is not read")
		case l.files == maxFiles:
			l.found.Errorf(diag.Pos{File: file}, "too-large", "split it into several shops", "the shop has more than %d files", maxFiles)
			l.files++
		case l.files < maxFiles && l.id(id, file):
			l.files++
			read(id, file)
		}
	}
}

// file reads one file; a file with errors is remembered, so that what is
// missing in it is not reported twice.
func (l *loader) file(name string, into any, pos *diag.Pos) {
	if !read.File(l.fsys, name, into, l.found) {
		l.shop.broken[name] = true
	}
	if !pos.Known() {
		*pos = diag.Pos{File: name}
	}
}

var idForm = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// id checks a name that will become the name of a file that is written.
func (l *loader) id(id, file string) bool {
	if msg := badID(id); msg != "" {
		hint := "choose another name, of small letters a to z, digits and single hyphens, such as sweet-pastry.yaml"
		l.found.Errorf(diag.Pos{File: file}, "id", hint, "%s", msg)
		l.shop.refused[idLike(id)] = true
		return false
	}
	return true
}

// idLike is the id that a name was probably meant to be.
func idLike(name string) string {
	return strings.ToLower(strings.NewReplacer(" ", "-", "_", "-").Replace(name))
}

// badID says what is wrong with an id, or "". Names that some systems keep
// for devices cannot be file names there.
func badID(id string) string {
	switch {
	case len(id) > 64:
		return "this name has more than 64 characters"
	case !idForm.MatchString(id):
		return "this name cannot be an id"
	case slices.Contains([]string{"con", "prn", "aux", "nul"}, id),
		len(id) == 4 && (strings.HasPrefix(id, "com") || strings.HasPrefix(id, "lpt")) && id[3] >= '0' && id[3] <= '9':
		return "some computers keep this name for a device"
	}
	return ""
}
