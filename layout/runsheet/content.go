package runsheet

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/text"
)

// sheet is what the run sheet says.
type sheet struct {
	title, shop, count string
	at                 diag.Pos // of the shop
	page               func(n, of int) string
	left               []note // what is not printed or no longer counts, before all else
	runs               []run
	notes              []note
}

// run is what it says of one product.
type run struct {
	at                diag.Pos
	name, batch, date text.Para
	facts             []text.Para
	checks            []string // to be ticked
	printed           string   // "printed 24"
	counts            []string // to be filled in: applied, spoilt, left
	time, signature   string
}

// content says the sheet.
func content(t *compose.Teller, s Sheet) sheet {
	out := sheet{title: compose.Capital(t.Word("sheet.run")) + " · " + t.Lang().Date(s.Day, words.Long),
		shop: s.Shop.Profile.Name.V, count: t.Word("sheet.no-warnings"), at: t.At(), page: t.Page}
	if n := len(s.Cautions); n > 0 {
		out.count = t.Word("sheet.warnings") + ": " + fmt.Sprint(n)
	}
	if n := len(s.Left); n > 0 {
		out.count = t.Word("sheet.left-out") + ": " + fmt.Sprint(n) + "  ·  " + out.count
	}
	out.count = compose.Capital(out.count)
	for _, r := range s.Runs {
		if len(r.Told) == 0 {
			t.Found().Errorf(r.Facts.Product.Pos, "words", "name the languages of its label", "the label of %s has no language", r.Facts.Product.ID)
			continue
		}
		out.runs = append(out.runs, teller{t, r}.run())
	}
	out.left, out.notes = slices.Concat(left(t, s.Left), void(t, s.Void)), notes(t, s)
	return out
}

// teller says one run.
type teller struct {
	*compose.Teller
	Run
}

func (t teller) run() run {
	at, told := t.Facts.Product.Pos, t.Told[0]
	return run{at: at, name: flow.Strong(role.Name, at, told.Name.Text), batch: flow.Strong(role.Batch, at, t.Batch),
		date: flow.Strong(role.Date, told.Date.Src, told.Date.Text),
		facts: []text.Para{t.made(), t.labels(), t.scan(), t.cartons(), t.before(), t.Allergens(role.Allergens, "contains", t.Facts.Contains, at),
			t.Allergens(role.May, "may-contain", t.Facts.May, at)},
		checks: t.checks(), printed: t.Word("sheet.printed") + " " + t.Plain(int64(t.Labels)),
		counts: t.Words("sheet.applied", "sheet.spoilt", "sheet.left"), time: t.Word("sheet.time"), signature: t.Word("sheet.signature")}
}

// made says how many pieces in how many packs of which net quantity.
func (t teller) made() text.Para {
	k := t.Facts.Pack
	packs := t.Pieces / max(1, k.Pieces.V)
	return flow.Words(role.Amount, k.Pos, strings.Join([]string{t.Count("count.pieces", int64(t.Pieces)), t.counted("sheet.packs", packs),
		t.Lang().Mass(k.Net.V), k.ID.V}, " · "))
}

// counted is "packs: 24".
func (t teller) counted(key string, n unit.Count) string {
	return t.Word(key) + ":" + compose.NoBreak + t.Plain(int64(n))
}

// labels says how many labels, their numbers, their stock and languages.
func (t teller) labels() text.Para {
	var codes []string
	for _, l := range t.Told {
		codes = append(codes, strings.ToUpper(l.Lang))
	}
	s := t.counted("sheet.labels", t.Labels)
	if all := t.numbers(); len(all) > 0 {
		s += " · " + strings.Join(t.few(all), ", ")
	}
	return flow.Words(role.Serial, t.Facts.Pack.Paper.Pos, s+" · "+t.Paper+" · "+strings.Join(codes, " "))
}

// numbers are those of all labels of the run.
func (t teller) numbers() (out []string) {
	for _, n := range append(slices.Clone(t.Before), t.Numbers) {
		if n != "" {
			out = append(out, strings.ReplaceAll(n, "-", "–"))
		}
	}
	return out
}

// before says which of its numbers were printed before; it is empty for none.
func (t teller) before() text.Para {
	all := slices.Clone(t.Before)
	for i, n := range all {
		all[i] = strings.ReplaceAll(n, "-", "–")
	}
	for _, g := range t.SSCCsBefore {
		all = append(all, t.group(g))
	}
	if len(all) == 0 {
		return text.Para{}
	}
	return flow.Words(role.Serial, t.Facts.Product.Pos, t.Word("sheet.before")+": "+strings.Join(t.few(all), ", "))
}

// mostGroups is how many groups of numbers a run shows.
const mostGroups = 12

// few leaves out the middle of many groups of numbers, and says how many: the
// print book has them all, and a run must stay within one sheet.
func (t teller) few(all []string) []string {
	out := len(all) - mostGroups
	if out <= 0 {
		return all
	}
	return slices.Concat(all[:mostGroups-1], []string{"… (+" + t.Plain(int64(out)) + ")"}, all[len(all)-1:])
}

// group is SSCCs that were given together: the first and the last.
func (t teller) group(g []string) string {
	if len(g) < 2 {
		return "SSCC" + compose.NoBreak + strings.Join(g, "")
	}
	return "SSCC" + compose.NoBreak + g[0] + "–\u200b" + g[len(g)-1]
}

// scan is what a scanner must show of the first label's batch mark, with places
// to break it.
func (t teller) scan() text.Para {
	if t.Scan == "" {
		return text.Para{}
	}
	s := strings.NewReplacer("(", "\u200b(", "/", "/\u200b", "?", "\u200b?").Replace(t.Scan)
	return flow.Words(role.Serial, t.Facts.Pack.Mark.Pos, strings.TrimPrefix(s, "\u200b"))
}

// cartons says how many cartons and their numbers; it is empty for none.
func (t teller) cartons() text.Para {
	if t.Cartons == 0 && len(t.Parts) == 0 {
		return text.Para{}
	}
	s := t.counted("sheet.cartons", unit.Count(max(1, t.Cartons)))
	if t.Cartons > 0 {
		s += " × " + t.Plain(int64(t.Packs))
	}
	var groups []string
	for _, g := range append(slices.Clone(t.SSCCsBefore), t.SSCCs) {
		if len(g) > 0 {
			groups = append(groups, t.group(g))
		}
	}
	if len(groups) > 0 {
		s += " · " + strings.Join(t.few(groups), " · ")
	}
	for _, p := range t.Parts {
		s += " · 1 × " + t.Plain(int64(p.Packs))
		if len(p.SSCCs) > 0 {
			s += " · " + t.group(p.SSCCs)
		}
	}
	return flow.Words(role.Serial, t.Facts.Product.Pos, s)
}

// checks lists what is to be ticked for a run.
func (t teller) checks() []string {
	out := t.Words("check.product", "check.first-label", "check.date-batch", "check.allergens", "check.old-labels")
	if t.Facts.Pack.GTIN.Set() {
		out = append(out, t.Word("check.scan"))
	}
	if f, ok := t.Facts.Market.Net.Shortfall(market.Quantity{Mass: t.Facts.Pack.Net.V}); ok {
		out = append(out, t.Fill("check.net", map[string]string{"t1": t.Lang().Mass(f.T1), "t2": t.Lang().Mass(f.T2)}))
	}
	if t.Cartons > 0 || len(t.Parts) > 0 {
		out = append(out, t.Word("check.cartons"))
	}
	return out
}
