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
	was, now map[string]drawn
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
	if !d.any {
		return "", nil // the same files give the same paper
	}
	if err := d.draw(); err != nil || old.Found.Errors()+new.Found.Errors() > 0 {
		return "", err
	}
	for _, id := range both(old.Shop.ProductIDs, new.Shop.ProductIDs) {
		if err := d.product(id); err != nil {
			return "", err
		}
	}
	d.formulas()
	d.plans()
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
	paper, anew := d.touched(id)
	paper = append(paper, packChanges(was, now)...)
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
	if anew && was.Version.V == now.Version.V {
		d.item("  ", fmt.Sprintf("the card has changed, but its version is still %d: count it up", now.Version.V))
	}
	for _, s := range says {
		d.tell(s)
	}
	return nil
}

// draw sets all paper of both states.
func (d *differ) draw() (err error) {
	if d.was, err = d.old.drawings(); err == nil {
		d.now, err = d.new.drawings()
	}
	return err
}

// packChanges names the packs that have come and gone.
func packChanges(was, now *shop.Product) (out []string) {
	for _, k := range now.Packs {
		if _, ok := was.Pack(k.ID.V); !ok {
			out = append(out, "new pack "+k.ID.V)
		}
	}
	for _, o := range was.Packs {
		if _, ok := now.Pack(o.ID.V); !ok {
			out = append(out, "pack "+o.ID.V+" taken out")
		}
	}
	return out
}

// formulas tells of the paper of formulas that has changed.
func (d *differ) formulas() {
	for _, id := range both(d.old.Shop.FormulaIDs, d.new.Shop.FormulaIDs) {
		was, now := d.old.Shop.Formulas[id], d.new.Shop.Formulas[id]
		if was == nil || now == nil {
			d.changed()
			d.line("formula %s: %s", id, map[bool]string{true: "new", false: "taken out; take its cards down"}[was == nil])
			continue
		}
		paper, anew := d.touched(id)
		if len(paper) == 0 {
			continue
		}
		d.changed()
		d.line("formula %s", id)
		d.entry("  ", "touched", strings.Join(paper, ", "))
		if anew && was.Version.V == now.Version.V {
			d.item("  ", fmt.Sprintf("the card has changed, but its version is still %d: count it up", now.Version.V))
		}
	}
}

// plans tells of the paper of whole days that has changed.
func (d *differ) plans() {
	for _, plan := range d.new.Shop.Plans {
		if paper, _ := d.touched("plan " + plan.ID); len(paper) > 0 {
			d.changed()
			d.line("plan %s", plan.ID)
			d.entry("  ", "touched", strings.Join(paper, ", "))
		}
	}
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
