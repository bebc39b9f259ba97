// Package picture answers: what can be seen on this picture?
//
// [Decode] reads a PNG or a JPEG that somebody put into the shop's folder and
// gives plain greys: turned the right way up, without colours, profiles or
// anything else that a camera wrote into the file. How large it is, is asked
// before anything is unpacked, so that a small file cannot grow into gigabytes.
package picture

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"

	"chablon/labels/unit"
)

// What a picture may be at most: the file in bytes, its pixels, and either side
// of it.
const (
	MaxBytes  = 8 << 20
	MaxPixels = 12_000_000
	maxSide   = 20_000
)

// Kept is the most that is kept of a side: 60 mm at 300 dots an inch. Larger
// pictures are made smaller, so that a card stays a small file.
const Kept = 709

// Picture is a grey picture: W × H pixels from the top left, one byte each, 0
// for black.
type Picture struct {
	W, H   int
	Gray   []byte
	Digest string // of what can be seen: two files that look the same have the same
}

// Decode reads a picture. An error says what is wrong and what to do; it is a
// *unit.Error.
func Decode(data []byte) (*Picture, error) {
	read, size, err := kind(data)
	if err != nil {
		return nil, err
	}
	c, err := size(bytes.NewReader(data))
	if err != nil {
		return nil, broken(err)
	}
	if c.Width < 1 || c.Height < 1 || c.Width > maxSide || c.Height > maxSide || c.Width*c.Height > MaxPixels {
		return nil, fault("too-large", "make it smaller; 1000 × 700 pixels are enough for a card", "it has %d × %d pixels; at most %d million are read", c.Width, c.Height, MaxPixels/1_000_000)
	}
	img, err := read(bytes.NewReader(data))
	if err != nil {
		return nil, broken(err)
	}
	p := turned(smaller(grey(img)), orientation(data))
	sum := sha256.New()
	fmt.Fprintf(sum, "%d %d ", p.W, p.H)
	sum.Write(p.Gray)
	p.Digest = hex.EncodeToString(sum.Sum(nil)[:16])
	return p, nil
}

type reader = func(r *bytes.Reader) (image.Image, error)
type sizer = func(r *bytes.Reader) (image.Config, error)

// kind tells how the file is read by its first bytes, never by its name.
func kind(data []byte) (reader, sizer, error) {
	switch {
	case len(data) > MaxBytes:
		return nil, nil, fault("too-large", "make it smaller; 1000 × 700 pixels are enough for a card", "it has more than %d MB", MaxBytes>>20)
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		return func(r *bytes.Reader) (image.Image, error) { return png.Decode(r) }, func(r *bytes.Reader) (image.Config, error) { return png.DecodeConfig(r) }, nil
	case bytes.HasPrefix(data, []byte{0xFF, 0xD8, 0xFF}):
		return func(r *bytes.Reader) (image.Image, error) { return jpeg.Decode(r) }, func(r *bytes.Reader) (image.Config, error) { return jpeg.DecodeConfig(r) }, nil
	}
	return nil, nil, fault("picture", "save it as PNG or JPEG", "it is neither a PNG nor a JPEG")
}

func fault(rule, hint, format string, args ...any) error {
	return &unit.Error{Rule: rule, Msg: fmt.Sprintf(format, args...), Hint: hint}
}

func broken(err error) error {
	return fault("picture", "save it again as PNG or JPEG", "it cannot be read: %v", err)
}

// grey gives the greys of an image on white paper: what is transparent is
// white. The weights are those of Recommendation ITU-R BT.601, as image/color
// has them.
func grey(img image.Image) *Picture {
	b := img.Bounds()
	p := &Picture{W: b.Dx(), H: b.Dy(), Gray: make([]byte, b.Dx()*b.Dy())}
	for y := range p.H {
		for x := range p.W {
			r, g, bl, a := img.At(b.Min.X+x, b.Min.Y+y).RGBA()
			white := 0xffff - a
			c := color.RGBA64{R: uint16(r + white), G: uint16(g + white), B: uint16(bl + white), A: 0xffff}
			p.Gray[y*p.W+x] = color.GrayModel.Convert(c).(color.Gray).Y
		}
	}
	return p
}

// smaller gives a picture no side of which is larger than Kept: each pixel is
// the mean of those that it stands for.
func smaller(p *Picture) *Picture {
	side := max(p.W, p.H)
	if side <= Kept {
		return p
	}
	out := &Picture{W: max(1, p.W*Kept/side), H: max(1, p.H*Kept/side)}
	out.Gray = make([]byte, out.W*out.H)
	for y := range out.H {
		for x := range out.W {
			out.Gray[y*out.W+x] = p.mean(x*p.W/out.W, y*p.H/out.H, (x+1)*p.W/out.W, (y+1)*p.H/out.H)
		}
	}
	return out
}

func (p *Picture) mean(x0, y0, x1, y1 int) byte {
	sum, n := 0, 0
	for y := y0; y < max(y1, y0+1); y++ {
		for x := x0; x < max(x1, x0+1); x++ {
			sum, n = sum+int(p.Gray[y*p.W+x]), n+1
		}
	}
	return byte((sum + n/2) / n)
}

// turned gives the picture the right way up: o is the orientation of the EXIF
// specification (CIPA DC-008, tag 0x0112), 1 for one that stands already.
func turned(p *Picture, o int) *Picture {
	if o < 2 || o > 8 {
		return p
	}
	w, h := p.W, p.H
	if o > 4 {
		w, h = h, w
	}
	out := &Picture{W: w, H: h, Gray: make([]byte, w*h)}
	for y := range h {
		for x := range w {
			sx, sy := x, y
			if o > 4 {
				sx, sy = y, x
			}
			if o == 2 || o == 3 || o == 7 || o == 8 {
				sx = p.W - 1 - sx
			}
			if o == 3 || o == 4 || o == 6 || o == 7 {
				sy = p.H - 1 - sy
			}
			out.Gray[y*w+x] = p.Gray[sy*p.W+sx]
		}
	}
	return out
}

// orientation finds how a camera held the picture, in the EXIF part of a JPEG;
// 1 where it does not say.
func orientation(data []byte) int {
	if !bytes.HasPrefix(data, []byte{0xFF, 0xD8}) {
		return 1
	}
	for at := 2; at+4 <= len(data) && data[at] == 0xFF; {
		size := int(binary.BigEndian.Uint16(data[at+2:]))
		end := at + 2 + size
		if data[at+1] == 0xDA || size < 2 || end > len(data) {
			break
		}
		if part := data[at+4 : end]; data[at+1] == 0xE1 && bytes.HasPrefix(part, []byte("Exif\x00\x00")) {
			return tagged(part[6:])
		}
		at = end
	}
	return 1
}

// tagged reads the orientation out of the first directory of a TIFF structure.
func tagged(tiff []byte) int {
	if len(tiff) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.BigEndian
	if tiff[0] == 'I' {
		order = binary.LittleEndian
	}
	at := int(order.Uint32(tiff[4:]))
	if at < 8 || at+2 > len(tiff) {
		return 1
	}
	n := int(order.Uint16(tiff[at:]))
	for i := range n {
		e := at + 2 + 12*i
		if e+12 > len(tiff) {
			break
		}
		if order.Uint16(tiff[e:]) == 0x0112 {
			return int(order.Uint16(tiff[e+8:]))
		}
	}
	return 1
}
