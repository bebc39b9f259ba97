package print

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"chablon/labels/register"
	"chablon/labels/register/sqlite"
	"chablon/labels/unit"
)

// own is a new shop in a folder of its own; reopen reads it on a day.
func own(t *testing.T) (reopen func(day string) *Press) {
	dir := filepath.Join(t.TempDir(), "shop")
	if _, err := New(dir); err != nil {
		t.Fatal(err)
	}
	return func(day string) *Press {
		d, err := unit.ParseDate(day)
		if err != nil {
			t.Fatal(err)
		}
		p, err := Open(dir, d, d.Time())
		if err != nil || p.Found.Errors() > 0 {
			t.Fatal(err, p.Found.All())
		}
		return p
	}
}

// cartonsFrom makes the labels of two cartons and claims their numbers.
func cartonsFrom(t *testing.T, p *Press, from string) (made bool, err error) {
	papers, err := p.Cartons(CartonRequest{ID: "pear-hazelnut-tartlet", Count: 2, SSCCFrom: from})
	if err != nil || p.Found.Errors() > 0 {
		return false, err
	}
	return len(papers) == 1, p.Claim(context.Background())
}

// book opens the register of a shop.
func book(t *testing.T, p *Press) register.Register {
	r, err := sqlite.Open(context.Background(), filepath.Join(p.Name, sqlite.FileName))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Close() })
	return r
}

// TestCrashLeavesGap: numbers that were taken, but never noted as printed, are
// lost and not given twice (GS1 General Specifications, 4.4.1.1: an SSCC is not
// used again within a year).
func TestCrashLeavesGap(t *testing.T) {
	reopen := own(t)
	p := reopen("2026-03-17")
	if err := p.Begin(context.Background()); err != nil {
		t.Fatal(err)
	}
	series := register.SSCC(0, p.Shop.Profile.GS1Prefix.V)
	series.First = 1
	if _, err := book(t, p).Take(context.Background(), register.Want{Series: series, N: 2, At: p.Made, For: "cartons"}); err != nil {
		t.Fatal(err)
	}
	if made, err := cartonsFrom(t, p, "1"); made || err != nil {
		t.Fatalf("numbers that were given out are given again: %v", err)
	}
	if d := p.Found.All(); len(d) == 0 || !strings.HasPrefix(d[0].Hint, "begin at 3") {
		t.Errorf("the way out is not told: %v", d)
	}
	p = reopen("2026-03-17")
	if made, err := cartonsFrom(t, p, "3"); !made || err != nil {
		t.Fatalf("the numbers behind the gap are refused: %v %v", err, p.Found.All())
	}
	done, err := book(t, p).Prints(context.Background(), register.Query{Kind: "carton"})
	if err != nil || len(done) != 1 || done[0].From != 3 || done[0].To != 4 || done[0].Batch != "L26076A" || done[0].Made != "2026-03-17" {
		t.Errorf("noted: %+v, %v", done, err)
	}
}

// TestPrintedAgainIsNoted: the same labels once more are a second entry that
// says so; labels of another batch are refused.
func TestPrintedAgainIsNoted(t *testing.T) {
	reopen := own(t)
	p := reopen("2026-03-17")
	if err := p.Begin(context.Background()); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if made, err := cartonsFrom(t, reopen("2026-03-17"), "1"); !made || err != nil {
			t.Fatal(made, err)
		}
	}
	if made, err := cartonsFrom(t, reopen("2026-03-18"), "2"); made || err != nil {
		t.Errorf("carton 2 of the 17th is on a carton of the 18th: %v", err)
	}
	done, err := book(t, p).Prints(context.Background(), register.Query{})
	if err != nil || len(done) != 2 || done[0].Again != "" || done[1].Again != "printed again" || done[0].Digest != done[1].Digest {
		t.Errorf("noted: %+v, %v", done, err)
	}
}

// TestAnotherWasQuicker: numbers that another program takes between the look
// and the print are not printed here.
func TestAnotherWasQuicker(t *testing.T) {
	reopen := own(t)
	p := reopen("2026-03-17")
	if err := p.Begin(context.Background()); err != nil {
		t.Fatal(err)
	}
	if _, err := p.Cartons(CartonRequest{ID: "pear-hazelnut-tartlet", Count: 2, SSCCFrom: "1"}); err != nil || p.Found.Errors() > 0 {
		t.Fatal(err, p.Found.All())
	}
	if made, err := cartonsFrom(t, reopen("2026-03-17"), "1"); !made || err != nil {
		t.Fatal(made, err)
	}
	if err := p.Claim(context.Background()); err == nil {
		t.Error("one number was given to two programs")
	}
}

// TestMakingClaimsNothing: papers that were made, but not written, leave the
// register as it was.
func TestMakingClaimsNothing(t *testing.T) {
	p := own(t)("2026-03-17")
	if err := p.Begin(context.Background()); err != nil {
		t.Fatal(err)
	}
	papers, err := p.Day()
	if err != nil || len(papers) == 0 {
		t.Fatal(err, p.Found.All())
	}
	given, err := book(t, p).Taken(context.Background(), register.SSCC(0, p.Shop.Profile.GS1Prefix.V).Name)
	if err != nil || len(given) > 0 {
		t.Errorf("taken before printing: %v %v", given, err)
	}
}
