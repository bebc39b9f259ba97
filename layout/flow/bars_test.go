package flow

import (
	"errors"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/symbol"
	"chablon/layout/text"
)

func symbolOf(t *testing.T, p *Pen, kind string, use gs1.Use, data string) *page.Symbol {
	t.Helper()
	x, h, err := symbol.Choose(kind, use, p.Dots)
	if err != nil {
		t.Fatal(err)
	}
	m := symbol.Module{X: x, Height: h, Dots: p.Dots}
	makers := map[string]func(string, symbol.Module) (*page.Symbol, error){
		gs1.EAN13: symbol.EAN13, gs1.EAN8: symbol.EAN8, gs1.GS1128: symbol.GS1128, gs1.ITF14: symbol.ITF14}
	s, err := makers[kind](data, m)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The guard bars are 101, 01010 and 101 at modules 0, 45 and 92 of EAN-13, and
// at 0, 31 and 64 of EAN-8 (ISO/IEC 15420 as in the bar patterns of the GS1
// General Specifications, figures 5.2.2.1-2 and 5.2.2.2-1). The digits stand
// between them: one to the left and two groups of six, or two of four.
func TestEANDigits(t *testing.T) {
	src := diag.Pos{File: "products/a.yaml", Line: 8, Col: 9}
	for _, c := range []struct {
		kind, data string
		groups     []string
		from, to   []int // modules that each group stays within
		guards     []int
	}{
		{gs1.EAN13, "9501101531000", []string{"9", "501101", "531000"}, []int{-11, 3, 50}, []int{0, 45, 92}, []int{0, 2, 46, 48, 92, 94}},
		{gs1.EAN8, "95012346", []string{"9501", "2346"}, []int{3, 36}, []int{31, 64}, []int{0, 2, 32, 34, 64, 66}},
	} {
		p := pen(t)
		s := symbolOf(t, p, c.kind, gs1.Retail, c.data)
		box, err := p.Bars(10*mm, 10*mm, s, "", 0, src)
		if err != nil {
			t.Fatal(err)
		}
		bars := p.Items[0].Symbol.Bars
		at := func(module int) unit.Length { return bars.X + unit.Length(module)*s.Module }
		var digits []page.Item
		var guards []page.Rect
		for _, it := range p.Items[1:] {
			switch {
			case it.Run != nil:
				digits = append(digits, it)
			case it.Shape != nil:
				guards = append(guards, it.Box)
			}
			if !box.Contains(it.Box) || it.Box.Overlaps(bars) {
				t.Errorf("%s: %+v is not below the bars %+v in %+v", c.kind, it.Box, bars, box)
			}
		}
		for i, it := range digits {
			if it.Run.Text != c.groups[i] || it.Role != role.Digits || it.Src != src {
				t.Errorf("%s: group %d is %q (%s, %v)", c.kind, i, it.Run.Text, it.Role, it.Src)
			}
			if it.Box.X < at(c.from[i]) || it.Box.Right() > at(c.to[i]) {
				t.Errorf("%s: %q leaves its modules", c.kind, it.Run.Text)
			}
			// 2.75 mm at a module of 0.33 mm (GGS 5.2.5, from memory).
			if want := s.Module.Mul(275, 33); it.Run.CapHeight < want-unit.UM || it.Run.CapHeight > want+10*unit.UM {
				t.Errorf("%s: digits are %v high, want %v", c.kind, it.Run.CapHeight, want)
			}
		}
		if len(digits) != len(c.groups) || len(guards) != len(c.guards) {
			t.Fatalf("%s: %d groups, %d guard bars", c.kind, len(digits), len(guards))
		}
		for i, g := range guards {
			if g.X != at(c.guards[i])+s.Inset || g.W != s.Module-2*s.Inset || g.Y != bars.Bottom() || g.H != 5*s.Module {
				t.Errorf("%s: guard bar %d is %+v", c.kind, i, g)
			}
		}
		if p.Items[0].Src != src {
			t.Errorf("%s: the bars come from %v", c.kind, p.Items[0].Src)
		}
	}
}

// Words under the bars of a logistic label: the whole element string, AIs in
// brackets, at least 3 mm high (GS1 Sweden, rules for the logistic label).
func TestCaption(t *testing.T) {
	p := pen(t)
	els := []gs1.Element{{AI: "02", Value: "00614141000418"}, {AI: "15", Value: "210228"}, {AI: "10", Value: "451214"}, {AI: "37", Value: "20"}}
	data, err := gs1.Encode(els, gs1.Element{AI: "00", Value: "006141411234567890"})
	if err != nil {
		t.Fatal(err)
	}
	s := symbolOf(t, p, gs1.GS1128, gs1.Trade, data)
	for _, c := range []struct {
		caption string
		height  unit.Length
		lines   int
	}{
		{gs1.HRI(els), 0, 1},
		{gs1.HRI(els), 8 * mm, 2}, // broken between elements only
		{"", 0, 0},
	} {
		p.Items = nil
		if _, err := p.Bars(5*mm, 5*mm, s, c.caption, c.height, diag.Pos{}); err != nil {
			t.Fatal(err)
		}
		room, said := p.Items[0].Box, ""
		for _, it := range p.Items[1:] {
			said += it.Run.Text
			if !strings.HasPrefix(it.Run.Text, "(") || it.Run.CapHeight < max(c.height, 3*mm) {
				t.Errorf("%q is %v high", it.Run.Text, it.Run.CapHeight)
			}
			if it.Box.Y < room.Bottom() || it.Box.X < room.X || it.Box.Right() > room.Right() {
				t.Errorf("%q at %+v is not below %+v", it.Run.Text, it.Box, room)
			}
			left, right := it.Box.X-room.X, room.Right()-it.Box.Right()
			if left-right > 2 || right-left > 2 {
				t.Errorf("%q is not in the middle: %v and %v", it.Run.Text, left, right)
			}
		}
		if said != c.caption || len(p.Items) != 1+c.lines {
			t.Errorf("caption %q in %d lines, want %q in %d", said, len(p.Items)-1, c.caption, c.lines)
		}
	}
}

func TestBearersAndCaptionKeepApart(t *testing.T) {
	p := pen(t)
	s := symbolOf(t, p, gs1.ITF14, gs1.Trade, "09501101530003")
	box, err := p.Bars(20*mm, 20*mm, s, "09501101530003", 0, diag.Pos{})
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Items) != 4 {
		t.Fatalf("%d marks, want bars, two bearers, digits", len(p.Items))
	}
	words := p.Items[3]
	if box.Y < 20*mm || box.X < 20*mm {
		t.Errorf("the bearers stick out at %+v", box)
	}
	for _, it := range p.Items[:3] {
		if words.Box.Overlaps(it.Box) {
			t.Errorf("the digits %+v lie on %+v", words.Box, it.Box)
		}
	}
}

func TestCaptionTooWide(t *testing.T) {
	p := pen(t)
	s := symbolOf(t, p, gs1.ITF14, gs1.Trade, "09501101530003")
	var wide *text.TooWide
	if _, err := p.Bars(0, 0, s, strings.Repeat("9", 99), 0, diag.Pos{}); !errors.As(err, &wide) || len(p.Items) != 0 {
		t.Errorf("got %v and %d marks", err, len(p.Items))
	}
}
