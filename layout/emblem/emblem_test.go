package emblem_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/emblem"
	"chablon/layout/page"
)

const mm = unit.MM

func read(t testing.TB, name string) *emblem.Emblem {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return whole(t, data)
}

// whole reads an emblem in which nothing may be wrong.
func whole(t testing.TB, data []byte) *emblem.Emblem {
	t.Helper()
	var found diag.List
	e := emblem.Read("mark", data, &found)
	if e == nil || found.Len() > 0 {
		t.Fatal(found.All())
	}
	return e
}

func burns(n int64, per unit.Length) emblem.Way {
	return emblem.Way{Dots: unit.Dots{N: n, Per: per}, Thermal: true}
}

func fits(e *emblem.Emblem, size unit.Length, way emblem.Way) []diag.Diag {
	var found diag.List
	e.Check(e.Within(page.Rect{X: 2 * mm, Y: 2 * mm, W: size, H: size}, way.Dots), way, diag.Pos{File: "brand.yaml", Line: 1, Col: 7}, &found)
	return found.All()
}

// TestMarks: from which size on the two drawings of the demo shop can be
// printed is worked out from their narrowest gap (3.5 and 7.5 of 96 units,
// which must be three dots) and must be what the dots themselves show, to a
// tenth: 10.3, 6.9 and 3.5 mm, and 4.8, 3.2 and 1.6 mm.
func TestMarks(t *testing.T) {
	for _, c := range []struct {
		name string
		gap  float64
		n    int64
		per  unit.Length
	}{
		{"mark.svg", 3.5, 8, mm}, {"mark.svg", 3.5, 12, mm}, {"mark.svg", 3.5, 600, unit.Inch},
		{"mark-small.svg", 7.5, 8, mm}, {"mark-small.svg", 7.5, 12, mm}, {"mark-small.svg", 7.5, 600, unit.Inch},
	} {
		e, way := read(t, c.name), burns(c.n, c.per)
		least := unit.Length(3 * 96 / c.gap * float64(way.Dots.At(1)))
		for _, f := range []int64{110, 120, 150, 200, 300} {
			if d := fits(e, least*unit.Length(f)/100, way); len(d) > 0 {
				t.Errorf("%s at %v, %.2f mm: %v", c.name, way.Dots, (least * unit.Length(f) / 100).MM(), d)
			}
		}
		if d := fits(e, least*7/10, way); len(d) == 0 || d[0].Rule != "emblem-fine" || !strings.Contains(d[0].Hint, "logo-small") {
			t.Errorf("%s at %v, %.2f mm is fine enough: %v", c.name, way.Dots, (least * 7 / 10).MM(), d)
		}
	}
}

// svg is a small drawing with one path.
func svg(d string) string { return `<svg viewBox="0 0 96 96"><path d="` + d + `"/></svg>` }

