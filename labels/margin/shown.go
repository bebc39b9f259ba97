package margin

import "chablon/labels/unit"

// Shown is a value of the figure as it is said: rounded towards the figure, to
// about a twentieth of its distance from it, so that what is said lies within.
func (f Figure) Shown(v int64) string {
	v = f.Rounded(v)
	if f.Share {
		return unit.Share(v).String()
	}
	return unit.Mass(v).String()
}

// Rounded is a value of the figure in a round number.
func (f Figure) Rounded(v int64) int64 {
	off := abs(v - f.Value)
	if off == 0 {
		return v
	}
	step := int64(1)
	for step*10*20 <= off*10 && step*10 <= off/2 {
		step *= 10
	}
	if v < f.Value {
		return (v + step - 1) / step * step
	}
	return v / step * step
}
