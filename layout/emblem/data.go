package emblem

import (
	"fmt"
	"strings"
)

// Data is a drawing as the value of the attribute d of an SVG path, and the size
// of its viewBox, which begins at 0 0, all in the drawing's own unit; "" for a
// picture. It holds M, L, C, Z and numbers, whatever the file held.
func (e *Emblem) Data() (d, w, h string) {
	if e.Gray != nil {
		return "", "", ""
	}
	var b strings.Builder
	for _, s := range e.Steps {
		b.WriteByte(byte(s.Op))
		n, _ := points(byte(s.Op))
		for i, p := range s.Pts[:n] {
			if i > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(decimal(int64(p.X)) + " " + decimal(int64(p.Y)))
		}
	}
	return b.String(), decimal(e.W), decimal(e.H)
}

// decimal writes millionths as a decimal number without needless zeros.
func decimal(n int64) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	return sign + strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%d.%06d", n/1e6, n%1e6), "0"), ".")
}
