// Package print answers: how does a request become a checked PDF?
//
// It is the one place that wires the others together: the shop is read, facts
// are computed and said, pages are composed and checked, and only what passed
// becomes a [Paper] that can be written. Nothing is written here while
// anything is wrong.
package print

import (
	"cmp"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/heat"
	"chablon/labels/market"
	"chablon/labels/measured"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/look"
	"chablon/layout/stock"
	"chablon/layout/text"
	"chablon/samples"
)

// Press holds what every request needs: the shop as read, the faces, the
// clock, and what is wrong in the files. A request takes a press of its own,
// with what touches it ([Press.about]).
type Press struct {
	Shop    *shop.Shop
	Name    string // the shop's folder, as the user named it; "" for the demo shop
	Today   unit.Date
	Made    time.Time    // moment that documents are stamped with
	Unseen  error        // why the witness could not note numbers that were given; nil for none
	Witness keep.Witness // of the numbers given on this machine
	Clock   time.Time    // what the clock of the machine says, whatever day is meant
	Now     time.Time    // the same, where it must be right; zero where it is not asked
	As      Form         // how finished pages are written
	To      string       // id of the printer that they go to; "" for the one that has the paper
	Found   *diag.List

	files fs.FS        // of the shop
	came  bool         // it is the demo shop as it came
	shelf *stock.Shelf // of papers
	faces *text.Faces
	brand *look.Look // of the shop; nil for none
	kinds []*Kind
	next  *counter // of numbers
	held  *held    // the print book, while a command needs it

	varies  *shop.Run       // by which the batch is made otherwise; nil for the shop as its files are
	batchOf string          // code of that batch
	signed  []shop.Approval // not written yet
}

// Open reads the shop in dir, or the demo shop when dir is empty. The error is
// a fault of the machine or a [usage.Error]; what is wrong in the files is
// in Found.
func Open(dir string, today unit.Date, made time.Time) (*Press, error) {
	fsys, err := folder(dir)
	if err != nil {
		return nil, err
	}
	return open(dir, fsys, today, made)
}

// OpenRevision reads the shop as git kept it, where dir is written as
// FOLDER@REVISION, and like [Open] otherwise. It is for comparing: an old
// revision must not be printed from, so no register lies beside it.
func OpenRevision(dir string, today unit.Date, made time.Time) (*Press, error) {
	at, rev, ok := keep.CutRevision(dir)
	if !ok {
		return Open(dir, today, made)
	}
	if _, err := folder(at); err != nil {
		return nil, err
	}
	fsys, err := keep.Revision(at, rev)
	if err != nil {
		return nil, err
	}
	return open(dir, fsys, today, made)
}

// open reads the shop in fsys, which is called dir.
func open(dir string, fsys fs.FS, today unit.Date, made time.Time) (*Press, error) {
	faces, err := text.Load()
	if err != nil {
		return nil, fmt.Errorf("cannot read the typefaces: %w", err)
	}
	p := &Press{Name: strings.TrimSuffix(dir, "/"), Today: today, Made: made, Clock: made, Found: &diag.List{}, files: fsys, came: dir == "" || asItCame(fsys), faces: faces, kinds: Kinds(), next: &counter{}, held: &held{}}
	p.Shop = shop.Load(fsys, p.Found)
	p.Shop.Overdue(today, p.Found)
	words.Spelled(p.Shop, p.Found)
	words.Named(p.Shop, p.Found)
	heat.Check(p.Shop, p.Found)
	measured.Check(p.Shop, p.Found)
	words.Claims(p.Shop, p.Found)
	p.shelf = stock.Own(fsys, p.Shop.PaperIDs, p.Found)
	p.glyphs()
	if p.brand = look.Read(p.Shop.Brand, p.Found); p.brand != nil {
		p.brand.Cover(p.Shop, p.Found)
	}
	p.stocks()
	return p, nil
}

func folder(dir string) (fs.FS, error) {
	if dir == "" {
		return samples.Demo(), nil
	}
	info, err := os.Stat(dir)
	switch {
	case os.IsNotExist(err):
		return nil, usage.Errorf(folderHint(dir), "there is no shop folder %q", dir)
	case err != nil:
		return nil, fmt.Errorf("cannot open the shop: %w", err)
	case !info.IsDir():
		return nil, usage.Errorf("name the folder that shop.yaml is in", "%q is a file, not the folder of a shop", dir)
	}
	root, err := os.OpenRoot(dir) // links that lead out of the folder are refused
	if err != nil {
		return nil, fmt.Errorf("cannot open the shop: %w", err)
	}
	return root.FS(), nil
}

// folderHint proposes the folder beside it whose name is like dir's and that is
// a shop.
func folderHint(dir string) string {
	if _, err := unit.ParseDate(dir); err == nil {
		return "if it is the day, write --today " + dir
	}
	above, name := filepath.Split(filepath.Clean(dir))
	if strings.HasSuffix(name, ".yaml") || strings.HasSuffix(name, ".yml") {
		return "name the folder that shop.yaml is in"
	}
	var shops []string
	entries, _ := os.ReadDir(cmp.Or(above, ".")) // one that cannot be read proposes nothing
	for _, e := range entries {
		if info, err := os.Stat(filepath.Join(above, e.Name(), "shop.yaml")); err == nil && !info.IsDir() {
			shops = append(shops, e.Name())
		}
	}
	if near := diag.Nearest(name, shops); near != "" {
		return "did you mean " + filepath.Join(above, near) + "?"
	}
	return "chablon new " + dir + " writes one to start from"
}

