package typeface

import (
	"encoding/binary"
	"fmt"
	"math"
	"strings"
	"testing"

	"chablon/fonts"
	"chablon/labels/diag"
	"chablon/labels/unit"
)

func ofl() File { return File{Name: "brand/OFL.txt", Data: []byte("Licence of a face")} }

func own(data []byte) File {
	return File{Name: "brand/own.ttf", Data: data, Src: diag.Pos{File: "brand.yaml", Line: 5, Col: 16}}
}

func good(t testing.TB, data []byte) *Face {
	t.Helper()
	var found diag.List
	f := Read(own(data), ofl(), &found)
	if f == nil || found.Len() > 0 {
		t.Fatal(found.All())
	}
	return f
}

// put writes bytes into a table of a copy of the house face.
func put(tag string, at int, b ...byte) []byte {
	file := fonts.Regular()
	copy(fonts.Table(file, tag)[at:], b)
	return file
}

// moved gives the table another tag, length or place in the directory.
func moved(tag string, field int, v uint32) []byte {
	file := fonts.Regular()
	for i := 12; ; i += 16 {
		if string(file[i:i+4]) == tag {
			binary.BigEndian.PutUint32(file[i+field:], v)
			return file
		}
	}
}

// TestHouse: what is measured of the shipped faces is what the design of the
// look states of them: x/em 0.5283, strokes of 0.07 em, figures of one height.
func TestHouse(t *testing.T) {
	f := good(t, fonts.Regular())
	if x, thin := float64(f.X)/float64(f.Em), float64(f.Thin)/float64(f.Em); math.Abs(x-0.5283) > 0.0005 || math.Abs(thin-0.07) > 0.001 || !f.Lining || f.Whole {
		t.Errorf("x %.4f, thin %.4f, lining %v, whole %v", x, thin, f.Lining, f.Whole)
	}
	if b := good(t, fonts.Bold()); b.Thin < f.Thin*3/2 || b.X != f.X {
		t.Errorf("the bold face has strokes of %d, the regular one of %d", b.Thin, f.Thin)
	}
}

// TestLeastSize: twice the dot over the thin part; by the design 12.9 pt at 8
// dots a millimetre, 8.6 at 12 and 4.4 at 600 an inch for 0.055 em.
func TestLeastSize(t *testing.T) {
	f := &Face{Em: 1000, Thin: 55}
	for _, c := range []struct {
		d    unit.Dots
		want float64
	}{{unit.Dots{N: 8, Per: unit.MM}, 12.9}, {unit.Dots{N: 12, Per: unit.MM}, 8.6}, {unit.Dots{N: 600, Per: unit.Inch}, 4.4}, {unit.Dots{}, 0}} {
		if got := f.LeastSize(c.d).Pt(); math.Abs(got-c.want) > 0.05 {
			t.Errorf("%v: %.2f pt, want %.1f", c.d, got, c.want)
		}
	}
}

// ring is a circle drawn as short lines; its hole is drawn the other way round.
func ring(x, y, r float64, back bool) []point {
	var out []point
	for i := range 120 {
		a := 2 * math.Pi * float64(i) / 120
		if back {
			a = -a
		}
		out = append(out, point{x + r*math.Cos(a), y + r*math.Sin(a)})
	}
	return out
}

// TestThin: the thinnest stroke of figures whose strokes are known: bars that
// lie and slant, a ring, one whose hole is not in its middle (thinnest at 40),
// a wedge that comes to a point, a bar laid over another.
func TestThin(t *testing.T) {
	bar := func(wide float64) []point { return []point{{0, 0}, {0, 500}, {wide, 500}, {wide, 0}} }
	slant := []point{{0, 0}, {300, 400}, {380, 340}, {80, -60}} // 100 wide, 500 long
	for _, c := range []struct {
		name     string
		o        outline
		low, top float64
	}{
		{"bar", outline{bar(70)}, 69, 71},
		{"slanting bar", outline{slant}, 99, 101},
		{"ring", outline{ring(0, 0, 300, false), ring(0, 0, 220, true)}, 78, 82},
		{"ring with its hole aside", outline{ring(0, 0, 300, false), ring(30, 0, 230, true)}, 40, 45},
		{"wedge", outline{{{0, 0}, {150, 600}, {300, 0}}}, 100, 400},
		{"bars on each other", outline{bar(200), {{150, 0}, {150, 500}, {230, 500}, {230, 0}}}, 225, 235},
		{"a thin foot on a bar", outline{bar(200), {{0, 0}, {0, 30}, {500, 30}, {500, 0}}}, 29, 31},
	} {
		if got := c.o.thin(1000); got < c.low || got > c.top {
			t.Errorf("%s: %.1f, want %.0f to %.0f", c.name, got, c.low, c.top)
		}
	}
}

