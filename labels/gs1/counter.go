package gs1

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// CounterNumber is how the numbers of goods are made that a shop weighs at its
// own counter: 13 digits of a range that each country or shop uses by its own
// rules (GGS 2.1.13: prefixes 20 to 29), with the item and its weight or price
// in them. Make one with [ParseCounterNumber].
type CounterNumber struct{ fields []counterField }

// counterField is a run of digits: literal ones, or places of one kind.
type counterField struct {
	kind   string // "", "item", "weight", "price" or "inner-check"
	digits string // of a literal
	width  int
}

// widths is how many digits stand before the check digit.
const widths = 12

var counterPlace = regexp.MustCompile(`^(?:\d+|\{(item|weight|price):(\d)\}|\{(inner-check)\})`)

// ParseCounterNumber reads a template such as "28{item:4}{inner-check}{weight:5}":
// literal digits that begin with 20 to 29, the digits of the item, those of the
// weight in grams or of the price in the smallest coin, and, where a country
// has one, the check digit over these alone. In all they have 12 digits; the
// last one of the 13 is the usual check digit and is not written.
func ParseCounterNumber(s string) (c CounterNumber, err error) {
	for rest := s; rest != ""; {
		m := counterPlace.FindStringSubmatch(rest)
		if m == nil {
			return c, fmt.Errorf("nothing is known about %q", rest)
		}
		f := counterField{kind: m[1] + m[3], width: len(m[0])}
		switch {
		case f.kind == "":
			f.digits = m[0]
		case m[3] != "":
			f.width = 1
		default:
			f.width, _ = strconv.Atoi(m[2]) // one digit, see counterPlace
		}
		if f.kind != "" && c.field(f.kind) != nil {
			return c, fmt.Errorf("%s stands in it twice", f.kind)
		}
		c.fields, rest = append(c.fields, f), rest[len(m[0]):]
	}
	return c, c.check()
}

func (c CounterNumber) check() error {
	sum := 0
	for _, f := range c.fields {
		sum += f.width
	}
	value := c.field(c.Of())
	switch {
	case len(c.fields) == 0 || len(c.fields[0].digits) < 2 || c.fields[0].digits[0] != '2':
		return errors.New("it must begin with 20 to 29")
	case sum != widths:
		return fmt.Errorf("it has %d digits and not %d: the check digit that follows is not written", sum, widths)
	case c.field("item") == nil || c.field("item").width == 0:
		return errors.New("{item:5} is missing")
	case (c.field("weight") == nil) == (c.field("price") == nil):
		return errors.New("it must have either {weight:5} or {price:5}")
	case c.field("inner-check") != nil && value.width != 4 && value.width != 5:
		return errors.New("an inner check digit is made of 4 or 5 digits")
	case value.width < 3:
		return fmt.Errorf("%d digits are too few for a %s", value.width, c.Of())
	}
	return nil
}

func (c CounterNumber) field(kind string) *counterField {
	i := slices.IndexFunc(c.fields, func(f counterField) bool { return f.kind == kind })
	if i < 0 {
		return nil
	}
	return &c.fields[i]
}

// Of is what the number says of the goods: "weight", in grams, or "price", in
// the smallest coin.
func (c CounterNumber) Of() string {
	if c.field("price") != nil {
		return "price"
	}
	return "weight"
}

// Items is how many digits the item has.
func (c CounterNumber) Items() int { return c.field("item").width }

// String writes the template out: "28 IIII V WWWWW C", I for the item, W for
// the weight, P for the price, V for the inner check digit, C for the last one.
func (c CounterNumber) String() string {
	var out []string
	for _, f := range c.fields {
		letter := map[string]string{"item": "I", "weight": "W", "price": "P", "inner-check": "V"}[f.kind]
		out = append(out, f.digits+strings.Repeat(letter, f.width))
	}
	return strings.Join(append(out, "C"), " ")
}

// Number makes the number of an item with its weight in grams, or its price in
// the smallest coin.
func (c CounterNumber) Number(item string, value int64) (string, error) {
	of := c.field(c.Of())
	text := fmt.Sprintf("%0*d", of.width, value)
	switch {
	case len(item) != c.Items() || !digits(item):
		return "", fmt.Errorf("the item %q must have %d digits", item, c.Items())
	case value <= 0 || len(text) > of.width:
		return "", fmt.Errorf("the %s %d has no room in %d digits", c.Of(), value, of.width)
	}
	var b strings.Builder
	for _, f := range c.fields {
		switch f.kind {
		case "":
			b.WriteString(f.digits)
		case "item":
			b.WriteString(item)
		case "inner-check":
			d, err := InnerCheck(text)
			if err != nil {
				return "", err
			}
			b.WriteByte(d)
		default:
			b.WriteString(text)
		}
	}
	return WithCheck(b.String())
}

// Read is the reverse of Number. It reports what is wrong with a number that
// was not made so.
func (c CounterNumber) Read(number string) (item string, value int64, err error) {
	if err := ValidAs(GTIN13, number); err != nil {
		return "", 0, err
	}
	at, inner, text := 0, "", ""
	for _, f := range c.fields {
		part := number[at : at+f.width]
		at += f.width
		switch f.kind {
		case "":
			if part != f.digits {
				return "", 0, fmt.Errorf("%s does not begin with %s", number, f.digits)
			}
		case "item":
			item = part
		case "inner-check":
			inner = part
		default:
			text = part
		}
	}
	if d, err := InnerCheck(text); inner != "" && (err != nil || inner != string(d)) {
		return "", 0, fmt.Errorf("in %s the inner check digit of %s is %s, not %c", number, text, inner, d)
	}
	value, err = strconv.ParseInt(text, 10, 64)
	return item, value, err
}

// InnerCheck is the check digit of a price or weight of 4 or 5 digits within a
// number (GGS 7.9.2 to 7.9.4). Each digit is weighed by its place: times 2,
// less the tens of the product (2-); times 3; times 5, plus the tens (5+), or
// less them (5-). Only the last digit of the result counts. Of four digits the
// sum is taken three times; of five the digit is the one that, weighed 5-, fills
// the sum up to a multiple of ten. The weights and both worked examples were
// read where others quote the text.
func InnerCheck(s string) (byte, error) {
	if !digits(s) || len(s) != 4 && len(s) != 5 {
		return 0, fmt.Errorf("%q has not 4 or 5 digits", s)
	}
	weights := []func(int) int{twoMinus, twoMinus, three, fiveMinus}
	if len(s) == 5 {
		weights = []func(int) int{fivePlus, twoMinus, fiveMinus, fivePlus, twoMinus}
	}
	sum := 0
	for i, w := range weights {
		sum += w(int(s[i]-'0')) % 10
	}
	if len(s) == 4 {
		return byte('0' + sum*3%10), nil
	}
	for d := range 10 {
		if (sum+fiveMinus(d)%10)%10 == 0 {
			return byte('0' + d), nil
		}
	}
	return 0, fmt.Errorf("%q has no check digit", s)
}

func twoMinus(d int) int  { return 10 + 2*d - 2*d/10 }
func three(d int) int     { return 3 * d }
func fivePlus(d int) int  { return 5*d + 5*d/10 }
func fiveMinus(d int) int { return 10 + 5*d - 5*d/10 }
