package words

import (
	"fmt"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
)

// Said is one particular in one language, ready to be set. Role is which
// particular, as labels/market and the finished page have it; Strong are
// the byte ranges to be set in bold.
type Said struct {
	Role   role.Role
	Text   string
	Strong [][2]int
	Src    diag.Pos
}

// Label is all that one language says on a label. A particular that is not
// said has an empty Text. Lists are the ingredient lists and, last, the line
// "contains" where the market wants one right behind the list or there is no
// list; that line has the role "allergens". Statements must be set like the
// other particulars.
type Label struct {
	Lang       string
	Name       Said
	Lists      []Said
	May        Said
	Net        Net
	Date       Said
	Keep       Said
	Use        Said // instructions for use
	Operator   Said
	Statements []Said
	Loose      []Said // beside them, where the food bears no list
	Table      *Table
	Unchecked  []string // keys of words that a native reader has not checked
}

// Net is the net quantity as it is said where all of it stands on one line,
// "180 g (12 pieces)", and its halves for a layout that parts them. Pieces is
// empty where the number of pieces is not said.
type Net struct {
	Said
	Amount Said // "180 g", with the sign ℮ where it is asked for
	Pieces Said // "12 pieces"
}

// teller says the facts in one language and gathers what is missing.
type teller struct {
	*Lang
	facts *declare.Facts
	found *diag.List
	used  map[string]bool
}

// Tell says the facts in the language l, with the words that the market sets.
// Words or names that are missing are added to found with the place where they
// should stand.
func Tell(f *declare.Facts, sh *shop.Shop, l *Lang, found *diag.List) *Label {
	if v, err := l.For(f.Market.Code); err != nil {
		found.Errorf(f.Product.Pos, "words", "complete the file of the market's words", "%v", err)
	} else {
		l = v
	}
	t := &teller{l, f, found, map[string]bool{}}
	out := &Label{
		Lang:     l.Code(),
		Name:     t.foodName(),
		Net:      t.net(),
		Date:     t.date(),
		Keep:     t.keep(),
		Use:      t.use(),
		Operator: t.operator(&sh.Profile),
		Table:    t.table(),
	}
	for _, list := range f.Lists {
		out.Lists = append(out.Lists, t.list(list))
	}
	if line := t.containsLine(); line.Text != "" {
		out.Lists = append(out.Lists, line)
	}
	t.allSaid(out)
	if len(f.May) > 0 {
		out.May = t.may()
	}
	for _, s := range f.Statements {
		if said := t.statement(s); said.Text != "" {
			out.Statements = append(out.Statements, said)
		}
	}
	for _, s := range f.Loose {
		out.Loose = append(out.Loose, t.statement(s))
	}
	if f.Pack.Sale.V == "direct" {
		t.onPremises(out)
	}
	out.Unchecked = t.unchecked()
	return out
}

// allSaid is the last net: every allergen that the food contains stands in bold
// in a list or in the line, or, where there is neither, in the name.
func (t *teller) allSaid(out *Label) {
	bold := ""
	for _, s := range out.Lists {
		for _, r := range s.Strong {
			if said := s.Text[r[0]:r[1]]; r[0] > 0 || !strings.HasSuffix(said, ":") { // a title names the food, and no allergen in it
				bold += said + ", "
			}
		}
	}
	if len(out.Lists) == 0 {
		bold = out.Name.Text
	}
	_, missing := t.Emphasis(bold, t.facts.Contains)
	for _, id := range missing {
		t.found.Errorf(t.facts.Product.Pos, "allergen-lost", "report this: nothing may be printed", "%s contains %s, but its %s label does not say so", t.facts.Product.ID, id, t.Name())
	}
}

// onPremises leaves out what food packed where it is sold need not bear; a
// use-by date and its storage conditions stay.
func (t *teller) onPremises(out *Label) {
	pos := t.facts.Pack.Sale.Pos
	useBy := t.facts.Date.Kind == "use-by"
	needs, ok := t.facts.Market.Needs(t.facts.AsPack())
	if !ok {
		t.found.Errorf(pos, "direct", "label it as prepacked", "what %s asks of food packed where it is sold is not known here", t.facts.Market.Code)
		return
	}
	asked := map[role.Role]bool{}
	for _, n := range needs {
		asked[n.Role] = true
	}
	if !asked[role.Net] && !t.facts.Pack.ByWeight() { // what is weighed is paid by its weight
		out.Net = Net{}
	}
	for what, s := range map[role.Role]*Said{role.Operator: &out.Operator, role.Date: &out.Date, role.Keep: &out.Keep, role.Use: &out.Use} {
		if !asked[what] && !(useBy && (what == role.Date || what == role.Keep)) {
			*s = Said{}
		}
	}
	if !asked[role.Nutrition] {
		out.Table = nil
	}
}

// foodName is the name of the food with what must accompany it: that it was
// thawed (Reg. (EU) 1169/2011 Annex VI Part A point 2), and that it holds
// sweeteners (Annex III 2.1 and 2.2).
func (t *teller) foodName() Said {
	p := t.facts.Product
	said := Said{Role: role.Name, Text: t.name(p.Name, p.Pos), Src: p.Pos}
	for _, a := range t.facts.Market.Allergens.Table {
		if strong, _ := t.Emphasis(said.Text, []string{a.ID}); len(strong) > 0 && !has(t.facts.Contains, a.ID) {
			t.found.Warnf(p.Pos, "name-allergen", "see that nothing is missing in the specifications", "the %s name of %s names %s, but it contains none", t.Name(), p.ID, a.ID)
		}
	}
	for _, s := range t.facts.Statements {
		key, ok := map[string]string{"defrosted": "treatment.defrosted", "sweetener": "statement.sweetener", "sugar-and-sweetener": "statement.sugar-and-sweetener"}[s.Key]
		if ok {
			said.Text = t.words("list.inner", p.Pos, map[string]string{"name": said.Text, "list": t.words(key, p.Pos, nil)})
		}
	}
	return said
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
		t.found.Errorf(pos, "words", t.remedy(), "%v", err)
		return "?"
	}
	return s
}

// phrase fills a template with phrases and reports what is missing.
func (t *teller) phrase(key string, pos diag.Pos, slots map[string]phrase) phrase {
	t.used[key] = true
	p, err := t.say(key, slots)
	if err != nil {
		t.found.Errorf(pos, "words", t.remedy(), "%v", err)
		return plain("?")
	}
	return p
}

// count says a counted phrase and reports what is missing.
func (t *teller) count(key string, n int64, pos diag.Pos) string {
	t.used[key+"."+forms[t.form(n)]] = true
	s, err := t.Count(key, n)
	if err != nil {
		t.found.Errorf(pos, "words", t.remedy(), "%v", err)
		return "?"
	}
	return s
}

// remedy says what to do about words that are missing: where the market has
// words of its own, they are there in some languages only.
func (t *teller) remedy() string {
	var in []string
	for _, pair := range Markets() {
		if code, ok := strings.CutPrefix(pair, t.facts.Market.Code+" "); ok {
			in = append(in, code)
		}
	}
	if t.market == "" && len(in) > 0 {
		return fmt.Sprintf("labels for %s can be said in %s only; take other languages out", t.facts.Market.Code, strings.Join(in, ", "))
	}
	return "complete the language file"
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

func has(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}
