package composition_test

import (
	"fmt"

	"chablon/labels/composition"
)

func ExampleSearch() {
	f := composition.Search("noisettes")[0]
	fmt.Println(f.Code, f.Names[0], f.Text("fat"))
	// Output: 15004 Hazelnut 56.9
}
