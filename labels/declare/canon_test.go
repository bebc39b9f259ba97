package declare_test

import (
	"flag"
	"maps"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

var update = flag.Bool("update", false, "write the canonical text anew: raise declare.Form first, for every approval falls")

// unsaid is the one list of the fields that no label says, and why. Every
// other field that can be reached from Facts is said: it stands in canon.go
// and in everything.
func unsaid() map[string]string {
	const work, paper, reason = "the kitchen's work, not the label's words", "where it is printed, not what", "kept for whoever asks why"
	return map[string]string{
		"declare.Facts.Made":      "changes from day to day",
		"declare.Facts.AtUse":     "a sum",
		"declare.Facts.Finished":  "a sum",
		"declare.Facts.SO2":       "a sum; what follows from it is in Contains",
		"declare.Facts.Decisions": reason,
		"declare.Part.Ref":        reason,
		"declare.Date.End":        "changes from day to day",
		"declare.Date.Limit":      reason,
		"declare.Date.Shown":      "changes from day to day; how it is shown is in Keep",
		"declare.Row.Exact":       "not printed; Shown is",
		"declare.Statement.Law":   reason,

		"shop.Product.Version":        "a count of changes",
		"shop.Product.Older":          "changes from day to day, as the date that it limits",
		"shop.Product.Issued":         "day of a version",
		"shop.Product.Approved":       "of the formula, not of the label",
		"shop.Product.Parts":          "said by the lists",
		"shop.Product.CutTo":          work,
		"shop.Product.LostInHandling": work,
		"shop.Product.SameLine":       "said by the lists",
		"shop.Product.Percent":        "said by the lists",
		"shop.Product.Assessment":     reason,
		"shop.Product.Steps":          work,
		"shop.Product.Tray":           work,
		"shop.Product.Packs":          "the one that is printed is Facts.Pack",
		"shop.Product.Carton":         "no sale label",
		"shop.Product.Listing":        "said by the lists",
		"shop.Pack.PortionOn":         "whether paper is a draft, not what it says",
		"shop.Keep.Because":           reason,
		"shop.Claims.RuledOut":        "said by Ruled",

		"shop.Pack.Paper":   paper,
		"shop.Pack.Surface": paper,
		"shop.Pack.Front":   "said by Symbol",

		"declare.Symbol.Over":  "said by Version",
		"declare.Symbol.Basis": reason,
		"declare.Symbol.Share": reason,
		"shop.Pack.Mark":       "carries what other fields say",
		"shop.Pack.MarkSays":   "carries what other fields say",
		"shop.Pack.Languages":  paper,
		"shop.Pack.Face":       paper,
		"shop.Pack.WrapsRound": paper,
		"shop.Pack.Price":      "a ticket's, and free to change",
		"shop.Pack.OnLabel":    "the look of the label, which changes no word of the law",
		"shop.Pack.Arrange":    "the look of the label, which changes no word of the law",
		"shop.Weighed.PerKilo": "the counter's, and free to change",
		"shop.Weighed.Item":    "a number of the counter's scale",

		"unit.Target.Tol": "half the distance of its bounds",
	}
}

// everything is facts in which every field that is said is filled, each otherwise.
func everything() *declare.Facts {
	n := int64(0)
	mass := func() unit.Mass { n++; return unit.Mass(n) * unit.Gram }
	share := func() unit.Share { n++; return unit.Share(n) * unit.Percent }
	rounded := func(of string) *market.Rounded {
		n++
		return &market.Rounded{Figure: market.Figure{N: n, Decimals: int(n)}, Unit: of, Less: true, OrZero: true}
	}
	quid := &declare.Quantity{Used: mass(), Of: mass(), PerHundred: true}
	part := func(name string, inner ...declare.Part) declare.Part {
		return declare.Part{Name: in(name, "de", "fr"), Alt: in("in place of "+name, "en"), Class: "class of " + name, Number: "number of " + name,
			Group: "group of " + name, Hydrogenated: "fully", Varying: true, Mass: mass(), Quid: quid,
			Allergens: []string{"first of " + name, "second"}, Show: []string{"shown of " + name}, Excepted: []string{"excepted of " + name}, Inner: inner}
	}
	pack := &shop.Pack{ID: at("pack"), Pieces: at(unit.Count(12)), Net: at(mass()), GTIN: at("gtin"), Nutrition: at("declared"), Average: at(true),
		Sale: at("sale"), Served: at(true), Gas: at(true), Portion: at(mass()), Each: at(mass()), Weighed: shop.Weighed{SoldBy: at("piece")}}
	life := unit.Life{Days: 2, Months: 3}
	return &declare.Facts{
		Product: &shop.Product{ID: "product", Name: in("product", "en", "de"), About: in("about", "fr"),
			Keep: shop.Keep{Store: at("store"), Temp: at(unit.Target{Kind: unit.Between, Lo: 1800, Hi: 3600, InF: true}),
				Life: at(life), Date: at("use-by"), Opened: at(unit.Life{Days: 4, Months: 5}), OpenedStore: at("opened store"), Show: at("month")},
			Claims: shop.Claims{FreeFrom: []shop.Text{at("nuts"), at("gluten")}, Suits: []shop.Text{at("vegetarian")}, SoldAs: at("sold as"), Cocoa: at(share()), Thawed: at(true), Origin: in("origin", "en")},
			Eating: shop.Eating{Before: at("bake"), Instructions: in("instructions", "en", "fr")}},
		Pack: pack, Market: &market.Market{Code: "market"},
		Lists:    []declare.List{{Title: in("title", "en"), Parts: []declare.Part{part("outer", part("inner")), part("next")}, Late: 1, LateShare: share()}, {}},
		Contains: []string{"contained"}, May: []string{"perhaps"},
		Ruled: []declare.Ruled{{Allergen: "ruled out", From: []string{"supplier", "site"}}}, Absent: []declare.Absent{{Of: "absent of", Allergen: "absent", Reason: "reason"}}, Alcohol: share(),
		Date: declare.Date{Kind: "date", Lives: []unit.Life{life, {}}},
		Nutrition: &declare.Nutrition{Portion: mass(), Portions: 6, Pieces: 7, Symbol: &declare.Symbol{Version: 8, NotDue: "not due"},
			Rows: []declare.Row{{Key: "row", Of: "line above", Shown: *rounded("kJ"), Portion: rounded("kcal"), Percent: rounded("%")}}},
		Operator:   &shop.Operator{Name: at("operator"), Address: at("address"), Country: at("country"), Says: at("says")},
		Loose:      []declare.Statement{{Key: "loose"}},
		Statements: []declare.Statement{{Key: "statement", Share: share(), Of: in("ingredient", "en"), Place: in("place", "en")}},
	}
}

func at[T any](v T) diag.At[T] { return diag.At[T]{V: v, Pos: diag.Pos{File: "full", Line: 1, Col: 1}} }

func in(s string, codes ...string) shop.Words {
	var w shop.Words
	for _, c := range codes {
		w = append(w, struct {
			Key diag.At[string]
			V   shop.Text
		}{at(c), at(s + " in " + c)})
	}
	return w
}

// The canonical form must not change by chance: all approvals would fall.
func TestCanon(t *testing.T) {
	const golden = "testdata/canon.golden"
	got := everything().Canon()
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the canonical text has changed: raise declare.Form, so that old signatures say why they fall:\n%s", got)
	}
}

