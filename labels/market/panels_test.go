package market_test

import (
	"encoding/json"
	"fmt"
	"math/big"
	"os"
	"slices"
	"strings"
	"testing"

	"chablon/labels/market"
	"chablon/labels/unit"
)

// vector is one line of testdata/panels.tsv: worked by exact decimals from the
// texts of 21 CFR 101.9, of C.R.C., c. 870 and of the Food Standards Code, by
// somebody who did not see this code; ties go up.
type vector struct {
	id, law    string
	in         map[string]any
	want       any
	raw        string
	wantString string
}

func vectors(t *testing.T) (out []vector) {
	file, err := os.ReadFile("testdata/panels.tsv")
	if err != nil {
		t.Fatal(err)
	}
	for i, line := range strings.Split(strings.TrimSpace(string(file)), "\n") {
		f := strings.Split(line, "\t")
		if i == 0 || len(f) != 5 {
			continue
		}
		v := vector{id: f[0], law: f[1], raw: f[3]}
		d := json.NewDecoder(strings.NewReader(f[3]))
		d.UseNumber()
		if err := d.Decode(&v.in); err != nil {
			t.Fatalf("%s: %v", v.id, err)
		}
		if err := json.Unmarshal([]byte(f[4]), &v.want); err != nil {
			t.Fatalf("%s: %v", v.id, err)
		}
		v.wantString, _ = v.want.(string)
		out = append(out, v)
	}
	return out
}

// billionths reads a number that JSON has as such or as text, times unit.
func billionths(v any, in market.Amount) market.Amount {
	r, ok := new(big.Rat).SetString(fmt.Sprint(v))
	if !ok {
		return -1
	}
	r.Mul(r, new(big.Rat).SetInt64(int64(in)))
	return market.Amount(new(big.Int).Quo(r.Num(), r.Denom()).Int64())
}

// short are the names of the table, with the key and the unit of each.
func short(k string) (key string, in market.Amount) {
	switch k {
	case "kcal":
		return "energy-kcal", market.One
	case "sat":
		return "saturates", market.One
	case "chol":
		return "cholesterol", market.Milli
	case "na":
		return "sodium", market.Milli
	case "carb":
		return "carbohydrate", market.One
	case "added":
		return "added-sugars", market.One
	case "prot":
		return "protein", market.One
	case "vitd":
		return "vitamin-d", market.Micro
	case "ca":
		return "calcium", market.Milli
	case "fe":
		return "iron", market.Milli
	case "k":
		return "potassium", market.Milli
	}
	return k, market.One
}

// amounts are those of per100 in so many grams.
func amounts(v vector) map[string]market.Amount {
	out := map[string]market.Amount{}
	g := billionths(v.in["g"], market.One)
	for k, n := range v.in["per100"].(map[string]any) {
		key, in := short(k)
		out[key] = market.Amount(unit.MulDiv(int64(billionths(n, in)), int64(g), int64(100*market.One)))
	}
	return out
}

// onPanel is a figure as a panel says it, without a space: "4.5g", "less than 1g".
func onPanel(r market.Rounded) string {
	for r.Decimals > 0 && r.N%10 == 0 {
		r.N, r.Decimals = r.N/10, r.Decimals-1
	}
	s := fmt.Sprint(r.N)
	if r.Decimals > 0 {
		p := 1
		for range r.Decimals {
			p *= 10
		}
		s = fmt.Sprintf("%d.%0*d", r.N/int64(p), r.Decimals, r.N%int64(p))
	}
	if r.Unit != "kcal" {
		s += r.Unit
	}
	if r.Less {
		s = "less than " + s
	}
	return s
}

func bare(v any) string {
	return strings.ReplaceAll(strings.ReplaceAll(fmt.Sprint(v), " ", ""), "\u00a0", "")
}

// The panels and every boundary that the table has for the United States,
// Canada, Australia and New Zealand: rounding, percentages, the symbol, servings,
// heights of the net quantity, and which form a small pack may bear.
func TestPanelVectors(t *testing.T) {
	seen := map[string]int{}
	for _, v := range vectors(t) {
		kind := v.id[:5]
		check := map[string]func(*testing.T, vector){
			"US-01": usPanelVector, "US-02": usPanelVector, "US-04": servingsVector, "US-06": netVector, "US-07": smallVector, "US-08": roundVector, "US-09": mineralVector,
			"CA-01": caPanelVector, "CA-03": caPanelVector, "CA-04": symbolVector, "CA-05": symbolVector, "CA-06": netVector, "CA-07": surfaceVector, "CA-08": roundVector,
			"AU-02": auVector,
		}[kind]
		if check == nil {
			t.Errorf("nothing holds %s against the code", v.id)
			continue
		}
		seen[kind]++
		check(t, v)
	}
	if len(seen) != 15 {
		t.Errorf("%d kinds of vectors: %v", len(seen), seen)
	}
}

