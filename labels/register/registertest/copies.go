package registertest

import (
	"strings"
	"testing"
	"time"

	"chablon/labels/register"
)

func testPost(t *testing.T, s Suite) {
	b := s.open(t)
	same(t, "nothing hangs", len(b.posted())+len(b.history("")), 0)
	in := card("pear-hazelnut-tartlet", "4", "  oven \n wall ")
	in.At = start.Add(999 * time.Millisecond).In(time.FixedZone("", 3600))
	in.Number, in.By, in.Down = 9, 9, start // what Post sets is not taken from outside
	got := b.post(in)
	want := card("pear-hazelnut-tartlet", "4", "oven wall")
	want.Number = 1
	same(t, "posted copy", got, register.Posting{Copy: want})
	same(t, "what hangs", b.posted(), []register.Copy{want})
	bare := register.Copy{ID: "glaze", Version: "1", CheckWord: "FERN", N: 1, Of: 1, Place: "bench", At: start}
	second := b.post(bare)
	bare.Number = 2
	same(t, "a copy with the least on it", second.Copy, bare)
	same(t, "as kept", b.history("glaze"), []register.Copy{bare})
}

// A new copy takes the place of the same one, and leaves all others hanging.
func testReplace(t *testing.T, s Suite) {
	old := card("tartlet", "3", "oven wall")
	next := card("tartlet", "4", "oven wall")
	next.At, next.CheckWord, next.Issued, next.Of = start.Add(time.Hour), "FERN", "2026-03-16", 5
	for _, c := range []struct {
		name   string
		change func(*register.Copy)
		same   bool
		beside bool
	}{
		{"a newer version", func(*register.Copy) {}, true, false},
		{"another size", func(c *register.Copy) { c.Size = "24 pieces" }, false, true},
		{"another paper", func(c *register.Copy) { c.Paper = "card-a6" }, false, true},
		{"other languages", func(c *register.Copy) { c.Langs = []string{"fr", "en"} }, false, true},
		{"another copy", func(c *register.Copy) { c.N = 2 }, false, true},
		{"another place", func(c *register.Copy) { c.Place = "Oven wall" }, false, false},
		{"another card", func(c *register.Copy) { c.ID = "tart" }, false, false},
	} {
		b := s.open(t)
		was := b.post(old).Copy
		now := next
		c.change(&now)
		got := b.post(now)
		now.Number = 2
		want := register.Posting{Copy: now}
		hangs := []register.Copy{was, now}
		switch {
		case c.same:
			was.Down, was.By = now.At, 2
			want.Replaced, hangs = []register.Copy{was}, []register.Copy{now}
		case c.beside:
			want.Beside = []register.Copy{was}
		}
		same(t, c.name, got, want)
		register.SortCopies(hangs)
		same(t, c.name+", what hangs", b.posted(), hangs)
		same(t, c.name+", kept", b.history(was.ID)[0], was)
	}
}

func testTakeDown(t *testing.T, s Suite) {
	b := s.open(t)
	first, second := b.post(card("tartlet", "4", "oven wall")).Copy, b.post(card("tartlet", "4", "bench")).Copy
	later := start.Add(90 * time.Minute)
	got, err := b.TakeDown(b.ctx, 1, later.Add(time.Millisecond).In(time.FixedZone("", -3600)))
	if err != nil {
		t.Fatal(err)
	}
	first.Down = later
	same(t, "taken down", got, first)
	same(t, "what hangs", b.posted(), []register.Copy{second})
	same(t, "kept", b.history("tartlet"), []register.Copy{first, second})
	for _, n := range []int64{1, 0, -1, 3, 1 << 62} {
		_, err := b.TakeDown(b.ctx, n, later)
		refused(t, "again, or never posted", err, register.NotPosted)
	}
	_, err = b.TakeDown(b.ctx, 2, time.Time{})
	refused(t, "no moment", err, register.Input)
	same(t, "refusals change nothing", b.posted(), []register.Copy{second})
	third := b.post(card("tartlet", "4", "oven wall")).Copy
	same(t, "a number is not used again", third.Number, 3)
}

// Posted copies come in the order in which one walks through the kitchen.
func testWalk(t *testing.T, s Suite) {
	b := s.open(t)
	for _, at := range []string{"oven/tart", "bench/tart", "oven/bar", "bench/glaze", "Éclair wall/bar"} {
		place, id, _ := strings.Cut(at, "/")
		b.post(card(id, "1", place))
	}
	two := card("bar", "1", "oven")
	two.N = 2
	b.post(two)
	var got []string
	for _, c := range b.posted() {
		got = append(got, c.Place+"/"+c.ID)
	}
	same(t, "order", strings.Join(got, " "), "bench/glaze bench/tart oven/bar oven/bar oven/tart Éclair wall/bar")
}

func testHistory(t *testing.T, s Suite) {
	b := s.open(t)
	for _, id := range []string{"b", "a", "b", "c"} {
		b.post(card(id, "1", "bench"))
	}
	for id, want := range map[string]int{"": 4, "a": 1, "b": 2, "B": 0, "x": 0} {
		all := b.history(id)
		same(t, "copies of "+id, len(all), want)
		for i := 1; i < len(all); i++ {
			if all[i].Number <= all[i-1].Number {
				t.Errorf("history of %q is not in the order of posting", id)
			}
		}
	}
}

func testCopiesRefused(t *testing.T, s Suite) {
	b := s.open(t)
	for name, change := range map[string]func(*register.Copy){
		"no card":           func(c *register.Copy) { c.ID = " " },
		"no version":        func(c *register.Copy) { c.Version = "" },
		"no check word":     func(c *register.Copy) { c.CheckWord = "" },
		"no place":          func(c *register.Copy) { c.Place = "\t" },
		"no such day":       func(c *register.Copy) { c.Issued = "2026-02-30" },
		"day with a clock":  func(c *register.Copy) { c.Issued = "2026-03-02T10:00:00Z" },
		"copy 0":            func(c *register.Copy) { c.N = 0 },
		"copy 4 of 3":       func(c *register.Copy) { c.N = 4 },
		"no moment":         func(c *register.Copy) { c.At = time.Time{} },
		"year 10000":        func(c *register.Copy) { c.At = time.Date(10000, 1, 1, 0, 0, 0, 0, time.UTC) },
		"not text":          func(c *register.Copy) { c.Place = "oven\xff" },
		"a bell":            func(c *register.Copy) { c.Size = "48\a" },
		"a zero byte":       func(c *register.Copy) { c.ID = "a\x00b" },
		"far too long":      func(c *register.Copy) { c.Paper = strings.Repeat("a", 201) },
		"two in one":        func(c *register.Copy) { c.Langs = []string{"en,fr"} },
		"an empty language": func(c *register.Copy) { c.Langs = []string{"en", ""} },
	} {
		c := card("tartlet", "4", "oven wall")
		change(&c)
		_, err := b.Post(b.ctx, c)
		refused(t, name, err, register.Input)
	}
	same(t, "refusals leave nothing", len(b.history("")), 0)
}
