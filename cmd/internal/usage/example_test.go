package usage_test

import (
	"fmt"

	"chablon/cmd/internal/usage"
)

func ExampleUnknown() {
	err := usage.Unknown("product", "bench-tn", []string{"bench-tin", "pistachio-choux"})
	fmt.Println(err)
	fmt.Println(err.Hint)
	fmt.Println(usage.Unknown("product", "waffle", []string{"bench-tin", "pistachio-choux"}).Hint)
	// Output:
	// there is no product "bench-tn"
	// did you mean bench-tin?
	// one of bench-tin, pistachio-choux
}