// TestEmbedding: fsType of the table OS/2 as the OpenType specification has it
// (from memory): 0 no restriction, bit 1 restricted, 2 preview and print, 3
// editable, 8 no subsetting, 9 bitmap only; the least strict of the lower ones counts.
func TestEmbedding(t *testing.T) {
	for bits, want := range map[uint16]string{
		0: "", 0x8: "", 0xC: "", 0xA: "", 0x4: "for looking at and printing alone", 0x6: "for looking at and printing alone",
		0x2: "may not be embedded", 0x102: "may not be embedded", 0x200: "dots alone", 0x208: "dots alone", 0x100: "", 0x108: "",
	} {
		var found diag.List
		f := Read(own(put("OS/2", 8, byte(bits>>8), byte(bits))), ofl(), &found)
		refused := bits&0x200 != 0 || bits&0xE == 2
		if got := fmt.Sprint(found.All()); (f == nil) != refused || (found.Errors() > 0) != refused || (want == "") != (found.Len() == 0) || !strings.Contains(got, want) {
			t.Errorf("%#x: %s", bits, got)
		}
		if f != nil && f.Whole != (bits&0x100 != 0) {
			t.Errorf("%#x: whole is %v", bits, f.Whole)
		}
	}
}

// TestRefused: a finding each for files that are no faces, of another kind, or
// broken; each names the file and its place, and what to do.
func TestRefused(t *testing.T) {
	reg := fonts.Regular()
	glyf := fonts.Table(fonts.Regular(), "glyf")
	noise := put("glyf", 0, make([]byte, len(glyf)/2)...)
	again := fonts.Regular()
	sub := fonts.Table(again, "cmap")
	for i := 4; i < 4+8*int(binary.BigEndian.Uint16(sub[2:])); i += 8 {
		at := binary.BigEndian.Uint32(sub[i+4:])
		if binary.BigEndian.Uint16(sub[at:]) == 4 {
			n := int(binary.BigEndian.Uint16(sub[at+6:]))
			for k := range n / 2 { // each range is all characters
				copy(sub[int(at)+14+2*k:], "\xff\xff")
				copy(sub[int(at)+16+n+2*k:], "\x00\x00")
			}
		}
	}
	for _, c := range []struct {
		name string
		data []byte
		say  string
	}{
		{"nothing", nil, "no TrueType face"},
		{"four letters", []byte("\x00\x01\x00\x00"), "is broken"},
		{"a text", []byte("face"), "no TrueType face"},
		{"other outlines", append([]byte("OTTO"), reg[4:]...), "outlines of another kind"},
		{"a collection", append([]byte("ttcf"), reg[4:]...), "collection"},
		{"for web pages", append([]byte("wOF2"), reg[4:]...), "web pages"},
		{"too large", append(reg, make([]byte, MaxFace)...), "more than 4 MB"},
		{"cut short", reg[:len(reg)/2], "is broken"},
		{"a table beyond the end", moved("glyf", 8, 1<<31), "table glyf"},
		{"a table of no length", moved("hmtx", 12, 0), "table hmtx"},
		{"a table without end", moved("loca", 12, 1<<32-1), "table loca"},
		{"no map", moved("cmap", 0, 0x78787878), "table cmap"},
		{"many weights", moved("GPOS", 0, 0x66766172), "many weights"},
		{"no glyph", put("maxp", 4, 0, 0), "has 0 letters"},
		{"too many glyphs", put("maxp", 4, 0xFF, 0xFF), "has 65535 letters"},
		{"an em of nothing", put("head", 18, 0, 0), "is broken"},
		{"outlines that lie elsewhere", put("loca", 200, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF), "is broken"},
		{"outlines of nothing", noise, ""},
		{"a map on itself", again, "runs over itself"},
		{"an x that is another", put("OS/2", 86, 5, 0), "says that its x is 1280 units high"},
	} {
		var found diag.List
		f := Read(own(c.data), ofl(), &found)
		got := found.All()
		if f != nil || len(got) == 0 || got[0].Pos.String() != "brand.yaml:5:16" || got[0].Hint == "" || !strings.Contains(got[0].Msg, "brand/own.ttf") || !strings.Contains(got[0].Msg, c.say) {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// TestLicence: a face without the words of its licence is refused.
func TestLicence(t *testing.T) {
	for say, data := range map[string]string{"is empty": " \n", "is no text": "\xff\xfe", "is no text, really": strings.Repeat("x", MaxLicence+1)} {
		var found diag.List
		f := Read(own(fonts.Regular()), File{Name: "brand/OFL.txt", Data: []byte(data)}, &found)
		if got := found.All(); f != nil || len(got) != 1 || got[0].Rule != "licence" || !strings.Contains(got[0].Msg, strings.TrimSuffix(say, ", really")) || got[0].Pos.File != "brand/OFL.txt" {
			t.Errorf("%q: %v", say, got)
		}
	}
}

// TestMissing: a letter that the face lacks is told with its place before
// anything is printed; blanks are letters, and what is never drawn is none.
func TestMissing(t *testing.T) {
	f := good(t, fonts.Regular())
	for _, ok := range []string{"", "Pear tartlet, 2 × 85 g", "Ćwikła źródło", "Паляниця", "Crème\u00a0brûlée", "hy\u00adphen"} {
		if r, missing := f.Missing(ok); missing {
			t.Errorf("%q lacks %q", ok, r)
		}
	}
	var found diag.List
	f.Covers(diag.At[string]{V: "Tarte 梨", Pos: diag.Pos{File: "products/tart.yaml", Line: 3, Col: 7}}, &found)
	if got := fmt.Sprint(found.All()); !strings.Contains(got, "products/tart.yaml:3:7") || !strings.Contains(got, "U+68A8") || found.Errors() != 1 {
		t.Errorf("%s", got)
	}
}

// FuzzRead: whatever bytes stand in a table of a real face, or for all of it,
// the reader comes to an end without a panic, and what it takes can be asked.
func FuzzRead(f *testing.F) {
	f.Add("", 0, []byte("\x00\x01\x00\x00\x00\xff"))
	f.Add("glyf", 0, []byte("\xff\xff"))
	f.Add("loca", 4, []byte("\x00\x00\x00\x01"))
	f.Add("cmap", 2, []byte("\xff\xff"))
	f.Add("maxp", 4, []byte("\x7d\x00"))
	f.Add("hhea", 34, []byte("\xff\xff"))
	f.Add("head", 18, []byte("\x00\x10"))
	f.Add("GPOS", 8, []byte("\xff\xff\xff\xff"))
	f.Add("OS/2", 0, []byte("\x00\x01"))
	f.Add("kern", 2, []byte("\xff\xff"))
	f.Fuzz(func(t *testing.T, tag string, at int, b []byte) {
		data := fonts.Regular()
		into := data
		if tag != "" {
			into = fonts.Table(data, tag)
		}
		if at >= 0 && at < len(into) {
			copy(into[at:], b)
		}
		var found diag.List
		face := Read(own(data), ofl(), &found)
		if (face == nil) != (found.Errors() > 0) {
			t.Fatalf("taken %v with %v", face != nil, found.All())
		}
		if face != nil {
			face.Missing("Tartlet")
			if face.X < 1 || face.Cap <= face.X || face.LeastSize(unit.Dots{N: 8, Per: unit.MM}) <= 0 {
				t.Errorf("x %d, capitals %d, thin %d", face.X, face.Cap, face.Thin)
			}
		}
	})
}

// How small the regular face may be set on printers of 8 and 12 dots a millimetre.
func ExampleRead() {
	var found diag.List
	f := Read(File{Name: "brand/face.ttf", Data: fonts.Regular()}, File{Name: "brand/LICENCE.txt", Data: []byte("Apache License 2.0")}, &found)
	for _, n := range []int64{8, 12} {
		fmt.Printf("%d per mm: %.1f pt\n", n, f.LeastSize(unit.Dots{N: n, Per: unit.MM}).Pt())
	}
	// Output:
	// 8 per mm: 10.1 pt
	// 12 per mm: 6.8 pt
}
