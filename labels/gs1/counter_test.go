package gs1

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The weighting tables of the General Specifications (7.9.2, figure "weighting
// factors"), as they are quoted in several public code bases.
func TestInnerCheckWeights(t *testing.T) {
	for name, c := range map[string]struct {
		of   func(int) int
		want [10]int
	}{
		"2-": {twoMinus, [10]int{0, 2, 4, 6, 8, 9, 1, 3, 5, 7}},
		"3":  {three, [10]int{0, 3, 6, 9, 2, 5, 8, 1, 4, 7}},
		"5+": {fivePlus, [10]int{0, 5, 1, 6, 2, 7, 3, 8, 4, 9}},
		"5-": {fiveMinus, [10]int{0, 5, 9, 4, 8, 3, 7, 2, 6, 1}},
	} {
		for d, want := range c.want {
			if got := c.of(d) % 10; got != want {
				t.Errorf("%s of %d is %d, not %d", name, d, got, want)
			}
		}
	}
}

// The worked examples of 7.9.3 and 7.9.4, and a number in the form of Great
// Britain as others read it: 20 IIIII V PPPP with 12.34.
func TestInnerCheck(t *testing.T) {
	for s, want := range map[string]byte{"2875": '9', "14685": '6', "1234": '9'} {
		if got, err := InnerCheck(s); err != nil || got != want {
			t.Errorf("%s: %c (%v), not %c", s, got, err, want)
		}
	}
	for _, s := range []string{"", "123", "123456", "12a4"} {
		if _, err := InnerCheck(s); err == nil {
			t.Errorf("%q has an inner check digit", s)
		}
	}
}

// Numbers in the forms of several countries, as public readers of them have
// them in their tests: Great Britain (price), Norway and Finland (weight; two
// products and two made up).
func TestCounterNumber(t *testing.T) {
	for _, c := range []struct {
		form, item string
		value      int64
		want       string
	}{
		{"20{item:5}{inner-check}{price:4}", "11122", 1234, "2011122912346"},
		{"23{item:6}{weight:4}", "021482", 1086, "2302148210869"},
		{"23{item:6}{weight:4}", "680914", 226, "2368091402263"},
		{"23{item:6}{weight:4}", "880601", 1234, "2388060112344"},
		{"24{item:6}{weight:4}", "880601", 1234, "2488060112341"},
		{"20{item:5}{weight:5}", "12345", 250, "2012345002500"},
	} {
		n, err := ParseCounterNumber(c.form)
		if err != nil {
			t.Fatalf("%s: %v", c.form, err)
		}
		got, err := n.Number(c.item, c.value)
		if err != nil || got != c.want {
			t.Errorf("%s: %s (%v), not %s", c.form, got, err, c.want)
		}
		if item, value, err := n.Read(c.want); err != nil || item != c.item || value != c.value {
			t.Errorf("%s reads as %s, %d (%v)", c.want, item, value, err)
		}
		if !Restricted(got) {
			t.Errorf("%s may be sold elsewhere", got)
		}
	}
	n, _ := ParseCounterNumber("20{item:5}{inner-check}{price:4}")
	if _, _, err := n.Read("2011122812349"); err == nil || !strings.Contains(err.Error(), "is 8, not 9") {
		t.Errorf("an inner check digit of 8: %v", err)
	}
	if s := n.String(); s != "20 IIIII V PPPP C" {
		t.Errorf("written out: %s", s)
	}
}

func TestCounterNumberFaults(t *testing.T) {
	for form, want := range map[string]string{
		"":                                 "20 to 29",
		"19{item:5}{weight:5}":             "20 to 29",
		"{item:5}28{weight:5}":             "20 to 29",
		"28{item:5}{weight:4}":             "11 digits and not 12",
		"28{item:5}{weight:5}0":            "13 digits and not 12",
		"28{item:5}{weighed:5}":            `"{weighed:5}"`,
		"28{item:2}{item:3}{weight:5}":     "item stands in it twice",
		"28{weight:5}00000":                "{item:5} is missing",
		"28{item:5}00000":                  "either",
		"28{item:2}{weight:4}{price:4}":    "either",
		"28{item:8}{weight:2}":             "too few for a weight",
		"28{item:3}{inner-check}{price:6}": "4 or 5 digits",
	} {
		if _, err := ParseCounterNumber(form); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, not %q", form, err, want)
		}
	}
	n, _ := ParseCounterNumber("28{item:5}{weight:5}")
	for _, c := range []struct {
		item  string
		value int64
	}{{"1234", 1}, {"123456", 1}, {"1234x", 1}, {"12345", 0}, {"12345", -1}, {"12345", 100_000}} {
		if got, err := n.Number(c.item, c.value); err == nil {
			t.Errorf("%v: %s", c, got)
		}
	}
}

// Whatever is made is read as it was; and no wrong digit goes unseen, for each
// of the 13 is under a check digit.
func TestCounterNumberReadsBack(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		inner := rapid.Bool().Draw(r, "inner")
		w := rapid.IntRange(4, 5).Draw(r, "width")
		form, items := fmt.Sprintf("2%d{item:%d}{weight:%d}", rapid.IntRange(0, 9).Draw(r, "prefix"), 10-w, w), 10-w
		if inner {
			items--
			form = strings.Replace(strings.Replace(form, fmt.Sprintf("item:%d", 10-w), fmt.Sprintf("item:%d", items), 1), "{weight", "{inner-check}{weight", 1)
		}
		n, err := ParseCounterNumber(form)
		if err != nil {
			r.Fatal(form, err)
		}
		item := fmt.Sprintf("%0*d", items, rapid.IntRange(0, 999).Draw(r, "item"))
		value := rapid.Int64Range(1, 9999).Draw(r, "value")
		got, err := n.Number(item, value)
		if err != nil {
			r.Fatal(form, err)
		}
		if i, v, err := n.Read(got); err != nil || i != item || v != value {
			r.Fatalf("%s: %s reads as %s, %d (%v)", form, got, i, v, err)
		}
		at := rapid.IntRange(0, 12).Draw(r, "at")
		wrong := []byte(got)
		wrong[at] = '0' + (wrong[at]-'0'+byte(rapid.IntRange(1, 9).Draw(r, "by")))%10
		if _, _, err := n.Read(string(wrong)); err == nil {
			r.Fatalf("%s is taken for a number of %s", wrong, form)
		}
	})
}
