package print

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/layout/page"
)

// unsourced is a doubt: a nutrition declaration is printed, and nobody can look
// up where the figures of an ingredient are from (Regulation (EU) No 1169/2011
// Art. 31(4) names the sources that figures may have).
func (j *Job) unsourced() (out []doubt) {
	if !j.declares() {
		return nil
	}
	for _, i := range j.Shop.Into(j.ID) {
		if i.Per100 == nil || i.Per100.Sourced() {
			continue
		}
		out = append(out, doubt{"no source: " + i.ID, diag.Diag{Pos: i.Per100.Pos, Rule: "draft",
			Hint: "write source: with the table and its code, or the supplier's specification" + tableHint(i),
			Msg:  j.what() + " is a draft: it declares the nutrition, and nobody can look up where the figures of " + i.ID + " are from"}})
	}
	return out
}

// tableHint is the table that comes with the program, where it may have the food.
func tableHint(i *shop.Ingredient) string {
	if hint := i.TableHint(); hint != "" {
		return "; " + hint
	}
	return ""
}

// unweighed is a doubt: figures for a portion are printed, and nobody has weighed
// one.
func (j *Job) unweighed() []doubt {
	if !j.declares() || j.Facts.Nutrition.Portion == 0 || j.Pack.PortionKnown() {
		return nil
	}
	return []doubt{{"portion not weighed", diag.Diag{Pos: j.Pack.Portion.Pos, Rule: "draft",
		Hint: "weigh one as a buyer takes it, correct portion:, and write the day: portion-weighed: " + j.Today.String(),
		Msg:  j.what() + " is a draft: it declares for a portion of " + j.Pack.Portion.V.String() + ", and nobody has weighed one"}}}
}

// declares reports whether a nutrition declaration stands on the paper.
func (j *Job) declares() bool {
	said := func(items []page.Item) bool {
		return slices.ContainsFunc(items, func(it page.Item) bool { return it.Role == role.Nutrition })
	}
	return j.Facts != nil && j.Facts.Nutrition != nil &&
		(slices.ContainsFunc(j.set.Arts, func(a *page.Art) bool { return said(a.Items) }) || len(j.set.Arts) > 0 && said(j.set.own(1)) ||
			slices.ContainsFunc(j.set.Pages, func(p *page.Page) bool { return said(p.All()) }))
}
