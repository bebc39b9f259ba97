package audit

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
)

// label is what the label says, word for word.
func (t *teller) label() section {
	s := section{title: t.Word("audit.label"), cols: []col{{width: 0}, {width: 46}}}
	s.rows = append(s.rows, cells(bold(t.Told.Name.Text), place(t.Told.Name.Src)))
	said := append([]words.Said{}, t.Told.Lists...)
	said = append(append(said, t.Told.May), t.Told.Statements...)
	for _, x := range append(said, t.Told.Net.Said, t.Told.Date, t.Told.Keep, t.Told.Use, t.Told.Operator) {
		if x.Text != "" {
			s.rows = append(s.rows, cells(emphasised(x), place(x.Src)))
		}
	}
	return s
}

// formulas are the product, its components and every formula in it, with their
// versions.
func (t *teller) formulas() section {
	s := section{title: t.Word("audit.formulas"), cols: []col{{t.Word("audit.formula"), 0, flow.Left}, {t.Word("card.version"), 14, flow.Right},
		{t.Word("card.issued"), 20, flow.Left}, {t.Word("card.approved-by"), 30, flow.Left}, {t.Word("audit.file"), 46, flow.Left}}}
	seen := map[string]bool{}
	add := func(id string, name shop.Words, version int, issued unit.Date, by string, pos diag.Pos) {
		if seen[id] {
			return
		}
		seen[id] = true
		if by == "" {
			by = "–"
		}
		s.rows = append(s.rows, cells(plain(t.name(name, pos)), plain(t.Audit.Lang.Plain(int64(version), 0)),
			plain(t.Audit.Lang.Date(issued, words.Day)), plain(by), place(pos)))
	}
	product := func(p *shop.Product) { add(p.ID, p.Name, p.Version.V, p.Issued.V, p.Approved.V, p.Pos) }
	product(t.Facts.Product)
	for _, c := range t.parts {
		product(c.Product)
		for _, f := range c.Via {
			add(f.ID, f.Name, f.Version.V, f.Issued.V, f.Approved.V, f.Pos)
		}
	}
	return s
}

// specs are the specifications of every ingredient, by id.
func (t *teller) specs() section {
	s := section{title: t.Word("audit.specs"), cols: []col{{t.Word("audit.ingredient"), 0, flow.Left}, {t.Word("audit.supplier"), 32, flow.Left},
		{t.Word("audit.spec"), 32, flow.Left}, {t.Word("audit.review-by"), 24, flow.Left}, {t.Word("audit.file"), 42, flow.Left}}}
	for _, i := range t.used() {
		version, review := plain(t.Word("audit.no-spec")), plain("–")
		pos := i.Pos
		if i.Spec != nil {
			version = plain("v" + compose.NoBreak + i.Spec.Version.V + " " + t.Word("audit.dated") + " " + t.Audit.Lang.Date(i.Spec.Dated.V, words.Day))
			if i.Spec.ReviewBy.Set() {
				review = plain(t.Audit.Lang.Date(i.Spec.ReviewBy.V, words.Day))
			}
			if i.Spec.ReviewBy.Set() && i.Spec.ReviewBy.V.Before(t.Today) {
				review = bold(t.Audit.Lang.Date(i.Spec.ReviewBy.V, words.Day) + " " + t.Word("audit.overdue"))
			}
			pos = i.Spec.Pos
		}
		s.rows = append(s.rows, cells(plain(t.called(i.ID)), plain(orDash(i.Supplier.V)), version, review, place(pos)))
	}
	return s
}

// used are the ingredients that the product is made of, by id.
func (t *teller) used() (out []*shop.Ingredient) {
	in := map[string]bool{}
	for _, c := range t.parts {
		in[c.Ingredient.ID] = true
	}
	for _, id := range t.Shop.IngredientIDs {
		if in[id] {
			out = append(out, t.Shop.Ingredients[id])
		}
	}
	return out
}

func orDash(s string) string {
	if strings.TrimSpace(s) == "" {
		return "–"
	}
	return s
}
