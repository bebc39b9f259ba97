package raster

import (
	"bytes"
	"encoding/binary"
	"image"
	"io"
	"strconv"

	"chablon/labels/unit"
	"chablon/layout/page"
)

// PWG writes pages as PWG Raster (PWG 5102.4-2012), the form of a bitmap that
// printers without a driver take. Offsets and values are those of its table 1.
type PWG struct {
	w     io.Writer
	bed   Bed
	total int
	begun bool
}

// NewPWG begins a document of so many pages; 0 where nobody knows how many.
func NewPWG(w io.Writer, b Bed, total int) *PWG { return &PWG{w: w, bed: b, total: total} }

// Media is what the header says of the paper.
type Media struct {
	W, H unit.Length
	Name string // self-describing name of the size, PWG 5101.1, such as "custom_label_100x60mm"
}

// Page writes one page.
func (p *PWG) Page(img *image.Gray, m Media) error {
	var out bytes.Buffer
	if !p.begun {
		out.WriteString("RaS2") // 4.2, the synchronization word
		p.begun = true
	}
	out.Write(p.header(img, m))
	p.lines(&out, img)
	_, err := out.WriteTo(p.w)
	return err
}

// header is the page header of 1,796 bytes, 4.3.
func (p *PWG) header(img *image.Gray, m Media) []byte {
	h := make([]byte, 1796)
	put := func(at int, v ...int) {
		for i, n := range v {
			binary.BigEndian.PutUint32(h[at+4*i:], uint32(n))
		}
	}
	points := func(l unit.Length) int { return int(unit.MulDiv(int64(l), 72, int64(unit.Inch))) }
	w, high := img.Rect.Dx(), img.Rect.Dy()
	copy(h, "PwgRaster")
	dpi := p.bed.DPI()
	put(276, dpi, dpi)                 // HWResolution
	put(340, 1)                        // NumCopies
	put(352, points(m.W), points(m.H)) // PageSize
	put(372, w, high)
	bits, space := 1, 3 // black
	if p.bed.Greys {
		bits, space = 8, 18 // sGray
	}
	put(384, bits, bits, p.bed.stride(w), 0, space)
	put(420, 1) // NumColors
	put(452, p.total)
	put(456, 1, 1)          // CrossFeedTransform, FeedTransform
	put(464, 0, 0, w, high) // ImageBox
	copy(h[1732:1795], m.Name)
	return h
}

// DPI is the fineness as the protocol knows it: whole dots an inch.
func (b Bed) DPI() int { return int(unit.MulDiv(int64(unit.Inch), b.Dots.N, int64(b.Dots.Per))) }

// stride is how many bytes a line of w dots takes.
func (b Bed) stride(w int) int {
	if b.Greys {
		return w
	}
	return (w + 7) / 8
}

// lines writes the dots, 4.4: lines that are alike once with how often, each as
// stretches of one byte and stretches of different ones.
func (p *PWG) lines(out *bytes.Buffer, img *image.Gray) {
	row := func(y int) []byte {
		line := img.Pix[y*img.Stride:][:img.Rect.Dx()]
		if p.bed.Greys {
			return line
		}
		return packed(line)
	}
	high := img.Rect.Dy()
	for y := 0; y < high; {
		line, n := row(y), 1
		for n < 256 && y+n < high && bytes.Equal(line, row(y+n)) {
			n++
		}
		out.WriteByte(byte(n - 1))
		stretches(out, line)
		y += n
	}
}

// packed is a line in bits, 1 for black.
func packed(line []byte) []byte {
	out := make([]byte, (len(line)+7)/8)
	for x, v := range line {
		if v < 128 {
			out[x>>3] |= 0x80 >> (x & 7)
		}
	}
	return out
}

// stretches writes a line: up to 128 times the same byte, or up to 128 bytes as
// they stand.
func stretches(out *bytes.Buffer, line []byte) {
	for len(line) > 0 {
		n := 1
		for n < min(128, len(line)) && line[n] == line[0] {
			n++
		}
		if n > 1 || len(line) == 1 {
			out.Write([]byte{byte(n - 1), line[0]})
			line = line[n:]
			continue
		}
		for n = 1; n < min(128, len(line)) && (n+1 >= len(line) || line[n] != line[n+1]); n++ {
		}
		if n == 1 {
			out.Write([]byte{0, line[0]})
		} else {
			out.WriteByte(byte(257 - n))
			out.Write(line[:n])
		}
		line = line[n:]
	}
}

// MediaOf is the paper of a page, with a name of its size as PWG 5101.1 makes
// them.
func MediaOf(p *page.Page) Media {
	return Media{W: p.W, H: p.H, Name: "custom_label_" + millis(p.W) + "x" + millis(p.H) + "mm"}
}

// millis is a length in millimetres, to the hundredth.
func millis(l unit.Length) string {
	return strconv.FormatFloat(float64(l.Mul(100, int64(unit.MM)))/100, 'f', -1, 64)
}
