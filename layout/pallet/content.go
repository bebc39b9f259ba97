package pallet

import (
	"fmt"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/text"
)

// content is all that the label says in words.
type content struct {
	sender, to text.Para
	title      text.Para // "PALLET", and how many cartons
	class      text.Para
	date       text.Para
	lines      []text.Para
	numbers    []text.Para
}

// tell finds all words; it reports false, with a finding, when any is missing.
func (p Pallet) tell(found *diag.List) (content, bool) {
	t := compose.Tell("pallet label", p.Numbered, found, p.Langs...)
	if !t.Speaks("give the customer a language that has its words, such as", "sheet") {
		return content{}, false
	}
	q := p.Shop.Profile
	c := content{sender: flow.Words(role.Operator, q.Name.Pos, q.Name.V+", "+q.Address.V), title: p.title(t), class: p.class(t)}
	if to := p.Goes.To; to != nil {
		said := t.Word("carton.ship-to") + compose.NoBreak + to.Name.V + ", " + to.Address.V
		if p.Goes.Order != "" {
			said += " · " + gs1.Title("400") + compose.NoBreak + p.Goes.Order
		}
		c.to = flow.Strong(role.Note, to.Pos, compose.Capital(said))
	}
	if !p.Earliest.IsZero() {
		c.date = flow.Strong(role.Date, p.Numbered, compose.Capital(t.Word("pallet.earliest"))+" "+t.Lang().Date(p.Earliest, words.Day))
	}
	for _, l := range p.Lines {
		c.lines = append(c.lines, p.line(t, l))
	}
	c.numbers = p.numbers(t)
	return c, t.Done()
}

// title says what it is, how many cartons stand on it, and how they stand.
func (p Pallet) title(t *compose.Teller) text.Para {
	s := fmt.Sprintf("%s · %s: %d", strings.ToUpper(t.Word("pallet.title")), t.Word("sheet.cartons"), p.Cartons())
	if p.Tie > 0 {
		s += " · " + t.Fill("pallet.stack", map[string]string{"tie": fmt.Sprint(p.Tie), "high": fmt.Sprint(p.High())})
	}
	return flow.Strong(role.Amount, p.Numbered, s)
}

// class is the strictest class of temperature, with the temperature itself.
func (p Pallet) class(t *compose.Teller) text.Para {
	s := strings.ToUpper(t.Word("carton." + p.Keep.Store.V))
	if p.Keep.Temp.Set() {
		s += compose.NoBreak + t.Lang().Limit(p.Keep.Temp.V, false)
	}
	return flow.Strong(role.Keep, p.Keep.Pos, s)
}

// line is the cartons of one batch: "2 × Pear and hazelnut tartlet, L26076A".
func (p Pallet) line(t *compose.Teller, l Line) text.Para {
	name, ok := l.Product.Name.Get(t.Lang().Code())
	if !ok {
		t.Found().Errorf(l.Product.Pos, "translation", "add a line that begins with "+t.Lang().Code()+":", "the product %s has no name in %s", l.Product.ID, t.Lang().Name())
	}
	return flow.Words(role.Note, l.Product.Pos, fmt.Sprintf("%d × %s · %s · %s", l.Cartons, name.V, l.Batch, t.Lang().Mass(l.Net)))
}

// numbers are the SSCC and the gross mass with their titles.
func (p Pallet) numbers(t *compose.Teller) []text.Para {
	out := []text.Para{flow.Strong(role.Key, p.Numbered, gs1.Title("00")+compose.NoBreak+p.SSCC)}
	if p.Gross > 0 {
		out = append(out, flow.Words(role.Note, p.Numbered, strings.ToUpper(t.Word("carton.gross"))+compose.NoBreak+"≈"+compose.NoBreak+t.Lang().Mass(p.Gross)))
	}
	return out
}
