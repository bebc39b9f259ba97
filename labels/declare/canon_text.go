package declare

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"chablon/labels/read"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// canon writes keys and values as text, leaving out what is zero or empty.
type canon struct {
	b     []byte
	depth int
	// printed leaves out figures that no label prints, and rounds the others.
	printed bool
}

func (c *canon) line(s string) {
	c.b = append(c.b, strings.Repeat("  ", c.depth)+s+"\n"...)
}

func (c *canon) text(key, s string) {
	if s != "" {
		c.line(key + " " + strconv.Quote(s))
	}
}

func (c *canon) yes(key string, b bool) {
	if b {
		c.line(key)
	}
}

// number writes a whole number, with its unit behind it.
func (c *canon) number(key string, n int64, of string) {
	if n != 0 {
		c.line(strings.TrimSpace(key + " " + strconv.FormatInt(n, 10) + " " + of))
	}
}

func (c *canon) mass(key string, m unit.Mass) {
	c.number(key, int64(m.Round(unit.Milligram)/unit.Milligram), "mg")
}

func (c *canon) share(key string, s unit.Share) { c.number(key, int64(s), "ppb") }

// words writes a text in all its languages, by their codes.
func (c *canon) words(key string, w shop.Words) {
	byCode := func(a, b read.Entry[shop.Text]) int { return cmp.Compare(a.Key.V, b.Key.V) }
	c.block(key, func() {
		for _, e := range slices.SortedFunc(slices.Values(w), byCode) {
			c.line(e.Key.V + " " + strconv.Quote(e.V.V))
		}
	})
}

func (c *canon) texts(key string, list []string) {
	c.block(key, func() {
		for i, s := range list {
			c.line(strconv.Itoa(i+1) + " " + strconv.Quote(s))
		}
	})
}

// block writes a heading, and below it what inner writes; neither when that is
// nothing.
func (c *canon) block(key string, inner func()) {
	before := len(c.b)
	c.line(key)
	heading := len(c.b)
	c.depth++
	inner()
	c.depth--
	if len(c.b) == heading {
		c.b = c.b[:before]
	}
}

// items writes a list, its items numbered, so that none is lost even when it
// is empty.
func items[T any](c *canon, key string, list []T, item func(T)) {
	c.block(key, func() {
		for i, x := range list {
			c.line(strconv.Itoa(i + 1))
			c.depth++
			item(x)
			c.depth--
		}
	})
}
