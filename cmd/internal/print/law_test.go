package print

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"gopkg.in/yaml.v3"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// lawFolder holds the cases of the law, each a file that an inspector can read:
// what the shop says, in which market, what the label says or why it is refused,
// by which article, and who read it when. How one is added: DEVELOPERS.md.
const lawFolder = "testdata/law"

// lawCase is one of them.
type lawCase struct {
	Case string // in a sentence
	Act  string // act and article
	Read string // when and where it was read, or "memory"
	// Limit is the limit that it is a case of, as its market's table names it,
	// and the side: "eu List.Water, at".
	Limit string

	Market    string
	Made      string   // the day; 10 March 2026 when left out
	Languages []string // of the label; en when left out
	Food      any      // its name, in English or by language
	Of        []any    // its lines: "wheat-flour 500 g", or keys of a line
	Lost      string   // water that baking takes
	// What the shop's files say beside the usual.
	Ingredients map[string]map[string]any
	Formulas    map[string]map[string]any
	Product     map[string]any
	Pack        map[string]any
	Shop        map[string]any
	Paper       string // the label is printed on it too

	Says    []string // the label says this, words of the law in English
	Silent  []string // and nothing like this
	Refused []string // rule, and a part of the message
	Told    []string // a caution: rule, and a part of the message
	Untold  []string // no caution or refusal of this rule
}

func readCase(t *testing.T, path string) lawCase {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	dec := yaml.NewDecoder(strings.NewReader(string(data)))
	dec.KnownFields(true)
	var c lawCase
	if err := dec.Decode(&c); err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return c
}

func lawFiles(t *testing.T) []string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(lawFolder, "*.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// pantry is what all cases may use: the usual ingredients of a pastry kitchen.
func pantry(t *testing.T) map[string]map[string]any {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(lawFolder, "pantry.txt"))
	if err != nil {
		t.Fatal(err)
	}
	var all map[string]map[string]any
	if err := yaml.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	return all
}

// files writes the shop of a case.
func (c lawCase) files(t *testing.T, pantry map[string]map[string]any) fstest.MapFS {
	t.Helper()
	fs := fstest.MapFS{}
	write := func(name string, v map[string]any) {
		data, err := yaml.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		fs[name] = &fstest.MapFile{Data: data}
	}
	over := func(usual, own map[string]any) map[string]any {
		maps.Copy(usual, own)
		return usual
	}
	langs := c.languages()
	write("shop.yaml", over(map[string]any{"name": "A", "address": "B", "markets": []string{c.Market}, "label-languages": langs, "card-languages": []string{"en"},
		"batch-code": "L{yy}{day}", "printers": map[string]any{"desk": map[string]any{"resolution": "600 dpi", "papers": []string{c.paper()}}}}, c.Shop))
	all := maps.Clone(pantry)
	maps.Copy(all, c.Ingredients)
	for id, keys := range all {
		usual := map[string]any{"bought-as": id, "name": map[string]any{"en": strings.ReplaceAll(id, "-", " ")}, "contains": []any{}, "may-contain": []any{},
			"sulphites": "0 mg/kg", "spec": map[string]any{"version": "1", "dated": "2026-01-05"}}
		write("ingredients/"+id+".yaml", over(usual, keys))
	}
	for id, keys := range c.Formulas {
		f := over(map[string]any{"name": map[string]any{"en": id}, "version": 1, "issued": "2026-01-05"}, keys)
		f["lines"] = lawLines(t, f["lines"].([]any))
		write("formulas/"+id+".yaml", f)
	}
	stage := map[string]any{"stage": "bake", "add": lawLines(t, c.Of)}
	if c.Lost != "" {
		stage["water-lost"] = c.Lost
	}
	name := c.Food
	if s, ok := name.(string); ok {
		name = map[string]any{"en": s}
	}
	pack := over(map[string]any{"id": "pack", "pieces": 1, "net": "100 g", "paper": c.paper(), "largest-face": "100 cm²", "nutrition": "exempt-small-maker"}, c.Pack)
	write("products/food.yaml", over(map[string]any{"name": name, "version": 1, "issued": "2026-01-05", "parts": []any{stage},
		"keep": map[string]any{"store": "ambient", "life": "21 days", "date": "best-before"}, "packs": []any{pack}}, c.Product))
	return fs
}

