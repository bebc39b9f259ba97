package gs1

import (
	"fmt"
	"strings"
)

// ParseElementString reads what a scanner sends: elements with FNC1 as \x1d
// after those of variable length. A superfluous FNC1, at the front or after
// any element, is tolerated. Each value is checked; whether the elements go
// together is not, because their companions may stand in another symbol: see
// [Together].
func ParseElementString(s string) ([]Element, error) {
	s = strings.TrimPrefix(s, FNC1)
	if s == "" {
		return nil, fmt.Errorf("an empty element string")
	}
	var els []Element
	for s != "" {
		e, rest, err := cutElement(s)
		if err != nil {
			return nil, err
		}
		els = append(els, e)
		s = strings.TrimPrefix(rest, FNC1)
	}
	return els, nil
}

func cutElement(s string) (Element, string, error) {
	d, err := entryAt(s)
	if err != nil {
		return Element{}, "", err
	}
	data := s[len(d.ai):]
	n := len(data)
	if i := strings.Index(data, FNC1); i >= 0 {
		n = i
	}
	if d.fixed {
		n = min(n, d.parts[0].max)
	}
	e := Element{d.ai, data[:n]}
	return e, data[n:], Check(e)
}

// entryAt finds the AI that s begins with.
func entryAt(s string) (*entry, error) {
	n := 2
	if len(s) >= 2 {
		n = max(n, dict().aiLen[s[:2]])
	}
	if len(s) < n {
		return nil, fmt.Errorf("%q is too short for an Application Identifier", s)
	}
	return lookup(s[:n])
}

// ParseScan reads a transmission with its symbology identifier (ISO/IEC
// 15424): "]C1…" of a GS1-128, "]d2…" of a GS1 DataMatrix, "]Q3…" of a GS1
// QR, "]e0…" of a GS1 DataBar, "]E0…" of an EAN-13 and "]E4…" of an EAN-8,
// whose digits become an AI 01 of 14 digits; "]I1…" of an ITF-14 likewise, and
// "]I0…" from a scanner that leaves the check digit to us.
func ParseScan(s string) ([]Element, error) {
	if len(s) < 3 || s[0] != ']' {
		return nil, fmt.Errorf("%q has no symbology identifier such as ]C1 in front", s)
	}
	switch id, data := s[:3], s[3:]; id {
	case "]C1", "]d2", "]Q3", "]e0":
		return ParseElementString(data)
	case "]E0":
		return scannedKey(GTIN13, data)
	case "]E4":
		return scannedKey(GTIN8, data)
	case "]I0", "]I1":
		return scannedKey(GTIN14, data)
	default:
		return nil, fmt.Errorf("a bar code of kind %s carries no GS1 data", id)
	}
}

func scannedKey(kind, data string) ([]Element, error) {
	if err := ValidAs(kind, data); err != nil {
		return nil, err
	}
	p, err := Pad(data)
	return []Element{{"01", p}}, err
}

// ParseBracketed reads "(01)09501101530003(10)AB-123". An opening parenthesis
// inside a value is written \(.
func ParseBracketed(s string) ([]Element, error) {
	if !strings.HasPrefix(s, "(") {
		return nil, fmt.Errorf("%q does not begin with an Application Identifier in parentheses", s)
	}
	var els []Element
	for s != "" {
		ai, rest, ok := strings.Cut(s[1:], ")")
		if !ok {
			return nil, fmt.Errorf("%q has no closing parenthesis", s)
		}
		var val string
		val, s = cutValue(rest)
		e := Element{ai, val}
		if err := Check(e); err != nil {
			return nil, err
		}
		els = append(els, e)
	}
	return els, nil
}

// cutValue takes the value up to the next parenthesis that is not escaped.
func cutValue(s string) (val, rest string) {
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if strings.HasPrefix(s[i:], `\(`) {
			i++
		} else if s[i] == '(' {
			return b.String(), s[i:]
		}
		b.WriteByte(s[i])
	}
	return b.String(), ""
}
