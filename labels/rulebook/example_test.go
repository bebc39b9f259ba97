package rulebook_test

import (
	"fmt"

	"chablon/labels/rulebook"
)

func ExampleGet() {
	page, _ := rulebook.Get("too-small")
	fmt.Println(page.What)
	fmt.Println(page.Law)
	// Output:
	// Letters are smaller than the law allows.
	// Reg. (EU) No 1169/2011 Art. 13(2), (3), Annex IV
}