// Title is what the shop is called in messages.
func (p *Press) Title() string {
	switch p.Name {
	case "":
		return "the demo shop"
	case ".":
		return "this folder"
	}
	return p.Name
}

// ProductIDs lists the products for completion.
func (p *Press) ProductIDs() []string { return p.Shop.ProductIDs }

// PackIDs lists the packs of a product for completion.
func (p *Press) PackIDs(product string) []string {
	if q := p.Shop.Products[product]; q != nil {
		return q.PackIDs()
	}
	return nil
}

// PaperIDs lists the papers of a kind for completion, the shop's own among them.
func (p *Press) PaperIDs(kind string) []string {
	k := p.KindOf(kind)
	if k == nil || k.Form == "" {
		return p.shelf.IDs()
	}
	return p.papers(k)
}

// MarketCodes lists all markets for completion.
func MarketCodes() []string { return market.Codes() }

// LanguageCodes lists all languages for completion.
func LanguageCodes() []string { return words.Codes() }

// product finds a product by its id.
func (p *Press) product(id string) (*shop.Product, error) {
	if q := p.Shop.Products[id]; q != nil {
		return q, nil
	}
	return nil, usage.Unknown("product", id, p.Shop.ProductIDs)
}

// pack finds a pack of a product.
func pack(q *shop.Product, id string) (*shop.Pack, error) {
	if k, ok := q.Pack(id); ok {
		return k, nil
	}
	return nil, usage.Unknown("pack", id, q.PackIDs())
}

// offer finds a product in one of its packs, and the market it is offered in.
func (p *Press) offer(id, packID, code string) (q *shop.Product, k *shop.Pack, m *market.Market, err error) {
	if q, err = p.product(id); err != nil {
		return nil, nil, nil, err
	}
	if k, err = pack(q, packID); err != nil {
		return nil, nil, nil, err
	}
	m, err = p.market(code)
	return q, k, m, err
}

// stock finds a stock and the printer that is loaded with it.
func (p *Press) stock(id, usual string) (*stock.Stock, shop.Printer, error) {
	if id == "" {
		id = usual
	}
	s, ok := p.shelf.Get(id)
	switch {
	case p.shelf.Broken(id):
		return nil, shop.Printer{}, usage.Errorf("chablon check says what is wrong in it", "nothing can be printed on %q: its file in papers/ has faults", id)
	case !ok:
		return nil, shop.Printer{}, usage.Unknown("paper", id, p.shelf.IDs())
	}
	for _, e := range p.Shop.Profile.Printers {
		if p.To != "" && e.Key.V != p.To && p.carries(p.To, id) {
			continue
		}
		if slices.ContainsFunc(e.V.Papers, func(t shop.Text) bool { return t.V == id }) {
			return s, e.V, nil
		}
	}
	return s, shop.Printer{}, nil
}

// carries reports whether a printer of the shop is loaded with a paper.
func (p *Press) carries(printer, paper string) bool {
	e, ok := p.Shop.Profile.Printers.Get(printer)
	return ok && slices.ContainsFunc(e.Papers, func(t shop.Text) bool { return t.V == paper })
}

// market finds a market by its code; the shop's first one when code is empty.
func (p *Press) market(code string) (*market.Market, error) {
	if code == "" && len(p.Shop.Profile.Markets) > 0 {
		code = p.Shop.Profile.Markets[0].V
	}
	if m, ok := market.Get(strings.ToLower(code)); ok {
		return m.In(p.Shop.Profile.Country.V), nil
	}
	return nil, usage.Unknown("market", code, market.Codes())
}

// languages finds languages by their codes; those of the files when none are
// named.
func languages(codes []string, usual []shop.Text) ([]*words.Lang, error) {
	if len(codes) == 0 {
		for _, c := range usual {
			codes = append(codes, c.V)
		}
	}
	var out []*words.Lang
	for i, c := range codes {
		if slices.Contains(codes[:i], c) {
			return nil, usage.Errorf("take one of the two out", "the language %q is named twice", c)
		}
		l, ok := words.Get(c)
		if !ok {
			return nil, usage.Unknown("language", c, words.Codes())
		}
		out = append(out, l)
	}
	return out, nil
}

// GTIN is that of the first pack of a product, or "".
func (p *Press) GTIN(product string) string {
	if q := p.Shop.Products[product]; q != nil && len(q.Packs) > 0 {
		return q.Packs[0].GTIN.V
	}
	return ""
}

// DateKind is which date the label of a product bears: use-by, best-before or
// none.
func (p *Press) DateKind(product string) string {
	if q := p.Shop.Products[product]; q != nil {
		return p.Shop.KeepOf(q).Date.V
	}
	return ""
}
