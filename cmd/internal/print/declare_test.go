package print

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/words"
)

func declared(t testing.TB, p *Press, r DeclareRequest) *Declaration {
	t.Helper()
	d, err := p.Declare(r)
	if err != nil || p.Found.Errors() > 0 {
		t.Fatal(err, p.Found.All())
	}
	return d
}

// webSchema is declaration.schema.json, checked against the meta-schema of
// JSON Schema 2020-12 (json-schema.org) by a library of others.
func webSchema(t *testing.T) *jsonschema.Schema { return compiled(t, declarationSchema) }

// compiled is a schema that is ready for use.
func compiled(t *testing.T, schema []byte) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(schema))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("it.schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("it.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Every product in every pack is written as the schema says.
func TestWebSchema(t *testing.T) {
	schema, n := webSchema(t), 0
	for _, id := range demoPress(t).Shop.ProductIDs {
		for _, k := range demoPress(t).Shop.Products[id].PackIDs() {
			for _, m := range []string{"EU", "IE"} {
				data, err := declared(t, demoPress(t), DeclareRequest{ID: id, Pack: k, Market: m}).JSON()
				if err != nil {
					t.Fatal(err)
				}
				doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
				if err != nil {
					t.Fatalf("%s: %v", id, err)
				}
				if err := schema.Validate(doc); err != nil {
					t.Errorf("%s, %s, %s: %v", id, k, m, err)
				}
				n++
			}
		}
	}
	if n < 14 {
		t.Errorf("only %d documents", n)
	}
}

// The schema refuses what a shop must not publish by mistake.
func TestWebSchemaRefuses(t *testing.T) {
	schema := webSchema(t)
	data, err := declared(t, demoPress(t), DeclareRequest{ID: "pistachio-choux"}).JSON()
	if err != nil {
		t.Fatal(err)
	}
	for what, change := range map[string]func(map[string]any){
		"no allergens":     func(m map[string]any) { delete(m, "contains") },
		"no fingerprint":   func(m map[string]any) { m["fingerprint"] = "" },
		"approved unnamed": func(m map[string]any) { m["approved"] = map[string]any{"on": "2026-03-17"} },
		"another form":     func(m map[string]any) { m["form"] = 1 },
		"no words":         func(m map[string]any) { m["texts"] = []any{} },
		"a key unknown":    func(m map[string]any) { m["allergen-free"] = true },
	} {
		var m map[string]any
		if err := json.Unmarshal(data, &m); err != nil {
			t.Fatal(err)
		}
		change(m)
		changed, _ := json.Marshal(m)
		doc, _ := jsonschema.UnmarshalJSON(bytes.NewReader(changed))
		if schema.Validate(doc) == nil {
			t.Errorf("%s: not refused", what)
		}
	}
}

// The document agrees with itself and with the label: cut texts join again,
// each contained allergen is emphasised somewhere, shares add up to the whole.
func TestWebAgrees(t *testing.T) {
	for _, id := range demoPress(t).Shop.ProductIDs {
		data, err := declared(t, demoPress(t), DeclareRequest{ID: id, Languages: []string{"en", "fr", "de"}}).JSON()
		if err != nil {
			t.Fatal(err)
		}
		var got webDeclaration
		if err := json.Unmarshal(data, &got); err != nil {
			t.Fatal(err)
		}
		if got.Approved == nil || got.Approved.By != "Mara B." || len(got.Texts) != 3 {
			t.Errorf("%s: approved %v, %d texts", id, got.Approved, len(got.Texts))
		}
		for _, l := range got.Lists {
			sum := 0.0
			for _, part := range l.Parts {
				share, _ := part.Share.Float64()
				sum += share
			}
			if math.Abs(sum-100) > 0.001*float64(len(l.Parts)) {
				t.Errorf("%s: the shares add up to %.3f %%", id, sum)
			}
		}
		for _, x := range got.Texts {
			strong := 0
			for _, s := range x.Lists {
				joined := ""
				for _, r := range s.Runs {
					joined += r.Text
					if r.Strong {
						strong++
					}
				}
				if joined != s.Text {
					t.Errorf("%s, %s: %q is cut to %q", id, x.Language, s.Text, joined)
				}
			}
			if strong < len(got.Contains) {
				t.Errorf("%s, %s: %d emphasised words for %d allergens", id, x.Language, strong, len(got.Contains))
			}
		}
	}
}

// The figures of Regulation (EU) No 1169/2011 for the tartlet, worked by hand:
// 35 g of pear in a piece of 85.5 g are 40.9 %, declared as 41 %.
func TestWebFigures(t *testing.T) {
	data, err := declared(t, demoPress(t), DeclareRequest{ID: "pear-hazelnut-tartlet"}).JSON()
	if err != nil {
		t.Fatal(err)
	}
	var got webDeclaration
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	pear := got.Lists[0].Parts[0]
	if pear.Names["en"] != "pear" || pear.Used != "40.936" || pear.Declared == nil || pear.Declared.Percent != "41" {
		t.Errorf("%+v", pear)
	}
	if got.Date == nil || got.Date.Last != "2026-03-19" || got.Net.Grams != "170" || got.Net.Pieces != 2 || got.GTIN != "9520001000010" {
		t.Errorf("%+v %+v %s", got.Date, got.Net, got.GTIN)
	}
}

// Unapproved facts are not passed off as approved.
func TestWebNotApproved(t *testing.T) {
	p := demoPress(t)
	p.Shop.Approvals = shop.Approvals{}
	data, err := declared(t, p, DeclareRequest{ID: "pistachio-choux"}).JSON()
	if err != nil || !bytes.Contains(data, []byte(`"approved": null`)) {
		t.Errorf("%v\n%s", err, data)
	}
}

func TestFigure(t *testing.T) {
	for _, c := range []struct {
		f    market.Figure
		want json.Number
	}{
		{market.Figure{N: 125, Decimals: 1}, "12.5"}, {market.Figure{N: 120, Decimals: 1}, "12"}, {market.Figure{N: 5, Decimals: 3}, "0.005"},
		{market.Figure{}, "0"}, {market.Figure{N: -5, Decimals: 1}, "-0.5"}, {market.Figure{N: 400}, "400"},
	} {
		if got := figure(c.f); got != c.want {
			t.Errorf("%v: %s, want %s", c.f, got, c.want)
		}
	}
}

func TestStarred(t *testing.T) {
	s := words.Said{Text: "butter (milk), wheat flour", Strong: [][2]int{{8, 12}, {15, 20}}}
	if got := starred(s); got != "butter (*milk*), *wheat* flour" {
		t.Error(got)
	}
}

func TestBroken(t *testing.T) {
	for text, want := range map[string]string{
		"one two\u00a0three four": "one|two\u00a0three|four", "it is 12.5 % in all": "it is|12.5 % in|all", "": "", "unbreakable": "unbreakable",
	} {
		if got := strings.Join(broken(text, 9), "|"); got != want {
			t.Errorf("%q", got)
		}
	}
}

// What is computed stands in the unit of what is shown, with three decimals of
// it: 1.25 mg of iron are not 0.001 of anything.
func TestJSONExactInItsUnit(t *testing.T) {
	n := &declare.Nutrition{Rows: []declare.Row{
		{Key: "iron", Exact: 1_253 * market.Micro, Shown: market.Rounded{Figure: market.Figure{N: 125, Decimals: 2}, Unit: "mg"}},
		{Key: "vitamin-d", Exact: 412 * market.Micro / 1000, Shown: market.Rounded{Figure: market.Figure{N: 4, Decimals: 1}, Unit: "µg"}},
		{Key: "fat", Exact: 23_456 * market.Milli, Shown: market.Rounded{Figure: market.Figure{N: 23}, Unit: "g"}},
		{Key: "energy-kj", Exact: 1302 * market.One, Shown: market.Rounded{Figure: market.Figure{N: 1302}, Unit: "kJ"}},
	}}
	want := []string{"1.253", "0.412", "23.456", "1302"}
	for i, r := range webRows(n) {
		if string(r.Exact) != want[i] {
			t.Errorf("%s: %s %s, want %s", r.Key, r.Exact, r.Unit, want[i])
		}
	}
}
