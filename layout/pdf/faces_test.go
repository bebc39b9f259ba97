package pdf

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"math"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"chablon/fonts"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pdf/pdftest"
)

// A table of a TrueType file, read here without the library under test
// (ISO/IEC 14496-22).
func table(t *testing.T, file []byte, tag string) []byte {
	t.Helper()
	for i := range int(binary.BigEndian.Uint16(file[4:])) {
		if e := file[12+16*i:]; string(e[:4]) == tag {
			at, n := binary.BigEndian.Uint32(e[8:]), binary.BigEndian.Uint32(e[12:])
			return file[at : at+n]
		}
	}
	t.Fatalf("the face has no table %q", tag)
	return nil
}

func eachFace(t *testing.T, do func(t *testing.T, f *face, file []byte)) {
	all, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	for i, file := range [][]byte{fonts.Regular(), fonts.Bold()} {
		t.Run(all.all[i].name, func(t *testing.T) { do(t, &all.all[i], file) })
	}
}

func TestWidths(t *testing.T) {
	eachFace(t, func(t *testing.T, f *face, file []byte) {
		hmtx := table(t, file, "hmtx")
		last := int(binary.BigEndian.Uint16(table(t, file, "hhea")[34:])) - 1
		em := float64(binary.BigEndian.Uint16(table(t, file, "head")[18:]))
		n := 0
		for r, g := range f.glyphs {
			if g == 0 {
				continue
			}
			n++
			want := float64(binary.BigEndian.Uint16(hmtx[4*min(int(g), last):])) * 10_000 / em
			if got := float64(f.width(g)); got < want-0.5 || got > want+0.5 {
				t.Errorf("%U: %v, want %.1f", r, got, want)
			}
		}
		if n < 2000 {
			t.Errorf("only %d characters have a glyph", n)
		}
	})
}

func TestBackToText(t *testing.T) {
	all, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	k := &newInks(all).used[0]
	for r := rune(0x20); r < 0x2300; r++ {
		k.glyph(r)
	}
	cmap := k.backToText()
	blocks := strings.Split(cmap, " beginbfchar\n")
	for i, b := range blocks[1:] {
		n := strings.Count(strings.Split(b, "endbfchar")[0], "\n")
		if n > 100 || !strings.HasSuffix(blocks[i], fmt.Sprint("\n", n)) {
			t.Errorf("block %d has %d entries and is not announced so", i+1, n)
		}
	}
	// The letter delta and the sign for an increment share a glyph.
	if k.glyphs[0x394] != k.glyphs[0x2206] || !strings.Contains(cmap, "<0394>\n") || strings.Contains(cmap, "<2206>\n") {
		t.Error("a shared glyph does not lead back to its first character alone")
	}
}

// Every character comes out whole: its ink, drawn with all others in one file,
// is as large as the outline in the font file says.
func TestEveryCharacter(t *testing.T) {
	const cell, cols = 20, 50
	eachFace(t, func(t *testing.T, f *face, file []byte) {
		var chars []rune
		sheet := &page.Page{W: cell * cols * unit.MM, H: cell * 60 * unit.MM}
		for r, g := range f.glyphs {
			if g == 0 || r == utf8.RuneError || !dots(outline(t, file, g)).In(image.Rect(-29, -64, 69, 34)) {
				continue // no glyph, or wider than its cell
			}
			sheet.Items = append(sheet.Items, letter(f, rune(r), len(chars)%cols*cell, len(chars)/cols*cell))
			chars = append(chars, rune(r))
		}
		var out bytes.Buffer
		if err := Write(&out, Doc{Pages: slices.Values([]*page.Page{sheet})}); err != nil {
			t.Fatal(err)
		}
		img := pdftest.Raster(t, out.Bytes(), 0, 127) // 5 dots per mm
		for i, r := range chars {
			checkInk(t, img, r, image.Pt(i%cols*cell, i/cols*cell), outline(t, file, f.glyphs[r]))
		}
		if len(chars) < 2700 {
			t.Errorf("only %d characters were drawn", len(chars))
		}
	})
}

