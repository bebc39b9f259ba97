package scale_test

import (
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Times of the tartlet for four batches, worked out by hand from its steps: of
// its hands 90 min are for 48 pieces and 25 for 1.75 kg of pears; of 480 pieces
// 17.3 kg of pears are made; the oven takes 48, and each load is 2 and 30 min.
//
//	24:  15+120+18+30+13+32+60+5+10       = 303, hands 15+3+15+10+5+3+18+13+2+5+10
//	480: 15+120+350+30+250+10×32+60+100+200 = 1445
func TestTimesOfBatches(t *testing.T) {
	sh := demo(t)
	for n, want := range map[unit.Count][2]int64{24: {303, 99}, 48: {347, 155}, 96: {469, 272}, 480: {1445, 1206}} {
		w := work(t, sh, "pear-hazelnut-tartlet", n)
		if w.Elapsed.Minutes() != want[0] || w.Hands.Minutes() != want[1] {
			t.Errorf("%d: %s, hands %s, want %v min", n, w.Elapsed, w.Hands, want)
		}
	}
}

// What a time is for decides how it grows, and whether the waiting is repeated.
func TestTimings(t *testing.T) {
	for _, c := range []struct {
		of           string
		kind         string
		n            unit.Count
		hands, waits int64
		rounds       int64
	}{
		{"", "shape", 480, 20, 30, 1},
		{"batch", "bake", 480, 20, 30, 1},
		{"24 pieces", "shape", 24, 20, 30, 1},
		{"24 pieces", "shape", 25, 21, 30, 1}, // 20.83 min
		{"24 pieces", "shape", 1, 1, 30, 1},   // 50 s
		{"1 tray", "shape", 25, 60, 30, 1},    // three trays of 12
		{"2 trays", "shape", 25, 30, 30, 1},
		{"", "bake", 48, 20, 30, 1}, // four trays at once
		{"", "bake", 49, 40, 60, 2},
		{"1 load", "bake", 480, 200, 300, 10},
		{"2 loads", "bake", 144, 40, 60, 2},
		{"24 pieces", "bake", 96, 80, 60, 2},
	} {
		st := shop.Step{ID: at("x"), Kind: at(c.kind), HandsOn: at(20 * unit.Minute), Waiting: at(unit.Waits(30 * unit.Minute))}
		if c.of != "" {
			if err := st.Per.V.UnmarshalText([]byte(c.of)); err != nil {
				t.Fatal(err)
			}
		}
		p := &shop.Product{ID: "p", Steps: []shop.Step{st}, Tray: &shop.Tray{Holds: at(unit.Count(12)), Oven: at(unit.Count(4))}}
		w, err := scale.Order(&shop.Shop{}, &scale.Batch{Product: p, Pieces: c.n})
		if err != nil {
			t.Fatal(err)
		}
		if got := w.Tasks[0]; got.Hands.Minutes() != c.hands || got.Waits().Minutes() != c.waits || got.Rounds != c.rounds {
			t.Errorf("%s for %q, %d pieces: hands %s, waiting %s in %d", c.kind, c.of, c.n, got.Hands, got.Waits(), got.Rounds)
		}
	}
}

// A batch never takes longer than one that has a tray of pieces more, nor more
// hands; and the rounds of a step make up its whole time.
func TestMoreTakesLonger(t *testing.T) {
	sh := demo(t)
	rapid.Check(t, func(rt *rapid.T) {
		id := rapid.SampledFrom(sh.ProductIDs).Draw(rt, "product")
		n := unit.Count(rapid.Int64Range(1, 3000).Draw(rt, "pieces"))
		more := unit.Count(1)
		if tray := sh.Products[id].Tray; tray != nil {
			more = tray.Holds.V
		}
		w, x := work(t, sh, id, n), work(t, sh, id, n+more)
		if w.Elapsed > x.Elapsed || w.Hands > x.Hands {
			rt.Errorf("%s: %d take %s and %s of hands, %d take %s and %s", id, n, w.Elapsed, w.Hands, n+more, x.Elapsed, x.Hands)
		}
		for _, task := range x.Tasks {
			var sum unit.Span
			for k := range task.Rounds {
				sum += task.Round(k) + task.Wait
			}
			if sum != task.Long() {
				rt.Errorf("%s of %s: rounds of %s in %s", task.Step.ID.V, id, sum, task.Long())
			}
		}
	})
}
