package gs1_test

import (
	"fmt"
	"strings"

	"chablon/labels/gs1"
)

// A carton's data: the bars carry the digits, the text beside them shows the
// AIs in parentheses.
func ExampleEncode() {
	els := gs1.Order([]gs1.Element{
		{AI: "10", Value: "L26076A"},
		{AI: "01", Value: "19520001000017"},
		{AI: "15", Value: "260320"},
		{AI: "21", Value: "7"},
	})
	s, err := gs1.Encode(els)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(strings.ReplaceAll(s, gs1.FNC1, "<FNC1>"))
	fmt.Println(gs1.HRI(els))
	// Output:
	// 01195200010000171526032010L26076A<FNC1>217
	// (01)19520001000017(15)260320(10)L26076A(21)7
}

func ExampleValid() {
	fmt.Println(gs1.Valid("9520001000010"))
	fmt.Println(gs1.Valid("9520001000100"))
	// Output:
	// <nil>
	// "9520001000100" is not a GTIN-13 or GLN: after 952000100010 the last digit is 2, not 0; a digit was mistyped or two were swapped
}

func ExampleSSCC() {
	fmt.Println(gs1.SSCC(0, "9520001", 1))
	// Output: 095200010000000010 <nil>
}

func ExampleLink() {
	fmt.Println(gs1.Link("", []gs1.Element{{AI: "01", Value: "09520001000010"}, {AI: "10", Value: "L26076A"}}))
	// Output: https://id.gs1.org/01/09520001000010/10/L26076A <nil>
}
