package card

import (
	"math"
	"strings"
	"testing"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
)

// TestSizesFollowDistance holds the sizes against published figures: heights
// of capitals for 20 minutes of arc (NUREG-0700, 1.3.1-4: H = 6.283 × D × MA ÷
// 21600) and 1/200 of the distance (FAA). Key figures and titles are seen from
// further away: 1 m and 2 m for a card read at 0.7 m (common practice, no
// source).
func TestSizesFollowDistance(t *testing.T) {
	for _, tc := range []struct {
		paper                   string
		small, body, key, title float64 // mm
	}{
		{"card-a4", 3.5, 4.07, 5.0, 7.0},
		{"card-letter", 3.5, 4.07, 5.0, 7.0},
		{"card-a4-landscape", 3.5, 4.07, 5.0, 7.0},
		{"card-a5", 2.5, 2.91, 3.57, 5.0},
		{"card-a3", 5.0, 5.82, 7.14, 10.0},
		{"card-a6", 2.0, 2.33, 2.86, 4.0},
	} {
		c := caps(layouttest.Paper(t, tc.paper))
		for _, v := range []struct {
			what string
			got  unit.Length
			want float64
		}{{"small", c.small, tc.small}, {"body", c.body, tc.body}, {"key", c.key, tc.key}, {"title", c.title, tc.title}} {
			if math.Abs(v.got.MM()-v.want) > 0.006 {
				t.Errorf("%s, %s: %.3f mm, want %.2f", tc.paper, v.what, v.got.MM(), v.want)
			}
		}
	}
}

// TestPoints holds the sizes in points against the published table for A4:
// 14 pt at 1/200 of 0.7 m and 16.1 pt for 20 minutes, for a face with capitals
// of 0.72 em; ours has 0.711 em, so its sizes are a little larger.
func TestPoints(t *testing.T) {
	z := sizesAt(layouttest.Paper(t, "card-a4"), layouttest.Faces(t))
	for _, v := range []struct {
		got, least, most float64
	}{{z.small.Pt(), 13.8, 14.2}, {z.body.Pt(), 16.1, 16.4}, {z.key.Pt(), 19.8, 20.2}, {z.title.Pt(), 27.8, 28.2}, {z.most.Pt(), 39, 40}} {
		if v.got < v.least || v.got > v.most {
			t.Errorf("%.2f pt, want %.1f to %.1f", v.got, v.least, v.most)
		}
	}
}

// TestEveryRun measures what stands on the pages: no capital under 1/200 of
// the distance, no temperature, limit or amount under 20 minutes of arc, no
// letter in a size that is not one of the card's.
func TestEveryRun(t *testing.T) {
	sh := layouttest.Shop(t)
	for _, id := range sh.ProductIDs {
		for _, on := range cardStocks(t) {
			c := cardOf(t, sh, id, on, "en")
			d := c.Stock.ReadAt.V
			arc20 := unit.Length(float64(d) * 20 * 2 * math.Pi / 21600)
			runs(composed(t, c), func(it page.Item) {
				least := d / 200
				switch it.Role {
				case role.Heat, role.Limit, role.Amount, role.Allergens:
					least = arc20
				case role.Name, role.Batch:
					least = d / 100
				}
				if it.Run.CapHeight < least-10 { // nanometres
					t.Errorf("%s on %s: %s %q has capitals of %.3f mm", id, on, it.Role, it.Run.Text, it.Run.CapHeight.MM())
				}
			})
		}
	}
}

// TestGreys: no words lighter than the contrast of 7 to 1 on white that WCAG 2
// asks at its strictest (1.4.6, from memory; #595959 is 7.005 to 1), no tint
// darker than 15 % behind them, no white on black.
func TestGreys(t *testing.T) {
	const darkest = 0x59
	for _, pg := range composed(t, cardOf(t, layouttest.Shop(t), "pistachio-choux", "card-a4", "en+fr")) {
		for _, it := range pg.All() {
			if it.Run != nil && it.Run.Gray > darkest {
				t.Errorf("%q is set in grey %d", it.Run.Text, it.Run.Gray)
			}
			s := it.Shape
			if s == nil || s.Kind != page.Filled || s.Gray >= 217 || it.Box.W < 2*unit.MM || it.Box.H < 2*unit.MM {
				continue
			}
			for _, other := range pg.All() {
				if other.Run != nil && other.Box.Overlaps(it.Box) {
					t.Errorf("%q stands on grey %d", other.Run.Text, s.Gray)
				}
			}
		}
	}
	if got := contrast(soft); got < 7 {
		t.Errorf("the grey of the second language has a contrast of %.2f to 1", got)
	}
}

