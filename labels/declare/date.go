package declare

import (
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// date computes the last day: the product's own life, or that of the component
// of an assortment that keeps the shortest. The day of making is day 0. It
// then decides how much of the date is shown.
func (w *work) date() {
	k := w.product.Keep
	d := Date{Kind: k.Date.V, End: k.Life.V.End(w.facts.Made), Lives: []unit.Life{k.Life.V}}
	if end, by := w.product.Lasts(w.facts.Made); by != nil {
		d.End, d.Limit = end, by.Of
	}
	if d.Kind == "" {
		d.Kind = "best-before"
	}
	for _, c := range w.components {
		d.Lives = append(d.Lives, c.Keep.Life.V)
		if end := c.Keep.Life.V.End(w.facts.Made); end.Before(d.End) {
			d.End, d.Limit = end, c.ID
		}
		if c.Keep.Date.V == "use-by" {
			d.Kind = "use-by"
		}
	}
	if d.Limit != "" {
		w.decide(DateLimited, d.Limit, Day(d.End), Day(k.Life.V.End(w.facts.Made)), k.Life.Pos)
	}
	if k.Because.Set() {
		w.decide(KeptBecause, w.product.ID, Text(k.Because.V), nil, k.Because.Pos)
	}
	if d.Kind == "use-by" && !k.Temp.Set() {
		w.found.Errorf(k.Pos, "keep", "write temp: such as ≤ 5 °C under keep (Reg. (EU) 1169/2011 Annex X 2)",
			"%s bears a use-by date and must say at which temperature it is kept", w.product.ID)
	}
	d.Shown = w.shown(d, k.Show)
	if d.Kind == "none" {
		w.undated(d.End)
	}
	w.facts.Date = d
	w.crosses(d)
}

// shown is the date as it is printed: day, month and year, or less where the
// kitchen wants it and the law allows it for a food that keeps so long
// (Reg. (EU) 1169/2011 Annex X 1(c)). A use-by date shows the day.
func (w *work) shown(d Date, show shop.Text) market.Printed {
	form := map[string]market.Form{"month": market.MonthYear, "year": market.YearOnly}[show.V]
	switch {
	case form == "" || d.Kind == "none":
		form = market.DayMonthYear
	case d.Kind == "use-by" || !w.market.FormAllowed(form, w.facts.Made, d.End):
		w.found.Errorf(show.Pos, "date-form", "write show: day", "the date of %s must show the day, or more of it than the %s", w.product.ID, show.V)
		form = market.DayMonthYear
	}
	p := market.Print(form, d.End)
	if p.Last.Before(w.facts.Made) {
		w.found.Errorf(show.Pos, "date-form", "write show: day", "the %s that is over before %s ends would lie before the day of making", show.V, d.End)
	}
	return p
}

// undated refuses to leave the date out where the law asks for one: pastry
// eaten within 24 hours needs none (Annex X 1(d)), nor does any food in a
// market without a general rule.
func (w *work) undated(end unit.Date) {
	if !dayFresh(w.facts, end) && w.market.Dates.Asked(w.facts.Made, end) {
		w.found.Errorf(w.product.Keep.Date.Pos, "no-date", "write date: best-before or use-by",
			"%s keeps longer than pastry of the day, or is kept chilled, and needs a date", w.product.ID)
		return
	}
	w.decide(DateLeftOut, w.product.ID, Day(end), nil, w.product.Keep.Date.Pos)
}

// dayFresh reports whether a food is pastry of the day: eaten within 24 hours of
// its making, and not kept cold (Annex X 1(d)).
func dayFresh(f *Facts, end unit.Date) bool {
	return f.Market.Dates.Fresh > 0 && !f.Made.AddDays(1).Before(end) && f.Product.Keep.Store.V != "chilled"
}

// DayFresh reports whether the date is left out because the food is eaten on
// the day.
func (f *Facts) DayFresh() bool { return f.Date.Kind == "none" && dayFresh(f, f.Date.End) }

// Lot is the batch mark: the code behind the letter that the law puts before
// it, and whether it must stand on the pack, which it need not where the date
// shows day and month (Directive 2011/91/EU Art. 4 and 5).
func (f *Facts) Lot(code string) (mark string, must bool) {
	lot := f.Market.Lot
	mark = code
	if letter := lot.Letter; letter != "" && (len(code) < len(letter) || code[:len(letter)] != letter) {
		mark = letter + code
	}
	day := f.Date.Kind != "none" && (f.Date.Shown.Form == market.DayMonthYear || f.Date.Shown.Form == market.DayMonth)
	return mark, !(lot.DateReplace && day)
}
