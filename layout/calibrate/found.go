package calibrate

import (
	"fmt"

	"chablon/labels/unit"
)

// Measured is what a ruler said: the white from the left and from the upper
// edge of the paper to the frame, and how wide and high the frame is, 0 where
// that was not measured.
type Measured struct{ Left, Top, Wide, High unit.Length }

// Setting is what to write for a printer. Hundred is what 100 mm come out as,
// 0 for 100 mm.
type Setting struct{ Right, Down, HundredWide, HundredHigh unit.Length }

// What a ruler and a feed roller may be out by, and what only software is:
// a driver that fits pages prints at 96 or 97 %.
const (
	mostOff   = 10 * unit.MM
	mostScale = 500 * unit.UM // on 100 mm
)

// Found says what to write for a printer that printed the page of [Compose] on
// a paper of w × h. The error says what is wrong with the printer, or with what
// was measured, and its hint what to do.
func Found(w, h unit.Length, m Measured) (s Setting, err error) {
	if s.HundredWide, err = scale("wide", w-2*Inset, m.Wide); err != nil {
		return Setting{}, err
	}
	if s.HundredHigh, err = scale("high", h-2*Inset, m.High); err != nil {
		return Setting{}, err
	}
	if s.Right, err = move("left", s.HundredWide, m.Left); err != nil {
		return Setting{}, err
	}
	if s.Down, err = move("top", s.HundredHigh, m.Top); err != nil {
		return Setting{}, err
	}
	return s, nil
}

// tenth is as fine as a ruler is read.
const asRead = 100 * unit.UM

// rounded is l to the tenth of a millimetre.
func rounded(l unit.Length) unit.Length {
	if l < 0 {
		return -rounded(-l)
	}
	return (l + asRead/2) / asRead * asRead
}

// scale is what 100 mm come out as by a length that was meant and one that was
// measured; 0 where they are the same or nothing was measured.
func scale(what string, meant, got unit.Length) (unit.Length, error) {
	if got == 0 {
		return 0, nil
	}
	hundred := rounded(got.Mul(100*int64(unit.MM), int64(meant)))
	if off := hundred - 100*unit.MM; max(off, -off) > mostScale {
		return 0, &unit.Error{Rule: "scale", Msg: fmt.Sprintf("--%s: the frame is meant to be %s and came out as %s: the printer scales to %.1f %%", what, meant, got, hundred.MM()),
			Hint: "choose \"actual size\" or 100 % in the printer's window, without fitting to the page, and print this page again"}
	}
	if hundred == 100*unit.MM {
		return 0, nil
	}
	return hundred, nil
}

// move is how far all must be moved so that the frame lies at [Inset], by how
// far from the edge it lies.
func move(what string, hundred, got unit.Length) (unit.Length, error) {
	at := Inset
	if hundred > 0 {
		at = Inset.Mul(int64(hundred), 100*int64(unit.MM))
	}
	off := rounded(at - got)
	if max(off, -off) > mostOff {
		return 0, &unit.Error{Rule: "calibrate", Msg: fmt.Sprintf("--%s: the frame lies %s from the edge, and is meant to lie at %s", what, got, Inset), Hint: "see that the paper lies straight, and that the page was printed on the paper that it names"}
	}
	return off, nil
}

// Lines are the lines to write below the printer's name in shop.yaml, and
// nothing for what is as it should be.
func (s Setting) Lines() (out []string) {
	for _, l := range []struct {
		key string
		v   unit.Length
	}{{"right", s.Right}, {"down", s.Down}, {"wide-100-mm", s.HundredWide}, {"high-100-mm", s.HundredHigh}} {
		if l.v != 0 {
			out = append(out, fmt.Sprintf("%s: %s", l.key, l.v))
		}
	}
	return out
}
