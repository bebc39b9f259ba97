package stock_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/preflight"
	"chablon/layout/stock"
)

// printers are the finenesses that label and office printers have.
func printers() []unit.Dots {
	return []unit.Dots{{}, {N: 8, Per: unit.MM}, {N: 12, Per: unit.MM}, {N: 203, Per: unit.Inch}, {N: 300, Per: unit.Inch},
		{N: 600, Per: unit.Inch}, {N: 1200, Per: unit.Inch}}
}

func get(t testing.TB, id string) *stock.Stock {
	t.Helper()
	s, ok := stock.Get(id)
	if !ok {
		t.Fatalf("no stock %q", id)
	}
	return s
}

// stamped is a run of labels that each bear one mark in their corner.
func stamped(s *stock.Stock, n int) stock.Imposition {
	w, h := s.Size()
	art := &page.Art{W: w, H: h}
	return stock.Imposition{Stock: s, Count: n, Label: func(serial int) (*page.Art, []page.Item) {
		at := page.Rect{X: s.Safe.V, Y: s.Safe.V, W: unit.MM, H: unit.MM}
		return art, []page.Item{{Role: role.Serial, Box: at, Run: &page.Run{Text: fmt.Sprint(serial)}}}
	}}
}

// TestEverySheetPrints: on every stock and at every fineness, full sheets,
// sheets of which a part is used up and sheets with places to skip pass
// preflight, also when the printer feeds the paper a little off; each label
// lies within a dot of its place, on a whole dot.
func TestEverySheetPrints(t *testing.T) {
	for _, id := range stock.IDs() {
		s := get(t, id)
		places := s.Places()
		for _, dots := range printers() {
			for _, off := range []unit.Length{0, 700 * unit.UM, -1300 * unit.UM} {
				for _, im := range []stock.Imposition{{Count: places}, {Count: 2*places + 1}, {Count: places, First: (places + 1) / 2},
					{Count: places, First: places}, {Count: 3 * places, Skip: skipped(places)}} {
					run := stamped(s, im.Count)
					run.First, run.Skip, run.Bed = im.First, im.Skip, stock.Bed{Dots: dots, Right: off, Down: -off}
					if err := run.Check(); err != nil {
						t.Fatal(err)
					}
					lies(t, run, fmt.Sprintf("%s at %s, moved by %s, %d from place %d without %v", id, dots, off, run.Count, run.First, run.Skip))
				}
			}
		}
	}
}

// skipped is every third place from the second on.
func skipped(places int) (out []int) {
	for i := 2; i <= places; i += 3 {
		out = append(out, i)
	}
	return out
}

func lies(t *testing.T, run stock.Imposition, what string) {
	t.Helper()
	w, h := run.Stock.Size()
	sheet := preflight.Sheet{What: what, Safe: page.Rect{W: w, H: h}.Inset(run.Stock.Safe.V), Dots: run.Bed.Dots}
	var found diag.List
	for _, pg := range slices.Collect(run.Pages(0, run.Sheets())) {
		preflight.Placed(sheet, pg, &found)
		for _, a := range pg.Placed {
			if x, y := run.Bed.Dots.Snap(a.X), run.Bed.Dots.Snap(a.Y); x != a.X || y != a.Y {
				t.Errorf("%s: a label lies at %s, %s", what, a.X, a.Y)
			}
			near := func(i int) bool {
				r := run.Stock.Place(i).Moved(run.Bed.Right, run.Bed.Down)
				return max(r.X-a.X, a.X-r.X, r.Y-a.Y, a.Y-r.Y) <= run.Bed.Dots.At(1)
			}
			if !slices.ContainsFunc(indices(run.Stock.Places()), near) {
				t.Errorf("%s: a label lies at %s, %s, where there is no place", what, a.X, a.Y)
			}
		}
	}
	if found.Len() > 0 {
		t.Error(found.All()[0])
	}
}

func indices(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// TestImposition: whatever the place to begin at and the places to skip, the
// labels come in order, none twice and none left out, the first sheet keeps its
// used places empty, and only the last sheet is not full.
func TestImposition(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s, _ := stock.Get(rapid.SampledFrom([]string{"a4-8", "a4-6", "a4-ticket-4", "roll-100x60", "card-a4"}).Draw(r, "stock"))
		run := stamped(s, rapid.IntRange(0, 40).Draw(r, "labels"))
		run.Serial = rapid.IntRange(0, 9000).Draw(r, "serial")
		run.First = rapid.IntRange(0, s.Places()).Draw(r, "first")
		run.Skip = rapid.SliceOfN(rapid.IntRange(1, s.Places()), 0, 4).Draw(r, "skip")
		if run.Check() != nil {
			return // no place is free
		}
		pages, next := slices.Collect(run.Pages(0, run.Sheets())), max(1, run.Serial)
		if len(pages) != run.Sheets() {
			r.Fatalf("%d sheets made, %d counted", len(pages), run.Sheets())
		}
		for i, pg := range pages {
			if len(pg.Placed) == 0 || len(pg.Items) != len(pg.Placed) || 0 < i && i < len(pages)-1 && len(pg.Placed) != s.Places() {
				r.Fatalf("sheet %d has %d labels with %d marks", i, len(pg.Placed), len(pg.Items))
			}
			for k, a := range pg.Placed {
				place := slices.IndexFunc(indices(s.Places()), func(n int) bool { return s.Place(n).X == a.X && s.Place(n).Y == a.Y }) + 1
				if place == 0 || i == 0 && (place < run.First || slices.Contains(run.Skip, place)) {
					r.Fatalf("a label lies on place %d of the sheet %d", place, i)
				}
				if it := pg.Items[k]; it.Run.Text != fmt.Sprint(next) || it.Box.X != a.X+s.Safe.V || it.Box.Y != a.Y+s.Safe.V {
					r.Fatalf("label %s at %v, want %d", it.Run.Text, it.Box, next)
				}
				next++
			}
		}
		if got := next - max(1, run.Serial); got != run.Count {
			r.Fatalf("%d labels dealt, %d asked for", got, run.Count)
		}
	})
}

