package cli

import (
	"bytes"
	"strings"
	"testing"
	"time"
)

// at runs a command with the machine's clock at a moment.
func at(t *testing.T, clock, epoch string, args ...string) (status int, out, errs string) {
	t.Helper()
	now, err := time.Parse(time.RFC3339, clock)
	if err != nil {
		t.Fatal(err)
	}
	var o, e bytes.Buffer
	env := func(key string) string {
		if key == "SOURCE_DATE_EPOCH" {
			return epoch
		}
		return ""
	}
	status = Main(Streams{Out: &o, Err: &e, Getenv: env, Now: func() time.Time { return now }}, args)
	return status, o.String(), e.String()
}

// TestDemoPrintsForEver: the demo shop holds nothing that can pass. More than a
// year after its signatures the clock is asked about.
func TestDemoPrintsForEver(t *testing.T) {
	for _, c := range []struct {
		clock string
		asks  bool
	}{{"2026-03-17T08:00:00Z", false}, {"2026-06-01T08:00:00Z", false}, {"2031-02-02T08:00:00Z", true}, {"2040-02-29T23:59:59Z", true}} {
		t.Chdir(t.TempDir())
		status, out, errs := at(t, c.clock, "", "day", "--demo", "--out", "paper")
		if status != Fine || !strings.Contains(out, "run-sheet-"+c.clock[:10]) {
			t.Errorf("%s: status %d: %s", c.clock, status, errs)
		}
		if strings.Contains(errs, "[clock]") != c.asks {
			t.Errorf("%s: %s", c.clock, errs)
		}
	}
}

// TestClockThatFellBack: a machine whose clock is before the newest signature
// prints nothing, whatever day is named; SOURCE_DATE_EPOCH says only what
// documents are stamped with.
func TestClockThatFellBack(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, args := range [][]string{{"label", "pear-hazelnut-tartlet", "--demo"}, {"label", "pear-hazelnut-tartlet", "--demo", "--today", "2026-03-17"},
		{"day", "--demo", "--today", "2026-03-17"}, {"card", "craquelin", "--demo"}} {
		status, out, errs := at(t, "1980-01-01T00:00:00Z", "", args...)
		if status != Broken || !strings.Contains(errs, "the clock of this machine says 1980-01-01, but a signature of Mara B. was on 2026-03-17") {
			t.Errorf("%v: status %d: %s%s", args, status, out, errs)
		}
	}
	status, out, errs := at(t, "2026-05-01T12:00:00Z", "315532800", "label", "pear-hazelnut-tartlet", "--demo")
	if status != Fine || !strings.Contains(out, "2026-05-01") || strings.Contains(out, "1980") {
		t.Errorf("status %d: %s%s", status, out, errs)
	}
}

// TestClockBeforePrintBook: what the print book knows to have been printed was
// not printed in the future. Nobody signs on a day that has not come.
func TestClockBeforePrintBook(t *testing.T) {
	t.Chdir(t.TempDir())
	must := func(clock string, args ...string) {
		t.Helper()
		if status, out, errs := at(t, clock, "", args...); status != Fine {
			t.Fatalf("%v: status %d: %s%s", args, status, out, errs)
		}
	}
	must("2026-05-01T12:00:00Z", "new", "shop", "--demo")
	must("2026-05-01T12:00:00Z", "approve", "--all", "--by", "Sanne", "--shop", "shop")
	must("2026-05-01T12:00:00Z", "wall", "shop", "--begin")
	must("2026-06-01T12:00:00Z", "carton", "pear-hazelnut-tartlet", "--shop", "shop", "--sscc-from", "1", "--out", "paper")
	status, _, errs := at(t, "2026-05-20T12:00:00Z", "", "label", "pear-hazelnut-tartlet", "--shop", "shop")
	if status != Broken || !strings.Contains(errs, "the last entry of the print book was on 2026-06-01") {
		t.Errorf("status %d: %s", status, errs)
	}
	status, _, errs = at(t, "2026-06-02T12:00:00Z", "", "approve", "--all", "--by", "Sanne", "--shop", "shop", "--today", "2026-07-01")
	if status != BadLine || !strings.Contains(errs, "nobody can sign on 2026-07-01: the clock says 2026-06-02") {
		t.Errorf("status %d: %s", status, errs)
	}
}
