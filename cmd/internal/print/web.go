package print

import (
	_ "embed"
	"encoding/json"
	"strconv"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

//go:embed declaration.schema.json
var declarationSchema []byte

// JSON is the declaration for a web shop. declaration.schema.json says what
// each key means; a new form of it gets a new number.
func (d *Declaration) JSON() ([]byte, error) {
	out := webDeclaration{
		Form: 2, Product: d.Product.ID, Version: d.Product.Version.V, Pack: d.Pack.ID.V, GTIN: d.Pack.GTIN.V, Market: code(d.Market),
		Fingerprint: d.Fingerprint, Made: d.Facts.Made.String(),
		Net:       webNet{grams(d.Pack.Net.V), int64(d.Pack.Pieces.V), d.Pack.Average.V},
		Contains:  d.webAllergens(d.Facts.Contains),
		May:       d.webAllergens(d.Facts.May),
		Nutrition: webRows(d.Facts.Nutrition),
		Lists:     []webList{},
	}
	if n := d.Facts.Nutrition; n != nil && n.Portion > 0 {
		out.Portion = &webPortion{grams(n.Portion), n.Pieces, n.Portions}
	}
	if a := d.Approval; a.Valid {
		out.Approved = &webApproval{a.By, a.On.String()}
	}
	if date := d.Facts.Date; date.Kind != "none" {
		out.Date = &webDate{date.Kind, date.End.String()}
	}
	for _, l := range d.Facts.Lists {
		out.Lists = append(out.Lists, d.webList(l))
	}
	for i, t := range d.Told {
		out.Texts = append(out.Texts, webText(t, d.Langs[i]))
	}
	data, err := json.MarshalIndent(out, "", "  ")
	return append(data, '\n'), err
}

func (d *Declaration) webAllergens(ids []string) []webAllergen {
	out := []webAllergen{}
	for _, id := range ids {
		a, _ := d.Market.Allergens.Find(id)
		one := webAllergen{id, a.Group, map[string]string{}}
		for _, l := range d.Langs {
			if name, _, err := l.Allergen(id); err == nil {
				one.Names[l.Code()] = name
			}
		}
		out = append(out, one)
	}
	return out
}

func (d *Declaration) webList(l declare.List) webList {
	var sum unit.Mass
	for _, part := range l.Parts {
		sum += part.Mass
	}
	return webList{d.names(l.Title), d.webParts(l.Parts, max(1, d.finished(l)), max(1, sum))}
}

// finished is the finished mass that the parts of a list are for: that of the
// product, or of the component whose list it is.
func (d *Declaration) finished(l declare.List) unit.Mass {
	if len(l.Title) == 0 {
		return d.Facts.Finished
	}
	for _, id := range d.press.Shop.ProductIDs {
		if c := d.press.Shop.Products[id]; len(c.Name) > 0 && c.Name[0].V.Pos == l.Title[0].V.Pos {
			return scale.FinishedMass(d.press.Shop, c)
		}
	}
	return d.Facts.Finished
}

func (d *Declaration) webParts(parts []declare.Part, finished, all unit.Mass) []webPart {
	out := []webPart{}
	for _, p := range parts {
		one := webPart{Names: d.names(p.Name), Class: p.Class, Number: p.Number, Group: p.Group, Varying: p.Varying,
			Used: grams((100 * unit.Gram).Mul(p.Mass, finished)), Share: decimal(int64(p.Mass.In(all)), int64(unit.Percent), 3),
			Allergens: append([]string{}, p.Allergens...)}
		if q := p.Quid; q != nil && q.PerHundred {
			one.Declared = &webQuantity{Grams: decimal(int64((100*unit.Gram).Mul(q.Used, q.Of)), int64(unit.Gram), 0)}
		} else if q != nil {
			f, _ := market.RoundQuid(q.Used, q.Of)
			one.Declared = &webQuantity{Percent: figure(f)}
		}
		if len(p.Inner) > 0 {
			one.Inner = d.webParts(p.Inner, finished, all)
		}
		out = append(out, one)
	}
	return out
}

// names are the words of the declaration's languages.
func (d *Declaration) names(w shop.Words) map[string]string {
	out := map[string]string{}
	for _, l := range d.Langs {
		if v, ok := shop.In(w, l.Code()); ok {
			out[l.Code()] = v.V
		}
	}
	return out
}

func webRows(n *declare.Nutrition) []webRow {
	if n == nil {
		return nil
	}
	out := []webRow{}
	for _, r := range n.Rows {
		row := webRow{Key: r.Key, Of: r.Of, Exact: decimal(int64(r.Exact), int64(market.Worth(r.Shown.Unit)), 3),
			Shown: figure(r.Shown.Figure), Less: r.Shown.Less, Unit: r.Shown.Unit}
		if r.Portion != nil {
			row.Portion = &webFigure{figure(r.Portion.Figure), r.Portion.Less}
		}
		if r.Percent != nil {
			row.Percent = figure(r.Percent.Figure)
		}
		out = append(out, row)
	}
	return out
}

// grams writes a mass in grams with three decimals at most.
func grams(m unit.Mass) json.Number { return decimal(int64(m), int64(unit.Gram), 3) }

// decimal writes n ÷ worth, rounded to a number of decimals, exactly.
func decimal(n, worth int64, decimals int) json.Number {
	for range decimals {
		worth /= 10
	}
	return figure(market.Figure{N: unit.MulDiv(n, 1, worth), Decimals: decimals})
}

// figure writes a figure as JSON does, without zeros at its end.
func figure(f market.Figure) json.Number {
	n, s := f.N, ""
	for f.Decimals > 0 && n%10 == 0 {
		n, f.Decimals = n/10, f.Decimals-1
	}
	if n < 0 {
		n, s = -n, "-"
	}
	digits := strconv.FormatInt(n, 10)
	for len(digits) <= f.Decimals {
		digits = "0" + digits
	}
	if at := len(digits) - f.Decimals; f.Decimals > 0 {
		digits = digits[:at] + "." + digits[at:]
	}
	return json.Number(s + digits)
}