// TestNoSuchPlace: a place that the sheet does not have, or none that is free.
func TestNoSuchPlace(t *testing.T) {
	for _, c := range []struct {
		im   stock.Imposition
		want string
	}{
		{stock.Imposition{}, ""},
		{stock.Imposition{First: 8, Skip: []int{1, 2}}, ""},
		{stock.Imposition{First: 9}, "there is no place 9 on a4-8, which has the places 1 to 8"},
		{stock.Imposition{Skip: []int{3, 0}}, "there is no place 0 on a4-8"},
		{stock.Imposition{Skip: []int{-1}}, "there is no place -1 on a4-8"},
		{stock.Imposition{First: 7, Skip: []int{7, 8}}, "no place of the first sheet of a4-8 is free"},
	} {
		c.im.Stock = get(t, "a4-8")
		err := c.im.Check()
		var place *stock.PlaceError
		if c.want == "" && err != nil || c.want != "" && (!errors.As(err, &place) || len(err.Error()) < len(c.want) || err.Error()[:len(c.want)] != c.want) {
			t.Errorf("%+v: %v, want %q", c.im, err, c.want)
		}
	}
}

// Seven labels from a sheet of which the first three places are used up.
func ExampleImposition() {
	a4, _ := stock.Get("a4-8")
	run := stamped(a4, 7)
	run.First, run.Serial = 4, 101
	for pg := range run.Pages(0, run.Sheets()) {
		for i, a := range pg.Placed {
			fmt.Println(pg.Items[i].Run.Text, "at", a.X, "from the left,", a.Y, "from the top")
		}
		fmt.Println("next sheet")
	}
	// Output:
	// 101 at 106.25 mm from the left, 80.8 mm from the top
	// 102 at 4.65 mm from the left, 148.5 mm from the top
	// 103 at 106.25 mm from the left, 148.5 mm from the top
	// 104 at 4.65 mm from the left, 216.2 mm from the top
	// 105 at 106.25 mm from the left, 216.2 mm from the top
	// next sheet
	// 106 at 4.65 mm from the left, 13.1 mm from the top
	// 107 at 106.25 mm from the left, 13.1 mm from the top
	// next sheet
}

// TestMap: the map shows what the finished sheet bears, place by place, and the
// place that is named as left is the first that the last sheet does not use.
func TestMap(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s, _ := stock.Get(rapid.SampledFrom([]string{"a4-8", "a4-6", "a4-ticket-4", "a4-2"}).Draw(r, "stock"))
		run := stamped(s, rapid.IntRange(1, 20).Draw(r, "labels"))
		run.First = rapid.IntRange(0, s.Places()).Draw(r, "first")
		run.Skip = rapid.SliceOfN(rapid.IntRange(1, s.Places()), 0, 3).Draw(r, "skip")
		if run.Check() != nil {
			return
		}
		pages := slices.Collect(run.Pages(0, run.Sheets()))
		on := func(pg *page.Page, i int) string {
			for k, a := range pg.Placed {
				if a.X == s.Place(i).X && a.Y == s.Place(i).Y {
					return pg.Items[k].Run.Text
				}
			}
			return ""
		}
		fields := strings.Fields(strings.Join(run.Map(), " "))
		if (len(fields) == 0) != (run.First <= 1 && len(run.Skip) == 0) {
			r.Fatalf("a map of %d places", len(fields))
		}
		for i, f := range fields {
			if got := on(pages[0], i); got != strings.Trim(f, "-x.") || f == "-" && i+1 >= run.First || f == "x" && !slices.Contains(run.Skip, i+1) {
				r.Fatalf("place %d bears %q and the map says %q", i+1, got, f)
			}
		}
		last, left := pages[len(pages)-1], run.Left()
		for i := range s.Places() {
			if bears := on(last, i) != ""; bears && left > 0 && i+1 >= left || left == i+1 && bears {
				r.Fatalf("place %d is said to be left", left)
			}
		}
		if left == 0 && on(last, s.Places()-1) == "" && !slices.Contains(run.Skip, s.Places()) {
			r.Fatal("the last place is left and not told")
		}
	})
}

// Seven labels from the third place of a used sheet on, without the damaged fifth.
func ExampleImposition_Map() {
	a4, _ := stock.Get("a4-8")
	for _, row := range (stock.Imposition{Stock: a4, Count: 7, First: 3, Skip: []int{5}}).Map() {
		fmt.Println(row)
	}
	// Output:
	// -  -
	// 1  2
	// x  3
	// 4  5
}
