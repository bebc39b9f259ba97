package preflight

import (
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/symbol"
)

// atScale is the good label as the scale prints it, with a number made after
// the template.
func atScale(t testing.TB, form string, value int64) (Sheet, []page.Item) {
	t.Helper()
	s, items := good(t)
	n, err := gs1.ParseCounterNumber(form)
	if err != nil {
		t.Fatal(err)
	}
	number, err := n.Number(strings.Repeat("7", n.Items()), value)
	if err != nil {
		t.Fatal(err)
	}
	y, err := symbol.EAN13(number, symbol.Module{X: items[0].Symbol.Module, Height: items[0].Symbol.Bars.H, Dots: items[0].Symbol.Dots})
	if err != nil {
		t.Fatal(err)
	}
	it := symbol.Place(y, 2*mm, 30*mm)
	it.Src = pos(9)
	items[0] = it
	s.Counter = &Counter{Number: n, PerKilo: unit.Money{Minor: 3800, Currency: "EUR"}}
	return s, append(items, run(role.Price, 50*mm, 22*mm, "€6.46", 23*mm/10)) // 0.170 kg × 38.00 EUR
}

// TestCounterAgrees changes the printed characters alone: the label is found,
// with the weight in its number and with the price in it.
func TestCounterAgrees(t *testing.T) {
	for form, value := range map[string]int64{"28{item:4}{inner-check}{weight:5}": 170, "21{item:5}{inner-check}{price:4}": 646} {
		if got := findings(atScale(t, form, value)); len(got) > 0 {
			t.Fatalf("%s: a label that agrees is refused: %v", form, got)
		}
		for _, c := range []struct {
			role role.Role
			now  string
		}{
			{role.Net, "171 g"}, {role.Net, "1.7 kg"}, {role.Net, "0,17 g"}, {role.Net, "170.5 g"}, {role.Net, "170"}, {role.Net, "170 g 180 g"},
			{role.Price, "€6.47"}, {role.Price, "€64.60"}, {role.Price, "6 €"}, {role.Price, ""},
		} {
			s, items := atScale(t, form, value)
			for i := range items {
				if items[i].Role == c.role && items[i].Run != nil {
					items[i].Run.Text = c.now
				}
			}
			var rules []string
			for _, d := range findings(s, items) {
				rules = append(rules, d.Rule)
			}
			if !strings.Contains(strings.Join(rules, " "), "counter-number") {
				t.Errorf("%s: %s %q is not found: %v", form, c.role, c.now, rules)
			}
		}
		s, items := atScale(t, form, value)
		if got := findings(s, items[1:]); len(got) != 1 || got[0].Rule != "counter-number" {
			t.Errorf("%s: a label without its number: %v", form, got)
		}
		s.Counter.PerKilo.Minor = 3900
		if got := findings(s, items); len(got) != 1 || !strings.Contains(got[0].Msg, "6.63 EUR") {
			t.Errorf("%s: another price of the kilogram: %v", form, got)
		}
	}
}

// Masses as the languages of labels print them.
func TestMetric(t *testing.T) {
	for text, want := range map[string]int64{"312 g": 312, "312\u00a0g": 312, "1.25 kg": 1250, "1,25 kg": 1250, "2 kg": 2000, "4,82\u00a0кг": 4820, "312 г": 312,
		"11 oz (312 g)": 312, "0.005 kg": 5} {
		if got, ok := metric(text); !ok || got != want {
			t.Errorf("%q is %d g, %v", text, got, ok)
		}
	}
	for _, text := range []string{"", "g", "312", "312.5 g", "312 gr", "3 g 4 g", "1.2345 kg"} {
		if got, ok := metric(text); ok {
			t.Errorf("%q is %d g", text, got)
		}
	}
}

// TestWeightAgrees changes the printed characters of a weighed carton alone.
func TestWeightAgrees(t *testing.T) {
	s, items := good(t)
	e, err := gs1.Weight("310", 4820*unit.Gram, 3)
	if err != nil {
		t.Fatal(err)
	}
	data, err := gs1.Encode([]gs1.Element{{AI: "01", Value: "99520001000075"}, e})
	if err != nil {
		t.Fatal(err)
	}
	y, err := symbol.GS1DataMatrix(data, symbol.Module{X: items[0].Symbol.Dots.At(5), Dots: items[0].Symbol.Dots})
	if err != nil {
		t.Fatal(err)
	}
	for text, ok := range map[string]bool{"4.82 kg": true, "4.82 kg / 4,82 kg": true, "4820 g": true, "4.28 kg": false, "4.82 kg / 4,83 kg": false, "482 g": false, "": false, "1.4.82 kg": false} {
		var found diag.List
		marksAgree(s, []page.Item{symbol.Place(y, 0, 0), run(role.Net, 50*mm, 30*mm, text, 2*mm), run(role.Key, 50*mm, 34*mm, "99520001000075", 2*mm)}, &found)
		if (found.Errors() == 0) != ok {
			t.Errorf("%q: %v", text, found.All())
		}
	}
}
