package print

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/unit"
)

var percentForm = regexp.MustCompile(`^[0-9]{1,3}([.,][0-9]{1,6})? ?%?$`)

// percentage tells which part of the list has the percentage asked for: as it
// is printed, or as it is before rounding.
func (w *why) percentage() bool {
	if !percentForm.MatchString(w.word) {
		return false
	}
	number := strings.ReplaceAll(strings.TrimSpace(strings.TrimSuffix(w.word, "%")), ",", ".")
	_, frac, _ := strings.Cut(number, ".")
	asked, err := unit.ParseShare(number + " %")
	if err != nil {
		return false
	}
	found := false
	var declared []string
	for _, s := range w.spots() {
		if s.part.Quid == nil {
			continue
		}
		declared = append(declared, s.name+" "+s.printed)
		f, _ := market.RoundQuid(s.part.Quid.Used, s.part.Quid.Of)
		exact := s.part.Quid.Share()
		if figure(f) == decimal(int64(asked), int64(unit.Percent), 6) || decimal(int64(exact), int64(unit.Percent), len(frac)) == decimal(int64(asked), int64(unit.Percent), len(frac)) {
			found = true
			w.quid(s)
		}
	}
	if !found {
		w.head("no percentage of the list is %s %%", number)
	}
	if declared == nil {
		w.item("  ", "the list declares no quantity")
	} else {
		w.item("  ", "the list declares "+strings.Join(declared, ", "))
	}
	w.exempt()
	return true
}

// quid tells where a declared quantity comes from.
func (w *why) quid(s spot) {
	q := s.part.Quid
	w.head("%s %s: a declared quantity", s.name, s.printed)
	base := "all that goes in"
	if q.Of < w.Facts.AtUse && len(s.list.Title) == 0 {
		base = "the finished mass, as water is lost"
	}
	w.item("  ", fmt.Sprintf("%s used for 1000 pieces, over %s (%s): %s before rounding; rounded by the house rule: whole percents from 10 %%, one decimal below",
		q.Used.Round(unit.Gram), q.Of.Round(unit.Gram), base, percent(q.Share())))
	for _, i := range w.used() {
		if !slices.ContainsFunc(w.listed(i), func(x spot) bool { return x.part.Src == s.part.Src }) {
			continue
		}
		w.reasons(i.ID)
		w.ways(i)
	}
}

// exempt tells of quantities that are not declared.
func (w *why) exempt() {
	for _, d := range w.Facts.Decisions {
		if d.Rule == declare.QuantityExempt {
			w.item("  ", d.Part+": "+reason(d), w.at(d.Pos))
		}
	}
}

// percent is a share with two decimals.
func percent(s unit.Share) string {
	return decimal(int64(s), int64(unit.Percent), 2).String() + " %"
}

// water tells how much of the added water is left.
func (w *why) water() bool {
	found := false
	for _, i := range w.used() {
		if !i.AddedWater.V || w.fits(append(texts(i.Name), i.ID, "water", "added water")...) != wholly {
			continue
		}
		found = true
		for _, f := range w.foods {
			w.waterIn(f)
		}
	}
	if !found && w.fits("water", "added water") == wholly {
		w.head("water: no water is added as such; what the ingredients hold is not added water")
		return true
	}
	return found
}

// waterIn tells it of one food.
func (w *why) waterIn(f food) {
	var poured, others unit.Mass
	for _, c := range f.parts {
		if c.Ingredient.AddedWater.V {
			poured += c.Mass
		} else {
			others += c.Mass
		}
	}
	if poured == 0 {
		w.head("water: none is added to %s", f.product.ID)
		return
	}
	left, base := poured, "as it went in"
	if w.Market.List.Order.WaterBase == market.Finished {
		left, base = max(0, min(poured, f.finished-others)), "what is left of it counts"
	}
	rule := w.Market.List.Water
	head := "listed"
	if rule.Holds(left, f.finished) {
		head = "not listed"
	}
	w.head("water in %s: %s: %s of the finished food, limit %s", f.product.ID, head, percent(left.In(f.finished)), rule.Share)
	each := func(m unit.Mass) string { return short(m / 1000) }
	w.item("  ", fmt.Sprintf("a piece takes %s of added water and %s of all else, and weighs %s when it is finished", each(poured), each(others), each(f.finished)))
	w.item("  ", fmt.Sprintf("%s: %s less %s is %s; added water up to %s need not be named (%s)", base, each(f.finished), each(others), each(left), rule.Share, w.Market.List.Water.Cite))
}

// date tells where the date comes from.
func (w *why) date() bool {
	d := w.Facts.Date
	if w.fits("date", "use by", "use-by", "best before", "best-before", "shelf life", "life") != wholly {
		return false
	}
	k := w.Product.Keep
	w.head("date: %s, %s for what is made on %s", strings.ReplaceAll(d.Kind, "-", " "), d.End, w.Facts.Made)
	w.item("  ", fmt.Sprintf("it keeps %s, the day made being day 0", k.Life.V), w.at(k.Life.Pos))
	if d.Limit != "" {
		c := w.press.Shop.Products[d.Limit]
		w.item("  ", fmt.Sprintf("its component %s keeps %s, which is over sooner", d.Limit, c.Keep.Life.V), w.at(c.Keep.Life.Pos))
	}
	w.reasons(w.Product.ID)
	return true
}