func marketOf(t *testing.T, v vector) *market.Market { return get(t, strings.ToLower(v.id[:2])) }

// say is what the panel of a market prints of a line: amount, then percentage.
func say(n market.Nutrition, key string, of func(string) market.Amount) []string {
	shown, ok := n.RoundFor(key, of)
	if !ok {
		return nil
	}
	out := []string{onPanel(shown)}
	if p, ok := n.PercentFor(key, of); ok {
		out = append(out, onPanel(p))
	}
	return out
}

func usPanelVector(t *testing.T, v vector) {
	all, n := amounts(v), marketOf(t, v).Nutrition
	of := func(k string) market.Amount { return all[k] }
	want := v.want.(map[string]any)
	printedShare := want["% from the printed amounts (equally lawful)"].(map[string]any)
	for name, key := range map[string]string{"Total Fat": "fat", "Saturated Fat": "saturates", "Trans Fat": "trans", "Cholesterol": "cholesterol", "Sodium": "sodium",
		"Total Carbohydrate": "carbohydrate", "Dietary Fiber": "fibre", "Total Sugars": "sugars", "Added Sugars": "added-sugars", "Protein": "protein"} {
		got, wants := say(n, key, of), want[name].([]any)
		if len(got) != len(wants) || bare(got[0]) != bare(wants[0]) || len(got) > 1 && got[1] != wants[1] && got[1] != printedShare[name] {
			t.Errorf("%s %s: %v, want %v", v.id, name, got, wants)
		}
	}
	if got := say(n, "energy-kcal", of); got[0] != want["calories"] {
		t.Errorf("%s: %v calories, want %v", v.id, got, want["calories"])
	}
	for name, key := range map[string]string{"Vitamin D %": "vitamin-d", "Calcium %": "calcium", "Iron %": "iron", "Potassium %": "potassium"} {
		if got := say(n, key, of); got[1] != want[name] {
			t.Errorf("%s %s: %v, want %v", v.id, name, got, want[name])
		}
	}
}

func caPanelVector(t *testing.T, v vector) {
	all, n := amounts(v), marketOf(t, v).Nutrition
	of := func(k string) market.Amount { return all[k] }
	want := v.want.(map[string]any)
	for name, key := range map[string]string{"Calories": "energy-kcal", "Fat": "fat", "Saturated": "saturates", "+ Trans": "trans", "Cholesterol": "cholesterol", "Sodium": "sodium",
		"Carbohydrate": "carbohydrate", "Fibre": "fibre", "Sugars": "sugars", "Protein": "protein", "Potassium": "potassium", "Calcium": "calcium", "Iron": "iron"} {
		got := say(n, key, of)
		wants, ok := want[name].([]any)
		if !ok {
			wants = []any{want[name]}
		}
		if key == "trans" {
			wants = append(wants, want["Sat+Trans %"])
		}
		if len(got) != len(wants) || bare(got) != bare(wants) {
			t.Errorf("%s %s: %v, want %v", v.id, name, got, wants)
		}
	}
}

func roundVector(t *testing.T, v vector) {
	for k, x := range v.in {
		key, in := short(k)
		got, ok := marketOf(t, v).Nutrition.Round(key, billionths(x, in))
		want := bare(v.wantString)
		if !ok || bare(onPanel(got)) != want && strings.TrimSuffix(onPanel(got), got.Unit) != want { // some state no unit
			t.Errorf("%s: %s of %v is %s, want %s", v.id, key, x, onPanel(got), v.wantString)
		}
	}
}

func mineralVector(t *testing.T, v vector) {
	if got, ok := market.MicroPercent(billionths(v.in["percent"], market.One)); !ok || onPanel(got) != v.wantString {
		t.Errorf("%s: %v %% is %s, want %s", v.id, v.in["percent"], onPanel(got), v.wantString)
	}
}

func servingsVector(t *testing.T, v vector) {
	s := market.ServingsOf(unit.Mass(billionths(v.in["net_g"], market.One)), unit.Mass(billionths(v.in["serving_g"], market.One)))
	got := fmt.Sprint(s.Halves / 2)
	if s.Halves%2 == 1 {
		got += ".5"
	}
	if s.About {
		got = "about " + got
	}
	if got != v.wantString {
		t.Errorf("%s: %s, want %s", v.id, got, v.wantString)
	}
}

