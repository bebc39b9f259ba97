package text

import (
	"bytes"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/go-text/typesetting/font"

	"chablon/fonts"
	"chablon/labels/unit"
)

func load(tb testing.TB) *Faces {
	tb.Helper()
	f, err := Load()
	if err != nil {
		tb.Fatal(err)
	}
	return f
}

// Every letter of both files, against another library's reading of them: the
// font package of go-text/typesetting parses hmtx, cmap and glyf by itself.
func TestGlyphsAgainstAnotherReader(t *testing.T) {
	faces := load(t)
	for _, c := range []struct {
		face *Face
		file []byte
	}{{faces.Regular, fonts.Regular()}, {faces.Bold, fonts.Bold()}} {
		ref, err := font.ParseTTF(bytes.NewReader(c.file))
		if err != nil {
			t.Fatal(err)
		}
		em, n := unit.Length(ref.Upem()), 0
		for r := rune(' '); r < 1<<16; r++ {
			gid, ok := ref.NominalGlyph(r)
			if invisible(r) || combining(r) || r == '\uFFFD' {
				continue
			}
			if got := c.face.has(r); got != (ok && gid != 0) {
				t.Fatalf("%s %U: has %v, reference %v", c.face.name, r, got, ok)
			}
			if !ok {
				continue
			}
			n++
			if got, want := c.face.Width(string(r), em), ref.HorizontalAdvance(gid); got != unit.Length(want) {
				t.Errorf("%s %U: advance %d, reference %v", c.face.name, r, got, want)
			}
			ext, _ := ref.GlyphExtents(gid)
			up, down := c.face.Ink(string(r), em)
			wantUp, wantDown := max(0, ext.YBearing), max(0, -ext.YBearing-ext.Height)
			if math.Abs(float64(up)-float64(wantUp)) > 1 || math.Abs(float64(down)-float64(wantDown)) > 1 {
				t.Errorf("%s %U: ink %d %d, reference %v %v", c.face.name, r, up, down, wantUp, wantDown)
			}
		}
		if n < 2000 {
			t.Errorf("%s: only %d letters compared", c.face.name, n)
		}
	}
}

// The metrics, against the tables read by hand with the offsets of the
// OpenType specification 1.9: OS/2 sxHeight at 86, sCapHeight at 88; hhea
// ascender at 4, descender at 6; head unitsPerEm at 18.
func TestMetricsAgainstTables(t *testing.T) {
	faces := load(t)
	for face, file := range map[*Face][]byte{faces.Regular: fonts.Regular(), faces.Bold: fonts.Bold()} {
		at := func(tag string, off int) int64 {
			b := fonts.Table(file, tag)
			return int64(int16(uint16(b[off])<<8 | uint16(b[off+1])))
		}
		got := [...]int64{face.em, face.xHeight, face.caps, face.ascent, face.descent}
		want := [...]int64{at("head", 18), at("OS/2", 86), at("OS/2", 88), at("hhea", 4), -at("hhea", 6)}
		if got != want {
			t.Errorf("%s: %v, tables say %v", face.name, got, want)
		}
		// What OS/2 states is what is drawn.
		if up, _ := face.Ink("x", unit.Length(face.em)); int64(up) != face.xHeight {
			t.Errorf("%s: the x is %d high, OS/2 says %d", face.name, up, face.xHeight)
		}
		if up, _ := face.Ink("H", unit.Length(face.em)); int64(up) != face.caps {
			t.Errorf("%s: the H is %d high, OS/2 says %d", face.name, up, face.caps)
		}
	}
}

