package shop

import (
	"fmt"
	"strings"

	"chablon/labels/unit"
)

// Humidity is a relative humidity of the air, from Lo to Hi; one of them is
// nothing where only the other was written.
type Humidity struct{ Lo, Hi unit.Share }

// UnmarshalText reads "78 %", "75 to 80 %", "≤ 60 %" or "≥ 70 %".
func (h *Humidity) UnmarshalText(b []byte) error {
	fault := &unit.Error{Rule: "unit", Msg: fmt.Sprintf("%q is no humidity of the air", b), Hint: `write it like "78 %", "75 to 80 %" or "≤ 60 %"`}
	s := strings.TrimSpace(string(b))
	parse := func(s string) (unit.Share, bool) {
		v, err := unit.ParseShare(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "%")) + " %")
		return v, err == nil && v > 0 && v <= unit.Whole
	}
	var out Humidity
	ok := strings.HasSuffix(s, "%")
	lo, hi, ranges := strings.Cut(s, " to ")
	switch {
	case !ok:
	case ranges:
		var rises bool
		out.Lo, rises = parse(lo)
		out.Hi, ok = parse(hi)
		ok = ok && rises && out.Lo < out.Hi
	case strings.HasPrefix(s, "≤"):
		out.Hi, ok = parse(strings.TrimPrefix(s, "≤"))
	case strings.HasPrefix(s, "≥"):
		out.Lo, ok = parse(strings.TrimPrefix(s, "≥"))
	default:
		out.Lo, ok = parse(s)
		out.Hi = out.Lo
	}
	if !ok {
		return fault
	}
	*h = out
	return nil
}

// String gives "75 to 80 %" or "≤ 60 %".
func (h Humidity) String() string {
	switch {
	case h.Lo == 0:
		return "≤ " + h.Hi.String()
	case h.Hi == 0:
		return "≥ " + h.Lo.String()
	case h.Lo == h.Hi:
		return h.Lo.String()
	}
	return strings.TrimSuffix(h.Lo.String(), " %") + " to " + h.Hi.String()
}

// Pattern is the regular expression of a humidity.
func (Humidity) Pattern() string {
	const n = `[0-9]+(\.[0-9]+)?`
	return "^((≤|≥) ?)?" + n + "( to " + n + ")? ?%$"
}

// Example is a humidity as it is written.
func (Humidity) Example() string { return "75 to 80 %" }
