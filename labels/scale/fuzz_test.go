package scale_test

import (
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Whatever stands in a formula, a product or an ingredient, even when the shop
// was refused: amounts, an order or an error, never a panic, never a hang.
func FuzzShop(f *testing.F) {
	base := fstest.MapFS{}
	var names []string
	err := fs.WalkDir(demoFolder(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := fs.ReadFile(demoFolder(), name)
		base[name] = &fstest.MapFile{Data: b}
		if strings.HasPrefix(name, "formulas/") || strings.HasPrefix(name, "products/") {
			names = append(names, name)
		}
		return err
	})
	if err != nil || len(names) != 19 {
		f.Fatal(len(names), err)
	}
	slices.Sort(names)
	for i := range names {
		for _, e := range [][2]string{
			{"take: ", "take: 99999999999999999 kg #"}, {"use: butter", "use: choux-paste"}, {"g\n", " %\n"}, {"- use", "- {use: a, take: 0.000000001 g}\n  - use"},
			{"water-lost: ", "water-lost: 99.9999999 % #"}, {"lost-in-handling: ", "lost-in-handling: 100 % #"}, {"pieces: 6", "pieces: 999999999"},
			{"cut-to: 12 g", "cut-to: 0.000000001 g"}, {"needs: [", "needs: [D2, "}, {"hands-on: 1", "hands-on: 99999999999 h #"}, {"up-to", "x"},
		} {
			f.Add(uint8(i), e[0], e[1])
		}
	}
	f.Fuzz(func(t *testing.T, which uint8, old, new string) {
		in := fstest.MapFS{}
		for k, v := range base {
			in[k] = v
		}
		name := names[int(which)%len(names)]
		in[name] = &fstest.MapFile{Data: []byte(strings.ReplaceAll(string(base[name].Data), old, new))}
		var found diag.List
		exercise(t, shop.Load(in, &found), found.Errors() == 0)
	})
}

// exercise calls everything; of a shop without errors nothing may be negative.
func exercise(t *testing.T, sh *shop.Shop, sound bool) {
	for _, id := range sh.ProductIDs {
		p := sh.Products[id]
		parts := scale.Expand(sh, p)
		if m := scale.FinishedMass(sh, p); sound && (m <= 0 || len(parts) == 0) {
			t.Errorf("%s: %s of %d parts", id, m, len(parts))
		}
		for _, n := range []unit.Count{1, 48, shop.MaxPieces} {
			b, err := scale.Pieces(sh, p, n)
			if sound && err != nil {
				t.Errorf("%s: %v", id, err)
			}
			if err != nil {
				continue
			}
			for _, a := range b.Amounts() {
				if a.Exact < 0 || a.Shown < 0 || sound && n == 48 && a.Exact > 0 && a.Shown == 0 {
					t.Errorf("%s: %s of %s, shown %s", id, a.Exact, a.Line.Ref(), a.Shown)
				}
			}
			if w, err := scale.Order(sh, b); err == nil && (w.Elapsed < 0 || w.Alone < w.Elapsed) {
				t.Errorf("%s: %s, %s alone", id, w.Elapsed, w.Alone)
			}
		}
		for _, ing := range []string{"butter", "pear"} {
			if b, err := scale.Have(sh, id, ing, unit.Kilogram); err == nil && b.Pieces < 1 {
				t.Errorf("%s: %d pieces of %s", id, b.Pieces, ing)
			}
		}
	}
}
