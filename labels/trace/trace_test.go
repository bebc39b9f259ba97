package trace_test

import (
	"testing"

	"chablon/labels/trace"
	"chablon/labels/trace/tracetest"
)

func TestMemory(t *testing.T) {
	tracetest.Run(t, func(testing.TB) trace.Book { return &trace.Memory{} })
}
