package words

import (
	"fmt"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
)

// Said is one particular in one language, ready to be set. Role is the key of
// the particular, as labels/market and the finished page name it; Strong are
// the byte ranges to be set in bold.
type Said struct {
	Role   string
	Text   string
	Strong [][2]int
	Src    diag.Pos
}

// Label is all that one language says on a label. A particular that is not
// said has an empty Text.
type Label struct {
	Lang       string
	Name       Said
	Lists      []Said
	May        Said
	Net        Said
	Date       Said
	Keep       Said
	Operator   Said
	Statements []Said
	Table      *Table
	Unchecked  []string // keys of words that a native reader has not checked
}

// Table is the nutrition declaration: a heading, what it is for, and rows.
type Table struct {
	Heading, Per string
	Rows         []Row
	Src          diag.Pos
}

// Row is one line of the declaration; Sub tells that it is a part of the line
// above it.
type Row struct {
	Name, Value string
	Sub         bool
}

// teller says the facts in one language and gathers what is missing.
type teller struct {
	*Lang
	facts *declare.Facts
	found *diag.List
	used  map[string]bool
}

// Tell says the facts in the language l. Words or names that are missing are
// added to found with the place where they should stand.
func Tell(f *declare.Facts, sh *shop.Shop, l *Lang, found *diag.List) *Label {
	t := &teller{l, f, found, map[string]bool{}}
	p := f.Product
	out := &Label{
		Lang:     l.Code(),
		Name:     Said{Role: "name", Text: t.name(p.Name, p.Pos), Src: p.Pos},
		Net:      t.net(),
		Date:     t.date(),
		Keep:     t.keep(),
		Operator: Said{Role: "operator", Text: sh.Profile.Name.V + ", " + sh.Profile.Address.V, Src: sh.Profile.Name.Pos},
		Table:    t.table(),
	}
	for _, list := range f.Lists {
		out.Lists = append(out.Lists, t.list(list))
	}
	if len(f.May) > 0 {
		out.May = t.may()
	}
	out.Unchecked = t.unchecked()
	return out
}

// name gives a name in this language; a missing one is an error, never the
// name in another language.
func (t *teller) name(n shop.Words, pos diag.Pos) string {
	v, ok := shop.In(n, t.code)
	if !ok {
		t.found.Errorf(pos, "translation", fmt.Sprintf("add %q under name", t.code), "there is no %s name", t.Name())
		return "?"
	}
	return v.V
}

// words fills a template and reports what is missing.
func (t *teller) words(key string, pos diag.Pos, slots map[string]string) string {
	t.used[key] = true
	s, err := t.Fill(key, slots)
	if err != nil {
		t.found.Errorf(pos, "words", "complete the language file", "%v", err)
		return "?"
	}
	return s
}

// unchecked are the keys used that were written from memory, in file order.
func (t *teller) unchecked() []string {
	var out []string
	for _, k := range t.keys {
		if t.used[k] && t.FromMemory(k) {
			out = append(out, k)
		}
	}
	return out
}

func (t *teller) net() Said {
	pack := t.facts.Pack
	text := t.Mass(pack.Net.V)
	if pack.Average.V {
		text += noBreak + "℮"
	}
	if n := int64(pack.Pieces.V); n > 1 {
		pieces, err := t.Count("count.pieces", n)
		if err != nil {
			t.found.Errorf(pack.Pieces.Pos, "words", "complete the language file", "%v", err)
		}
		text += noBreak + "(" + pieces + ")"
	}
	return Said{Role: "net", Text: text, Src: pack.Net.Pos}
}

func (t *teller) date() Said {
	d := t.facts.Date
	if d.Kind == "none" {
		return Said{}
	}
	src := t.facts.Product.Keep.Life.Pos
	day := t.Date(d.End, Day)
	return Said{Role: "date", Text: t.words("date."+d.Kind, src, map[string]string{"date": day}), Src: src}
}

func (t *teller) keep() Said {
	k := t.facts.Product.Keep
	key := map[string]string{"chilled": "keep.chilled", "cool": "keep.cool-dry", "ambient": "keep.ambient", "frozen": "keep.frozen"}[k.Store.V]
	slots := map[string]string{}
	if len(t.Slots(key)) > 0 {
		slots["temp"] = t.Temp(k.Temp.V, false)
	}
	text := t.words(key, k.Pos, slots)
	if k.Opened.Set() {
		after, err := t.Count("keep.after-opening", int64(k.Opened.V.Days))
		if err != nil {
			t.found.Errorf(k.Opened.Pos, "words", "complete the language file", "%v", err)
		}
		text += " " + after
	}
	return Said{Role: "keep", Text: text, Src: k.Pos}
}

// may says the precautionary line; the allergens in it are emphasised too.
func (t *teller) may() Said {
	src := t.facts.Product.Assessment.Pos
	var names []phrase
	for _, id := range t.facts.May {
		names = append(names, bold(t.allergen(id, src)))
	}
	t.used["may-contain"] = true
	p, err := t.say("may-contain", map[string]phrase{"list": t.joined(names)})
	if err != nil {
		t.found.Errorf(src, "words", "complete the language file", "%v", err)
	}
	return Said{"may", p.text + ".", p.strong, src}
}

func (t *teller) allergen(id string, pos diag.Pos) string {
	t.used["allergen."+slug(id)] = true
	name, _, err := t.Allergen(id)
	if err != nil {
		t.found.Errorf(pos, "words", "complete the language file", "%v", err)
		return "?"
	}
	return name
}

// table says the nutrition declaration of the facts, or nil.
func (t *teller) table() *Table {
	n := t.facts.Nutrition
	if n == nil {
		return nil
	}
	pos := t.facts.Pack.Nutrition.Pos
	out := &Table{Heading: t.words("nutrition.heading", pos, nil), Per: t.words("nutrition.per-100g", pos, nil), Src: pos}
	energy := -1
	for _, r := range n.Rows {
		value := t.rounded(r.Shown)
		if r.Shown.Unit == "kcal" && energy >= 0 {
			out.Rows[energy].Value += " / " + value
			continue
		}
		key := r.Key
		if r.Shown.Unit == "kJ" {
			key, energy = "energy", len(out.Rows)
		}
		out.Rows = append(out.Rows, Row{Name: t.words("nutrition."+key, pos, nil), Value: value, Sub: r.Of != ""})
	}
	return out
}

// rounded prints a figure of the declaration: "12.5 g", "< 0.5 g".
func (t *teller) rounded(r market.Rounded) string {
	value := t.Plain(r.N, r.Decimals) + noBreak + r.Unit
	if r.Less {
		return "<" + noBreak + value
	}
	return value
}
