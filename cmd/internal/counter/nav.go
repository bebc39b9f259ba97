package counter

import "strings"

// Nav are the pages that lead from every page.
func (a *ask) Nav() (out []link) {
	at := a.r.URL.Path
	for _, n := range []struct{ key, path string }{{"nav-print", "/"}, {"nav-day", "/day"}, {"nav-allergens", "/allergens"}, {"nav-food", "/food"}, {"nav-wall", "/wall"}, {"nav-book", "/book"}} {
		out = append(out, link{Text: a.W(n.key), Path: n.path, On: at == n.path || n.path != "/" && strings.HasPrefix(at, n.path+"/")})
	}
	return out
}

// Path is the address of the page.
func (a *ask) Path() string { return a.r.URL.Path }

// dayBox is what three fields for a day need.
type dayBox struct {
	S      say
	Legend string
	F      dayFields
}

// DayBox is three fields for a day, under the words of a key.
func (a *ask) DayBox(key string, f dayFields) dayBox { return dayBox{a.say, a.W(key), f} }
