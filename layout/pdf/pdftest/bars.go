package pdftest

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"slices"
	"strings"
	"testing"

	"chablon/labels/unit"
	"chablon/layout/page"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/datamatrix"
	"github.com/makiuchi-d/gozxing/oned"
	"github.com/makiuchi-d/gozxing/qrcode"
)

// Code is one symbol as the decoder read it. ID is the symbology identifier
// of ISO/IEC 15424 ("]C1" is GS1-128, "]d2" GS1 DataMatrix); FNC1 as a
// separator is \x1d, in front it is told by ID alone.
type Code struct {
	Format string // "EAN_13", "EAN_8", "CODE_128", "ITF", "DATA_MATRIX", "QR_CODE"
	Text   string
	ID     string
	At     image.Rectangle // dots of the picture that it was found in
}

func (c Code) String() string { return fmt.Sprintf("%s %s %q", c.Format, c.ID, c.Text) }

// Crop cuts a box out of a page rendered at dpi.
func Crop(img image.Image, dpi int, box page.Rect) image.Image {
	px := func(l unit.Length) int { return int(l.Mul(int64(dpi), int64(unit.Inch))) }
	return cut(img, image.Rect(px(box.X), px(box.Y), px(box.Right()), px(box.Bottom())))
}

// Decode reads every symbol in a picture, from top to bottom. Symbols are
// told apart by the white around them; each is tried as every kind.
func Decode(t testing.TB, img image.Image) []Code {
	t.Helper()
	gray := cut(img, img.Bounds())
	var out []Code
	for _, gap := range []int{6, 12, 24, 48} {
		for _, box := range islands(gray, gap) {
			for _, c := range decode(cut(gray, box.Inset(-gap))) {
				c.At = box
				if !slices.ContainsFunc(out, c.same) {
					out = append(out, c)
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Code) int {
		if d := a.At.Min.Y - b.At.Min.Y; d != 0 {
			return d
		}
		return a.At.Min.X - b.At.Min.X
	})
	return out
}

func (c Code) same(d Code) bool {
	return c.Format == d.Format && c.Text == d.Text && c.At.Overlaps(d.At)
}

// decode tries one piece of a picture: bands of it for linear symbols, also
// turned by a quarter, and the whole for symbols of rows.
func decode(img *image.Gray) []Code {
	var out []Code
	add := func(c Code, ok bool) {
		if ok && !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	for _, turned := range []*image.Gray{img, turn90(img)} {
		b := turned.Bounds()
		for y := b.Min.Y; y < b.Max.Y; y += 6 {
			band := cut(turned, image.Rect(b.Min.X, y, b.Max.X, y+5))
			for _, r := range linear() {
				add(try(r, band, gozxing.NewGlobalHistgramBinarizer, false))
			}
		}
	}
	for _, pure := range []bool{true, false} {
		add(try(datamatrix.NewDataMatrixReader(), img, gozxing.NewGlobalHistgramBinarizer, pure))
		add(try(qrcode.NewQRCodeReader(), img, gozxing.NewGlobalHistgramBinarizer, pure))
	}
	return out
}

func linear() []gozxing.Reader {
	return []gozxing.Reader{oned.NewEAN13Reader(), oned.NewEAN8Reader(), oned.NewCode128Reader(), oned.NewITFReader()}
}

func try(r gozxing.Reader, img image.Image, how func(gozxing.LuminanceSource) gozxing.Binarizer, pure bool) (c Code, ok bool) {
	bmp, err := gozxing.NewBinaryBitmap(how(gozxing.NewLuminanceSourceFromImage(img)))
	if err != nil {
		return Code{}, false
	}
	hints := map[gozxing.DecodeHintType]any{
		gozxing.DecodeHintType_ASSUME_GS1:      true,
		gozxing.DecodeHintType_ALLOWED_LENGTHS: []int{14},
		gozxing.DecodeHintType_CHARACTER_SET:   "UTF-8",
	}
	if pure {
		hints[gozxing.DecodeHintType_PURE_BARCODE] = true
	}
	res, err := r.Decode(bmp, hints)
	if err != nil {
		return Code{}, false
	}
	id, _ := res.GetResultMetadata()[gozxing.ResultMetadataType_SYMBOLOGY_IDENTIFIER].(string)
	return Code{Format: res.GetBarcodeFormat().String(), Text: plain(id, res.GetText()), ID: id}, true
}

// plain takes off what the decoder puts in front for a leading FNC1; that one
// is told by the identifier.
func plain(id, text string) string {
	switch id {
	case "]C1":
		return strings.TrimPrefix(text, "]C1")
	case "]d2", "]Q3":
		return strings.TrimPrefix(text, "\x1d")
	}
	return text
}

// islands finds the boxes of ink that at least gap dots of white separate.
func islands(img *image.Gray, gap int) []image.Rectangle {
	b := img.Bounds()
	w, h := (b.Dx()+gap-1)/gap, (b.Dy()+gap-1)/gap
	inked := make([]bool, w*h)
	for y := range b.Dy() {
		for x := range b.Dx() {
			if img.Pix[y*img.Stride+x] < 128 {
				inked[y/gap*w+x/gap] = true
			}
		}
	}
	var out []image.Rectangle
	for i := range inked {
		if inked[i] {
			r := flood(inked, w, h, i)
			out = append(out, image.Rect(r.Min.X*gap, r.Min.Y*gap, r.Max.X*gap, r.Max.Y*gap).Add(b.Min).Intersect(b))
		}
	}
	return out
}

// flood clears the cells that hang together with cell i and gives their box.
func flood(cells []bool, w, h, i int) image.Rectangle {
	box, todo := image.Rectangle{}, []int{i}
	cells[i] = false
	for len(todo) > 0 {
		c := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		x, y := c%w, c/w
		box = box.Union(image.Rect(x, y, x+1, y+1))
		for ny := max(0, y-1); ny <= min(h-1, y+1); ny++ {
			for nx := max(0, x-1); nx <= min(w-1, x+1); nx++ {
				if n := ny*w + nx; cells[n] {
					cells[n] = false
					todo = append(todo, n)
				}
			}
		}
	}
	return box
}

// cut copies a piece of a picture; what lies outside the picture is white.
func cut(img image.Image, box image.Rectangle) *image.Gray {
	out := image.NewGray(image.Rect(0, 0, box.Dx(), box.Dy()))
	draw.Draw(out, out.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	in := box.Intersect(img.Bounds())
	draw.Draw(out, in.Sub(box.Min), img, in.Min, draw.Src)
	return out
}

func turn90(img *image.Gray) *image.Gray {
	b := img.Bounds()
	out := image.NewGray(image.Rect(0, 0, b.Dy(), b.Dx()))
	for y := range b.Dy() {
		for x := range b.Dx() {
			out.Pix[x*out.Stride+b.Dy()-1-y] = img.Pix[y*img.Stride+x]
		}
	}
	return out
}