// TestRefused: whatever is not a path of absolute moves, lines and curves is
// refused where it stands; letters, elements and attributes are those of SVG 2.
func TestRefused(t *testing.T) {
	const box = "M0 0L96 0L96 96Z"
	for _, c := range []struct{ what, in, at, say string }{
		{"script", "<svg viewBox=\"0 0 9 9\">\n  <script>alert(1)</script>" + "</svg>", "2:3", "<script>"},
		{"link", `<svg viewBox="0 0 9 9"><a href="https://label.example"><path d="M0 0"/></a></svg>`, "1:24", "<a>"},
		{"reference", `<svg viewBox="0 0 9 9"><use href="#x"/></svg>`, "1:24", "<use>"},
		{"picture", `<svg viewBox="0 0 9 9"><image href="x.png"/></svg>`, "1:24", "<image>"},
		{"text", `<svg viewBox="0 0 9 9"><text>Quoin</text></svg>`, "1:24", "<text>"},
		{"loose text", `<svg viewBox="0 0 9 9">Quoin</svg>`, "1:24", "text outside"},
		{"style", `<svg viewBox="0 0 9 9"><style>path{}</style></svg>`, "1:24", "<style>"},
		{"style of a path", `<svg viewBox="0 0 9 9"><path style="fill:red" d="M0 0"/></svg>`, "1:24", "style"},
		{"group", `<svg viewBox="0 0 9 9"><g><path d="M0 0"/></g></svg>`, "1:24", "<g>"},
		{"stroke", `<svg viewBox="0 0 9 9"><path stroke="black" d="M0 0L9 9"/></svg>`, "1:24", "stroke"},
		{"transform", `<svg viewBox="0 0 9 9"><path transform="scale(2)" d="M0 0L9 9"/></svg>`, "1:24", "transform"},
		{"event", `<svg viewBox="0 0 9 9" onload="x()"><path d="M0 0L9 9"/></svg>`, "1:1", "onload"},
		{"colour", `<svg viewBox="0 0 9 9"><path fill="#f00" d="M0 0L9 9L0 9Z"/></svg>`, "1:24", "only colour"},
		{"rule", `<svg viewBox="0 0 9 9"><path fill-rule="evenodd" d="M0 0L9 9L0 9Z"/></svg>`, "1:24", "evenodd"},
		{"document type", "<!DOCTYPE svg [<!ENTITY a \"b\">]>\n" + svg(box), "1:1", "document type"},
		{"entity", `<svg viewBox="0 0 9 9"><title>&quoin;</title></svg>`, "1:38", "entity"},
		{"entity in a path", svg("M0 0&#76;9 9"), "1:39", `"&" is not read`},
		{"style sheet", `<?xml-stylesheet href="x.css"?>` + svg(box), "1:1", "xml-stylesheet"},
		{"other space", `<svg xmlns:x="urn:x" viewBox="0 0 9 9"><x:path d="M0 0"/></svg>`, "1:1", "x"},
		{"arc", svg("M0 0A9 9 0 0 1 9 9"), "1:39", `"A" is not read`},
		{"relative", svg("M0 0l9 9"), "1:39", `"l" is not read`},
		{"lying line", svg("M0 0H9"), "1:39", `"H" is not read`},
		{"no move", svg("L9 9"), "1:35", "begins with M"},
		{"no number", svg("M0 0L9"), "1:41", "a number"},
		{"two commas", svg("M0,,0"), "1:38", "a number"},
		{"not a number", svg("M0 NaN"), "1:38", "a number"},
		{"huge", svg("M0 1e300"), "1:38", "a number"},
		{"a long number", svg("M0 0.1111111111111111111111111"), "1:38", "a number"},
		{"outside", svg("M0 0L97 0L0 9Z"), "1:1", "beyond its viewBox"},
		{"a curve outside", svg("M0 0C0 200 96 200 96 0Z"), "1:1", "beyond its viewBox"},
		{"no viewBox", `<svg width="9mm"><path d="M0 0L9 9L0 9Z"/></svg>`, "1:1", "viewBox"},
		{"an empty viewBox", `<svg viewBox="0 0 0 9"><path d="M0 0"/></svg>`, "1:15", "viewBox"},
		{"a stripe", `<svg viewBox="0 0 1 99"><path d="M0 0"/></svg>`, "1:15", "viewBox"},
		{"nothing", `<svg viewBox="0 0 9 9"/>`, "1:1", "no path"},
		{"cut short", `<svg viewBox="0 0 9 9"><path d="M0 0`, "1:37", "cannot be read"},
		{"never closed", `<svg viewBox="0 0 9 9"><path d="M0 0L9 9L0 9Z"/>`, "1:49", "cannot be read"},
		{"two", svg(box) + svg(box), "1:60", "<svg>"},
		{"one in the other", `<svg viewBox="0 0 9 9"><svg viewBox="0 0 9 9"/></svg>`, "1:24", "<svg>"},
		{"a page", `<html/>`, "1:1", "begins with <html>"},
		{"a photograph", "\xff\xd8\xff\xe0JFIF", "1:1", "neither"},
		{"an empty file", "", "1:1", "neither"},
		{"other letters", `<?xml version="1.0" encoding="UTF-16"?>` + svg(box), "1:1", "neither"},
		{"many steps", svg("M0 0" + strings.Repeat("L9 9", emblem.MaxSteps)), "1:8039", "more than 2000 steps"},
		{"a million steps", svg("M0 0" + strings.Repeat("L9 9", 1e6)), "", "more than 64 kB"},
		{"laughter", "<!DOCTYPE x [" + strings.Repeat(`<!ENTITY a "&a;&a;">`, 500) + "]>" + svg(box), "1:1", "document type"},
		{"a well", "<svg viewBox=\"0 0 9 9\">" + strings.Repeat("<g>", 20_000), "1:24", "<g>"},
	} {
		var found diag.List
		e := emblem.Read("mark.svg", []byte(c.in), &found)
		got := found.All()
		if e != nil || len(got) == 0 || len(got) > 21 {
			t.Errorf("%s: taken, or told %d times", c.what, len(got))
			continue
		}
		if want := strings.TrimSuffix("mark.svg:"+c.at, ":"); got[0].Pos.String() != want || !strings.Contains(got[0].Msg, c.say) || got[0].Hint == "" || got[0].Warning {
			t.Errorf("%s: %v; want it at %s with %q", c.what, got[0], want, c.say)
		}
	}
}

