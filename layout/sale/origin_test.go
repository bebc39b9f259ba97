package sale

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// from gives a food or an ingredient its origin in English.
func from(place string) shop.Words {
	w := shop.Words{{}}
	w[0].Key.V, w[0].V.V = "en", place
	return w
}

// The origin of an ingredient that the name names, or that is more than half of
// the food, stands beside the origin of the food (Reg. (EU) 1169/2011 Art.
// 2(2)(q), 26(3)), with an x of 1.2 mm at least, on a small face too, and of three
// quarters of that of the other (Reg. (EU) 2018/775 Art. 3(1), (2)).
func TestPrimaryOrigin(t *testing.T) {
	sh := layouttest.Shop(t)
	p := sh.Products["pear-hazelnut-tartlet"]
	p.Origin = from("Ireland")
	sh.Ingredients["pear"].Origin = from("Spain")
	for _, id := range []string{"ground-hazelnut", "chopped-hazelnut"} {
		sh.Ingredients[id].Origin = from("Ireland")
	}
	pack, _ := p.Pack("box-of-2")
	pack.Face.V = 70 * unit.CM2 // 0.9 mm would do for all else
	l := labelOf(t, sh, p.ID, "box-of-2", "a4-2", layouttest.Office())
	var found diag.List
	s := Compose(l, layouttest.Faces(t), &found)
	if s == nil {
		t.Fatal(found.All())
	}
	all := first(s).All()
	layouttest.Has(t, layouttest.Read(all), "Origin: Ireland. Pear: origin Spain.")
	of := slices.IndexFunc(all, func(it page.Item) bool { return it.Role == role.OriginOf })
	if of < 1 || all[of-1].Role != role.Origin || all[of].Run.XHeight < 1200*unit.UM {
		t.Fatalf("the origin of the pears stands at %d", of)
	}
	sheet := rules(l, s)
	sheet.Pack = l.Facts.AsPack()
	judge := func(items []page.Item) string {
		var found diag.List
		preflight.Label(sheet, items, &found)
		var all []string
		for _, d := range found.All() {
			all = append(all, d.Rule+": "+d.Msg)
		}
		return strings.Join(all, "\n")
	}
	if got := judge(all); got != "" {
		t.Errorf("a good label is refused: %s", got)
	}
	for name, c := range map[string]struct {
		change func([]page.Item) []page.Item
		want   string
	}{
		"1.19 mm":         {with(of, func(r *page.Run) { r.XHeight = 1190 * unit.UM }), "too-small"},
		"74 % of 2 mm":    {with(of-1, func(r *page.Run) { r.XHeight = all[of].Run.XHeight * 100 / 74 }), "too-small"},
		"left out":        {func(in []page.Item) []page.Item { return slices.Delete(in, of, of+1) }, "origin-of is missing"},
		"somewhere else":  {func(in []page.Item) []page.Item { return append(slices.Delete(in, of, of+1), all[of]) }, "apart"},
		"food without it": {func(in []page.Item) []page.Item { return slices.Delete(in, of-1, of) }, "origin is missing"},
	} {
		if got := judge(c.change(slices.Clone(all))); !strings.Contains(got, c.want) {
			t.Errorf("%s: %q", name, got)
		}
	}
}

// with changes a copy of one run.
func with(i int, change func(*page.Run)) func([]page.Item) []page.Item {
	return func(in []page.Item) []page.Item {
		run := *in[i].Run
		change(&run)
		in[i].Run = &run
		return in
	}
}
