package emblem

import (
	"bytes"
	"image"
	"image/png"
	"slices"

	"chablon/labels/diag"
)

const pngSign = "\x89PNG\r\n\x1a\n"

// readPNG reads a picture and reports whether it may be printed. What its head
// says of its size is asked before a pixel is unpacked.
func (e *Emblem) readPNG(data []byte, found *diag.List) bool {
	wrong := func(hint, format string, args ...any) bool {
		found.Errorf(e.Pos, "emblem", hint, "the emblem "+format, args...)
		return false
	}
	const again = "save it again as PNG"
	if len(data) > MaxPNG {
		return wrong("save it in black and white, or smaller: 1000 pixels are enough for 40 mm", "has more than %d MB", MaxPNG>>20)
	}
	c, err := png.DecodeConfig(bytes.NewReader(data))
	switch {
	case err != nil:
		return wrong(again, "cannot be read: %v", err)
	case c.Width < 1 || c.Height < 1 || c.Height > MaxPixels/max(c.Width, 1):
		return wrong("make it smaller: 1000 pixels are enough for 40 mm", "has %d × %d pixels, and at most %d million are read", c.Width, c.Height, MaxPixels/1_000_000)
	case max(c.Width, c.Height) > 50*min(c.Width, c.Height):
		return wrong("cut it out of the picture", "has %d × %d pixels, which is a stripe", c.Width, c.Height)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return wrong(again, "cannot be read: %v", err)
	}
	e.W, e.H = int64(c.Width), int64(c.Height)
	if !e.greys(img) {
		return wrong("save it in greys, or in black and white", "has colours, and black is the only one that is printed")
	}
	if !slices.ContainsFunc(e.Gray, func(g byte) bool { return g < 128 }) {
		return wrong("save it with black on white", "shows nothing that is black")
	}
	return true
}

// greys keeps the greys of an image on white paper: what is transparent is
// white. It reports whether there were no colours.
func (e *Emblem) greys(img image.Image) bool {
	b := img.Bounds()
	e.Gray = make([]byte, 0, b.Dx()*b.Dy())
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			r, g, bl, a := img.At(x, y).RGBA()
			if max(r, g, bl)-min(r, g, bl) > 0x0300 {
				return false
			}
			e.Gray = append(e.Gray, byte((g+0xffff-a)>>8))
		}
	}
	return true
}

// twoTone reports whether a picture is black and white but for the edges: less
// than a tenth of its pixels is in between.
func (e *Emblem) twoTone() bool {
	between := 0
	for _, g := range e.Gray {
		if g > 64 && g < 192 {
			between++
		}
	}
	return between*10 < len(e.Gray)
}