// TestTaken: what SVG allows of a path that is taken: numbers that follow each
// other without a letter, signs and points that part them, comments.
func TestTaken(t *testing.T) {
	for in, want := range map[string]string{
		svg("M0,0 L96 0 96,96Z"):                                     "MLLZ",
		svg(" M 1e1 +1.5-0 3L.5.5,0 90 Z "):                          "MLLLZ",
		svg("M0 0 9 9 0 9ZL9 0Z"):                                    "MLLZMLZ",
		svg("M0 0C0 9 9 9 9 0 9 9 0 9 0 0"):                          "MCC",
		"<?xml version=\"1.0\"?><!-- x -->\n" + svg("M0 0L9 9L0 9Z"): "MLLZ",
		`<svg viewBox="-9 -9 18 18" fill="#000" xmlns="http://www.w3.org/2000/svg"><title>A &amp; B</title><path fill="Black" d="M-9 -9L9 9L0 9Z"/></svg>`: "MLLZ",
	} {
		e, got := whole(t, []byte(in)), ""
		for _, s := range e.Steps {
			got += string(s.Op)
		}
		if got != want {
			t.Errorf("%s: %s, want %s", in, got, want)
		}
	}
	twice := whole(t, []byte(svg("M0 0.25C0 9 9 9.5 9 0Z")))
	if d, w, h := twice.Data(); d != "M0 0.25C0 9 9 9.5 9 0Z" || w != "96" || h != "96" {
		t.Errorf("read, and written again: %s in %s × %s", d, w, h)
	}
	e := whole(t, []byte(`<svg viewBox="-9 -9 18 9"><title>A &amp; B</title><path d="M-9 -9L9 0L0 0Z"/></svg>`))
	if e.Title != "A & B" || e.Steps[0].Pts[0] != (page.Pt{}) || e.W != 18e6 || e.H != 9e6 {
		t.Errorf("read as %+v", e)
	}
}

