package words_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/samples"
)

var update = flag.Bool("update", false, "rewrite golden files; their first comment lines, the review, are kept")

// golden lists the markets of the golden declarations, each with its languages
// and, where not all six products are declared, those that are.
var golden = []struct{ market, languages, products string }{
	{"eu", "en fr de", ""},
	{"gb", "en fr de", ""},
	{"ch", "en fr de", ""},
	{"us", "en", ""},
	{"ca", "en fr", "bench-tin lemon-thyme-marshmallow pear-hazelnut-tartlet"},
	{"au", "en", "bench-tin pear-hazelnut-tartlet"},
}

// The demo shop's products as a reader would see them, reviewed line by line.
func TestGolden(t *testing.T) {
	files := 0
	for _, g := range golden {
		var loading diag.List
		sh := shop.Load(samples.Demo(), &loading)
		if loading.Errors() > 0 {
			t.Fatal(loading.All())
		}
		for _, id := range sh.ProductIDs {
			if g.products != "" && !strings.Contains(" "+g.products+" ", " "+id+" ") {
				continue
			}
			files++
			name := filepath.Join("testdata", "declared", id+"-"+g.market+".golden")
			compareGolden(t, name, declared(t, sh, id, g.market, strings.Fields(g.languages)))
		}
	}
	if have, _ := filepath.Glob(filepath.Join("testdata", "declared", "*.golden")); len(have) != files {
		t.Errorf("%d golden files, %d declarations", len(have), files)
	}
}

func compareGolden(t *testing.T, name, got string) {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil && !*update {
		t.Fatal(err)
	}
	review, want := cutReview(string(data))
	if *update {
		if err := os.WriteFile(name, []byte(review+got), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got != want {
		t.Errorf("%s differs; if the new text is right, run with -update, read the difference and review it again:\n%s", name, got)
	}
	if !strings.Contains(review, "# Reviewed") {
		t.Errorf("%s was not reviewed", name)
	}
}

// cutReview parts the comment lines at the head from the text.
func cutReview(s string) (review, text string) {
	for strings.HasPrefix(s, "#") {
		line, rest, _ := strings.Cut(s, "\n")
		review, s = review+line+"\n", rest
	}
	return review, s
}

// declared writes a declaration as text: what is bold stands between stars, a
// no-break space is a tilde.
func declared(t *testing.T, sh *shop.Shop, id, in string, languages []string) string {
	t.Helper()
	p := sh.Products[id]
	pack := p.Packs[0]
	m, _ := market.Get(in)
	per := strings.Join(m.Nutrition.Per, " ")
	with := slices.IndexFunc(p.Packs, func(k shop.Pack) bool { return k.Portion.Set() })
	switch {
	case per == "portion" && with >= 0:
		pack = p.Packs[with]
	case per == "portion":
		pack.Nutrition.V = "exempt-small-maker" // nobody knows all that its panel asks for
	case strings.HasPrefix(per, "portion"):
		pack.Portion = at(pack.Net.V / 2)
	}
	var found diag.List
	var b strings.Builder
	f := declare.Of(sh, p, &pack, m, unit.Date{Year: 2026, Month: 3, Day: 17}, &found)
	for _, code := range languages {
		l, ok := words.Get(code)
		if !ok {
			t.Fatalf("no language %q", code)
		}
		write(&b, words.Tell(f, sh, l, &found))
	}
	for _, d := range f.Decisions {
		fmt.Fprintf(&b, "decided: %s: %s, %s, %s\n", d.Rule, d.Part, orNothing(d.Got), orNothing(d.Limit))
	}
	for _, d := range found.All() {
		fmt.Fprintf(&b, "found: %s\n", d.Rule)
	}
	return b.String()
}

func orNothing(v declare.Value) string {
	if v == nil {
		return ""
	}
	return fmt.Sprint(v)
}

func write(b *strings.Builder, l *words.Label) {
	fmt.Fprintf(b, "[%s]\n", l.Lang)
	all := append([]words.Said{l.Name}, l.Lists...)
	all = append(append(all, l.May), l.Statements...)
	for _, s := range append(all, l.Net.Said, l.Date, l.Keep, l.Use, l.Operator) {
		if s.Text != "" {
			fmt.Fprintf(b, "%s: %s\n", s.Role, strings.ReplaceAll(marks(s), "\u00a0", "~"))
		}
	}
	if l.Table != nil {
		heads := l.Table.Per
		if len(l.Table.Heads) > 1 {
			heads = strings.Join([]string{l.Table.Per, l.Table.Portions, strings.Join(l.Table.Heads, " | ")}, "; ")
			if s := l.Table.Serving; s[0] == "" && s[1] != "" { // a line of its own
				heads = s[1] + "; " + heads
			}
		}
		fmt.Fprintf(b, "nutrition: %s %s\n", l.Table.Heading, strings.ReplaceAll(heads, "\u00a0", "~"))
		for _, r := range l.Table.Rows {
			fmt.Fprintf(b, "  %s\n", strings.ReplaceAll(r.Name+": "+strings.Join(r.Cells, " | "), "\u00a0", "~"))
		}
		if l.Table.ReferenceOf != "" {
			fmt.Fprintf(b, "  %s\n", strings.ReplaceAll(l.Table.ReferenceOf, "\u00a0", "~"))
		}
	}
	b.WriteString("\n")
}
