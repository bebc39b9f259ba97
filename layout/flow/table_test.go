package flow

import (
	"testing"

	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/text"
)

func TestTableIndent(t *testing.T) {
	p := pen(t)
	tab := Table{Cols: []Col{{W: 20 * unit.MM}, {Align: Right}}, Style: Style{Size: text.Hundredths(1000)},
		Rows: []Row{{Cells: []text.Para{note("fat"), note("3 g")}}, {Cells: []text.Para{note("of which"), note("1 g")}, Indent: 2 * unit.MM}}}
	if _, err := p.Table(page.Rect{X: unit.MM, W: 40 * unit.MM, H: 40 * unit.MM}, tab); err != nil {
		t.Fatal(err)
	}
	if got := p.Items[2].Box.X - p.Items[0].Box.X; got != 2*unit.MM {
		t.Errorf("the part stands %s further in, want 2 mm", got)
	}
	if a, b := p.Items[1].Box.Right(), p.Items[3].Box.Right(); a != b {
		t.Errorf("the figures end at %s and %s", a, b)
	}
}
