package counter

import (
	"crypto/subtle"
	"net/http"
	"strings"

	"chablon/labels/words"
)

// enter is the door: the PIN that stands in the terminal.
func (a *ask) enter() error {
	if a.PIN == "" {
		return a.to("/")
	}
	return a.show(http.StatusOK, "enter", a.W("pin-title"), struct{ Wrong string }{})
}

// entered lets in who gives the PIN.
func (a *ask) entered() error {
	from := address(a.r)
	if !a.door.mayTry(from) {
		return &refusal{http.StatusTooManyRequests, "pin-closed", nil}
	}
	given := strings.TrimSpace(a.r.PostFormValue("pin"))
	if a.PIN == "" || subtle.ConstantTimeCompare([]byte(given), []byte(a.PIN)) != 1 {
		return a.show(http.StatusForbidden, "enter", a.W("pin-title"), struct{ Wrong string }{a.W("pin-wrong")})
	}
	a.door.forgiven(from)
	http.SetCookie(a.w, &http.Cookie{Name: visitName, Value: a.door.admit(), Path: "/", MaxAge: int(visit.Seconds()),
		HttpOnly: true, SameSite: http.SameSiteStrictMode, Secure: a.Secure})
	return a.to("/")
}

// languageName is the cookie for the language of the pages.
const languageName = "chablon-language"

// language keeps the language that the visitor chose.
func (a *ask) language() error {
	code := a.r.PostFormValue("language")
	if l, ok := words.Get(code); ok && l.Has("counter") {
		http.SetCookie(a.w, &http.Cookie{Name: languageName, Value: code, Path: "/", MaxAge: 365 * 24 * 3600,
			HttpOnly: true, SameSite: http.SameSiteStrictMode, Secure: a.Secure})
	}
	return a.to("/")
}
