package cli

import (
	"fmt"
	"io"
	"strings"

	"chablon/labels/market"
	"chablon/labels/reserved"
	"chablon/labels/unit"
)

// showNames lists the names whose composition the law of a market sets, as they
// hold on a day, and the words that a name may only bear where the food keeps
// them.
func showNames(w io.Writer, m *market.Market, today unit.Date) {
	if len(m.Names)+len(m.Promises) == 0 {
		fmt.Fprint(w, "\nnames whose composition the law sets\n  nobody here knows of any\n")
		return
	}
	fmt.Fprintf(w, "\nnames whose composition the law sets (looked for in %s), on %s\n", strings.Join(reserved.Languages(), ", "), today)
	for _, c := range m.Names {
		if today.Before(c.From) || !c.Until.IsZero() && !today.Before(c.Until) {
			continue
		}
		side := "at least"
		if c.Most {
			side = "at most"
		}
		fmt.Fprintf(w, "  %-26s %s %s of %s; %s\n", dehyphened(c.Food), side, c.Share, dehyphened(c.Of), citeText(c.Cite))
	}
	for _, p := range m.Promises {
		kept := "only where it is in the food"
		if p.Doubt {
			kept += ", else a caution"
		}
		fmt.Fprintf(w, "  %-26s %s; %s\n", dehyphened(p.Word), kept, citeText(p.Cite))
	}
}

func dehyphened(key string) string { return strings.ReplaceAll(key, "-", " ") }