func netVector(t *testing.T, v vector) {
	m := marketOf(t, v)
	area, worth, want := v.in["pds_cm2"], unit.CM2, v.wantString
	if m.Code == "us" {
		area, worth, want = v.in["pdp_in2"], unit.In2, v.want.([]any)[1].(string)
	}
	least, ok := m.Net.DigitHeight(market.Quantity{Mass: 500 * unit.Gram}, unit.Area(billionths(area, market.Amount(worth))))
	if !ok || least.Least != unit.Length(billionths(want, market.Amount(unit.MM))) {
		t.Errorf("%s: %s, want %s mm", v.id, least.Least, want)
	}
}

// box is the surface of a box of three sides, all faces usable.
func box(v vector) unit.Area {
	var side []unit.Length
	for _, x := range v.in["mm"].([]any) {
		side = append(side, unit.Length(billionths(x, market.Amount(unit.MM))))
	}
	return 2 * (unit.AreaOf(side[0], side[1]) + unit.AreaOf(side[1], side[2]) + unit.AreaOf(side[0], side[2]))
}

// Packs of more than 40 square inches bear no small table and no running words.
func smallVector(t *testing.T, v vector) {
	small := slices.ContainsFunc(marketOf(t, v).Nutrition.Panel.For(box(v)), func(f market.PanelForm) bool { return f.Key == "linear" })
	if want := !strings.Contains(fmt.Sprint(v.want), ">40"); small != want {
		t.Errorf("%s: %s of surface, small forms %v, want %v", v.id, box(v), small, want)
	}
}

// 15 % of the surface for the table; no symbol below 15 cm²; below 100 cm² a pack
// without a table may say so.
func surfaceVector(t *testing.T, v vector) {
	n, want := marketOf(t, v).Nutrition, v.want.(map[string]any)
	if got := n.Panel.Forms[0].Most(box(v)); got != unit.Area(billionths(want["nft_15pc_cm2"], market.Amount(unit.CM2))) {
		t.Errorf("%s: the table may take %s, want %v cm²", v.id, got, want["nft_15pc_cm2"])
	}
	small, _ := n.Symbol.Reason("small-pack")
	got := "yes"
	switch {
	case box(v) < n.Symbol.Never:
		got = "never"
	case box(v) < small.Below:
		got = "only if the table is required"
	}
	if got != want["symbol"] {
		t.Errorf("%s: %s of surface: symbol %s, want %v", v.id, box(v), got, want["symbol"])
	}
}

func symbolVector(t *testing.T, v vector) {
	rule, want := marketOf(t, v).Nutrition.Symbol, v.want.(map[string]any)
	ra := unit.Mass(billionths(v.in["ra"], market.One))
	portion, face, mass, per := ra, 60*unit.CM2, ra, map[string]market.Amount{}
	if all, ok := v.in["per100"].(map[string]any); ok {
		mass = 100 * unit.Gram
		portion, face = unit.Mass(billionths(v.in["serving"], market.One)), unit.Area(billionths(v.in["pds_cm2"], market.Amount(unit.CM2)))
		for k, x := range all {
			key, in := short(k)
			per[key] = billionths(x, in)
		}
	} else { // amounts in the reference amount
		for k, key := range map[string]string{"sat_g": "saturates", "sugars_g": "sugars", "sodium_mg": "sodium"} {
			in := market.One
			if key == "sodium" {
				in = market.Milli
			}
			per[key] = billionths(v.in[k], in)
		}
	}
	over := rule.Over(func(k string) market.Amount { return per[k] }, mass, portion, ra, false)
	if got := rule.Version(over, face); fmt.Sprint(got) != fmt.Sprint(want["version"]) {
		t.Errorf("%s: symbol %d %v, want %v", v.id, got, over, want["version"])
	}
	if s := rule.Share(ra, false); fmt.Sprint(int64(s/unit.Percent)) != fmt.Sprint(want["threshold"]) {
		t.Errorf("%s: threshold %s, want %v", v.id, s, want["threshold"])
	}
}

// No more than three significant figures: where the house prints fewer, the
// vector rounds to what is printed.
func auVector(t *testing.T, v vector) {
	n, want := marketOf(t, v).Nutrition, v.want.(map[string]any)
	for k, x := range v.in {
		key, in := map[string]string{"energy": "energy-kj", "saturated": "saturates"}[k], market.One
		if key == "" {
			key = k
		}
		if k == "sodium" {
			in = market.Milli
		}
		got, ok := n.Round(key, billionths(x, in))
		f := strings.Fields(want[k].(string))
		full := billionths(f[0], market.One)
		step := market.One
		for range got.Decimals {
			step /= 10
		}
		if shown := market.Amount(got.N) * step; !ok || max(shown-full, full-shown) > step/2 || got.Unit != f[1] {
			t.Errorf("%s %s: %s, want %v", v.id, k, onPanel(got), want[k])
		}
	}
}
