package shop

import (
	"fmt"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// Tool is a machine that steps share, such as an oven.
type Tool struct {
	Pos   diag.Pos
	Name  Words               `key:"name" must:"yes" help:"What the tool is called, per language."`
	Count diag.At[unit.Count] `key:"there-are" help:"How many of them there are; one when left out."`
	Busy  Text                `key:"busy" one:"hands-on|whole" help:"hands-on: taken only while somebody works, as a mixer; whole: while waiting too, as an oven. Whole when left out."`
}

// Bowl is how much of a formula is made at once.
type Bowl struct {
	Pos   diag.Pos
	Name  Words              `key:"name" must:"yes" help:"What the bowl or pan is called, per language."`
	Least diag.At[unit.Mass] `key:"least" help:"Smallest fill: less, and the whisk does not reach it."`
	Most  diag.At[unit.Mass] `key:"most" must:"yes" help:"Largest fill: more, and it comes over the edge."`
}

// Strength is the Bloom strength that a line was weighed for, and the rule by
// which gelatine of another strength replaces it.
type WeighedFor struct {
	Pos   diag.Pos
	Bloom diag.At[int] `key:"bloom" must:"yes" help:"Bloom strength that the amount was weighed for, such as 200."`
	Rule  Text         `key:"rule" must:"yes" one:"root|linear" help:"root: amount × √(from ÷ to); linear: amount × from ÷ to. Both are in use, and they differ."`
}

// Warmth is how warm a dough is wanted and how much the mixer warms it.
type Warmth struct {
	Pos        diag.Pos
	Wanted     diag.At[unit.Temp]     `key:"wanted" must:"yes" help:"Temperature of the dough out of the mixer, such as 24 °C."`
	Friction   diag.At[unit.TempDiff] `key:"friction" must:"yes" help:"By how much mixing warms it, as a difference such as 6 °C; found by a test mix."`
	Preferment Text                   `key:"preferment" help:"Line of the preferment, where one goes in."`
}

// Reading is what the kitchen itself once measured at a step. It makes the
// forecast of the next mix better.
type Reading struct {
	Pos      diag.Pos
	On       diag.At[unit.Date] `key:"on" must:"yes" help:"Day of the reading."`
	After    diag.At[unit.Temp] `key:"after" must:"yes" help:"Temperature that the mix had at the end of the step, such as 34 °C."`
	Expected diag.At[unit.Temp] `key:"expected" help:"What was expected for that mix before any loss; what is expected now when left out, so write it where amounts or temperatures have changed since."`
	Room     diag.At[unit.Temp] `key:"room" help:"Temperature of the room; 20 °C when left out."`
}

// Ratio is a number without a unit, in millionths: 3 is 3 000 000.
type Ratio int64

// One is the ratio of a thing to itself.
const One Ratio = 1_000_000

// UnmarshalText reads "3" or "2.5", with or without a cross: "3 ×".
func (r *Ratio) UnmarshalText(b []byte) error {
	s := strings.TrimSpace(strings.TrimSuffix(string(b), "×"))
	share, err := unit.ParseShare(s + " %")
	if err != nil || share < 0 {
		return &unit.Error{Rule: "number", Msg: fmt.Sprintf("%q is not a factor", b), Hint: "write it like 3 or 2.5"}
	}
	if share%10 != 0 {
		return &unit.Error{Rule: "number", Msg: fmt.Sprintf("%q has too many decimals", b), Hint: "write it like 3 or 2.5"}
	}
	*r = Ratio(share / 10)
	return nil
}

// String gives the plain number: "2.5".
func (r Ratio) String() string { return strings.TrimSuffix((unit.Share(r) * 10).String(), " %") }

// Pattern is the regular expression of a factor.
func (Ratio) Pattern() string { return `^[0-9]+(\.[0-9]+)? ?×?$` }

// Example is a factor as it is written.
func (Ratio) Example() string { return "3" }

// ofs are what a step can work on, where that tells more than its kind: the
// words of the key of.
const ofs = "custard|pastry-cream|swiss-meringue|italian-meringue|bombe|syrup|caramel|soft-caramel|marshmallow|gelatine|pectin|jam|" +
	"dark-chocolate|milk-chocolate|white-chocolate|ganache|glaze|choux|sweet-pastry|shortbread|nuts|fruit|lean-dough|rich-dough|laminated-dough|butter|egg"

// Ofs gives the words of the key of.
func Ofs() []string { return strings.Split(ofs, "|") }
