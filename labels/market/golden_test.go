package market_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"chablon/labels/market"
)

var update = flag.Bool("update", false, "rewrite the files in testdata")

// A sheet writes each rule that has a citation of its own on one line: where
// it stands, its values, the act by its number at the foot, the article, and
// how it is known.
type sheet struct {
	strings.Builder
	acts []string
}

func (s *sheet) write(path string, v reflect.Value) {
	v = reflect.Indirect(v)
	switch {
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			s.write(fmt.Sprintf("%s.%d", path, i+1), v.Index(i))
		}
	case v.Kind() == reflect.Struct && !v.IsZero():
		if line := s.values(v); line != "" {
			fmt.Fprintln(s, strings.TrimPrefix(path+": "+line, ": "))
		}
		for i := range v.NumField() {
			if f := v.Type().Field(i); !f.Anonymous && f.Type != citeType && hasCite(f.Type) {
				s.write(strings.TrimPrefix(path+"."+f.Name, "."), v.Field(i))
			}
		}
	}
}

// values writes the fields of v that have no citation below them.
func (s *sheet) values(v reflect.Value) string {
	var out []string
	for i := range v.NumField() {
		f, x := v.Type().Field(i), v.Field(i)
		switch {
		case x.IsZero():
		case f.Type == citeType && f.Name == "Cite":
			out = append(out, "| "+s.cite(x.Interface().(market.Cite)))
		case f.Type == citeType:
			out = append(out, f.Name+" "+s.cite(x.Interface().(market.Cite)))
		case f.Anonymous:
			out = append(out, s.values(x))
		case !hasCite(f.Type):
			out = append(out, f.Name+" "+inline(x))
		}
	}
	return strings.Join(out, " ")
}

func (s *sheet) cite(c market.Cite) string {
	i := slices.Index(s.acts, c.Act)
	if i < 0 {
		i = len(s.acts)
		s.acts = append(s.acts, c.Act)
	}
	how := c.Read
	switch {
	case c.Memory:
		how = "memory"
	case c.House:
		how = "house"
	case c.Via != "":
		how += " (" + c.Via + ")"
	}
	return fmt.Sprintf("[%d] %s, %s", i+1, c.Article, how)
}

func (s *sheet) text() string {
	for i, act := range s.acts {
		fmt.Fprintf(s, "[%d] %s\n", i+1, act)
	}
	return s.String()
}

// hasCite reports whether a type, or what it is a list or a pointer of, has
// citations below it.
func hasCite(t reflect.Type) bool {
	for t.Kind() == reflect.Slice || t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct {
		return false
	}
	for i := range t.NumField() {
		if f := t.Field(i).Type; f == citeType || f != t && hasCite(f) {
			return true
		}
	}
	return false
}

func inline(v reflect.Value) string {
	v = reflect.Indirect(v)
	if s, ok := v.Interface().(fmt.Stringer); ok {
		return s.String()
	}
	switch v.Kind() {
	case reflect.Slice:
		var all []string
		for i := range v.Len() {
			all = append(all, inline(v.Index(i)))
		}
		return "[" + strings.Join(all, ", ") + "]"
	case reflect.Struct:
		var all []string
		for i := range v.NumField() {
			if !v.Field(i).IsZero() {
				all = append(all, v.Type().Field(i).Name+" "+inline(v.Field(i)))
			}
		}
		return "{" + strings.Join(all, " ") + "}"
	}
	return fmt.Sprint(v.Interface())
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got == string(want) {
		return
	}
	g, w := strings.Split(got, "\n"), strings.Split(string(want), "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			t.Fatalf("%s:%d:\n got %s\nwant %s", path, i+1, g[i], w[i])
		}
	}
	t.Fatalf("%s: %d lines, want %d", path, len(g), len(w))
}

// What an act alone can tell is read in its text; the allergens of the United
// States and all of Switzerland are not read yet, and must say so.
func TestMemoryIsMarked(t *testing.T) {
	for _, c := range []struct {
		name string
		cite market.Cite
		want bool
	}{
		{"EU x-height", get(t, "eu").XHeight(0).Cite, false},
		{"EU figures of the net quantity", get(t, "eu").Net.Digits[0].Cite, false},
		{"EU tolerances", get(t, "eu").Net.Errors[0].Cite, false},
		{"Swiss allergens", get(t, "ch").Allergens.Cite, true},
		{"Swiss rounding", get(t, "ch").Nutrition.Nutrients[0].Cite, true},
		{"American allergens", get(t, "us").Allergens.Cite, true},
		{"American figures of the net quantity", get(t, "us").Net.Digits[0].Cite, true},
		{"American type size", get(t, "us").XHeight(0).Cite, false},
		{"Canadian type size", get(t, "ca").XHeight(0).Cite, false},
		{"Australian allergens", get(t, "au").Allergens.Cite, false},
		{"Australian dates", get(t, "au").Dates.Cite, true},
		{"Codex compounds", get(t, "codex").List.Compound.Cite, false},
		{"Codex dates", get(t, "codex").Dates.Cite, true},
		{"Irish language", get(t, "ie").Languages.Cite, true},
		{"pooled eggs, seconds", limit(t, "us", "pooled-eggs").Cite, true},
		{"cold holding", limit(t, "us", "cold").Cite, false},
	} {
		if c.cite.Memory != c.want {
			t.Errorf("%s (%s): memory = %v, want %v", c.name, c.cite, c.cite.Memory, c.want)
		}
	}
}

// Each market as one readable sheet, so that no number changes unseen. The
// sheets are no outside check; the other tests name the sources.
func TestSheets(t *testing.T) {
	for _, m := range market.All() {
		var s sheet
		s.write("", reflect.ValueOf(m))
		golden(t, m.Code+".txt", s.text())
	}
	var s sheet
	s.write("Reading", reflect.ValueOf(market.Readings()))
	s.write("Distance", reflect.ValueOf(market.Distances()))
	golden(t, "other.txt", s.text())
}
