package margin

// near is how close the two values of an end lie, as a part of how far it is
// from the figure.
const near = 128

// end finds the end of a figure's margin on one side, -1 below and +1 above it,
// or nil where there is none.
func (t *trial) end(k knob, watch int, side int64) *End {
	same, other, found := search(k, side, func(v int64) bool { return t.alike(k, watch, v) })
	beyond := t.with(k, other, true)
	if t.saysSame(watch, beyond) == found || found && !t.saysSame(watch, t.with(k, same, true)) {
		// the words know more than the facts
		same, other, found = search(k, side, func(v int64) bool { return t.saysSame(watch, t.with(k, v, true)) })
		beyond = t.with(k, other, true)
	}
	if !found {
		return nil
	}
	return &End{same, other, t.changes(watch, beyond)}
}

// limit is how far a figure can go on one side.
func limit(k knob, side int64) int64 {
	if side < 0 {
		return 0
	}
	return k.most
}

// search goes away from the figure in growing steps until the label is another,
// and then halves what lies between.
func search(k knob, side int64, alike func(int64) bool) (same, other int64, found bool) {
	same, other = k.Value, limit(k, side)
	for step := max(1, k.Value/256); ; step *= 3 {
		at := k.Value + side*step
		if side*at >= side*other {
			if alike(other) {
				return other, other, false
			}
			break
		}
		if !alike(at) {
			other = at
			break
		}
		same = at
	}
	for abs(other-same) > max(1, abs(other-k.Value)/near) {
		mid := same + (other-same)/2
		if alike(mid) {
			same = mid
		} else {
			other = mid
		}
	}
	return same, other, true
}
