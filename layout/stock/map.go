package stock

import (
	"fmt"
	"slices"
	"strings"
)

// Map is the first sheet as rows of places, as it lies before whoever puts it
// into the printer: the number of the label in the run, "-" for a place before
// the first, "x" for one to leave empty, "." for one behind the last label. It
// is nil where the whole sheet is printed from its first place on.
func (im Imposition) Map() (rows []string) {
	g := im.Stock.Labels
	if g == nil || max(1, im.First) == 1 && len(im.Skip) == 0 {
		return nil
	}
	wide, n := len(fmt.Sprint(min(im.Count, im.Stock.Places()))), 0
	for y := range int(g.Down.V) {
		var row []string
		for x := range int(g.Across.V) {
			what := im.at(y*int(g.Across.V)+x+1, &n)
			row = append(row, fmt.Sprintf("%*s", wide, what))
		}
		rows = append(rows, strings.Join(row, "  "))
	}
	return rows
}

// at is what lies on a place of the first sheet, from 1; n counts the labels.
func (im Imposition) at(place int, n *int) string {
	switch {
	case place < im.First:
		return "-"
	case slices.Contains(im.Skip, place):
		return "x"
	case *n >= im.Count:
		return "."
	}
	*n++
	return fmt.Sprint(*n)
}

// Left is the first place of the last sheet that is still free behind the run;
// 0 where none is, or where the stock has one place alone.
func (im Imposition) Left() int {
	sheets, places := im.Sheets(), im.Stock.Places()
	if sheets == 0 || places == 1 {
		return 0
	}
	free := im.free()
	if sheets == 1 {
		if im.Count == len(free) {
			return 0
		}
		return free[im.Count] + 1
	}
	used := im.Count - len(free) - (sheets-2)*places
	if used == places {
		return 0
	}
	return used + 1
}
