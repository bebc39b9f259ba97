package text

import (
	"errors"
	"os"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// Samples of the Unicode Character Database; the file says where from.
func TestBreaksAgainstUnicode(t *testing.T) {
	b, err := os.ReadFile("testdata/linebreak.txt")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, line := range strings.Split(strings.TrimSpace(string(b)), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		n++
		var runes []rune
		var want []int
		for _, f := range strings.Fields(line) {
			switch f {
			case "×":
			case "÷":
				want = append(want, len(runes))
			default:
				r, err := strconv.ParseInt(f, 16, 32)
				if err != nil {
					t.Fatal(err)
				}
				runes = append(runes, rune(r))
			}
		}
		got := breaks(runes)
		same := len(got) == len(want)
		for i := 0; same && i < len(got); i++ {
			same = got[i].at == want[i]
		}
		if !same {
			t.Errorf("%q: %v, want %v", string(runes), got, want)
		}
	}
	if n < 100 {
		t.Errorf("only %d samples", n)
	}
}

// Where | stands a line may end. Keeping a number with its unit is required by
// the SI Brochure 5.4.3 (the space is part of the expression); the other rows
// are common practice of typesetting without a published source.
func TestWhereALineMayEnd(t *testing.T) {
	faces := load(t)
	for _, want := range []string{
		"pear (41 %), |butter |(milk), |sugar",
		"pear 41 %, |butter",
		"poire (41\u00a0%), |beurre",
		"armut (%41), |tereyağı",
		"hazelnuts (≥ 12,5 %), |egg",
		"butter (82 % |fat)",
		"360 g |butter |1.2 kg |flour",
		"bake |at |165 °C (329 °F) |until |brown",
		"hold |88 ± 3 °C |for |20 min |then |cool",
		"keep |at |≤ 5 °C (≤ 41 °F)",
		"12–14 °C |or |12 – 14 °C",
		"170 g ℮ |(2 × 85 g)",
		"energy |1 250 kJ / 299 kcal",
		"acid: |E 330, |lecithin",
		"lot: |L 26076, |use |by |19. 3. 2026",
		"flour |T-55 |and |flour |F-GR",
		"kJ/kcal |and |g/kg",
		"best-|before |date",
		"Wasser, |360 г |масло",
		"rye – |shortbread",
		"3 |eggs |and |½ l |milk",
		"no\u00a0break |a\u2060b |Weizen\u200b|mehl",
		"Wei\u00adzen\u00admehl |ganz",
		"contains: |a, |b. |Keep |cold. |5 |kilos",
	} {
		plain := strings.ReplaceAll(want, "|", "")
		c, err := faces.Prepare(Para{Spans: []Span{{Text: plain}}})
		if err != nil {
			t.Fatalf("%s: %v", want, err)
		}
		var got strings.Builder
		start := 0
		for _, u := range c.cuts {
			got.WriteString(string(c.runes[start:u.at]))
			if start = u.at; start < len(c.runes) {
				got.WriteByte('|')
			}
		}
		if want = strings.ReplaceAll(want, "\u00ad", ""); got.String() != want {
			t.Errorf("\n got %s\nwant %s", got.String(), want)
		}
	}
}

// A break inside a word is none because the face changes there.
func TestEmphasisDoesNotBreakWords(t *testing.T) {
	faces := load(t)
	lines, err := faces.Break(Para{Spans: []Span{
		{Text: "Zutaten: "}, {Text: "Weizen", Bold: true}, {Text: "mehl (55"}, {Text: " %), "},
		{Text: "Milch", Bold: true}, {Text: "", Bold: true}, {Text: " ", Bold: true}, {Text: "Ei", Bold: true},
	}}, 2*unit.MM, 18*unit.MM)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, l := range lines {
		s := ""
		for _, f := range l.Frags {
			if f.Bold {
				s += "*" + f.Text + "*"
			} else {
				s += f.Text
			}
		}
		got = append(got, s)
	}
	want := "Zutaten: / *Weizen*mehl (55 %), / *Milch Ei*"
	if s := strings.Join(got, " / "); s != want {
		t.Errorf("got  %s\nwant %s", s, want)
	}
}

func TestLines(t *testing.T) {
	faces := load(t)
	for _, c := range []struct {
		name, in string
		width    unit.Length
		want     []string
	}{
		{"empty", "", unit.CM, nil},
		{"blank", "  \t ", unit.CM, nil},
		{"one", "  butter  ", unit.CM, []string{"butter"}},
		{"line ends", "butter\nsugar \n\n salt", 3 * unit.CM, []string{"butter", "sugar", "", "salt"}},
		{"spaces collapse", "a  \t b", unit.CM, []string{"a b"}},
		{"crlf", "a\r\nb", unit.CM, []string{"a", "b"}},
		{"exactly", "butter", faces.Regular.Width("butter", 2*unit.MM), []string{"butter"}},
	} {
		lines, err := faces.Break(Para{Spans: []Span{{Text: c.in}}}, 2*unit.MM, c.width)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		var got []string
		for _, l := range lines {
			got = append(got, l.Text())
		}
		if strings.Join(got, "|") != strings.Join(c.want, "|") || len(got) != len(c.want) {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

func TestErrorsNameThePlace(t *testing.T) {
	faces := load(t)
	here, there := diag.Pos{File: "shop.yaml", Line: 3, Col: 7}, diag.Pos{File: "words.yaml", Line: 9, Col: 1}
	_, err := faces.Break(Para{Src: here, Spans: []Span{{Text: "ok"}, {Text: "梨", Src: there}}}, unit.MM, unit.CM)
	var missing *NoGlyph
	if !errors.As(err, &missing) || missing.Rune != '梨' || missing.Src != there {
		t.Errorf("got %v", err)
	}
	_, err = faces.Break(Para{Src: here, Spans: []Span{{Text: "a Milchschokoladenüberzug (41 %)"}}}, 2*unit.MM, unit.CM)
	var wide *TooWide
	if !errors.As(err, &wide) || wide.Word != "Milchschokoladenüberzug (41 %)" || wide.Src != here || wide.Need <= unit.CM {
		t.Errorf("got %+v", err)
	}
	for _, d := range []diag.Diag{missing.Diag(), wide.Diag(), (&NoGlyph{Rune: 0x301}).Diag()} {
		if d.Rule == "" || d.Hint == "" || d.Msg == "" || strings.HasSuffix(d.Msg, ".") {
			t.Errorf("poor finding %+v", d)
		}
	}
	if got := missing.Diag().String(); !strings.HasPrefix(got, "words.yaml:9:1: error: the character '梨' (U+68A8)") {
		t.Errorf("got %s", got)
	}
}

func TestAnywhere(t *testing.T) {
	faces := load(t)
	id := "https://id.example/01/09506000134352/10/L26076A"
	p := Para{Spans: []Span{{Text: id}}, Anywhere: true}
	lines, err := faces.Break(p, 2*unit.MM, 8*unit.MM)
	if err != nil {
		t.Fatal(err)
	}
	got := ""
	for _, l := range lines {
		got += l.Text()
		if l.W > 8*unit.MM {
			t.Errorf("%q is too wide", l.Text())
		}
	}
	if got != id || len(lines) < 3 {
		t.Errorf("got %q in %d lines", got, len(lines))
	}
	var wide *TooWide
	if _, err = faces.Break(p, 2*unit.MM, unit.UM); !errors.As(err, &wide) {
		t.Errorf("no letter fits, got %v", err)
	}
}

// words draws spans that look like those of a label.
func words(t *rapid.T) []Span {
	word := rapid.OneOf(
		rapid.SampledFrom([]string{"butter", "(41 %)", "360 g", "88 ± 3 °C", "Weizenmehl,", "E 330", "best-before", "œufs", "≤ 5 °C", "\n", "19. 3. 2026"}),
		rapid.StringMatching(`[a-zàéőß]{1,14}[,.]?`),
		rapid.StringMatching(`[0-9]{1,3}([.,][0-9])?`))
	return rapid.Custom(func(t *rapid.T) []Span {
		var out []Span
		for range rapid.IntRange(1, 8).Draw(t, "spans") {
			w := rapid.SliceOfN(word, 0, 8).Draw(t, "words")
			out = append(out, Span{Text: strings.Join(w, " ") + rapid.SampledFrom([]string{"", " "}).Draw(t, "gap"),
				Bold: rapid.Bool().Draw(t, "bold")})
		}
		return out
	}).Draw(t, "spans")
}

func TestLinesKeepEverything(t *testing.T) {
	faces := load(t)
	squash := func(s string) string { return strings.Join(strings.Fields(s), "") }
	rapid.Check(t, func(t *rapid.T) {
		p := Para{Spans: words(t), Anywhere: rapid.Bool().Draw(t, "anywhere")}
		size := Hundredths(rapid.Int64Range(300, 4000).Draw(t, "size"))
		width := unit.Length(rapid.Int64Range(int64(unit.MM), int64(200*unit.MM)).Draw(t, "width"))
		lines, err := faces.Break(p, size, width)
		var wide *TooWide
		if errors.As(err, &wide) {
			if wide.Need <= width {
				t.Fatalf("%v", err)
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		var in, out strings.Builder
		for _, s := range p.Spans {
			in.WriteString(s.Text)
		}
		for _, l := range lines {
			out.WriteString(l.Text())
			checkLine(t, faces, l, size, width)
		}
		if squash(in.String()) != squash(out.String()) {
			t.Fatalf("%q became %q", in.String(), out.String())
		}
	})
}

func checkLine(t *rapid.T, faces *Faces, l Line, size, width unit.Length) {
	if l.W > width {
		t.Fatalf("%q is %v wide, more than %v", l.Text(), l.W, width)
	}
	x := unit.Length(0)
	for i, f := range l.Frags {
		if f.X != x || f.Text == "" || i > 0 && l.Frags[i-1].Bold == f.Bold {
			t.Fatalf("fragment %+v of %+v, expected at %v", f, l.Frags, x)
		}
		if d := f.W - faces.Of(f.Bold).Width(f.Text, size); d < -1 || d > 1 {
			t.Fatalf("%q: width off by %d nm", f.Text, d)
		}
		x += f.W
	}
	if d := x - l.W; d < -1 || d > 1 {
		t.Fatalf("fragments end at %v, the line at %v", x, l.W)
	}
	if s := l.Text(); strings.TrimRight(s, " ") != s {
		t.Fatalf("%q ends with a space", s)
	}
}

func FuzzBreak(f *testing.F) {
	for _, s := range []string{"pear (41 %), butter", "88 ± 3 °C", "a\nb", "\u00ad\u2060\u200b \u200b", "x-y/z–", "( % ", "1 2 3 . , %5", "\xff", "- - -"} {
		f.Add(s, int64(2*unit.MM), int64(20*unit.MM), true)
	}
	faces := load(f)
	f.Fuzz(func(t *testing.T, s string, size, width int64, anywhere bool) {
		if size > int64(unit.Inch) || width > 1000*int64(unit.MM) || size < -1000 || width < -1000 {
			return
		}
		lines, err := faces.Break(Para{Spans: []Span{{Text: s}}, Anywhere: anywhere}, unit.Length(size), unit.Length(width))
		for _, l := range lines {
			if l.W > unit.Length(width) {
				t.Errorf("%q is too wide", l.Text())
			}
		}
		if err != nil && len(lines) != 0 {
			t.Errorf("lines beside %v", err)
		}
	})
}

// Twice the text must not take four times as long.
func BenchmarkLines(b *testing.B) {
	faces := load(b)
	list := strings.Repeat("pear (41 %), butter (milk), icing sugar, wheat flour, hazelnuts, egg, 12.5 g salt, ", 8)
	for _, n := range []int{1, 2, 4} {
		p := Para{Spans: []Span{{Text: strings.Repeat(list, n)}}}
		b.Run("prepare"+strconv.Itoa(n), func(b *testing.B) {
			for b.Loop() {
				faces.Prepare(p)
			}
		})
		c, _ := faces.Prepare(p)
		b.Run("lines"+strconv.Itoa(n), func(b *testing.B) {
			for b.Loop() {
				c.Lines(2*unit.MM, 60*unit.MM)
			}
		})
	}
}
