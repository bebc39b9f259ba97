package declare_test

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/samples"
)

// The lists were drawn up by hand from the specifications of the demo shop.
// Nothing is too little to count: the lemon juice of the syrup brings
// sulphites, and the almonds of the pastry what their supplier cannot keep out.
func TestInFormula(t *testing.T) {
	sh := demoShop(t, samples.Demo())
	for id, want := range map[string][2]string{
		"sweet-pastry":           {"wheat eggs milk almonds", "hazelnuts pistachio nuts"},
		"hazelnut-frangipane":    {"eggs milk hazelnuts", "almonds"},
		"poached-pear":           {"sulphites", ""},
		"white-crisp":            {"wheat barley soybeans milk", "almonds hazelnuts"},
		"rye-shortbread":         {"wheat rye milk celery sulphites", "mustard"},
		"pistachio-diplomat":     {"eggs milk pistachio nuts", "peanuts almonds hazelnuts"},
		"passion-caramel":        {"milk", ""},
		"marshmallow":            {"sulphites", ""},
		"pistachio-pastry-cream": {"eggs milk pistachio nuts", "peanuts almonds hazelnuts"},
		"choux-paste":            {"wheat eggs milk", ""},
		"craquelin":              {"wheat milk", ""},
		"pear-syrup":             {"sulphites", ""},
	} {
		contains, may := declare.InFormula(sh, sh.Formulas[id], declare.Known{})
		if got := [2]string{strings.Join(contains, " "), strings.Join(may, " ")}; got != want {
			t.Errorf("%s: %q, want %q", id, got, want)
		}
	}
}

// What may take an ingredient's place may be in the tub, what the kitchen
// cannot keep out too, and what the caller knows is added; what is contained
// is not said twice.
func TestKnownInFormula(t *testing.T) {
	sh := demoShop(t, samples.Demo())
	f := *sh.Formulas["sweet-pastry"]
	f.Lines = slices.Clone(f.Lines)
	f.Lines[3].Or.V = "pistachio-paste"
	sh.Formulas[f.ID] = &f
	sh.Profile.CrossContact = []shop.Text{{V: "sesame"}, {V: "milk"}}
	contains, may := declare.InFormula(sh, &f, declare.Known{Contains: []string{"hazelnuts"}, May: []string{"lupin", "eggs"}})
	if got := strings.Join(contains, " "); got != "wheat eggs milk almonds hazelnuts" {
		t.Errorf("contains %s", got)
	}
	if got := strings.Join(may, " "); got != "peanuts pistachio nuts sesame lupin" {
		t.Errorf("may contain %s", got)
	}
}

// Raw egg without a limit of heat behind it is raw; with one, nobody here knows
// whether the tub is ready to eat. Pooled eggs: 68 °C (FDA Food Code
// 3-401.11(A)(2)).
func TestRaw(t *testing.T) {
	sh := demoShop(t, samples.Demo())
	var got []string
	for _, id := range sh.FormulaIDs {
		if declare.Raw(sh, sh.Formulas[id]) {
			got = append(got, id)
		}
	}
	if want := "choux-paste hazelnut-frangipane sweet-pastry"; strings.Join(got, " ") != want {
		t.Errorf("raw: %v, want %s", got, want)
	}
	cream := sh.Formulas["pistachio-pastry-cream"]
	limit := cream.Steps[0].Limit
	for _, c := range []struct {
		name   string
		change func(*shop.Limit) *shop.Limit
		want   bool
	}{
		{"as written", func(l *shop.Limit) *shop.Limit { return l }, false},
		{"no limit", func(*shop.Limit) *shop.Limit { return nil }, true},
		{"68 °C", func(l *shop.Limit) *shop.Limit { l.Reach.V.Lo = unit.Celsius(68); return l }, false},
		{"67 °C", func(l *shop.Limit) *shop.Limit { l.Reach.V.Lo = unit.Celsius(67); return l }, true},
		{"at most", func(l *shop.Limit) *shop.Limit {
			l.Reach.V.Kind, l.Reach.V.Hi = unit.AtMost, unit.Celsius(93)
			return l
		}, true},
	} {
		l := *limit
		cream.Steps[0].Limit = c.change(&l)
		// The diplomat is made of it and has no step of heat.
		for _, id := range []string{"pistachio-pastry-cream", "pistachio-diplomat"} {
			if got := declare.Raw(sh, sh.Formulas[id]); got != c.want {
				t.Errorf("%s, %s: raw %v", id, c.name, got)
			}
		}
	}
}
