package gs1

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
)

//go:embed syntax-dictionary.txt
var dictionaryText string

// An entry is what the Syntax Dictionary says of one AI.
type entry struct {
	ai       string
	fixed    bool // predefined length: no separator after it
	linkAttr bool // may stand in the query of a Digital Link
	parts    []part
	req      [][][]string // all of: one of: all together
	ex       []string
	key      bool       // primary key of a Digital Link
	quals    [][]string // sequences of qualifiers after this key
	title    string
}

// A part is one piece of a value: N digits, X the 82 characters, Y the 39, Z
// base64url, with its length and the names of further tests.
type part struct {
	set      byte
	min, max int
	optional bool
	tests    []string
}

type dictionary struct {
	all   map[string]*entry
	order []string
	aiLen map[string]int // by the first two digits
}

// dict is read from the embedded text at first use.
var dict = sync.OnceValue(func() dictionary {
	d, err := readDictionary(dictionaryText)
	if err != nil {
		return dictionary{} // a test reads the embedded text; see TestDictionary
	}
	return d
})

func lookup(ai string) (*entry, error) {
	if e := dict().all[ai]; e != nil {
		return e, nil
	}
	return nil, fmt.Errorf("(%s) is not an Application Identifier of GS1", ai)
}

// Title is GS1's data title of an AI, as it stands in the text block of a
// logistic label: "SSCC", "BATCH/LOT". It is empty for an unknown AI.
func Title(ai string) string {
	if e := dict().all[ai]; e != nil {
		return e.title
	}
	return ""
}

// Fixed reports whether the AI has a predefined length, so that no separator
// follows it (GGS 7.8.5).
func Fixed(ai string) bool {
	e := dict().all[ai]
	return e != nil && e.fixed
}

func readDictionary(text string) (dictionary, error) {
	d := dictionary{all: map[string]*entry{}, aiLen: map[string]int{}}
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		if err := d.add(line); err != nil {
			return dictionary{}, fmt.Errorf("syntax dictionary, line %d: %w", i+1, err)
		}
	}
	return d, nil
}

func (d *dictionary) add(line string) error {
	spec, title, _ := strings.Cut(line, "# ")
	fields := strings.Fields(spec)
	if len(fields) < 2 {
		return fmt.Errorf("too short")
	}
	e := entry{title: strings.TrimSpace(title)}
	for i, f := range fields[1:] {
		switch {
		case i == 0 && strings.Trim(f, "*?") == "":
			e.fixed, e.linkAttr = strings.Contains(f, "*"), strings.Contains(f, "?")
		case strings.Contains("NXYZ[", f[:1]):
			p, err := readPart(f)
			if err != nil {
				return err
			}
			e.parts = append(e.parts, p)
		default:
			e.attribute(f)
		}
	}
	return d.spread(fields[0], e)
}

// spread enters e for each AI of "01" or "3100-3105".
func (d *dictionary) spread(ais string, e entry) error {
	from, to, ok := strings.Cut(ais, "-")
	if !ok {
		to = from
	}
	a, err1 := strconv.Atoi(from)
	b, err2 := strconv.Atoi(to)
	if err1 != nil || err2 != nil || b < a || b-a > 9 {
		return fmt.Errorf("%q is not an AI or a range of AIs", ais)
	}
	for n := a; n <= b; n++ {
		one := e
		one.ai = fmt.Sprintf("%0*d", len(from), n)
		if was, ok := d.aiLen[one.ai[:2]]; ok && was != len(one.ai) {
			return fmt.Errorf("AIs that begin with %s have different lengths", one.ai[:2])
		}
		d.aiLen[one.ai[:2]] = len(one.ai)
		d.all[one.ai] = &one
		d.order = append(d.order, one.ai)
	}
	return nil
}

// readPart reads "N14,csum", "X..20" or "[N2],mi".
func readPart(f string) (part, error) {
	shape, rest, _ := strings.Cut(f, ",")
	p := part{optional: shape[0] == '['}
	shape = strings.Trim(shape, "[]")
	if rest != "" {
		p.tests = strings.Split(rest, ",")
	}
	p.set = shape[0]
	num, open := strings.CutPrefix(shape[1:], "..")
	n, err := strconv.Atoi(num)
	if err != nil || n < 1 {
		return p, fmt.Errorf("%q is not a format", f)
	}
	p.min, p.max = n, n
	if open {
		p.min = 1
	}
	return p, nil
}

// attribute reads "req=01+21,02", "ex=255,37", "dlpkey=22,10,21|235".
func (d *entry) attribute(f string) {
	name, val, _ := strings.Cut(f, "=")
	switch name {
	case "req":
		var anyOf [][]string
		for _, g := range strings.Split(val, ",") {
			anyOf = append(anyOf, strings.Split(g, "+"))
		}
		d.req = append(d.req, anyOf)
	case "ex":
		d.ex = append(d.ex, strings.Split(val, ",")...)
	case "dlpkey":
		d.key = true
		for _, seq := range strings.Split(val, "|") {
			if seq != "" {
				d.quals = append(d.quals, strings.Split(seq, ","))
			}
		}
	}
}

// matches reports whether an AI fits a pattern such as 01 or 31nn.
func matches(pattern, ai string) bool {
	if len(pattern) != len(ai) {
		return false
	}
	for i := range len(ai) {
		if pattern[i] != 'n' && pattern[i] != ai[i] {
			return false
		}
	}
	return true
}

// has reports whether one of els fits the pattern.
func has(els []Element, pattern string) bool {
	return slices.ContainsFunc(els, func(e Element) bool { return matches(pattern, e.AI) })
}
