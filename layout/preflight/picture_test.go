package preflight_test

import (
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// A picture of 60 × 40 mm wants 355 × 237 pixels for 150 dots an inch: 60 ÷ 25.4
// × 150 = 354.3.
func TestPictures(t *testing.T) {
	halves := func(w, h int, dark byte) *page.Picture {
		p := &page.Picture{W: w, H: h, Gray: make([]byte, w*h), Digest: "d", Alt: []string{"a fold", "un pli"}}
		for i := range p.Gray {
			p.Gray[i] = 255
			if i%20 == 0 {
				p.Gray[i] = dark
			}
		}
		return p
	}
	food, _ := market.Get("eu")
	for _, c := range []struct {
		name   string
		pic    *page.Picture
		market *market.Market
		want   string
	}{
		{"good", halves(355, 237, 0), nil, ""},
		{"coarse", halves(300, 237, 0), nil, "127 dots an inch"},
		{"coarse in height", halves(355, 200, 0), nil, "dots an inch"},
		{"pale", halves(355, 237, 200), nil, "contrast"},
		{"without words", &page.Picture{W: 355, H: 237, Gray: halves(355, 237, 0).Gray}, nil, "cannot see it"},
		{"with words in one language", &page.Picture{W: 355, H: 237, Gray: halves(355, 237, 0).Gray, Alt: []string{"a fold", " "}}, nil, "cannot see it"},
		{"on what is sold", halves(355, 237, 0), food, "presents the food"},
	} {
		it := page.Item{Box: page.Rect{X: unit.MM, Y: unit.MM, W: 60 * unit.MM, H: 40 * unit.MM}, Role: role.Note, Picture: c.pic}
		var found diag.List
		preflight.Label(preflight.Sheet{What: "the card", Safe: page.Rect{W: 100 * unit.MM, H: 100 * unit.MM}, Market: c.market}, []page.Item{it}, &found)
		it.Role = role.Emblem
		preflight.Label(preflight.Sheet{What: "the emblem", Safe: page.Rect{W: 100 * unit.MM, H: 100 * unit.MM}, Market: c.market}, []page.Item{it}, &found)
		told := ""
		for _, d := range found.All() {
			if strings.HasPrefix(d.Msg, "the emblem") && d.Rule == "picture" {
				t.Errorf("%s: an emblem is judged as a picture of the food: %v", c.name, d)
			}
			if d.Rule == "picture" {
				told += d.Msg + "; "
			}
		}
		if c.want == "" && told != "" || !strings.Contains(told, c.want) {
			t.Errorf("%s: %q, want %q", c.name, told, c.want)
		}
	}
}
