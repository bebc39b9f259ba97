package explain

import (
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
func (f *finder) percentage() {
	if !percentForm.MatchString(f.word) {
		return
	}
	number := strings.ReplaceAll(strings.TrimSpace(strings.TrimSuffix(f.word, "%")), ",", ".")
	_, frac, _ := strings.Cut(number, ".")
	asked, err := unit.ParseShare(number + " %")
	if err != nil {
		return
	}
	var last *Reason
	var declared Texts
	for _, s := range f.spots() {
		if s.part.Quid == nil {
			continue
		}
		declared = append(declared, s.name+" "+s.printed)
		if is(s.part.Quid, asked, len(frac)) {
			last = f.quantity(s)
		}
	}
	if last == nil {
		last = f.topic("no-such-quantity", Values{"asked": declare.Text(number)})
	}
	if declared == nil {
		last.add("no-quantities", nil)
	} else {
		last.add("quantities", Values{"names": declared})
	}
	for _, d := range f.Facts.Decisions {
		if d.Rule == declare.QuantityExempt {
			last.decided(d)
		}
	}
}

// is reports whether a declared quantity is the share asked for: as it is
// printed, or rounded to as many decimals as were asked.
func is(q *declare.Quantity, asked unit.Share, decimals int) bool {
	if printed, _ := market.RoundQuid(q.Used, q.Of); unit.CmpProducts(printed.N, int64(unit.Percent), int64(asked), power(printed.Decimals)) == 0 {
		return true
	}
	round := func(s unit.Share) int64 { return unit.MulDiv(int64(s), power(decimals), int64(unit.Percent)) }
	return round(q.Share()) == round(asked)
}

// power is ten to the n.
func power(n int) int64 {
	p := int64(1)
	for range n {
		p *= 10
	}
	return p
}

// quantity tells where a declared quantity comes from.
func (f *finder) quantity(s spot) *Reason {
	q := s.part.Quid
	r := f.topic("quantity", Values{"name": declare.Text(s.name), "printed": declare.Text(s.printed)})
	key := "quantity-of-all"
	if q.Of < f.Facts.AtUse && len(s.list.Title) == 0 {
		key = "quantity-of-finished"
	}
	r.add(key, Values{"used": declare.Mass(q.Used.Round(unit.Gram)), "of": declare.Mass(q.Of.Round(unit.Gram)), "share": declare.Percent(q.Share())})
	for _, i := range f.used() {
		if slices.ContainsFunc(f.listed(i), func(x spot) bool { return x.part.Src == s.part.Src }) {
			f.decided(r, i.ID)
			f.ways(r, i)
		}
	}
	return r
}

// water tells how much of the added water is left.
func (f *finder) water() {
	before := len(f.out.Under)
	for _, i := range f.used() {
		if i.AddedWater.V && f.fits(append(texts(i.Name), i.ID, "water", "added water")...) == wholly {
			for _, x := range f.foods {
				f.waterIn(x)
			}
		}
	}
	if len(f.out.Under) == before && f.fits("water", "added water") == wholly {
		f.topic("water-none", nil)
	}
}

// waterIn tells it of one food.
func (f *finder) waterIn(x food) {
	var poured, others unit.Mass
	for _, c := range x.parts {
		if c.Ingredient.AddedWater.V {
			poured += c.Mass
		} else {
			others += c.Mass
		}
	}
	if poured == 0 {
		f.topic("water-not-in", Values{"product": declare.ID(x.product.ID)})
		return
	}
	rule, left, key := f.Facts.Market.List.Water, poured, "water-listed"
	finished := f.Facts.Market.List.Order.WaterBase == market.Finished
	if finished {
		left = max(0, min(poured, x.finished-others))
	}
	if rule.Holds(left, x.finished) {
		key = "water-unlisted"
	}
	limit, source := declare.Percent(rule.Share), declare.Text(rule.Cite.String())
	r := f.topic(key, Values{"product": declare.ID(x.product.ID), "left": declare.Percent(left.In(x.finished)), "limit": limit})
	r.add("water-piece", Values{"poured": declare.Mass(each(poured)), "others": declare.Mass(each(others)), "finished": declare.Mass(each(x.finished))})
	if !finished {
		r.add("water-as-used", Values{"left": declare.Mass(each(left)), "limit": limit, "source": source})
		return
	}
	r.add("water-left", Values{"finished": declare.Mass(each(x.finished)), "others": declare.Mass(each(others)), "left": declare.Mass(each(left)),
		"limit": limit, "source": source})
}

// date tells where the date comes from.
func (f *finder) date() {
	d, k := f.Facts.Date, f.Facts.Product.Keep
	if f.fits("date", "use by", "use-by", "best before", "best-before", "shelf life", "life") != wholly {
		return
	}
	r := f.topic("date", Values{"kind": declare.Key(d.Kind), "end": declare.Day(d.End), "made": declare.Day(f.Facts.Made)})
	r.add("keeps", Values{"life": Life(k.Life.V)}, k.Life.Pos)
	if c := f.Shop.Products[d.Limit]; d.Limit != "" && c != nil {
		r.add("component-keeps", Values{"product": declare.ID(d.Limit), "life": Life(c.Keep.Life.V)}, c.Keep.Life.Pos)
	}
	f.decided(r, f.Facts.Product.ID)
}
