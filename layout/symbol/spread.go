package symbol

import (
	"fmt"
	"slices"

	"chablon/labels/gs1"
	"chablon/labels/unit"
)

// Spread parts the elements of one item over as few GS1-128 symbols as their
// order allows, so that each has at most 48 characters and is no wider than
// room with its quiet zones at module width x. An SSCC gets a symbol of its
// own, which is the last one returned because it stands lowest on the label
// (GGS 6.6). Each group is then written with gs1.Encode(group, els...), so
// that companions in another symbol count; also are those in symbols of another
// kind.
func Spread(els []gs1.Element, x, room unit.Length, also ...gs1.Element) ([][]gs1.Element, error) {
	var out [][]gs1.Element
	var now, sscc []gs1.Element
	room, also = min(room, gs1.MaxGS1128Width), append(slices.Clone(els), also...)
	for _, e := range els {
		alone := []gs1.Element{e}
		if w, err := width128(alone, also, x); err != nil {
			return nil, err
		} else if w > room {
			return nil, fmt.Errorf("%s of (%s) alone is %s wide with modules of %s, and there is room for %s: take a larger label or a finer printer", gs1.GS1128, e.AI, w, x, room)
		}
		if e.AI == "00" {
			sscc = alone
			continue
		}
		more := append(now[:len(now):len(now)], e)
		if w, err := width128(more, also, x); err == nil && w <= room {
			now = more
			continue
		}
		out = append(out, now)
		now = alone
	}
	if len(now) > 0 {
		out = append(out, now)
	}
	if sscc != nil {
		out = append(out, sscc)
	}
	return out, nil
}

// width128 is how wide the symbol of a group would be with its quiet zones.
func width128(group, all []gs1.Element, x unit.Length) (unit.Length, error) {
	s, err := gs1.Encode(group, all...)
	if err != nil {
		return 0, err
	}
	if len(s) > gs1.MaxGS1128Chars {
		return 0, fmt.Errorf("%s of %s has %d characters, but one symbol holds %d", gs1.GS1128, gs1.HRI(group), len(s), gs1.MaxGS1128Chars)
	}
	q := quiet(gs1.GS1128)
	n := 11*len(codewords(s)) + 2 + q[0] + q[2] // 11 modules each, the stop has 13
	return x * unit.Length(n), nil
}
