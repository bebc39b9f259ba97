package symbol

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/gs1"
	"chablon/labels/unit"
)

func TestSpread(t *testing.T) {
	const x = 500 * unit.UM
	tests := []struct {
		in   string
		room unit.Length
		want string
	}{
		// GGS fig. 6.6.5-4: contents above, the SSCC alone and lowest; 255 and
		// 20 modules are 137.5 mm.
		{"(00)006141411234567890(02)00614141000418(15)210228(10)451214(37)20", 138 * unit.MM, "(02)00614141000418(15)210228(10)451214(37)20 (00)006141411234567890"},
		{"(00)006141411234567890(02)00614141000418(15)210228(10)451214(37)20", 137 * unit.MM, "(02)00614141000418(15)210228(10)451214 (37)20 (00)006141411234567890"},
		{"(00)006141411234567890", 88 * unit.MM, "(00)006141411234567890"}, // 176 × 0.5 mm
		{"(01)19520001000017(15)260320(10)L26076A(21)7", 165 * unit.MM, "(01)19520001000017(15)260320(10)L26076A (21)7"},
	}
	for _, tt := range tests {
		els, err := gs1.ParseBracketed(tt.in)
		if err != nil {
			t.Fatal(err)
		}
		groups, err := Spread(els, x, tt.room)
		var got []string
		for _, g := range groups {
			got = append(got, gs1.HRI(g))
		}
		if err != nil || strings.Join(got, " ") != tt.want {
			t.Errorf("%s in %s: %s, %v; want %s", tt.in, tt.room, got, err, tt.want)
		}
	}
	refused := []struct {
		els  []gs1.Element
		room unit.Length
		want string
	}{
		{[]gs1.Element{{AI: "00", Value: "006141411234567890"}}, 87 * unit.MM, "alone is 88 mm wide"},
		{[]gs1.Element{{AI: "10", Value: "A"}}, 165 * unit.MM, "must stand with"},
		{[]gs1.Element{{AI: "99", Value: strings.Repeat("1", 47)}}, unit.Length(1 << 40), "one symbol holds 48"},
	}
	for _, tt := range refused {
		if g, err := Spread(tt.els, x, tt.room); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%v in %s: %v, %v; want %q in the error", tt.els, tt.room, g, err, tt.want)
		}
	}
}

// However much there is, nothing is lost, nothing is said twice, and every
// symbol can be made and is no wider than the room.
func TestSpreadLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		els := []gs1.Element{{AI: "01", Value: "19520001000017"}, {AI: "15", Value: "260320"}}
		for _, ai := range []string{"10", "21", "240", "400"} {
			els = append(els, gs1.Element{AI: ai, Value: rapid.StringMatching(`[0-9A-Z]{1,12}`).Draw(t, ai)})
		}
		els = append(els, gs1.Element{AI: "00", Value: "006141411234567890"})
		room := unit.Length(rapid.Int64Range(95, 200).Draw(t, "room")) * unit.MM
		m := Module{X: 495 * unit.UM, Height: 32 * unit.MM}
		groups, err := Spread(els, m.X, room)
		if err != nil {
			return // one element alone is too wide for the room
		}
		var back []gs1.Element
		for _, g := range groups {
			back = append(back, g...)
			data, err := gs1.Encode(g, els...)
			if err != nil {
				t.Fatal(err)
			}
			s, err := GS1128(data, m)
			if err != nil || Place(s, 0, 0).Box.W > room {
				t.Fatalf("%s in %s: %v", gs1.HRI(g), room, err)
			}
		}
		if !slices.Equal(back, els) {
			t.Fatalf("%v became %v", els, back)
		}
	})
}
