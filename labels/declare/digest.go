package declare

import (
	"cmp"
	"crypto/sha256"
	"encoding/base32"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Digest is a short fingerprint of all that a label says, but for what changes
// from day to day: the date itself and the batch code. Whoever approves the
// facts approves this digest; it is the same for the same facts, on any day
// and on any machine, and another as soon as anything said changes, in any
// language that the shop has words in.
//
// It is made of the first 80 bits of the SHA-256 (FIPS 180-4) of [Facts.Canon],
// written in Base32 (RFC 4648): four groups of four letters and figures.
func (f *Facts) Digest() string {
	sum := sha256.Sum256([]byte(f.Canon()))
	s := base32.StdEncoding.EncodeToString(sum[:10])
	return s[:4] + "-" + s[4:8] + "-" + s[8:12] + "-" + s[12:]
}

// Canon is the text that the digest is made of. Its first lines name the form,
// the product, the pack and the market. Below stand the values of Facts, one a
// line, in the order of their fields, each behind the name of its field; what
// a field holds is indented by two spaces.
//
//   - What is zero or empty is left out, so a field that is new in a later
//     version changes no digest before it is used.
//   - Texts are quoted as in Go. Words of several languages are sorted by code.
//   - Masses are those for 1000 pieces, in whole milligrams; other quantities
//     are written with their units.
//   - Places in files, reasons and sums are not said on a label and are left
//     out, and so is whatever [unsaid] lists. Everything else counts: a field
//     that is added counts unless it is written into that list.
func (f *Facts) Canon() string {
	c := &canon{}
	c.b.WriteString("facts 1\n")
	for _, s := range [][2]string{{"product", f.Product.ID}, {"pack", f.Pack.ID.V}, {"market", f.Market.Code}} {
		fmt.Fprintf(&c.b, "%s %q\n", s[0], s[1])
	}
	c.value("facts", reflect.ValueOf(f), 0)
	return c.b.String()
}

// unsaid lists the fields that no label says, by type.
func unsaid() map[reflect.Type][]string {
	return map[reflect.Type][]string{
		reflect.TypeFor[Facts]():     {"Market", "Made", "AtUse", "Finished", "SO2", "Decisions"},
		reflect.TypeFor[Date]():      {"End", "Limit", "Shown"},
		reflect.TypeFor[Part]():      {"Ref"},
		reflect.TypeFor[Row]():       {"Exact"},
		reflect.TypeFor[Statement](): {"Law"},
		reflect.TypeFor[shop.Product](): {"ID", "Version", "Issued", "Approved", "MakeUp", "CutTo", "Handling", "Merge",
			"Quid", "Assessment", "Steps", "Tray", "Packs", "Carton", "Listing"},
		reflect.TypeFor[shop.Claims](): {"RuledOut"},
		reflect.TypeFor[shop.Pack]():   {"ID", "Stock", "Languages", "Face", "Around", "Price"},
	}
}

// canon writes values as text.
type canon struct{ b strings.Builder }

// value writes v behind its name, unless it is empty.
func (c *canon) value(name string, v reflect.Value, depth int) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			c.value(name, v.Elem(), depth)
		}
		return
	case reflect.Slice:
		c.slice(name, v, depth)
		return
	case reflect.Struct:
		if v.NumField() == 2 && v.Type().Field(0).Name == "V" && v.Type().Field(1).Name == "Pos" {
			c.value(name, v.Field(0), depth) // a value with its place
			return
		}
		if _, text := v.Interface().(fmt.Stringer); !text {
			c.block(name, v, depth)
			return
		}
	}
	if !v.IsZero() {
		c.line(depth, name+" "+scalar(v))
	}
}

// block writes the fields of a struct that are said; a heading only above what
// is written.
func (c *canon) block(name string, v reflect.Value, depth int) {
	inner := &canon{}
	skip := unsaid()[v.Type()]
	for i := range v.NumField() {
		f := v.Type().Field(i)
		if f.Type == reflect.TypeFor[diag.Pos]() || slices.Contains(skip, f.Name) {
			continue
		}
		inner.value(strings.ToLower(f.Name), v.Field(i), depth+1)
	}
	if inner.b.Len() > 0 {
		c.line(depth, name)
		c.b.WriteString(inner.b.String())
	}
}

// slice writes the items of a list, numbered, so that none is lost even when
// it is empty. Words are written by their languages.
func (c *canon) slice(name string, v reflect.Value, depth int) {
	if v.Len() == 0 {
		return
	}
	c.line(depth, name)
	if w, ok := v.Interface().(shop.Words); ok {
		byCode := func(a, b read.Entry[shop.Text]) int { return cmp.Compare(a.Key.V, b.Key.V) }
		for _, e := range slices.SortedFunc(slices.Values(w), byCode) {
			c.line(depth+1, e.Key.V+" "+strconv.Quote(e.V.V))
		}
		return
	}
	for i := range v.Len() {
		before := c.b.Len()
		c.value(strconv.Itoa(i+1), v.Index(i), depth+1)
		if c.b.Len() == before {
			c.line(depth+1, strconv.Itoa(i+1))
		}
	}
}

// scalar writes one value on one line.
func scalar(v reflect.Value) string {
	switch x := v.Interface().(type) {
	case unit.Mass:
		return strconv.FormatInt(int64(x.Round(unit.Milligram)/unit.Milligram), 10) + " mg"
	case fmt.Stringer:
		return strconv.Quote(x.String())
	}
	if v.Kind() == reflect.String {
		return strconv.Quote(v.String())
	}
	return fmt.Sprint(v.Interface())
}

func (c *canon) line(depth int, s string) {
	c.b.WriteString(strings.Repeat("  ", depth))
	c.b.WriteString(s)
	c.b.WriteByte('\n')
}
