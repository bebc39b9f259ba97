package market_test

import (
	"fmt"
	"reflect"
	"regexp"
	"testing"

	"chablon/labels/market"
)

var citeType = reflect.TypeFor[market.Cite]()

// finish reports what a citation lacks.
func finish(c market.Cite) string {
	ways := 0
	for _, set := range []bool{c.Read != "", c.Memory, c.House} {
		if set {
			ways++
		}
	}
	switch {
	case c.Act == "":
		return "no act"
	case c.Article == "":
		return "no article"
	case ways != 1:
		return "not exactly one of a day read, memory and house"
	case c.Via != "" && c.Read == "":
		return "a page, but no day on which it was read"
	case c.Read != "" && !regexp.MustCompile(`^2026-(0[1-9]|1[0-2])(-[0-3]\d)?$`).MatchString(c.Read):
		return "the day it was read is no day"
	}
	return ""
}

// walk visits every value under v and hands each number that no finished
// citation covers, and each unfinished citation, to bad.
func walk(v reflect.Value, path string, covered bool, bad func(path, why string)) (numbers int) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			return walk(v.Elem(), path, covered, bad)
		}
	case reflect.Slice:
		for i := range v.Len() {
			numbers += walk(v.Index(i), fmt.Sprintf("%s[%d]", path, i), covered, bad)
		}
	case reflect.Struct:
		if v.IsZero() {
			return 0
		}
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if f.Type != citeType {
				continue
			}
			c := v.Field(i).Interface().(market.Cite)
			if why := finish(c); why == "" {
				covered = covered || f.Name == "Cite"
			} else if f.Name == "Cite" || c != (market.Cite{}) {
				bad(path+"."+f.Name, why)
			}
		}
		for i := range v.NumField() {
			if v.Field(i).Type() != citeType {
				numbers += walk(v.Field(i), path+"."+v.Type().Field(i).Name, covered, bad)
			}
		}
	case reflect.Int, reflect.Int64:
		if v.Int() != 0 {
			numbers++
			if !covered {
				bad(path, "a number without act, article and day")
			}
		}
	}
	return numbers
}

func TestEveryNumberIsCited(t *testing.T) {
	for _, m := range market.All() {
		n := walk(reflect.ValueOf(*m), m.Code, false, func(path, why string) { t.Errorf("%s: %s", path, why) })
		if n < 10 {
			t.Errorf("%s: the walk saw only %d numbers", m.Code, n)
		}
		for _, x := range m.Nutrition.Nutrients {
			if x.Reference != 0 && finish(x.Ref) != "" {
				t.Errorf("%s: reference of %s: %s", m.Code, x.Key, finish(x.Ref))
			}
		}
	}
	rest := []any{market.Readings(), market.Distances()}
	for _, r := range rest {
		walk(reflect.ValueOf(r), fmt.Sprintf("%T", r), false, func(path, why string) { t.Errorf("%s: %s", path, why) })
	}
	_, low := market.LowSight()
	for _, c := range []market.Cite{low, market.QuidRounding(), market.MicroPercentSource()} {
		if why := finish(c); why != "" {
			t.Errorf("%s: %s", c, why)
		}
	}
}

// The walk itself must notice what it is there to notice.
func TestWalkNotices(t *testing.T) {
	good := market.Cite{Act: "a", Article: "1", Read: "2026-11"}
	for _, c := range []struct {
		name string
		v    any
		bad  int
	}{
		{"a cited number", market.Reading{Minutes: 3, Cite: good}, 0},
		{"no citation", market.Reading{Minutes: 3}, 2},
		{"no article", market.Reading{Minutes: 3, Cite: market.Cite{Act: "a", Read: "2026-11"}}, 2},
		{"read and remembered", market.Reading{Cite: market.Cite{Act: "a", Article: "1", Read: "2026-11", Memory: true}}, 1},
		{"no such month", market.Reading{Cite: market.Cite{Act: "a", Article: "1", Read: "2026-13"}}, 1},
		{"covered from above", market.Dates{Within: 90, Cite: good}, 0},
		{"a step below without its own", market.Net{Digits: []market.DigitStep{{Least: 1}}, Cite: good}, 1},
	} {
		n := 0
		walk(reflect.ValueOf(c.v), "x", false, func(string, string) { n++ })
		if n != c.bad {
			t.Errorf("%s: %d findings, want %d", c.name, n, c.bad)
		}
	}
}

func TestGetGivesFreshMarkets(t *testing.T) {
	for _, code := range market.Codes() {
		a, ok := market.Get(code)
		if !ok || a.Code != code {
			t.Fatalf("Get(%q) = %v, %v", code, a, ok)
		}
		a.Heights[0].Least, a.Allergens.Table[0].ID = 0, "changed"
		b, _ := market.Get(code)
		if b.Allergens.Table[0].ID == "changed" {
			t.Errorf("%s: a caller changed what the next one sees", code)
		}
	}
	if _, ok := market.Get("EU"); !ok {
		t.Error("EU in capitals is not found")
	}
	if m, ok := market.Get("xx"); ok {
		t.Errorf("xx gave %v", m)
	}
}