func asPNG(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// grid is a picture of n × n pixels, of one grey where at says so.
func grid(n int, at func(x, y int) uint8) *image.Gray {
	img := image.NewGray(image.Rect(0, 0, n, n))
	for i := range img.Pix {
		img.Pix[i] = at(i%n, i/n)
	}
	return img
}

// claims is a PNG whose head says that it is so large, and which holds nothing.
func claims(w, h uint32) []byte {
	head := append([]byte("IHDR"), make([]byte, 13)...)
	binary.BigEndian.PutUint32(head[4:], w)
	binary.BigEndian.PutUint32(head[8:], h)
	head[12] = 1
	out := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d"), head...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(head))
}

// TestPictureRefused: pictures that are too large by what their head says, that
// have colours, or cannot be read.
func TestPictureRefused(t *testing.T) {
	colour := image.NewNRGBA(image.Rect(0, 0, 9, 9))
	colour.SetNRGBA(3, 3, color.NRGBA{200, 0, 0, 255})
	full := asPNG(t, grid(60, func(x, y int) uint8 { return uint8(x * y) }))
	for what, c := range map[string]struct {
		in  []byte
		say string
	}{
		"a bomb":        {claims(65_000, 65_000), "65000 × 65000 pixels"},
		"a larger bomb": {claims(1<<31-1, 1<<31-1), "cannot be read"},
		"a broad bomb":  {claims(1<<31-1, 1), "pixels"},
		"no pixel":      {claims(0, 9), "cannot be read"},
		"a stripe":      {claims(900, 9), "a stripe"},
		"an empty one":  {claims(9, 9), "cannot be read"},
		"cut short":     {full[:len(full)/2], "cannot be read"},
		"a large file":  {append(full, make([]byte, emblem.MaxPNG)...), "more than 1 MB"},
		"colours":       {asPNG(t, colour), "has colours"},
		"white":         {asPNG(t, grid(9, func(x, y int) uint8 { return 255 })), "nothing that is black"},
		"transparent":   {asPNG(t, image.NewNRGBA(image.Rect(0, 0, 9, 9))), "nothing that is black"},
		"eight letters": {[]byte("\x89PNG\r\n\x1a\n"), "cannot be read"},
	} {
		var found diag.List
		e := emblem.Read("mark.png", c.in, &found)
		if got := found.All(); e != nil || len(got) != 1 || !strings.Contains(got[0].Msg, c.say) || got[0].Hint == "" {
			t.Errorf("%s: %v", what, got)
		}
	}
}

// TestOneBit: at the printer's dots a picture is black where half of what lies
// under a dot is, whatever its own pixels are; what is transparent is white.
func TestOneBit(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 960, 960)) // 96 dots of 10 pixels
	for y := range 960 {
		for x := range 960 {
			switch {
			case x < 300:
				img.SetNRGBA(x, y, color.NRGBA{0, 0, 0, 255})
			case x >= 605 && x < 905, x >= 940 && y < 304: // half a dot over
				img.SetNRGBA(x, y, color.NRGBA{0, 0, 0, 255})
			case x >= 500 && x < 550:
				img.SetNRGBA(x, y, color.NRGBA{0, 0, 0, 100}) // 61 % of white paper
			}
		}
	}
	e := whole(t, asPNG(t, img))
	way := burns(8, mm)
	p := e.Item(page.Rect{X: mm, Y: mm, W: 12 * mm, H: 12 * mm}, way).Picture
	if p.W != 96 || p.H != 96 {
		t.Fatalf("%d × %d dots, want 96", p.W, p.H)
	}
	for x, want := range map[int]byte{0: 0, 29: 0, 30: 255, 52: 255, 60: 0, 61: 0, 89: 0, 90: 0, 91: 255, 93: 255, 94: 0, 95: 0} {
		if p.Gray[x] != want {
			t.Errorf("dot %d is %d, want %d", x, p.Gray[x], want)
		}
	}
	if p.Gray[29*96+95] != 0 || p.Gray[31*96+95] != 255 {
		t.Error("the corner ends elsewhere")
	}
	if q := e.Item(page.Rect{W: 12 * mm, H: 12 * mm}, emblem.Way{Dots: way.Dots}).Picture; q.W != 960 || q.Gray[520] != 255-100 {
		t.Errorf("a printer that knows greys is given %d × %d, %d", q.W, q.H, q.Gray[520])
	}
}

// TestTones: patterns of dots are as dark as the grey, each sixteenth; they
// are made on fine printers and large emblems alone.
func TestTones(t *testing.T) {
	for g := 0; g < 256; g += 15 {
		e := whole(t, asPNG(t, grid(600, func(x, y int) uint8 {
			if x < 8 {
				return 0
			}
			return uint8(g)
		})))
		dots := func(n int64, side unit.Length) (dark, all int) {
			way := burns(n, mm)
			way.Tones = true
			p := e.Item(page.Rect{W: side, H: side}, way).Picture
			for y := range p.H {
				for x := p.W / 3 / 4 * 4; x < p.W/4*4; x++ {
					all++
					if p.Gray[y*p.W+x] == 0 {
						dark++
					}
				}
			}
			return dark, all
		}
		dark, all := dots(12, 12*mm)
		if off := dark*16*255 - all*16*(255-g); off > all*255/2+all*16 || off < -all*255/2-all*16 {
			t.Errorf("grey %d: %d of %d dots are black", g, dark, all)
		}
		for _, c := range []struct {
			n    int64
			side unit.Length
		}{{8, 12 * mm}, {12, 11 * mm}} {
			if dark, all := dots(c.n, c.side); dark != 0 && dark != all {
				t.Errorf("grey %d at %d per mm, %s: %d of %d", g, c.n, c.side, dark, all)
			}
		}
	}
}