// What is said changes the digest, and what is not said does not; of every
// field somebody has decided which it is.
func TestEveryFieldIsDecided(t *testing.T) {
	f := everything()
	w := &fieldWalk{t: t, digest: f.Digest, was: f.Digest(), met: map[string]bool{}, filled: map[string]bool{}}
	w.fields(reflect.ValueOf(f).Elem(), true)
	for _, name := range slices.Sorted(maps.Keys(w.met)) {
		if !w.filled[name] && unsaid()[name] == "" {
			t.Errorf("%s: nobody has decided whether a label says it: write it in canon.go and fill it in everything, or list it in unsaid", name)
		}
	}
	for name := range unsaid() {
		if !w.met[name] {
			t.Errorf("%s is listed as unsaid, but there is no such field", name)
		}
	}
	if f.Digest() != w.was {
		t.Error("the walk did not put back what it changed")
	}
}

// fieldWalk changes one leaf after the other and looks at the digest.
type fieldWalk struct {
	t           *testing.T
	digest      func() string
	was         string
	met, filled map[string]bool
}

func (w *fieldWalk) fields(v reflect.Value, said bool) {
	for i := range v.NumField() {
		f := v.Type().Field(i)
		if f.Type == reflect.TypeFor[diag.Pos]() {
			continue
		}
		name := v.Type().String() + "." + f.Name
		w.met[name] = true
		if !v.Field(i).IsZero() {
			w.filled[name] = true
		}
		w.value(v.Field(i), name, said && unsaid()[name] == "")
	}
}

// value walks what one field holds. The values with their places, the entries
// of words, and the market's code count as the field itself.
func (w *fieldWalk) value(v reflect.Value, name string, said bool) {
	old := reflect.New(v.Type()).Elem()
	old.Set(v)
	defer v.Set(old)
	switch {
	case !said && v.IsZero():
		fill(v, 4)
		w.changed(name, said)
	case v.Type() == reflect.TypeFor[*market.Market]():
		v.Set(reflect.ValueOf(&market.Market{Code: "other"}))
		w.changed(name, said)
	case v.Kind() == reflect.Pointer && !v.IsNil():
		w.value(v.Elem(), name, said)
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			w.value(v.Index(i), name, said)
		}
	case v.Kind() == reflect.Struct:
		if strings.HasPrefix(v.Type().Name(), "At[") || strings.HasPrefix(v.Type().Name(), "Entry[") || v.Type().Name() == "" {
			for i := range v.NumField() {
				if f := v.Type().Field(i); f.Name != "Pos" {
					w.value(v.Field(i), name, said)
				}
			}
			return
		}
		w.fields(v, said)
	case v.Kind() != reflect.Pointer:
		other(v)
		w.changed(name, said)
	}
}

func (w *fieldWalk) changed(name string, said bool) {
	if changed := w.digest() != w.was; changed != said {
		w.t.Errorf("%s: another value changes the digest: %v, want %v", name, changed, said)
	}
}

// other gives a leaf a value that it did not have.
func other(v reflect.Value) {
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.String:
		v.SetString(v.String() + "x")
	case reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uint:
		v.SetUint(v.Uint() + 1)
	default:
		step := int64(1)
		if v.Type() == reflect.TypeFor[unit.Mass]() {
			step = int64(unit.Gram) // more than any rounding
		}
		v.SetInt(v.Int() + step)
	}
}

// fill gives v and all that it holds, depth levels deep, some value.
func fill(v reflect.Value, depth int) {
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		if depth > 0 {
			fill(v.Elem(), depth-1)
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 1, 1))
		if depth > 0 {
			fill(v.Index(0), depth-1)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i), depth)
		}
	case reflect.Float64, reflect.Map, reflect.Func, reflect.Interface:
	default:
		other(v)
	}
}
