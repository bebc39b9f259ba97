package read

import (
	"fmt"
	"strings"

	"golang.org/x/text/unicode/norm"
	"gopkg.in/yaml.v3"

	"chablon/labels/unit"
)

// A pair is one key of a mapping with its value.
type pair struct {
	name       string
	key, value *yaml.Node
}

// pairs gives the usable pairs of a mapping in order and reports the others:
// keys written twice, keys that are no text, and what a comma inside braces
// makes of a number. t is the table of keys, or nil for a Dict.
func (d *decoder) pairs(n *yaml.Node, t *plan) []pair {
	var out []pair
	first := map[string]*yaml.Node{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		p := pair{key: n.Content[i], value: n.Content[i+1]}
		if !d.keyName(&p) {
			continue
		}
		before, twice := first[p.name]
		switch {
		case twice:
			d.wrong(p.key, "duplicate-key", "keep one of the two", "key %q stands here again; it was first written on line %d", clip(p.name), before.Line)
			continue
		case n.Style&yaml.FlowStyle != 0 && isNull(p.value) && p.value.Value == "" && !known(t, p.name):
			out = d.comma(p, out)
			continue
		}
		first[p.name] = p.key
		out = append(out, p)
	}
	return out
}

// keyName fills in the name of a pair; a key that cannot be one is reported.
func (d *decoder) keyName(p *pair) bool {
	k := p.key
	switch {
	case k.Kind == yaml.AliasNode || isMerge(k):
		return false // reported before
	case k.Kind != yaml.ScalarNode:
		d.wrong(k, "kind", "write a name before the colon", "a key must be text, but is %s", kindName(k))
		return false
	case strings.TrimSpace(k.Value) == "":
		d.wrong(k, "kind", "write a name before the colon", "a key without a name")
		return false
	}
	p.name = norm.NFC.String(k.Value)
	if !unit.Printable(p.name) {
		d.wrong(k, "control-character", "write the key again by hand", "the key %q holds a character that cannot be printed", clip(p.name))
		return false
	}
	return d.visible(k, p.name)
}

// comma reports a lone word inside braces. When it continues a number, as in
// {take: 1,5 g}, the pair before it is taken back, as its value is wrong too.
func (d *decoder) comma(p pair, before []pair) []pair {
	last := len(before) - 1
	if last >= 0 && endsInDigit(before[last].value.Value) && p.name[0] >= '0' && p.name[0] <= '9' {
		whole := before[last].value
		d.wrong(whole, "comma", commaHint(clip(whole.Value), clip(p.name)), "a comma inside { } ends the value, so %q is cut off", clip(p.name))
		before[last].value = &yaml.Node{Kind: yaml.AliasNode} // read no further
		return before
	}
	d.wrong(p.key, "comma", "a comma inside { } begins a new key: put a text that holds a comma in quotes, or give the key a value",
		"%q stands alone inside { }", clip(p.name))
	return before
}

// commaHint offers the decimal number, and where the comma may as well part
// the thousands, the whole one too.
func commaHint(before, after string) string {
	point := before + "." + after
	if digits := strings.TrimRight(after, " abcdefghijklmnopqrstuvwxyz%°µ"); len(digits) == 3 {
		return fmt.Sprintf("write %s or %s, whichever is meant", before+after, point)
	}
	return "write decimals with a point: " + point
}

func endsInDigit(s string) bool {
	return s != "" && s[len(s)-1] >= '0' && s[len(s)-1] <= '9'
}

func known(t *plan, name string) bool {
	if t == nil {
		return false
	}
	_, ok := t.byName[name]
	return ok
}