// TestFine: strokes and gaps of a dot less than can be drawn are told with
// their place; of just as many they are not.
func TestFine(t *testing.T) {
	stripe := func(black bool, wide int) *emblem.Emblem { // 60 dots of 5 pixels
		return whole(t, asPNG(t, grid(300, func(x, y int) uint8 {
			in := x/5 >= 20 && x/5 < 20+wide && y/5 >= 10 && y/5 < 50
			around := x/5 >= 5 && x/5 < 40 && y/5 >= 5 && y/5 < 55
			if in && black || around && !in && !black {
				return 0
			}
			return 255
		})))
	}
	for _, c := range []struct {
		black bool
		wide  int
		say   string
	}{{true, 1, "a stroke at 2.5 mm from its left and 3.8 mm from its top"}, {true, 2, ""}, {false, 1, "a gap at 2.5 mm"}, {false, 2, "a gap"}, {false, 3, ""}} {
		e := stripe(c.black, c.wide)
		box := page.Rect{W: 7500 * unit.UM, H: 7500 * unit.UM}
		var found diag.List
		e.Check(box, burns(8, mm), diag.Pos{File: "brand.yaml"}, &found)
		if got := fmt.Sprint(emblemFine(&found)); (c.say == "") != (got == "[]") || !strings.Contains(got, c.say) {
			t.Errorf("%v: %v", c, found.All())
		}
	}
}

// emblemFine are the findings about strokes and gaps.
func emblemFine(found *diag.List) (out []string) {
	for _, d := range found.All() {
		if d.Rule == "emblem-fine" {
			out = append(out, d.Msg)
		}
	}
	return out
}

// TestSpeck: a dot that stands alone, or a hole of two, is told too: it vanishes.
func TestSpeck(t *testing.T) {
	for _, c := range []struct {
		in  func(x, y int) bool
		say string
	}{
		{func(x, y int) bool { return x < 20 && y < 20 || x == 40 && y == 40 }, "a stroke at 5.0 mm"},
		{func(x, y int) bool { return x < 20 && y < 20 && !(x/2 == 5 && y/2 == 5) }, "a gap at 1.4 mm"},
		{func(x, y int) bool { return x < 20 && y < 20 || x > 30 && x+y < 60 }, ""},
	} {
		e := whole(t, asPNG(t, grid(300, func(x, y int) uint8 {
			if c.in(x/5, y/5) {
				return 0
			}
			return 255
		})))
		var found diag.List
		e.Check(page.Rect{W: 7500 * unit.UM, H: 7500 * unit.UM}, burns(8, mm), diag.Pos{File: "brand.yaml"}, &found)
		if got := fmt.Sprint(emblemFine(&found)); (c.say == "") != (got == "[]") || !strings.Contains(got, c.say) {
			t.Errorf("want %q: %v", c.say, found.All())
		}
	}
}

// TestPixels: 600 pixels an inch are needed at the size that is printed.
func TestPixels(t *testing.T) {
	e := whole(t, asPNG(t, grid(240, func(x, y int) uint8 { return uint8(x / 120 * 255) })))
	if d := fits(e, 10*mm, burns(8, mm)); len(d) != 0 {
		t.Errorf("240 pixels on 10 mm are 610 an inch: %v", d)
	}
	if d := fits(e, 11*mm, burns(8, mm)); len(d) != 1 || !strings.Contains(d[0].Msg, "554 pixels an inch") || !strings.Contains(d[0].Hint, "260 × 260") {
		t.Errorf("240 pixels on 11 mm are 554 an inch: %v", d)
	}
}