func (c lawCase) languages() []string {
	if c.Languages == nil {
		return []string{"en"}
	}
	return c.Languages
}

func (c lawCase) paper() string {
	if c.Paper == "" {
		return "roll-100x100"
	}
	return c.Paper
}

// lawLines reads "wheat-flour 500 g".
func lawLines(t *testing.T, in []any) (out []any) {
	t.Helper()
	for _, l := range in {
		if s, ok := l.(string); ok {
			id, mass, found := strings.Cut(s, " ")
			if !found {
				t.Fatalf("%q is no line", s)
			}
			l = map[string]any{"use": id, "take": mass}
		}
		out = append(out, l)
	}
	return out
}

// say takes the case down the road of a label, and gives what it says and what
// was found.
func (c lawCase) say(t *testing.T, pantry map[string]map[string]any) (string, *diag.List) {
	t.Helper()
	made := unit.Date{Year: 2026, Month: time.March, Day: 10}
	if c.Made != "" {
		var err error
		if made, err = unit.ParseDate(c.Made); err != nil {
			t.Fatal(err)
		}
	}
	p, err := open("law", c.files(t, pantry), made, made.Time())
	if err != nil {
		t.Fatal(err)
	}
	d, err := p.Declare(DeclareRequest{ID: "food", Market: c.Market, Languages: c.languages(), Made: made})
	if err != nil {
		t.Fatal(err)
	}
	said := ""
	if p.Found.Errors() == 0 {
		said = d.Text()
	}
	found := p.Found
	if c.Paper != "" {
		j := job(t, p, "label", "food", Request{Draft: true, Market: c.Market, Languages: c.languages(), Made: made, Batch: "L26069"})
		found.AddAll(j.Found)
	}
	return strings.Join(strings.Fields(strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(said)), " "), found
}

// judge says what the label does not say as the case wants it.
func (c lawCase) judge(said string, found *diag.List) (wrong []string) {
	bad := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	is := func(want string, warning bool) bool {
		rule, part, _ := strings.Cut(want, ": ")
		return slices.ContainsFunc(found.All(), func(d diag.Diag) bool {
			return d.Rule == rule && d.Warning == warning && strings.Contains(strings.ReplaceAll(d.Msg, "\u00a0", " "), part)
		})
	}
	if len(c.Says)+len(c.Silent)+len(c.Refused)+len(c.Told)+len(c.Untold) == 0 {
		bad("expects nothing")
	}
	if len(c.Refused) == 0 && found.Errors() > 0 {
		bad("was refused")
	}
	for _, w := range c.Refused {
		if !is(w, false) {
			bad("is not refused for %q", w)
		}
	}
	for _, w := range c.Told {
		if !is(w, true) {
			bad("is not cautioned of %q", w)
		}
	}
	for _, w := range c.Untold {
		if slices.ContainsFunc(found.All(), func(d diag.Diag) bool { return d.Rule == w }) {
			bad("is told of %q", w)
		}
	}
	for _, w := range c.Says {
		if !strings.Contains(said, w) {
			bad("does not say %q", w)
		}
	}
	for _, w := range c.Silent {
		if strings.Contains(said, w) {
			bad("says %q", w)
		}
	}
	return wrong
}

// Each case of the law goes the road of a label, and ends as its file says.
func TestLaw(t *testing.T) {
	pantry, files := pantry(t), lawFiles(t)
	for _, path := range files {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".yaml"), func(t *testing.T) {
			c := readCase(t, path)
			if c.Case == "" || c.Act == "" || c.Read == "" || c.Market == "" {
				t.Error("wants case, act, read and market")
			}
			said, found := c.say(t, pantry)
			for _, w := range c.judge(said, found) {
				t.Errorf("%s (%s): %s\n%s\n%v", c.Case, c.Act, w, said, found.All())
			}
		})
	}
	if len(files) < 580 {
		t.Errorf("%d cases; there were 580 at least", len(files))
	}
}
