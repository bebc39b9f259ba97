package look

import "strings"

// apart is a word in capitals with thin spaces between its letters; the house's
// faces have that space.
func apart(s string) string {
	return strings.Join(strings.Split(strings.ToUpper(s), ""), "\u2009")
}
