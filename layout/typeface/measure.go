package typeface

import (
	"chablon/fonts"
	"encoding/binary"
	"math"
)

// looked are the letters whose outlines are measured.
func looked() []rune { return []rune("aenotxHo0123456789") }

// strokes are the letters whose thinnest stroke counts.
func strokes() []rune { return []rune("aenot") }

// measures measures the outlines and holds what the file says against them.
func (r *reader) measures() {
	for _, c := range "aenotxH" {
		if len(r.ink[c]) == 0 {
			r.refuse("take another face", "has no letter %q", c)
			return
		}
	}
	x := r.ink['x'].high()
	r.X, r.Cap = int64(math.Floor(x)), int64(math.Floor(r.ink['H'].high()))
	if r.X <= 0 || r.Cap <= r.X || r.Cap > r.Em {
		r.refuse("take another face", "has letters of no usual form: its x is %d units high and its H %d, of an em of %d", r.X, r.Cap, r.Em)
		return
	}
	if says, ok := r.says(); ok {
		if math.Abs(says-x) > x/50 {
			r.refuse("take another face; the law measures the x", "says that its x is %.0f units high, and draws it %.0f high", says, x)
		}
		r.X = min(r.X, int64(says))
	}
	thin := math.Inf(1)
	for _, c := range strokes() {
		thin = min(thin, r.ink[c].thin(float64(r.Em)))
	}
	r.Thin = int64(thin)
	if thin < float64(r.Em)/100 || thin > float64(r.Em)/2 {
		r.Thin = 1
		r.refuse("take a bolder one", "has strokes of no width that can be printed")
	}
	r.lining()
}

// says is the height of the x by the table OS/2, from its version 2 on.
func (r *reader) says() (float64, bool) {
	os2 := fonts.Table(r.Data, "OS/2")
	if binary.BigEndian.Uint16(os2) < 2 || len(os2) < 90 {
		return 0, false
	}
	return float64(int16(binary.BigEndian.Uint16(os2[86:]))), true
}

// lining looks whether all figures have one height, to 6 % as round ones reach
// over, and none hangs below the line.
func (r *reader) lining() {
	r.Lining = true
	one := r.ink['1']
	for c := '0'; c <= '9'; c++ {
		o := r.ink[c]
		if len(o) == 0 || math.Abs(o.high()-one.high()) > 0.06*one.high() || o.low() < -0.04*float64(r.Em) {
			r.Lining = false
		}
	}
}
