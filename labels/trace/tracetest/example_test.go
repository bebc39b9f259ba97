package tracetest_test

import (
	"testing"

	"chablon/labels/trace"
	"chablon/labels/trace/tracetest"
)

// The suite for events that are kept in memory; a test hands its own t in.
func ExampleRun() {
	_ = func(t *testing.T) {
		tracetest.Run(t, func(testing.TB) trace.Book { return &trace.Memory{} })
	}
	// Output:
}
