package raster

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"io"

	"chablon/labels/unit"
)

// PNG writes a bitmap of the bed's dots as a picture (ISO/IEC 15948): one bit a
// dot where there are no greys. It says how many dots a metre has, so that
// whatever shows it shows it in its size.
func (b Bed) PNG(w io.Writer, img *image.Gray) error {
	var to image.Image = img
	if !b.Greys {
		to = twoTones(img)
	}
	var out bytes.Buffer
	if err := png.Encode(&out, to); err != nil {
		return err
	}
	const head = 8 + 25 // signature and IHDR; pHYs has to stand before the pixels
	data := out.Bytes()
	for _, part := range [][]byte{data[:head], b.physical(), data[head:]} {
		if _, err := w.Write(part); err != nil {
			return err
		}
	}
	return nil
}

// physical is the chunk pHYs: dots a metre, both ways.
func (b Bed) physical() []byte {
	per := uint32(unit.MulDiv(1000*int64(unit.MM), b.Dots.N, int64(b.Dots.Per)))
	c := append(binary.BigEndian.AppendUint32(nil, 9), "pHYs"...)
	c = binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(c, per), per)
	c = append(c, 1) // the unit is the metre
	return binary.BigEndian.AppendUint32(c, crc32.ChecksumIEEE(c[4:]))
}

// twoTones is a bitmap of black and white alone.
func twoTones(img *image.Gray) *image.Paletted {
	out := image.NewPaletted(img.Rect, color.Palette{color.Black, color.White})
	for i, v := range img.Pix {
		out.Pix[i] = v >> 7
	}
	return out
}