// Regulation (EU) No 1169/2011 Art. 13(2), (3) and Annex IV: x-height of at
// least 1.2 mm, or 0.9 mm. 1 pt = 25.4/72 mm. Sizes are arithmetic on the ratio.
func TestSizeForX(t *testing.T) {
	faces := load(t)
	for _, c := range []struct {
		what string
		face *Face
		x    unit.Length
		pt   float64 // the exact size; ours is at most 0.01 pt above
	}{
		{"ratio 0.519, 1.2 mm", &Face{em: 1000, xHeight: 519}, 1200 * unit.UM, 6.554},
		{"ratio 0.519, 0.9 mm", &Face{em: 1000, xHeight: 519}, 900 * unit.UM, 4.916},
		{"ratio 0.547, 1.2 mm", &Face{em: 1000, xHeight: 547}, 1200 * unit.UM, 6.219},
		{"shipped regular, 1.2 mm", faces.Regular, 1200 * unit.UM, 1.2 / 25.4 * 72 / 1082 * 2048},
		{"shipped regular, 0.9 mm", faces.Regular, 900 * unit.UM, 0.9 / 25.4 * 72 / 1082 * 2048},
		{"shipped bold, 1.2 mm", faces.Bold, 1200 * unit.UM, 1.2 / 25.4 * 72 / 1082 * 2048},
		// NASA flight-deck typography asks 0.10 in; at ratio 0.52 that is 13.8 pt.
		{"ratio 0.52, 0.10 in", &Face{em: 100, xHeight: 52}, unit.Inch / 10, 13.846},
	} {
		size := c.face.SizeForX(c.x)
		if pt := size.Pt(); pt < c.pt-0.0005 || pt > c.pt+0.0105 {
			t.Errorf("%s: %.4f pt, want %.3f rounded up", c.what, pt, c.pt)
		}
		if c.face.XHeight(size) < c.x {
			t.Errorf("%s: x-height is %v", c.what, c.face.XHeight(size))
		}
		if less := Hundredths(InHundredths(size) - 1); c.face.XHeight(less) >= c.x {
			t.Errorf("%s: %.2f pt would do as well", c.what, less.Pt())
		}
	}
}

// NUREG-0700 1.3.1-4: H = 6.283·D·MA/21600, the height being that of capitals.
// The points are those of a face whose capitals are 0.716 em.
func TestSizeForCap(t *testing.T) {
	face := &Face{em: 1000, caps: 716}
	for _, c := range []struct {
		metres, pt float64
	}{{0.5, 11.5}, {0.7, 16.1}, {1.0, 23.0}, {1.5, 34.5}, {2.0, 46.1}, {3.0, 69.1}} {
		h := unit.Length(6.283185307 * c.metres * 1e9 * 20 / 21600)
		size := face.SizeForCap(h)
		if math.Abs(size.Pt()-c.pt) > 0.1 || face.CapHeight(size) < h {
			t.Errorf("20 minutes of arc at %.1f m: %.2f pt, want %.1f", c.metres, size.Pt(), c.pt)
		}
	}
}

// A PDF says sizes as points; what is written must be what was measured.
func TestHundredths(t *testing.T) {
	for n := int64(1); n < 20_000; n++ {
		size := Hundredths(n)
		if got := InHundredths(size); got != n {
			t.Fatalf("%d comes back as %d", n, got)
		}
		if pts := unit.Pts(float64(n) / 100); Whole(pts) != size || Whole(size) != size || Whole(size+3*unit.UM) != size {
			t.Fatalf("%d hundredths: not whole", n)
		}
		written := strconv.FormatFloat(math.Round(size.Pt()*1000)/1000, 'f', -1, 64)
		if want := strconv.FormatFloat(float64(n)/100, 'f', -1, 64); written != want {
			t.Fatalf("%d hundredths are written %s", n, written)
		}
	}
}

// The alphabets of the 24 official languages of the EU, lower case, as in the
// main exemplar letters of CLDR (from memory), with signs that labels use.
var needed = strings.Join([]string{
	"абвгдежзийклмнопрстуфхцчшщъьюя",            // bg
	"aábcčdďeéěfghiíjklmnňoópqrřsštťuúůvwxyýzž", // cs
	"abcdefghijklmnopqrstuvwxyzæøå",             // da
	"aäbcdefghijklmnoöpqrsßtuüvwxyz",            // de
	"αάβγδεέζηήθιίϊΐκλμνξοόπρσςτυύϋΰφχψωώ",      // el
	"abcdefghijklmnopqrsšzžtuvwõäöüxy",          // et
	"aábcdeéfghiíjklmnñoópqrstuúüvwxyz",         // es
	"åäöšž",             // fi
	"àâæçéèêëîïôœùûüÿ",  // fr
	"áéíóú",             // ga
	"čćđšž",             // hr, sl
	"áéíóöőúüű",         // hu
	"àéèìîòù",           // it
	"āčēģīķļņšūž",       // lv
	"ąčęėįšųūž",         // lt
	"ċġħż",              // mt
	"áäâéëèêíïóöôúüûĳ",  // nl
	"ąćęłńóśźż",         // pl
	"ãáàâçéêíõóôúüò",    // pt
	"ăâîșțşţ",           // ro
	"áäčďéíĺľňóôŕšťúýž", // sk
	"åäöéà",             // sv
	"℮°½¼¾≤≥−×·–—„“”‚‘’«»‹›€‰µ%…±⁄²³ \u00a0\u202f\u2009\u2011",
}, "")

