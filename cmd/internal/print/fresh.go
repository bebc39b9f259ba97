package print

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/market"
	"chablon/labels/read"
	"chablon/labels/shop"
	"chablon/labels/words"
	"chablon/layout/stock"
	"chablon/samples"
)

// New writes a shop to begin with into dir, which must be missing or empty, and
// returns the number of files: a small one, or, if demo, the whole demo shop. The
// signatures of the demo are not copied: nobody has signed what somebody else
// sells, nor for the law there, nor what the demo measured. Each file names its
// schema, which is written beside it, so that an editor helps from the first line.
func New(dir string, demo bool) (int, error) {
	if old, err := os.ReadDir(dir); err == nil && len(old) > 0 {
		return 0, usage.Errorf("name a new folder", "the folder %q is not empty", dir)
	}
	from := samples.First()
	if demo {
		from = samples.Demo()
	}
	n := 0
	err := fs.WalkDir(from, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || name == shop.ApprovalsFile || name == shop.MeasuredFile {
			return err
		}
		n++
		data, err := fs.ReadFile(from, name)
		if err != nil {
			return err
		}
		return put(dir, name, fresh(name, data))
	})
	if err == nil {
		err = putSchemas(dir)
	}
	if err != nil {
		return n, fmt.Errorf("the shop was not written in full: %w", err)
	}
	return n, nil
}

// fresh is a file of a sample as a new shop has it.
func fresh(name string, data []byte) []byte {
	if name == shop.ProfileFile {
		data = shop.WithoutSignatures(data)
	}
	return append([]byte(editorLine(name)), data...)
}

// editorLine is the line by which an editor finds the schema of a file of the
// shop; empty where there is none.
func editorLine(name string) string {
	dir, file := path.Split(name)
	kind := strings.TrimSuffix(strings.TrimSuffix(dir, "/"), "s")
	if dir == "" {
		kind = strings.TrimSuffix(file, ".yaml")
	}
	if path.Ext(file) != ".yaml" || !slices.ContainsFunc(FileKinds(), func(k FileKind) bool { return k.ID == kind }) {
		return ""
	}
	return "# yaml-language-server: $schema=" + strings.Repeat("../", strings.Count(name, "/")) + "schemas/" + kind + ".schema.json\n"
}

// put writes one file of a shop.
func put(dir, name string, data []byte) error {
	f, err := keep.OpenFolder(keep.Machine{}, filepath.Join(dir, filepath.FromSlash(path.Dir(name))))
	if err != nil {
		return err
	}
	return f.Save(path.Base(name), func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

func putSchemas(dir string) error {
	files, err := Schemas()
	for _, s := range files {
		var b bytes.Buffer
		err = errors.Join(err, s.Write(&b))
		if err == nil {
			err = put(dir, "schemas/"+s.Name, b.Bytes())
		}
	}
	return err
}

// Schemas makes the JSON Schema of each kind of file, and of what a web shop
// reads.
func Schemas() ([]keep.File, error) {
	var out []keep.File
	var errs error
	lists, err := lists()
	if err != nil {
		return nil, err
	}
	for _, s := range FileKinds() {
		data, err := read.Schema(s.ID+".schema.json", s.Title, s.root, lists)
		errs = errors.Join(errs, err)
		out = append(out, schemaFile(s.ID, data))
	}
	return append(out, schemaFile("declaration", declarationSchema), schemaFile("why", whySchema)), errs
}

// A FileKind is one kind of the shop's files.
type FileKind struct {
	ID, Title string
	root      any
}

// Keys lists what may be written in such a file.
func (k FileKind) Keys() []read.Key { return read.Describe(k.root) }

// FileKinds lists the kinds of the shop's files.
func FileKinds() []FileKind {
	return []FileKind{
		{"shop", "The profile of a shop (shop.yaml)", shop.Profile{}},
		{"ingredient", "An ingredient as bought (ingredients/*.yaml)", shop.Ingredient{}},
		{"formula", "A formula (formulas/*.yaml)", shop.Formula{}},
		{"product", "A product (products/*.yaml)", shop.Product{}},
		{"plan", "What is made on a day (plans/*.yaml)", shop.Plan{}},
		{"paper", "A sheet, a roll or a card of the shop's own (papers/*.yaml)", stock.Stock{}},
		{"customer", "A customer that cartons go to (customers/*.yaml)", shop.Customer{}},
		{"approvals", "Who approved what the labels say (approvals.yaml)", shop.Approvals{}},
		{"measured", "What the kitchen weighed and timed (measured.yaml)", shop.Measurements{}},
		{"brand", "How the shop's paper looks (brand.yaml)", shop.Brand{}},
	}
}

// lists are the words that an editor offers: those that the program knows. A
// shop may have papers of its own.
func lists() (map[string]read.List, error) {
	en, ok := words.Get("en")
	if !ok {
		return nil, fmt.Errorf("the words of English cannot be read: %w", words.Check())
	}
	var classes, markets []string
	for _, k := range en.Keys("label") {
		if class, ok := strings.CutPrefix(k, "class."); ok {
			classes = append(classes, class)
		}
	}
	for _, code := range market.Codes() {
		markets = append(markets, code, strings.ToUpper(code))
	}
	closed := func(words []string) read.List { return read.List{Words: words} }
	return map[string]read.List{
		"allergen":  closed(market.AllergenIDs()),
		"free-from": closed(append(market.AllergenIDs(), "gluten", "nuts")),
		"exception": closed(market.ExceptionKeys()),
		"market":    closed(markets),
		"language":  closed(words.Codes()),
		"class":     closed(classes),
		"caution":   closed(shop.Cautions()),
		"strength":  {Words: shop.Strengths(), Open: true},
		"paper":     {Words: stock.IDs(), Open: true},
	}, nil
}

func schemaFile(id string, data []byte) keep.File {
	return keep.File{Name: id + ".schema.json", Write: func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	}}
}
