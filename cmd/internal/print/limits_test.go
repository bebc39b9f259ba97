package print

import (
	"fmt"
	"os"
	"path"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"chablon/labels/market"
)

// limitsOf lists the limits of a market that are shares, by name: those of its
// list, percentages and allergens, of its statements, and of names whose
// composition the law sets.
func limitsOf(m *market.Market) (out []string) {
	parts := map[string]any{"List": m.List, "Quid": m.Quid, "Allergens": m.Allergens}
	for _, of := range []string{"List", "Quid", "Allergens"} {
		v := reflect.ValueOf(parts[of])
		for i := range v.NumField() {
			if p, ok := v.Field(i).Interface().(market.Part); ok && p.Set() {
				out = append(out, fmt.Sprintf("%s %s.%s", m.Code, of, v.Type().Field(i).Name))
			}
		}
	}
	for _, t := range m.Triggers {
		if t.Share > 0 {
			out = append(out, m.Code+" Triggers."+t.Key)
		}
	}
	for _, c := range m.Names {
		s := fmt.Sprintf("%s %s/%s", m.Code, c.Food, c.Of)
		if c.Most && slices.ContainsFunc(m.Names, func(o market.Composition) bool { return o.Food == c.Food && !o.Most }) && c.Of != "other" && c.Of != "vegetable-fat" {
			s += " most"
		}
		switch {
		case !c.From.IsZero():
			s += " from " + c.From.String()
		case !c.Until.IsZero():
			s += " before " + c.Until.String()
		}
		out = append(out, s)
	}
	return out
}

// Each limit that is a share has a case of the law on either side of it and one
// at it, or stands in untried.txt with the reason why it has not. Neither list
// can shrink unseen.
func TestEveryLimitIsTried(t *testing.T) {
	sides := map[string][]string{}
	for _, f := range lawFiles(t) {
		if limit, side, ok := strings.Cut(readCase(t, f).Limit, ", "); ok {
			sides[limit] = append(sides[limit], side)
		}
	}
	untried := reasons(t, "untried.txt")
	used, known := map[string]bool{}, map[string]bool{}
	for _, m := range market.All() {
		for _, l := range limitsOf(m) {
			known[l] = true
			why := ""
			for pattern := range untried {
				if ok, _ := path.Match(strings.ReplaceAll(pattern, "/", "|"), strings.ReplaceAll(l, "/", "|")); ok {
					why, used[pattern] = pattern, true
				}
			}
			all := true
			for _, s := range []string{"under", "at", "over"} {
				all = all && slices.Contains(sides[l], s)
			}
			switch {
			case !all && why == "":
				t.Errorf("%s has the cases %v; it wants one under, one at and one over it, or a reason in untried.txt", l, sides[l])
			case all && why == l:
				t.Errorf("%s is tried; take its line out of untried.txt", l)
			}
		}
	}
	for p := range untried {
		if !used[p] {
			t.Errorf("untried.txt: %q is no limit", p)
		}
	}
	for l := range sides {
		if !known[l] {
			t.Errorf("%q, which a case names, is no limit of a market", l)
		}
	}
}

// reasons reads "what: why", a line each.
func reasons(t *testing.T, name string) map[string]string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(lawFolder, name))
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for line := range strings.Lines(string(data)) {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		what, why, ok := strings.Cut(line, ": ")
		if !ok || why == "" {
			t.Errorf("%s: %q has no reason", name, line)
		}
		out[what] = why
	}
	return out
}