// TestWithin: the box keeps the proportions to a dot, lies on whole dots, and
// in the room; a drawing stays in its box.
func TestWithin(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		w, h := rapid.IntRange(10, 100).Draw(r, "w"), rapid.IntRange(10, 100).Draw(r, "h")
		e := whole(t, fmt.Appendf(nil, `<svg viewBox="0 0 %d %d"><path d="M0 0L%d 0L%d %dL0 %dZ"/></svg>`, w, h, w, w, h, h))
		d := rapid.SampledFrom([]unit.Dots{{N: 8, Per: mm}, {N: 12, Per: mm}, {N: 300, Per: unit.Inch}, {N: 600, Per: unit.Inch}}).Draw(r, "dots")
		n := func(name string, most int64) unit.Length {
			return unit.Length(rapid.Int64Range(int64(5*mm), most*int64(mm)).Draw(r, name))
		}
		room := page.Rect{X: n("x", 99), Y: n("y", 99), W: n("wide", 99), H: n("high", 99)}
		b := e.Within(room, d)
		dot := d.At(1) + 2
		off := int64(b.W)*int64(h) - int64(b.H)*int64(w)
		if b.W > room.W+1 || b.H > room.H+1 || max(b.W, b.H) > emblem.MaxSide+1 || max(off, -off) > int64(dot)*int64(w+h) {
			r.Fatalf("%d × %d in %v stands in %v", w, h, room, b)
		}
		for _, l := range []unit.Length{b.X, b.Y, b.Right(), b.Bottom()} {
			if s := d.Snap(l); s-l > 1 || l-s > 1 {
				r.Fatalf("%v is not on dots of %v", b, d)
			}
		}
		for _, s := range e.Item(b, emblem.Way{Dots: d}).Shape.Segs {
			if p := s.Pts[0]; s.Op != page.Close && (p.X < b.X || p.X > b.Right() || p.Y < b.Y || p.Y > b.Bottom()) {
				r.Fatalf("%v lies outside of %v", p, b)
			}
		}
	})
}

// FuzzRead: whatever is in a file, it is taken or refused with a place, and
// what is taken can be set and checked.
func FuzzRead(f *testing.F) {
	for _, s := range []string{svg("M0 0L96 0L96 96Z"), svg("M0 0C0 9 9 9 9 0Z"), `<svg viewBox="0 0 1e5 1e4"><title>x</title></svg>`, "<!DOCTYPE x>", "<svg a='=\"'/>", svg("M.5.5-0e1"), "<svg viewBox ='0 0 9 9' >"} {
		f.Add([]byte(s))
	}
	f.Add(asPNG(f, grid(9, func(x, y int) uint8 { return uint8(x * y) })))
	f.Add(claims(9, 9))
	f.Add(claims(65_000, 65_000))
	f.Fuzz(func(t *testing.T, data []byte) {
		var found diag.List
		e := emblem.Read("mark", data, &found)
		if (e == nil) != (found.Errors() > 0) {
			t.Fatalf("taken %v with %v", e != nil, found.All())
		}
		for _, d := range found.All() {
			if d.Pos.File != "mark" || d.Rule != "emblem" || d.Hint == "" {
				t.Errorf("%#v", d)
			}
		}
		if e != nil {
			box := e.Within(page.Rect{W: 9 * mm, H: 9 * mm}, burns(8, mm).Dots)
			e.Check(box, burns(8, mm), diag.Pos{File: "brand.yaml"}, &found)
			if it := e.Item(box, burns(8, mm)); (it.Shape == nil) == (it.Picture == nil) {
				t.Errorf("%+v", it)
			}
		}
	})
}

// A drawing of two stones, on 8 mm beside a printer of 8 dots a millimetre.
func ExampleRead() {
	var found diag.List
	e := emblem.Read("brand/mark.svg", []byte(`<svg viewBox="0 0 96 48"><path d="M0 0L40 0L40 48L0 48ZM45 0L96 0L96 48L45 48Z"/></svg>`), &found)
	way := emblem.Way{Dots: unit.Dots{N: 8, Per: unit.MM}, Thermal: true}
	for _, room := range []unit.Length{8 * unit.MM, 6 * unit.MM} {
		box := e.Within(page.Rect{X: 2 * unit.MM, Y: 2 * unit.MM, W: room, H: room}, way.Dots)
		fmt.Println(box.W, "×", box.H)
		e.Check(box, way, diag.Pos{File: "brand.yaml", Line: 1, Col: 7}, &found)
	}
	for _, d := range found.All() {
		fmt.Println(d)
	}
	// Output:
	// 8 mm × 4 mm
	// 6 mm × 3 mm
	// brand.yaml:1:7: error: the emblem brand/mark.svg, 6.0 mm wide: a gap at 2.6 mm from its left and 1.5 mm from its top is finer than 8 per mm draws [emblem-fine]
	//   hint: draw it wider, or give logo-small
}
