package raster_test

import (
	"bytes"
	"encoding/binary"
	"image"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/unit"
	"chablon/layout/layouttest"
	. "chablon/layout/raster"
)

// unpacked reads pages of PWG Raster as PWG 5102.4 says that a printer does: the
// synchronization word, headers of 1,796 bytes, and lines of stretches.
func unpacked(t interface{ Fatalf(string, ...any) }, data []byte) (pages []*image.Gray) {
	if string(data[:4]) != "RaS2" {
		t.Fatalf("it begins with %q", data[:4])
	}
	data = data[4:]
	for len(data) > 0 {
		h := data[:1796]
		data = data[1796:]
		v := func(at int) int { return int(binary.BigEndian.Uint32(h[at:])) }
		w, high, bits, stride := v(372), v(376), v(388), v(392)
		img := image.NewGray(image.Rect(0, 0, w, high))
		for y := 0; y < high; {
			times := int(data[0]) + 1
			data = data[1:]
			var line []byte
			for len(line) < stride {
				switch n := int(data[0]); {
				case n < 128:
					line = append(line, bytes.Repeat(data[1:2], n+1)...)
					data = data[2:]
				case n > 128:
					line = append(line, data[1:1+257-n]...)
					data = data[1+257-n:]
				default:
					t.Fatalf("a stretch of 128")
				}
			}
			if len(line) != stride || y+times > high {
				t.Fatalf("a line of %d bytes for %d, %d times at %d of %d", len(line), stride, times, y, high)
			}
			for range times {
				for x := range w {
					if bits == 8 {
						img.Pix[y*w+x] = line[x]
					} else if line[x/8]>>(7-x%8)&1 == 0 {
						img.Pix[y*w+x] = 255
					}
				}
				y++
			}
		}
		pages = append(pages, img)
	}
	return pages
}

// TestPWG: pages come back as they were, and the header says what table 1 asks
// for (offsets and values of PWG 5102.4-2012, from memory; the outside check in
// .ci/printer reads them with CUPS).
func TestPWG(t *testing.T) {
	for _, greys := range []bool{false, true} {
		bed := Bed{Dots: layouttest.Desk(), Greys: greys}
		p := layouttest.EveryMark(t, bed.Dots)
		img := drawn(t, bed, p)
		var b bytes.Buffer
		w := NewPWG(&b, bed, 2)
		for range 2 {
			if err := w.Page(img, MediaOf(p)); err != nil {
				t.Fatal(err)
			}
		}
		data := b.Bytes()
		for at, want := range map[int]int{4 + 276: 305, 4 + 280: 305, 4 + 340: 1, 4 + 352: 283, 4 + 356: 170, 4 + 372: 1200, 4 + 376: 720, 4 + 420: 1, 4 + 452: 2} {
			if got := int(binary.BigEndian.Uint32(data[at:])); got != want {
				t.Errorf("at %d stands %d, want %d", at-4, got, want)
			}
		}
		if name := data[4+1732:][:26]; string(name) != "custom_label_100x60mm\x00\x00\x00\x00\x00" {
			t.Errorf("the size is called %q", name)
		}
		pages := unpacked(t, data)
		if len(pages) != 2 || !bytes.Equal(pages[0].Pix, img.Pix) || !bytes.Equal(pages[1].Pix, img.Pix) {
			t.Errorf("%d pages come back, or other dots", len(pages))
		}
	}
}

// TestPWGAnyDots: whatever the dots, they come back.
func TestPWGAnyDots(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		w, h := rapid.IntRange(1, 700).Draw(r, "w"), rapid.IntRange(1, 600).Draw(r, "h")
		img := image.NewGray(image.Rect(0, 0, w, h))
		greys := rapid.Bool().Draw(r, "greys")
		run := rapid.IntRange(1, 400).Draw(r, "run")
		seed := rapid.Uint32().Draw(r, "seed")
		for i := range img.Pix {
			if i%run == 0 {
				seed = seed*1664525 + 1013904223
			}
			img.Pix[i] = uint8(seed >> 24)
			if !greys {
				img.Pix[i] = 255 * (img.Pix[i] >> 7)
			}
		}
		var b bytes.Buffer
		if err := NewPWG(&b, Bed{Dots: unit.Dots{N: 8, Per: mm}, Greys: greys}, 1).Page(img, Media{W: mm, H: mm}); err != nil {
			r.Fatal(err)
		}
		if back := unpacked(r, b.Bytes()); len(back) != 1 || !bytes.Equal(back[0].Pix, img.Pix) {
			r.Fatalf("other dots come back")
		}
	})
}
