package print

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/shop"
)

// differ tells two states of a shop apart.
type differ struct {
	*sheet
	old, new *Press
	any      bool
	fallen   []string // approvals that do not hold any longer
}

// Diff tells in plain text what has changed from one state of a shop to
// another: files, every product, card, label, ticket and carton that a change
// touches, how each declaration changes, and which approvals fall. It is empty
// when nothing has changed. Shops with errors cannot be compared: their
// findings are in Found.
func Diff(old, new *Press) (string, error) {
	d := &differ{sheet: &sheet{}, old: old, new: new}
	if old.Found.Errors()+new.Found.Errors() > 0 {
		return "", nil
	}
	if err := d.files(); err != nil {
		return "", err
	}
	for _, id := range both(old.Shop.ProductIDs, new.Shop.ProductIDs) {
		if err := d.product(id); err != nil {
			return "", err
		}
	}
	d.formulas()
	d.approvals()
	if old.Found.Errors()+new.Found.Errors() > 0 || !d.any {
		return "", nil
	}
	return strings.TrimPrefix(d.String(), "\n"), nil
}

// changed begins a block about something that has changed.
func (d *differ) changed() {
	d.any = true
	d.line("")
}

// both are the ids of the old and the new shop, sorted, each once.
func both(old, new []string) []string {
	out := slices.Concat(old, new)
	slices.Sort(out)
	return slices.Compact(out)
}

// product tells how one product has changed.
func (d *differ) product(id string) error {
	was, now := d.old.Shop.Products[id], d.new.Shop.Products[id]
	switch {
	case now == nil:
		d.changed()
		d.line("product %s: taken out; take its cards down and throw its labels away", id)
		return nil
	case was == nil:
		d.changed()
		d.line("product %s: new", id)
		return nil
	}
	says, err := d.declarations(was, now)
	if err != nil {
		return err
	}
	paper := d.paper(was, now, says)
	if len(paper) == 0 && len(says) == 0 {
		return nil
	}
	d.changed()
	head := "product " + id
	if was.Version.V != now.Version.V {
		head += fmt.Sprintf(", version %d, was %d", now.Version.V, was.Version.V)
	}
	d.line("%s", head)
	d.entry("  ", "touched", strings.Join(paper, ", "))
	if was.Version.V == now.Version.V && len(paper) > 0 && strings.HasPrefix(paper[0], "card") {
		d.item("  ", fmt.Sprintf("the card has changed, but its version is still %d: count it up", now.Version.V))
	}
	for _, s := range says {
		d.tell(s)
	}
	return nil
}

// texts are words in all their languages.
func texts(w shop.Words) []string {
	var out []string
	for _, e := range w {
		out = append(out, e.V.V)
	}
	return out
}

// paper lists what must be printed anew for a product.
func (d *differ) paper(was, now *shop.Product, says []saying) []string {
	var out []string
	if a, b := d.old.checkWord(was.ID), d.new.checkWord(now.ID); a != b {
		out = append(out, fmt.Sprintf("card (check word %s, was %s)", b, a))
	}
	label, carton, ticket := false, cartonOf(was) != cartonOf(now), !slices.Equal(texts(was.About), texts(now.About))
	for _, s := range says {
		label, carton = label || s.printed(), carton || s.onCarton()
	}
	for _, k := range now.Packs {
		o, ok := was.Pack(k.ID.V)
		switch {
		case !ok:
			out = append(out, "new pack "+k.ID.V)
		default:
			label = label || o.GTIN.V != k.GTIN.V
			ticket = ticket || o.Price.V != k.Price.V
		}
	}
	for _, o := range was.Packs {
		if _, ok := now.Pack(o.ID.V); !ok {
			out = append(out, "pack "+o.ID.V+" taken out")
		}
	}
	if label {
		out = append(out, "labels")
	}
	if label || ticket {
		out = append(out, "tickets")
	}
	if now.Carton != nil && carton {
		out = append(out, "carton labels")
	}
	return out
}

// cartonOf is what only a carton label says.
func cartonOf(p *shop.Product) string {
	if p.Carton == nil {
		return ""
	}
	c := p.Carton
	return fmt.Sprint(c.Pack.V, c.Holds.V, c.GTIN.V, c.Tare.V)
}

// formulas tells of the cards of formulas that have changed.
func (d *differ) formulas() {
	for _, id := range both(d.old.Shop.FormulaIDs, d.new.Shop.FormulaIDs) {
		was, now := d.old.Shop.Formulas[id], d.new.Shop.Formulas[id]
		if was == nil || now == nil {
			d.changed()
			d.line("formula %s: %s", id, map[bool]string{true: "new", false: "taken out; take its cards down"}[was == nil])
			continue
		}
		if a, b := d.old.checkWord(id), d.new.checkWord(id); a != b {
			d.changed()
			d.line("formula %s", id)
			d.entry("  ", "touched", fmt.Sprintf("card (check word %s, was %s)", b, a))
			if was.Version.V == now.Version.V {
				d.item("  ", fmt.Sprintf("the card has changed, but its version is still %d: count it up", now.Version.V))
			}
		}
	}
}

// checkWord is the check word of the usual card of a product or formula.
func (p *Press) checkWord(id string) string {
	j, err := p.look(p.KindOf("card"), Request{}, id)
	if err != nil || j.Found.Errors() > 0 {
		return ""
	}
	return checkWord(j)
}

// approvals lists those that have fallen.
func (d *differ) approvals() {
	if d.fallen == nil {
		return
	}
	d.changed()
	d.line("%s: nothing of it may be printed for sale until it is approved again", counted(len(d.fallen), "approval falls", "approvals fall"))
	for _, f := range d.fallen {
		d.item("  ", f)
	}
}
