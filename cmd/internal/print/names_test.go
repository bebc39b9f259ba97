package print

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/unit"
)

// Every plan of the demo shop gives as many files as papers, on a disk that
// knows no capitals too.
func TestNamesOfDay(t *testing.T) {
	for _, day := range []unit.Date{{Year: 2026, Month: 3, Day: 17}, {Year: 2026, Month: 6, Day: 1}} {
		p := demoPress(t)
		p.Today = day
		b, err := p.Day(DayOptions{})
		if err != nil || b.Found.Errors() > 0 || len(b.Papers) < 15 {
			t.Fatal(err, b.Found.All())
		}
		seen := map[string]bool{}
		for _, q := range b.Papers {
			if key := strings.ToLower(q.Name); seen[key] {
				t.Errorf("%s: two papers are called %s", day, q.Name)
			} else {
				seen[key] = true
			}
		}
	}
}

// What a request can ask for is told apart by the name.
func TestNamesTellApart(t *testing.T) {
	p := demoPress(t)
	const tartlet = "pear-hazelnut-tartlet"
	names := map[string]string{}
	for what, c := range map[string]struct {
		kind string
		r    Request
		want string
	}{
		"card":              {"card", Request{Own: &CardOptions{Pieces: 48}}, "card-pear-hazelnut-tartlet-48-a4.pdf"},
		"card of another":   {"card", Request{Own: &CardOptions{Pieces: 24}}, "card-pear-hazelnut-tartlet-24-a4.pdf"},
		"card on A5":        {"card", Request{Paper: "card-a5", Own: &CardOptions{Pieces: 48}}, "card-pear-hazelnut-tartlet-48-a5.pdf"},
		"second copy":       {"card", Request{Own: &CardOptions{Pieces: 48, Copy: Copy{2, 3}}}, "card-pear-hazelnut-tartlet-48-a4-2of3.pdf"},
		"card in French":    {"card", Request{Languages: []string{"fr"}, Own: &CardOptions{Pieces: 48}}, "card-pear-hazelnut-tartlet_fr-48-a4.pdf"},
		"card for a pack":   {"card", Request{Pack: "single", Own: &CardOptions{Pieces: 48}}, "card-pear-hazelnut-tartlet_single-48-a4.pdf"},
		"labels":            {"label", Request{}, "labels-pear-hazelnut-tartlet-L26076A.pdf"},
		"labels for a pack": {"label", Request{Pack: "single"}, "labels-pear-hazelnut-tartlet_single-L26076A.pdf"},
		"labels on a sheet": {"label", Request{Paper: "a4-6"}, "labels-pear-hazelnut-tartlet_a4-6-L26076A.pdf"},
		"another batch":     {"label", Request{Batch: "A-1"}, "labels-pear-hazelnut-tartlet-A_1.pdf"},
		"a point":           {"label", Request{Batch: "A.1"}, "labels-pear-hazelnut-tartlet-A.1.pdf"},
		"a stroke":          {"label", Request{Batch: "A/1"}, "labels-pear-hazelnut-tartlet-A=2F1.pdf"},
		"a small letter":    {"label", Request{Batch: "a-1"}, "labels-pear-hazelnut-tartlet-=a_1.pdf"},
		"ticket":            {"ticket", Request{}, "ticket-pear-hazelnut-tartlet.pdf"},
		"carton":            {"carton", Request{}, "cartons-pear-hazelnut-tartlet-L26076A.pdf"},
	} {
		b := asked(t, p, c.kind, tartlet, c.r)
		if len(b.Papers) != 1 {
			t.Fatal(what, b.Found.All())
		}
		name := b.Papers[0].Name
		if name != c.want {
			t.Errorf("%s is called %s, not %s", what, name, c.want)
		}
		key := strings.ToLower(name)
		if other, twice := names[key]; twice {
			t.Errorf("%s and %s are called %s", what, other, name)
		}
		names[key] = what
	}
}

// Two batch codes give one name only when they are one code: all 82 characters
// that a bar code can carry (GS1 General Specifications, character set 82).
func TestCodedApart(t *testing.T) {
	const all = "!\"%&'()*+,-./0123456789:;<=>?ABCDEFGHIJKLMNOPQRSTUVWXYZ_abcdefghijklmnopqrstuvwxyz"
	code := rapid.StringOfN(rapid.SampledFrom([]rune(all)), 1, 4, -1)
	safe := "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._="
	rapid.Check(t, func(rt *rapid.T) {
		a, b := code.Draw(rt, "a"), code.Draw(rt, "b")
		if (a == b) != strings.EqualFold(coded(a), coded(b)) {
			rt.Fatalf("%q is %s, %q is %s", a, coded(a), b, coded(b))
		}
		if i := slices.IndexFunc([]rune(coded(a)), func(r rune) bool { return !strings.ContainsRune(safe, r) }); i >= 0 {
			rt.Fatalf("%q is %s", a, coded(a))
		}
	})
}
