package samples_test

import (
	"bytes"
	"flag"
	"image"
	"image/color"
	"image/png"
	"io/fs"
	"os"
	"testing"

	"chablon/samples"
)

var update = flag.Bool("update", false, "draw the pictures of the workshop again")

// The picture of the workshop is a drawing of our own, made of boxes and arrows
// by the lines below, and lies in its folder as they draw it.
func TestDrawing(t *testing.T) {
	var drawn bytes.Buffer
	if err := png.Encode(&drawn, fold()); err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile("crumb-workshop/pictures/fold.png", drawn.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	data, err := fs.ReadFile(samples.Workshop(), "pictures/fold.png")
	if err != nil {
		t.Fatal(err)
	}
	lies, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if got, ok := lies.(*image.Gray); !ok || !bytes.Equal(got.Pix, fold().Pix) {
		t.Error("the picture is not the one that is drawn here; run with -update")
	}
}

// A canvas is a white sheet that is drawn on in greys.
type canvas struct{ *image.Gray }

func newCanvas(w, h int) canvas {
	c := canvas{image.NewGray(image.Rect(0, 0, w, h))}
	c.fill(0, 0, w, h, 255)
	return c
}

func (c canvas) fill(x, y, w, h int, g uint8) {
	for j := y; j < y+h; j++ {
		for i := x; i < x+w; i++ {
			c.SetGray(i, j, color.Gray{Y: g})
		}
	}
}

// slab is a sheet of dough: a framed box, darker where layers lie on each other.
func (c canvas) slab(x, y, w, h, layers int) {
	c.fill(x, y, w, h, 0)
	c.fill(x+4, y+4, w-8, h-8, uint8(235-25*layers))
	for i := 1; i < layers; i++ {
		c.fill(x+4, y+i*h/layers-1, w-8, 3, 0)
	}
}

// arrow points to the right or to the left, its head at x.
func (c canvas) arrow(x, y, long, dir int) {
	for i := range long {
		c.fill(x-dir*i, y-2, 2, 5, 0)
	}
	for i := range 16 {
		c.fill(x-dir*i, y-i, 2, 2*i+1, 0)
	}
}

// fold is a double turn of a laminated dough: the long sheet, its ends folded to the middle, and the
// whole folded in half.
func fold() canvas {
	c := newCanvas(600, 400)
	c.slab(40, 40, 520, 70, 1)
	c.fill(298, 40, 3, 70, 0)
	c.arrow(180, 130, 90, 1)
	c.arrow(420, 130, 90, -1)
	c.slab(170, 165, 129, 80, 2)
	c.slab(301, 165, 129, 80, 2)
	c.arrow(330, 268, 60, 1)
	c.slab(301, 290, 129, 90, 4)
	return c
}