// A glyph may be made of others, and these of others again; no part may stay
// behind when the character is the only one in the file.
func TestPartsOfParts(t *testing.T) {
	eachFace(t, func(t *testing.T, f *face, file []byte) {
		for r, g := range f.glyphs {
			if g == 0 || !slices.ContainsFunc(parts(t, file, g), func(p uint16) bool { return parts(t, file, p) != nil }) {
				continue
			}
			t.Logf("%U is made of made glyphs", r)
			var out bytes.Buffer
			sheet := &page.Page{W: 20 * unit.MM, H: 20 * unit.MM, Items: []page.Item{letter(f, rune(r), 0, 0)}}
			if err := Write(&out, Doc{Pages: slices.Values([]*page.Page{sheet})}); err != nil {
				t.Fatal(err)
			}
			checkInk(t, pdftest.Raster(t, out.Bytes(), 0, 127), rune(r), image.Point{}, outline(t, file, g))
		}
	})
}

// letter puts a character of 8 mm em into the 20 mm cell at x, y.
func letter(f *face, r rune, x, y int) page.Item {
	return page.Item{Box: page.Rect{X: unit.Length(x+6) * unit.MM},
		Run: &page.Run{Text: string(r), Face: f.name, Size: 8 * unit.MM, Baseline: unit.Length(y+13) * unit.MM}}
}

// parts are the glyphs that a glyph is made of.
func parts(t *testing.T, file []byte, g uint16) (out []uint16) {
	loca, glyf := table(t, file, "loca"), table(t, file, "glyf")
	at := binary.BigEndian.Uint32(loca[4*int(g):])
	if at == binary.BigEndian.Uint32(loca[4*int(g)+4:]) || int16(binary.BigEndian.Uint16(glyf[at:])) >= 0 {
		return nil
	}
	const words, one, more, two, four = 1, 8, 32, 64, 128
	for at += 10; ; {
		flags := binary.BigEndian.Uint16(glyf[at:])
		out = append(out, binary.BigEndian.Uint16(glyf[at+2:]))
		for flag, size := range map[uint16]uint32{words: 2, one: 2, two: 4, four: 8} {
			if flags&flag != 0 {
				at += size
			}
		}
		if at += 6; flags&more == 0 {
			return out
		}
	}
}

// outline is the box that the font file gives for a glyph, in units of the em.
func outline(t *testing.T, file []byte, g uint16) image.Rectangle {
	loca, glyf := table(t, file, "loca"), table(t, file, "glyf")
	from, to := binary.BigEndian.Uint32(loca[4*int(g):]), binary.BigEndian.Uint32(loca[4*int(g)+4:])
	if from == to {
		return image.Rectangle{}
	}
	v := func(i int) int { return int(int16(binary.BigEndian.Uint16(glyf[from+uint32(i):]))) }
	return image.Rect(v(2), v(4), v(6), v(8))
}

// dots turns an outline into dots of 0.2 mm in an em of 8 mm.
func dots(em image.Rectangle) image.Rectangle {
	if em.Empty() {
		return image.Rectangle{}
	}
	n := func(v int) int { return int(math.Round(float64(v) * 40 / 2048)) }
	return image.Rect(n(em.Min.X), -n(em.Max.Y), n(em.Max.X), -n(em.Min.Y))
}

func checkInk(t *testing.T, img *image.Gray, r rune, cell image.Point, outline image.Rectangle) {
	t.Helper()
	var got image.Rectangle
	for y := range 100 {
		for x := range 100 {
			if img.GrayAt(cell.X*5+x, cell.Y*5+y).Y < 160 {
				got = got.Union(image.Rect(x, y, x+1, y+1).Sub(image.Pt(30, 65)))
			}
		}
	}
	want := dots(outline)
	if got.Empty() != want.Empty() || !got.In(want.Inset(-2)) || !want.In(got.Inset(-2)) {
		t.Errorf("%U %q: ink %v, outline %v", r, r, got, want)
	}
}

func TestMilli(t *testing.T) {
	tests := map[int64]string{0: "0", 1: "0.001", 10: "0.01", 100: "0.1", 1000: "1", 1010: "1.01", 1230: "1.23",
		-1: "-0.001", -12_345: "-12.345", 14_400_000: "14400", 283_465: "283.465"}
	for v, want := range tests {
		if got := string(appendMilli(nil, v)); got != want {
			t.Errorf("%d is written %s, want %s", v, got, want)
		}
	}
}

func TestCaught(t *testing.T) {
	give := func() (err error) {
		defer caught(&err)
		panic("index out of range")
	}
	if err := give(); err == nil || !strings.Contains(err.Error(), "gave up: index out of range") {
		t.Errorf("got %v, want the panic as an error", err)
	}
}
