package registertest_test

import (
	"context"
	"fmt"
	"os"

	"chablon/labels/register"
	"chablon/labels/register/registertest"
)

// Blocks of one, two and three numbers: where one ends the next begins.
func ExampleWork() {
	if err := registertest.Work(context.Background(), &register.Memory{}, os.Stdout, 3); err != nil {
		fmt.Println(err)
	}
	// Output:
	// 1 1
	// 2 3
	// 4 6
}