// contrast of a grey on white by the formula of WCAG 2.
func contrast(gray uint8) float64 {
	c := float64(gray) / 255
	if c <= 0.04045 {
		c /= 12.92
	} else {
		c = math.Pow((c+0.055)/1.055, 2.4)
	}
	return 1.05 / (c + 0.05)
}

// TestPunchZone: nothing is printed where a card is punched to hang, 15 mm at
// the middle of the upper edge (common practice, no source).
func TestPunchZone(t *testing.T) {
	for _, on := range []string{"card-a4", "card-a4-landscape", "card-letter", "card-a3"} {
		for _, langs := range []string{"en", "fr+en"} {
			for i, pg := range composed(t, cardOf(t, layouttest.Shop(t), "bench-tin", on, langs)) {
				hole := page.Rect{X: pg.W/2 - punch/2, W: punch, H: punch}
				for _, it := range pg.All() {
					if it.Box.Overlaps(hole) {
						t.Errorf("%s page %d: %s %q is in the way of the hole", on, i+1, it.Role, it.Run.Text)
					}
				}
			}
		}
	}
}

// TestControl: every page says which card it is, which page of how many, and
// repeats the name and the batch.
func TestControl(t *testing.T) {
	c := cardOf(t, layouttest.Shop(t), "pear-hazelnut-tartlet", "card-a4", "en+fr")
	pages := composed(t, c)
	if len(pages) < 3 {
		t.Fatalf("%d pages", len(pages))
	}
	for i, pg := range pages {
		all := readAll([]*page.Page{pg})
		for _, s := range []string{"Pear and hazelnut tartlet", "48 pieces", "v4", "02.03.2026", "approved by Mara B.",
			"copy 1 of 3", "place", CheckWord(c), pageOf(i+1, len(pages))} {
			layouttest.Has(t, all, s)
		}
	}
	for _, s := range []string{"probe check", "ice water", "boiling water"} {
		layouttest.Has(t, readAll(pages[:1]), s)
	}
}

// TestPlace: a place that is not known leaves a line to write on, at least
// 8 mm high (common practice, no source).
func TestPlace(t *testing.T) {
	c := cardOf(t, layouttest.Shop(t), "craquelin", "card-a6", "en")
	empty := composed(t, c)
	c.Place = "oven wall"
	filled := composed(t, c)
	layouttest.Has(t, readAll(filled), "place oven wall")
	if strings.Contains(readAll(empty), "ovenwall") {
		t.Error("the place came from nowhere")
	}
	if a, b := footHeight(t, empty[0]), footHeight(t, filled[0]); a <= b {
		t.Errorf("the line to write on takes no room: %v and %v", a, b)
	}
}

// footHeight is how far above the lower edge the word "place" stands.
func footHeight(t *testing.T, pg *page.Page) unit.Length {
	t.Helper()
	var first unit.Length
	runs([]*page.Page{pg}, func(it page.Item) {
		if first == 0 && it.Run.Text == "v1" && it.Box.Y > pg.H/2 {
			first = pg.H - it.Box.Y
		}
	})
	if first == 0 {
		t.Fatal("no foot")
	}
	return first
}

// TestIconsHaveWords: a drawing never stands without its word beside it.
func TestIconsHaveWords(t *testing.T) {
	for _, pg := range composed(t, cardOf(t, layouttest.Shop(t), "pear-hazelnut-tartlet", "card-a4", "en")) {
		for _, it := range pg.All() {
			if it.Shape == nil || it.Role == role.Trim || it.Shape.Kind != page.Path || it.Box.W < 4*unit.MM {
				continue
			}
			near := page.Rect{X: it.Box.X, Y: it.Box.Y, W: 40 * unit.MM, H: it.Box.H + 6*unit.MM}
			found := false
			runs([]*page.Page{pg}, func(w page.Item) { found = found || w.Box.Overlaps(near) })
			if !found {
				t.Errorf("the icon at %v has no word", it.Box)
			}
		}
	}
}
