package symbol

import (
	"fmt"
	"strings"

	"chablon/labels/gs1"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// GS1128 makes the bars of an element string with separators as \x1d and none
// in front ([gs1.Encode] writes it). A string that is not made of good
// elements, has more than 48 characters or gives a symbol longer than 165.10
// mm with its quiet zones is refused (GGS 5.4.4.3).
func GS1128(elementString string, m Module) (*page.Symbol, error) {
	if _, err := gs1.ParseElementString(elementString); err != nil {
		return nil, fmt.Errorf("%s: %w", gs1.GS1128, err)
	}
	if n := len(elementString); n > gs1.MaxGS1128Chars {
		return nil, fmt.Errorf("%s: %d characters, but one symbol holds %d: spread them over two symbols", gs1.GS1128, n, gs1.MaxGS1128Chars)
	}
	s, err := linear(gs1.GS1128, elementString, bars128(codewords(elementString)), m)
	if err != nil {
		return nil, err
	}
	if w := s.Bars.W + unit.Length(s.Quiet[0]+s.Quiet[2])*s.Module; w > gs1.MaxGS1128Width {
		return nil, fmt.Errorf("%s: the symbol would be %s long, and %s is the most: spread the data over two symbols or take a finer module", gs1.GS1128, w, gs1.MaxGS1128Width)
	}
	return s, nil
}

// Code words of Code 128 (ISO/IEC 15417 table 1).
const (
	codeC, codeB   = 99, 100
	fnc1           = 102
	startB, startC = 104, 105
	stop           = 106
)

// The two code sets that GS1 data need: B for single characters, C for pairs
// of digits. Set A adds only control characters, which GS1 does not allow.
const (
	setB = iota
	setC
)

// codewords writes s after FNC1 in the fewest code words, check character and
// stop included. s holds printable ASCII and separators only.
func codewords(s string) []byte {
	need := costs(s)
	set, out := setB, []byte{startB, fnc1}
	if need[0][setC] < need[0][setB] {
		set, out = setC, []byte{startC, fnc1}
	}
	for i := 0; i < len(s); {
		n := step(s[i:], set)
		if n == 0 || 1+need[i+n][set] > need[i][set] {
			set = setB + setC - set
			out = append(out, []byte{codeB, codeC}[set])
			continue
		}
		out = append(out, word(s[i:i+n], set))
		i += n
	}
	sum := int(out[0])
	for i, w := range out {
		sum += i * int(w)
	}
	return append(out, byte(sum%103), stop)
}

// costs gives for each place in s and each set that is on at that place how
// many code words the rest takes.
func costs(s string) [][2]int {
	const never = 1 << 20
	need := make([][2]int, len(s)+1)
	for i := len(s) - 1; i >= 0; i-- {
		for set := range need[i] {
			need[i][set] = never
			if n := step(s[i:], set); n > 0 {
				need[i][set] = 1 + need[i+n][set]
			}
		}
		b, c := need[i][setB], need[i][setC]
		need[i] = [2]int{min(b, c+1), min(c, b+1)}
	}
	return need
}

// step is how many characters of s one code word of the set takes.
func step(s string, set int) int {
	switch {
	case s[:1] == gs1.FNC1 || set == setB:
		return 1
	case len(s) > 1 && isDigit(s[0]) && isDigit(s[1]):
		return 2
	}
	return 0
}

func word(s string, set int) byte {
	switch {
	case s == gs1.FNC1:
		return fnc1
	case set == setC:
		return (s[0]-'0')*10 + s[1] - '0'
	}
	return s[0] - ' '
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// bars128 draws code words as modules, 1 for dark.
func bars128(words []byte) []byte {
	var out []byte
	table := strings.Fields(widths128)
	for _, w := range words {
		for i, n := range []byte(table[w]) {
			for range n - '0' {
				out = append(out, byte(1-i%2))
			}
		}
	}
	return out
}

// widths128 are the widths of bar, space, bar, … of the code words 0 to 105
// and of the stop pattern (ISO/IEC 15417 table 1).
const widths128 = `
212222 222122 222221 121223 121322 131222 122213 122312 132212 221213
221312 231212 112232 122132 122231 113222 123122 123221 223211 221132
221231 213212 223112 312131 311222 321122 321221 312212 322112 322211
212123 212321 232121 111323 131123 131321 112313 132113 132311 211313
231113 231311 112133 112331 132131 113123 113321 133121 313121 211331
231131 213113 213311 213131 311123 311321 331121 312113 312311 332111
314111 221411 431111 111224 111422 121124 121421 141122 141221 112214
112412 122114 122411 142112 142211 241211 221114 413111 241112 134111
111242 121142 121241 114212 124112 124211 411212 421112 421211 212141
214121 412121 111143 111341 131141 114113 114311 411113 411311 113141
114131 311141 411131 211412 211214 211232 2331112`
