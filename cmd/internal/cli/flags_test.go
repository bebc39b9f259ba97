package cli

import (
	"slices"
	"testing"

	"chablon/labels/unit"
)

func TestClock(t *testing.T) {
	for s, want := range map[string]unit.Span{"09:00": 9 * unit.Hour, "9:05": 9*unit.Hour + 5*unit.Minute, "24:00": 24 * unit.Hour, "00:01": unit.Minute} {
		var got unit.Clock
		if err := got.UnmarshalText([]byte(s)); err != nil || unit.Span(got) != want {
			t.Errorf("%s: %v, %v", s, got, err)
		}
	}
	for _, s := range []string{"", "9", "9h", "09:60", "24:01", "00:00", "-1:00", "09:0", "009:00", "9:-1", "a:bc", "09:00:00"} {
		var got unit.Clock
		if err := got.UnmarshalText([]byte(s)); err == nil || got != 0 {
			t.Errorf("%q is a time of day: %v", s, got)
		}
	}
}

func TestList(t *testing.T) {
	var got []unit.Count
	if err := (list{&got}).Set("24, 48,96"); err != nil || !slices.Equal(got, []unit.Count{24, 48, 96}) {
		t.Errorf("%v, %v", got, err)
	}
	for _, s := range []string{"", "24,", "24;48", "x", "-1"} {
		if err := (list{&got}).Set(s); err == nil {
			t.Errorf("%q is a list of numbers: %v", s, got)
		}
	}
}
