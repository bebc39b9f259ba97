package text

import (
	"strings"
	"unicode"

	"chablon/labels/unit"
)

// Hundredths is the size of n hundredths of a point, rounded up to the
// nanometre. Sizes are whole hundredths because a PDF states them with few
// decimals: what was measured is then what is drawn.
func Hundredths(n int64) unit.Length {
	return unit.Length((n*int64(unit.Inch) + 7199) / 7200)
}

// InHundredths is how many whole hundredths of a point are in size; a
// nanometre that rounding took away is forgiven.
func InHundredths(size unit.Length) int64 { return (int64(size) + 1) * 7200 / int64(unit.Inch) }

// Whole is size in whole hundredths of a point, never more than size but for
// that nanometre.
func Whole(size unit.Length) unit.Length { return Hundredths(InHundredths(size)) }

// invisible letters steer breaking or direction and are never drawn.
func invisible(r rune) bool {
	switch {
	case r < 0xAD:
		return false
	case r == 0xAD, r >= 0x200B && r <= 0x200F, r >= 0x202A && r <= 0x202E, r >= 0x2060 && r <= 0x2064, r == 0xFEFF:
		return true
	}
	return false
}

func combining(r rune) bool { return r >= 0x300 && unicode.In(r, unicode.Mn, unicode.Me) }

// Drawn is s without the letters that are never drawn: soft hyphens, joiners,
// direction marks.
func Drawn(s string) string {
	if strings.IndexFunc(s, invisible) < 0 {
		return s
	}
	return strings.Map(func(r rune) rune {
		if invisible(r) {
			return -1
		}
		return r
	}, s)
}
