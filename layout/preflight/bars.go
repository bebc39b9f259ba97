package preflight

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// eachSymbol calls f for every bar code with what GS1 asks of it in this use.
func eachSymbol(s Sheet, items []page.Item, f func(page.Item, *page.Symbol, gs1.Size)) {
	for _, it := range items {
		if it.Symbol == nil {
			continue
		}
		size, _ := gs1.SizeOf(it.Symbol.Kind, s.Use)
		f(it, it.Symbol, size)
	}
}

// barsInRange finds bar codes whose module, height or quiet zone is out of the
// range that GS1 gives for where they are scanned.
func barsInRange(s Sheet, items []page.Item, found *diag.List) {
	eachSymbol(s, items, func(it page.Item, y *page.Symbol, size gs1.Size) {
		bad := func(format string, args ...any) {
			found.Errorf(at(s, it), "bars", "choose a larger paper, or another printer", "%s: the "+y.Kind+format, append([]any{s.What}, args...)...)
		}
		switch {
		case size.Kind == "":
			bad(" is not meant for %s", s.Use)
			return
		case !size.InRange(y.Module):
			bad(" has a module of %s, and must have %s to %s (%s)", y.Module, size.X[0], size.X[2], size.Source)
		case y.Bars.H < size.HeightAt(y.Module):
			bad(" is %.2f mm high, and must be %.2f mm (%s)", y.Bars.H.MM(), size.HeightAt(y.Module).MM(), size.Source)
		}
		if b, q := y.Bars, it.Box; b.X-q.X < zone(size, y, 0) || b.Y-q.Y < zone(size, y, 1) ||
			q.Right()-b.Right() < zone(size, y, 2) || q.Bottom()-b.Bottom() < zone(size, y, 3) {
			bad(" has too little white around it")
		}
	})
}

func zone(size gs1.Size, y *page.Symbol, side int) unit.Length {
	return unit.Length(size.Quiet[side]) * y.Module
}

// barsOnDots finds bar codes whose modules are not whole printer dots or do
// not begin on one.
func barsOnDots(s Sheet, items []page.Item, found *diag.List) {
	eachSymbol(s, items, func(it page.Item, y *page.Symbol, _ gs1.Size) {
		if y.Dots.N == 0 {
			found.Errorf(at(s, it), "dots", "name the paper under a printer in shop.yaml", "%s: the fineness of the printer is not known", s.What)
			return
		}
		for _, l := range []unit.Length{y.Module, y.Bars.X, y.Bars.Y} {
			if y.Dots.Snap(l) != l {
				found.Errorf(at(s, it), "dots", "report this: the bars would blur", "%s: the %s is not on whole printer dots", s.What, y.Kind)
				return
			}
		}
	})
}

// digitsRight finds wrong check digits, read from the symbol's own data.
func digitsRight(s Sheet, items []page.Item, found *diag.List) {
	eachSymbol(s, items, func(it page.Item, y *page.Symbol, _ gs1.Size) {
		var err error
		switch y.Kind {
		case gs1.EAN13, gs1.EAN8, gs1.UPCA, gs1.ITF14:
			err = gs1.Valid(y.Data)
		case gs1.GS1128, gs1.GS1DataMatrix:
			_, err = gs1.ParseElementString(strings.TrimPrefix(y.Data, "\x1d"))
		}
		if err != nil {
			found.Errorf(at(s, it), "check-digit", "copy the number again from its source", "%s: the %s is wrong: %v", s.What, y.Kind, err)
		}
	})
}
