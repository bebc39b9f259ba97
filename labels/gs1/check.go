package gs1

import (
	"fmt"
	"strings"
)

// The character sets of values (GGS 7.11): 82 for X, 39 for Y, and base64url
// for Z (RFC 4648 section 5).
const (
	alnum  = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	lower  = "abcdefghijklmnopqrstuvwxyz"
	cset82 = alnum + lower + `!"%&'()*+,-./_:;<=>?`
	cset39 = alnum + "#-/"
	cset64 = alnum + lower + "-_"
)

// Check reports what is wrong with the value of one element.
func Check(e Element) error {
	d, err := lookup(e.AI)
	if err != nil {
		return err
	}
	if msg := d.check(e.Value); msg != "" {
		return fmt.Errorf("(%s) %s: %q %s", e.AI, d.title, e.Value, msg)
	}
	return nil
}

// check returns what is wrong with a value, or "".
func (d *entry) check(val string) string {
	if val == "" {
		return "has no value"
	}
	rest := val
	for _, p := range d.parts {
		if rest == "" && p.optional {
			return ""
		}
		n := min(len(rest), p.max)
		if n < p.min {
			return "is too short: " + d.format()
		}
		if msg := p.check(rest[:n]); msg != "" {
			return msg
		}
		rest = rest[n:]
	}
	if rest != "" {
		return "is too long: " + d.format()
	}
	return ""
}

func (p part) check(s string) string {
	if msg := p.inSet(s); msg != "" {
		return msg
	}
	for _, name := range p.tests {
		if msg := test(name, s); msg != "" {
			return msg
		}
	}
	return ""
}

func (p part) inSet(s string) string {
	switch p.set {
	case 'N':
		if !digits(s) {
			return "must be digits only"
		}
	case 'X':
		return outside(s, cset82)
	case 'Y':
		return outside(s, cset39)
	case 'Z':
		return base64url(s)
	}
	return ""
}

func outside(s, set string) string {
	for _, r := range s {
		if !strings.ContainsRune(set, r) || r == '\uFFFD' {
			return fmt.Sprintf("has %q, which no GS1 bar code can carry: use A to Z, a to z, digits and the signs %s", r, strings.TrimPrefix(set, alnum+lower))
		}
	}
	return ""
}

func base64url(s string) string {
	body := strings.TrimRight(s, "=")
	if pad := len(s) - len(body); pad > 2 || pad > 0 && len(s)%4 != 0 {
		return "has wrong padding"
	}
	return outside(body, cset64)
}

// format says how a value is built, for messages.
func (d *entry) format() string {
	least, most := 0, 0
	kind := "digits"
	for _, p := range d.parts {
		if !p.optional {
			least += p.min
		}
		most += p.max
		if p.set != 'N' {
			kind = "characters"
		}
	}
	if least == most {
		return fmt.Sprintf("it has %d %s", most, kind)
	}
	return fmt.Sprintf("it has %d to %d %s", least, most, kind)
}