func TestFacesHaveEveryLetterOfTheUnion(t *testing.T) {
	faces := load(t)
	for _, face := range []*Face{faces.Regular, faces.Bold} {
		for _, r := range needed + strings.ToUpper(needed) {
			if r == 'ſ' {
				continue
			}
			if m, bad := face.Missing(string(r)); bad {
				t.Errorf("%s: %c %U is missing", face.name, m, m)
			}
			if face.Width(string(r), 1000) == 0 {
				t.Errorf("%s: %c %U has no width", face.name, r, r)
			}
		}
	}
}

func TestFiguresAreTabular(t *testing.T) {
	faces := load(t)
	for _, face := range []*Face{faces.Regular, faces.Bold} {
		for r := '0'; r <= '9'; r++ {
			if face.Width(string(r), unit.MM) != face.Width("0", unit.MM) {
				t.Errorf("%s: %c is not as wide as 0", face.name, r)
			}
		}
	}
}

func TestMissing(t *testing.T) {
	face := load(t).Regular
	for _, c := range []struct {
		s    string
		want rune // 0: nothing missing
	}{
		{"Crème pâtissière", 0}, {"", 0}, {"so\u00adft\u2060\ufeff\u200e", 0},
		{"180 °C → oven", '→'}, {"☐ done", '☐'}, {"⚠", '⚠'}, {"梨", '梨'}, {"😀", '😀'},
		{"line\nend", '\n'}, {"e\u0301", '\u0301'}, {"bad \xff byte", '\uFFFD'}, {"bell\a", '\a'},
	} {
		if r, bad := face.Missing(c.s); r != c.want || bad != (c.want != 0) {
			t.Errorf("%q: missing %q %v, want %q", c.s, r, bad, c.want)
		}
	}
}

func TestDrawn(t *testing.T) {
	for in, want := range map[string]string{
		"plain": "plain", "Wei\u00adzen\u200bmehl\u2060": "Weizenmehl", "a\u00a0b": "a\u00a0b", "\u202ex": "x",
	} {
		if got := Drawn(in); got != want {
			t.Errorf("%q is drawn %q, want %q", in, got, want)
		}
	}
}

// A damaged font is an error, never a panic or a face with holes.
func TestParseDamage(t *testing.T) {
	file := fonts.Regular()
	for n := 0; n < len(file); n += 9973 {
		if _, err := parse("regular", file[:n]); err == nil && n < len(file)/2 {
			t.Errorf("a font cut after %d bytes is taken", n)
		}
	}
	noInk := bytes.Replace(file, []byte("glyf"), []byte("gone"), 1)
	if _, err := parse("regular", noInk); err == nil {
		t.Error("a font without outlines is taken")
	}
}

func TestWidthAddsUp(t *testing.T) {
	face := load(t).Regular
	long := strings.Repeat("Haselnüsse, ", 2000)
	if got, want := face.units(long), 2000*face.units("Haselnüsse, "); got != want {
		t.Errorf("%d units, want %d", got, want)
	}
	if !unicode.IsLetter('ü') || face.Width("ü", unit.CM) != face.Width("u", unit.CM) {
		t.Error("ü and u differ in this face")
	}
}

func BenchmarkWidth(b *testing.B) {
	face := load(b).Regular
	s := "Ingredients: pear (41 %), butter (milk), "
	for b.Loop() {
		face.Width(s, 2*unit.MM)
	}
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		load(b)
	}
}
