package words

import (
	"fmt"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// net says the net quantity, in both systems of units where the market wants
// that, and how many pieces there are; of several equal packs in one the
// quantity of each and their number (Reg. (EU) 1169/2011 Annex IX point 3).
func (t *teller) net() Net {
	pack := t.facts.Pack
	text, n := t.Mass(pack.Net.V), int64(pack.Pieces.V)
	if pack.Each.Set() {
		if unit.CmpProducts(int64(pack.Each.V), n, int64(pack.Net.V), 1) != 0 {
			t.found.Errorf(pack.Each.Pos, "net", "see that pieces × each is net", "%d pieces of %s are not %s", n, pack.Each.V, pack.Net.V)
		}
		text = t.words("net.multi", pack.Net.Pos, map[string]string{"count": t.Plain(n, 0), "mass": t.Mass(pack.Each.V)})
	}
	if has(t.facts.Market.Net.Systems, "customary") {
		text = t.words("net.both", pack.Net.Pos, map[string]string{"customary": t.avoirdupois(pack.Net.V, pack.Net.Pos), "metric": text})
	}
	if pack.Average.V {
		text += noBreak + "℮"
	}
	amount := Said{Role: role.Net, Text: text, Src: pack.Net.Pos}
	if n <= 1 || pack.Each.Set() || pack.ByWeight() {
		return Net{Said: amount, Amount: amount}
	}
	pieces := Said{Role: role.Note, Text: t.count("count.pieces", n, pack.Pieces.Pos), Src: pack.Pieces.Pos}
	all := amount
	all.Text += noBreak + "(" + pieces.Text + ")"
	return Net{all, amount, pieces}
}

// avoirdupois gives pounds and ounces, rounded down, so that neither system
// promises more than the pack holds.
func (t *teller) avoirdupois(m unit.Mass, pos diag.Pos) string {
	n, decimals := market.InOunces(m%market.Pound, 2), 2
	for decimals > 0 && n%10 == 0 {
		n, decimals = n/10, decimals-1
	}
	oz := t.Plain(n, decimals) + noBreak + t.words("unit.oz", pos, nil)
	if m < market.Pound {
		return oz
	}
	lb := t.Plain(int64(m/market.Pound), 0) + noBreak + t.words("unit.lb", pos, nil)
	if n == 0 {
		return lb
	}
	return lb + " " + oz
}

// date says the date in the form that the facts chose.
func (t *teller) date() Said {
	d := t.facts.Date
	if d.Kind == "none" {
		return Said{}
	}
	src, key := t.facts.Product.Keep.Life.Pos, "date."+d.Kind
	if dates := t.facts.Market.Dates; dates.UseBy == "" && !dates.None {
		key = "date.best-before" // a market that knows only this date
	}
	if d.Shown.End {
		key += "-end"
	}
	return Said{Role: role.Date, Text: t.words(key, src, map[string]string{"date": t.figures(d.Shown)}), Src: src}
}

// figures writes a date as the market orders it: day, month, year; or year,
// month in two letters, day (C.R.C., c. 870, B.01.007(4)). Where no order is
// set the month is written as a word, so that nobody takes it for the day.
func (t *teller) figures(p market.Printed) string {
	dates := t.facts.Market.Dates
	switch {
	case len(dates.Months) == 12 && len(dates.Order) > 0 && dates.Order[0] == "year":
		return fmt.Sprintf("%04d%s%s%s%02d", p.Last.Year, noBreak, dates.Months[p.Last.Month-1], noBreak, p.Last.Day)
	case len(dates.Order) == 0 && p.Form == market.DayMonthYear:
		return t.Date(p.Last, Long)
	}
	forms := map[market.Form]Form{market.DayMonth: DayMonth, market.MonthYear: Month, market.YearOnly: Year}
	if form, ok := forms[p.Form]; ok {
		return t.Date(p.Last, form)
	}
	return t.Date(p.Last, Day)
}

// keep says how the food is kept, and for how long once opened: in the cold
// only what is sold from the cold, on both scales where the market reads both.
func (t *teller) keep() Said {
	k := t.facts.Product.Keep
	key := map[string]string{"chilled": "keep.chilled", "cool": "keep.cool-dry", "ambient": "keep.ambient", "frozen": "keep.frozen"}[k.Store.V]
	slots := map[string]string{}
	if len(t.Slots(key)) > 0 {
		slots["temp"] = t.Limit(k.Temp.V, t.facts.Market.BothScales())
	}
	text := t.words(key, k.Pos, slots)
	if k.Opened.Set() {
		opened := "keep.opened"
		if k.OpenedCold() {
			opened = "keep.after-opening"
		}
		text += " " + t.count(opened, t.days(k.Opened), k.Opened.Pos)
	}
	if k.Store.V == "frozen" || t.facts.Product.Thawed.V {
		text += " " + t.words("keep.do-not-refreeze", k.Pos, nil)
	}
	return Said{Role: role.Keep, Text: text, Src: k.Pos}
}

// use says the instructions for use in the kitchen's own words
// (Reg. (EU) 1169/2011 Art. 27).
func (t *teller) use() Said {
	p := t.facts.Product
	if len(p.Instructions) == 0 {
		return Said{}
	}
	v, ok := shop.In(p.Instructions, t.code)
	if !ok {
		t.found.Errorf(p.Instructions[0].Key.Pos, "translation", fmt.Sprintf("add %q under instructions", t.code), "the instructions for use have no text in %s", t.Name())
		return Said{}
	}
	return Said{Role: role.Use, Text: t.sentence(v.V), Src: v.Pos}
}

// days counts the days of a life once opened; a month counts as 28, so that
// nothing is promised for longer than it keeps.
func (t *teller) days(l diag.At[unit.Life]) int64 { return int64(l.V.Days) + 28*int64(l.V.Months) }

// operator says who stands behind the food in this market: the shop, or who
// imports it or has it made, with the words that say so.
func (t *teller) operator(p *shop.Profile) Said {
	o := t.facts.Operator
	if o == nil {
		return Said{Role: role.Operator, Text: p.Name.V + ", " + p.Address.V, Src: p.Name.Pos}
	}
	text := o.Name.V + ", " + o.Address.V
	if o.Says.V != "name-alone" {
		text = t.words("operator."+o.Says.V, o.Says.Pos, map[string]string{"name": text})
	}
	return Said{Role: role.Operator, Text: text, Src: o.Name.Pos}
}
