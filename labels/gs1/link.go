package gs1

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// CanonicalStem is the stem of the canonical form of a Digital Link.
const CanonicalStem = "https://id.gs1.org"

// Link writes els as a GS1 Digital Link URI (GS1 Digital Link Standard: URI
// Syntax). The first element that is a primary key goes first in the path,
// its qualifiers follow in the order that the key asks for, everything else
// goes into the query in the order given. stem is "https://example.com", with
// a path if need be; empty means [CanonicalStem].
func Link(stem string, els []Element) (string, error) {
	if stem == "" {
		stem = CanonicalStem
	}
	if err := validStem(stem); err != nil {
		return "", err
	}
	els, err := distinct(els)
	if err != nil {
		return "", err
	}
	at := slices.IndexFunc(els, func(e Element) bool { return dict().all[e.AI].key })
	if at < 0 {
		return "", fmt.Errorf("%s has no number that a Digital Link can begin with, such as (01) GTIN", HRI(els))
	}
	key := els[at]
	seq := qualifiers(dict().all[key.AI], els)
	var path, query strings.Builder
	path.WriteString(strings.TrimSuffix(stem, "/") + segment(key))
	for _, ai := range seq {
		e := els[slices.IndexFunc(els, func(e Element) bool { return e.AI == ai })]
		if e.Value == "." || e.Value == ".." {
			return "", fmt.Errorf("(%s) %s: %q cannot stand in a web address, which would drop it", e.AI, Title(e.AI), e.Value)
		}
		path.WriteString(segment(e))
	}
	sep := "?"
	for i, e := range els {
		if i == at || slices.Contains(seq, e.AI) {
			continue
		}
		if !dict().all[e.AI].linkAttr {
			return "", fmt.Errorf("(%s) %s may not stand in a Digital Link that begins with (%s)", e.AI, Title(e.AI), key.AI)
		}
		query.WriteString(sep + e.AI + "=" + escape(e.Value))
		sep = "&"
	}
	return path.String() + query.String(), nil
}

// distinct checks each element and drops exact repetitions.
func distinct(els []Element) ([]Element, error) {
	var out []Element
	for _, e := range els {
		if err := Check(e); err != nil {
			return nil, err
		}
		i := slices.IndexFunc(out, func(f Element) bool { return f.AI == e.AI })
		switch {
		case i < 0:
			out = append(out, e)
		case out[i].Value != e.Value:
			return nil, fmt.Errorf("(%s) %s is given twice with different values", e.AI, Title(e.AI))
		}
	}
	return out, nil
}

// qualifiers picks the first sequence of the key's qualifiers of which els
// has any, and returns those it has, in order.
func qualifiers(key *entry, els []Element) []string {
	for _, seq := range key.quals {
		var got []string
		for _, ai := range seq {
			if has(els, ai) {
				got = append(got, ai)
			}
		}
		if len(got) > 0 {
			return got
		}
	}
	return nil
}

func segment(e Element) string { return "/" + e.AI + "/" + escape(e.Value) }

// escape leaves what RFC 3986 calls unreserved and writes the rest as %XX.
func escape(s string) string {
	var b strings.Builder
	for i := range len(s) {
		if c := s[i]; strings.IndexByte(alnum+lower+"-._~", c) >= 0 {
			b.WriteByte(c)
		} else {
			fmt.Fprintf(&b, "%%%02X", c)
		}
	}
	return b.String()
}

// validStem takes http or https, in capitals or not but not mixed, a host,
// and a path without query, fragment or anything that needs escaping.
func validStem(stem string) error {
	scheme, rest, ok := strings.Cut(stem, "://")
	if !ok || !slices.Contains([]string{"http", "https", "HTTP", "HTTPS"}, scheme) {
		return fmt.Errorf("%q is not the beginning of a web address: write https://example.com", stem)
	}
	if host, _, _ := strings.Cut(rest, "/"); host == "" {
		return fmt.Errorf("%q has no domain: write https://example.com", stem)
	}
	for i := range len(rest) {
		if strings.IndexByte(alnum+lower+"-._~:/", rest[i]) < 0 {
			return fmt.Errorf("%q has %q, which cannot stand in the beginning of a Digital Link", stem, rest[i])
		}
	}
	return nil
}

// ParseLink reads a Digital Link URI back into its elements, key first. The
// key's GTIN must have its 14 digits.
func ParseLink(uri string) ([]Element, error) {
	address, _, _ := strings.Cut(uri, "#")
	address, query, _ := strings.Cut(address, "?")
	scheme, rest, ok := strings.Cut(address, "://")
	host, path, _ := strings.Cut(rest, "/")
	if !ok || host == "" || !slices.Contains([]string{"http", "https", "HTTP", "HTTPS"}, scheme) {
		return nil, fmt.Errorf("%q is not a web address", uri)
	}
	els, err := parsePath(strings.Split(path, "/"))
	if err != nil {
		return nil, fmt.Errorf("%q is not a Digital Link: %w", uri, err)
	}
	for _, pair := range strings.FieldsFunc(query, func(r rune) bool { return r == '&' || r == ';' }) {
		name, val, _ := strings.Cut(pair, "=")
		if !digits(name) {
			continue // not GS1 data
		}
		e, err := unescaped(name, strings.ReplaceAll(val, "+", " "))
		if err != nil {
			return nil, err
		}
		els = append(els, e)
	}
	return distinct(els)
}

// parsePath reads the pairs at the end of a path, from the last one back to
// the nearest primary key.
func parsePath(seg []string) ([]Element, error) {
	for i := len(seg) - 2; i >= 0; i -= 2 {
		d := dict().all[seg[i]]
		if d == nil {
			break
		}
		if !d.key {
			continue
		}
		return d.pairs(seg[i:])
	}
	return nil, fmt.Errorf("it has no number such as /01/ and a GTIN in it")
}

// pairs reads a key and its qualifiers, which must be in their order.
func (d *entry) pairs(seg []string) ([]Element, error) {
	var els []Element
	for i := 0; i < len(seg); i += 2 {
		e, err := unescaped(seg[i], seg[i+1])
		if err != nil {
			return nil, err
		}
		els = append(els, e)
	}
	var given []string
	for _, e := range els[1:] {
		given = append(given, e.AI)
	}
	if len(given) > 0 && !slices.Equal(given, qualifiers(d, els[1:])) {
		return nil, fmt.Errorf("(%s) cannot be followed by %s in this order", d.ai, HRI(els[1:]))
	}
	return els, nil
}

func unescaped(ai, val string) (Element, error) {
	var b strings.Builder
	for i := 0; i < len(val); i++ {
		if val[i] != '%' {
			b.WriteByte(val[i])
			continue
		}
		if i+2 >= len(val) || !hex(val[i+1]) || !hex(val[i+2]) {
			return Element{}, fmt.Errorf("%q has a %% that is not followed by two hexadecimal digits", val)
		}
		c, _ := strconv.ParseUint(val[i+1:i+3], 16, 8)
		b.WriteByte(byte(c))
		i += 2
	}
	e := Element{ai, b.String()}
	return e, Check(e)
}
