package audit

import (
	"reflect"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

func TestValue(t *testing.T) {
	for _, c := range []struct {
		lang string
		in   declare.Value
		want string
	}{
		{"en", declare.Percent(409_356_725), "40.94\u00a0%"},
		{"de", declare.Percent(409_356_725), "40,94\u00a0%"},
		{"en", declare.Percent(2 * unit.Percent), "2\u00a0%"},
		{"fr", declare.Limit{Edge: market.Over, Of: declare.MgPerKg(10 * unit.MgPerKg)}, ">\u00a010\u00a0mg/kg"},
		{"en", declare.Limit{Edge: market.UpTo, Of: declare.Percent(5 * unit.Percent)}, "≤\u00a05\u00a0%"},
		{"de", declare.MgPerKg(700), "0,7\u00a0mg/kg"},
		{"en", declare.Mass(12_345_500 * unit.Milligram), "12\u202f345.5\u00a0g"},
		{"en", declare.Day{Year: 2026, Month: 3, Day: 19}, "19.03.2026"},
		{"de", declare.Key("in-name"), "sein Name steht in der Bezeichnung"},
		{"en", declare.Text("RA-2026-01"), "RA-2026-01"},
		{"en", nil, ""},
	} {
		if got := told(t, c.lang).value(c.in); got != c.want {
			t.Errorf("%s %v: %q, want %q", c.lang, c.in, got, c.want)
		}
	}
}

// Every rule that decides, and every reason that the files of a shop can give
// for a decision, has words in each language of the sheet.
func TestReasonsHaveWords(t *testing.T) {
	var keys []string
	for _, r := range declare.Rules() {
		keys = append(keys, "audit.rule."+string(r))
	}
	why := []string{"varying-mixture"}
	why = append(why, choices(t, shop.Percent{}, "because", "exempt")...)
	why = append(why, choices(t, shop.Listing{}, "no-list")...)
	why = append(why, choices(t, shop.Join{}, "as")...)
	why = append(why, choices(t, shop.Pack{}, "nutrition")...)
	for _, k := range why {
		if k != "declared" {
			keys = append(keys, "audit.why."+k)
		}
	}
	for _, lang := range []string{"en", "fr", "de"} {
		for _, k := range keys {
			if s, err := told(t, lang).Audit.Lang.Word(k); err != nil || s == "" {
				t.Errorf("%s: no words for %s: %v", lang, k, err)
			}
		}
	}
}

// choices are the words that the tags of a struct allow for some keys.
func choices(t *testing.T, of any, keys ...string) []string {
	t.Helper()
	var out []string
	for i := range reflect.TypeOf(of).NumField() {
		f := reflect.TypeOf(of).Field(i)
		for _, k := range keys {
			if f.Tag.Get("key") == k {
				out = append(out, strings.Split(f.Tag.Get("one"), "|")...)
			}
		}
	}
	if len(out) < 3 {
		t.Fatalf("%T offers %v", of, out)
	}
	return out
}
