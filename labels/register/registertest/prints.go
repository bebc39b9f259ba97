package registertest

import (
	"testing"
	"time"

	"chablon/labels/register"
)

func testRecord(t *testing.T, s Suite) {
	b := s.open(t)
	in := label("tartlet", " L26076A ")
	in.At, in.Number = start.Add(time.Millisecond), 7
	got := b.record(in)
	want := label("tartlet", "L26076A")
	want.Number = 1
	same(t, "recorded", got, want)
	same(t, "once more is another print", b.record(in).Number, 2)
	for name, change := range map[string]func(*register.Print){
		"no kind":                 func(p *register.Print) { p.Kind = "" },
		"no product":              func(p *register.Print) { p.ID = "" },
		"no digest":               func(p *register.Print) { p.Digest = "" },
		"no paper":                func(p *register.Print) { p.Count = 0 },
		"no such day":             func(p *register.Print) { p.Made = "17.03.2026" },
		"no moment":               func(p *register.Print) { p.At = time.Time{} },
		"numbers of no series":    func(p *register.Print) { p.From, p.To = 1, 2 },
		"a series and no numbers": func(p *register.Print) { p.Series = "cartons" },
		"last before first":       func(p *register.Print) { p.Series, p.From, p.To = "cartons", 2, 1 },
		"not text":                func(p *register.Print) { p.Batch = "\xff" },
	} {
		p := label("tartlet", "L26076A")
		change(&p)
		_, err := b.Record(b.ctx, p)
		refused(t, name, err, register.Input)
	}
	same(t, "refusals leave nothing", len(b.prints(register.Query{})), 2)
}

// Numbers on paper were given before, and stand on one print only.
func testRecordNumbers(t *testing.T, s Suite) {
	b := s.open(t)
	b.take("cartons", 10, 21)  // 21 to 30
	b.take("cartons", 5, 0)    // 31 to 35
	b.take("cartons", 10, 101) // 101 to 110
	b.take("labels", 1000, 1)
	for _, c := range []struct {
		name     string
		from, to int64
		again    string
		rule     register.Rule
	}{
		{"before the first", 20, 21, "", register.NotTaken},
		{"after the last", 111, 111, "", register.NotTaken},
		{"in the gap", 50, 60, "", register.NotTaken},
		{"over the gap", 30, 101, "", register.NotTaken},
		{"not even again", 36, 36, "jam", register.NotTaken},
		{"over two blocks", 29, 32, "", ""},
		{"the same", 29, 32, "", register.Before},
		{"its end", 32, 35, "", register.Before},
		{"its beginning", 21, 29, "", register.Before},
		{"inside", 30, 31, "", register.Before},
		{"around", 21, 35, "", register.Before},
		{"a part again", 30, 31, "jam in the printer", ""},
		{"before it", 21, 28, "", ""},
		{"behind it", 33, 35, "", ""},
		{"above the gap", 101, 110, "", ""},
		{"the last again", 110, 110, "", register.Before},
	} {
		p := numbered("cartons", c.from, c.to)
		p.Again = c.again
		_, err := b.Record(b.ctx, p)
		if c.rule != "" {
			refused(t, c.name, err, c.rule)
		} else if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
	}
	b.record(numbered("labels", 21, 35)) // the same numbers of another series
	_, err := b.Record(b.ctx, numbered("unheard of", 1, 1))
	refused(t, "unknown series", err, register.NotTaken)
	same(t, "prints that bear 30", len(b.prints(register.Query{Series: "cartons", Number: 30})), 2)
}

func testPrints(t *testing.T, s Suite) {
	b := s.open(t)
	b.take("cartons", 100, 1)
	b.record(label("tartlet", "L26076A")) // 1
	b.record(label("tartlet", "L26076B")) // 2
	other := label("bar", "L26076A")
	other.Digest, other.Kind = "c4ca4238a0b92382", "card"
	b.record(other)                       // 3
	b.record(numbered("cartons", 1, 10))  // 4
	b.record(numbered("cartons", 11, 20)) // 5
	b.record(label("bar", ""))            // 6
	for _, c := range []struct {
		name string
		q    register.Query
		want []int64
	}{
		{"all", register.Query{}, []int64{1, 2, 3, 4, 5, 6}},
		{"batch", register.Query{Batch: "L26076A"}, []int64{1, 3, 4, 5}},
		{"batch and product", register.Query{Batch: "L26076A", ID: "bar"}, []int64{3}},
		{"product", register.Query{ID: "tartlet"}, []int64{1, 2}},
		{"kind", register.Query{Kind: "card"}, []int64{3}},
		{"digest", register.Query{Digest: "c4ca4238a0b92382"}, []int64{3}},
		{"series", register.Query{Series: "cartons"}, []int64{4, 5}},
		{"number", register.Query{Series: "cartons", Number: 11}, []int64{5}},
		{"number of a batch", register.Query{Series: "cartons", Number: 10, Batch: "L26076B"}, nil},
		{"no such number", register.Query{Series: "cartons", Number: 21}, nil},
		{"no such batch", register.Query{Batch: "L26076"}, nil},
		{"no pattern", register.Query{Batch: "L%"}, nil},
	} {
		var got []int64
		for _, p := range b.prints(c.q) {
			got = append(got, p.Number)
		}
		same(t, c.name, got, c.want)
	}
}
