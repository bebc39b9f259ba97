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

// shopOf is a new shop in a folder of its own; reopen reads it on a day.
func shopOf(t *testing.T) (reopen func(day string) *Press) {
	dir := filepath.Join(t.TempDir(), "shop")
	if _, err := New(dir, true); err != nil {
		t.Fatal(err)
	}
	signatures(t, dir)
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
	b := asked(t, p, "carton", "pear-hazelnut-tartlet", Request{Count: 2, SSCCFrom: from})
	p.Found.AddAll(b.Found)
	if b.Found.Errors() > 0 {
		return false, nil
	}
	return len(b.Papers) == 1, saved(t, p, b)
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

// TestTakenNotPrinted: numbers that were taken, but never noted as printed, are
// printed by whoever asks for exactly these; what lies below the highest number
// and was never taken is not, for nobody knows where it is (GS1 General
// Specifications, 4.4.1.1: an SSCC is not used again within a year).
func TestTakenNotPrinted(t *testing.T) {
	reopen := shopOf(t)
	p := reopen("2026-03-17")
	if err := p.Begin(context.Background()); err != nil {
		t.Fatal(err)
	}
	series := register.SSCC(0, p.Shop.Profile.GS1Prefix.V)
	series.First = 3
	if _, err := book(t, p).Take(context.Background(), register.Want{Series: series, N: 2, At: p.Made, For: "cartons"}); err != nil {
		t.Fatal(err)
	}
	if made, err := cartonsFrom(t, p, "1"); made || err != nil {
		t.Fatalf("numbers that were passed over are given: %v", err)
	}
	if d := p.Found.All(); len(d) == 0 || !strings.HasPrefix(d[0].Hint, "begin at 5") {
		t.Errorf("the way out is not told: %v", d)
	}
	p = reopen("2026-03-17")
	if made, err := cartonsFrom(t, p, "3"); !made || err != nil {
		t.Fatalf("numbers that were taken and never printed are refused: %v %v", err, p.Found.All())
	}
	done, err := book(t, p).Prints(context.Background(), register.Query{Kind: "carton"})
	if err != nil || len(done) != 1 || done[0].From != 3 || done[0].To != 4 || done[0].Batch != "L26076A" || done[0].Made != "2026-03-17" {
		t.Errorf("noted: %+v, %v", done, err)
	}
}

// TestNotTwice: the same labels once more are refused until somebody asks for
// one of them again and says why; labels of another batch are refused.
func TestNotTwice(t *testing.T) {
	reopen := shopOf(t)
	p := reopen("2026-03-17")
	if err := p.Begin(context.Background()); err != nil {
		t.Fatal(err)
	}
	if made, err := cartonsFrom(t, p, "1"); !made || err != nil {
		t.Fatal(made, err)
	}
	for day, from := range map[string]string{"2026-03-17": "1", "2026-03-18": "2"} {
		if made, err := cartonsFrom(t, reopen(day), from); made || err != nil {
			t.Errorf("carton %s is printed twice on %s: %v", from, day, err)
		}
	}
	b, err := p.PrintAgain(Again{SSCCs: []string{"095200010000000027"}, Why: "jam"})
	if err != nil || len(b.Papers) != 1 {
		t.Fatal(err, b.Found.All())
	}
	if err := saved(t, p, b); err != nil {
		t.Fatal(err)
	}
	done, err := book(t, p).Prints(context.Background(), register.Query{})
	if err != nil || len(done) != 2 || done[0].Again != "" || done[1].Again != "jam" || done[1].From != 2 || done[1].Count != 1 {
		t.Errorf("noted: %+v, %v", done, err)
	}
}

// TestAnotherWasQuicker: numbers that another program takes between the look
// and the print are not printed here.
func TestAnotherWasQuicker(t *testing.T) {
	reopen := shopOf(t)
	p := reopen("2026-03-17")
	if err := p.Begin(context.Background()); err != nil {
		t.Fatal(err)
	}
	b := asked(t, p, "carton", "pear-hazelnut-tartlet", Request{Count: 2, SSCCFrom: "1"})
	if made, err := cartonsFrom(t, reopen("2026-03-17"), "1"); !made || err != nil {
		t.Fatal(made, err)
	}
	if err := saved(t, p, b); err == nil {
		t.Error("one number was given to two programs")
	}
}

// TestMakingClaimsNothing: papers that were made, but not written, leave the
// register as it was.
func TestMakingClaimsNothing(t *testing.T) {
	p := shopOf(t)("2026-03-17")
	if err := p.Begin(context.Background()); err != nil {
		t.Fatal(err)
	}
	b, err := p.Day(DayOptions{})
	if err != nil || len(b.Papers) == 0 || len(b.Claims) != 4+6 {
		t.Fatal(err, b.Found.All())
	}
	given, err := book(t, p).Taken(context.Background(), register.SSCC(0, p.Shop.Profile.GS1Prefix.V).Name)
	if err != nil || len(given) > 0 {
		t.Errorf("taken before printing: %v %v", given, err)
	}
}
