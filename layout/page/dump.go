package page

import (
	"fmt"
	"strings"

	"chablon/labels/unit"
)

// Dump writes the page as text, one line a mark: box in mm, role, and what it
// is. It is what golden tests compare and reviewers read.
func (p *Page) Dump() string {
	var b strings.Builder
	fmt.Fprintf(&b, "page %s × %s\n", mm(p.W), mm(p.H))
	for _, it := range p.All() {
		fmt.Fprintf(&b, "%s %-9s %s%s\n", box(it.Box), it.Role, it.what(), it.part())
	}
	return b.String()
}

func (it Item) what() string {
	switch {
	case it.Run != nil:
		return fmt.Sprintf("%s x=%s base=%s %q", it.Run.Face, mm(it.Run.XHeight), mm(it.Run.Baseline), it.Run.Text)
	case it.Symbol != nil:
		return fmt.Sprintf("%s X=%s %dx%d %q", it.Symbol.Kind, mm(it.Symbol.Module), it.Symbol.Cols, it.Symbol.Rows, it.Symbol.Data)
	case it.Shape != nil:
		return fmt.Sprintf("%s gray=%d stroke=%s", [...]string{"filled", "outlined", "hatched", "path"}[it.Shape.Kind], it.Shape.Gray, mm(it.Shape.Stroke))
	}
	if p := it.Picture; p != nil {
		return fmt.Sprintf("picture %dx%d %q", p.W, p.H, p.Alt)
	}
	return "nothing"
}

// part is the part of a panel that it is, after a space, or "".
func (it Item) part() string {
	if it.Panel == nil {
		return ""
	}
	return " " + it.Panel.String()
}

func box(r Rect) string {
	return fmt.Sprintf("[%7s %7s %7s %7s]", mm(r.X), mm(r.Y), mm(r.W), mm(r.H))
}

func mm(l unit.Length) string { return fmt.Sprintf("%.2f", l.MM()) }
