package picture_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"
	"time"

	"chablon/labels/picture"
	"chablon/labels/unit"
)

// corner is a white picture whose top left quarter is black.
func corner(w, h int) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.NRGBA{255, 255, 255, 255}
			if x < w/2 && y < h/2 {
				c = color.NRGBA{0, 0, 0, 255}
			}
			img.SetNRGBA(x, y, c)
		}
	}
	return img
}

func asPNG(t *testing.T, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// asJPEG writes a JPEG with an EXIF part that says how it was held.
func asJPEG(t *testing.T, img image.Image, orientation uint16, order binary.ByteOrder) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	tiff := make([]byte, 26)
	copy(tiff, "MM\x00\x2a")
	if order == binary.LittleEndian {
		copy(tiff, "II\x2a\x00")
	}
	order.PutUint32(tiff[4:], 8)
	order.PutUint16(tiff[8:], 1)
	order.PutUint16(tiff[10:], 0x0112)
	order.PutUint16(tiff[12:], 3)
	order.PutUint32(tiff[14:], 1)
	order.PutUint16(tiff[18:], orientation)
	part := append([]byte("Exif\x00\x00"), tiff...)
	head := []byte{0xFF, 0xD8, 0xFF, 0xE1, 0, byte(len(part) + 2)}
	return append(append(head, part...), b.Bytes()[2:]...)
}

// Where the black quarter of the picture stands once it is turned, for each
// orientation of the EXIF specification (CIPA DC-008, 4.6.4, tag 0x0112): the
// row and the column that the first row and column of the file stand for.
func TestTurned(t *testing.T) {
	places := map[uint16][2]bool{ // right, low
		1: {false, false}, 2: {true, false}, 3: {true, true}, 4: {false, true},
		5: {false, false}, 6: {true, false}, 7: {true, true}, 8: {false, true},
	}
	for o, want := range places {
		for _, order := range []binary.ByteOrder{binary.BigEndian, binary.LittleEndian} {
			p, err := picture.Decode(asJPEG(t, corner(80, 40), o, order))
			if err != nil {
				t.Fatal(err)
			}
			w, h := 80, 40
			if o > 4 {
				w, h = h, w
			}
			if p.W != w || p.H != h {
				t.Errorf("orientation %d: %d × %d", o, p.W, p.H)
				continue
			}
			x, y := w/4, h/4
			if want[0] {
				x = w - 1 - x
			}
			if want[1] {
				y = h - 1 - y
			}
			if p.Gray[y*w+x] > 40 || p.Gray[(h-1-y)*w+w-1-x] < 215 {
				t.Errorf("orientation %d: the black quarter is not at %d, %d", o, x, y)
			}
		}
	}
}

func TestGrey(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 2, 1))
	img.SetNRGBA(1, 0, color.NRGBA{255, 0, 0, 255}) // the first stays transparent
	p, err := picture.Decode(asPNG(t, img))
	if err != nil || p.Gray[0] != 255 || p.Gray[1] != 76 { // 0.299 × 255, ITU-R BT.601
		t.Errorf("%v, %v", p, err)
	}
	big, err := picture.Decode(asPNG(t, corner(2000, 1000)))
	if err != nil || big.W != picture.Kept || big.H != picture.Kept/2 || big.Gray[0] != 0 || big.Gray[len(big.Gray)-1] != 255 {
		t.Errorf("a large picture: %v", err)
	}
	again, _ := picture.Decode(asPNG(t, corner(2000, 1000)))
	if again.Digest != big.Digest || len(big.Digest) != 32 {
		t.Errorf("digests %q and %q of one picture", big.Digest, again.Digest)
	}
}

// huge is a PNG that says it is w × h and holds next to nothing.
func huge(w, h uint32) []byte {
	head := make([]byte, 17)
	copy(head, "IHDR")
	binary.BigEndian.PutUint32(head[4:], w)
	binary.BigEndian.PutUint32(head[8:], h)
	copy(head[12:], []byte{8, 0, 0, 0, 0})
	out := []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d")
	out = append(out, head...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(head))
}

// What would take the machine's memory, and what is no picture, is refused at
// once, with what to do.
func TestRefused(t *testing.T) {
	good := asPNG(t, corner(40, 40))
	for name, data := range map[string][]byte{
		"nothing":        {},
		"a text":         []byte("PNG"),
		"cut off":        good[:len(good)/2],
		"a broken part":  append(bytes.Clone(good[:40]), bytes.Repeat([]byte{0}, 40)...),
		"a wall":         huge(60_000, 60_000),
		"a long line":    huge(4_000_000, 3),
		"no rows":        huge(10, 0),
		"too many":       huge(4_000, 3_001),
		"a large file":   append(bytes.Clone(good), make([]byte, picture.MaxBytes)...),
		"half a JPEG":    asJPEG(t, corner(40, 40), 1, binary.BigEndian)[:60],
		"a vector":       []byte("<svg xmlns='http://www.w3.org/2000/svg'/>"),
		"an odd EXIF":    []byte("\xff\xd8\xff\xe1\x00\x10Exif\x00\x00II*\x00\xff\xff\xff\xff"),
		"an endless one": []byte("\xff\xd8\xff\xe1\x00\x00"),
	} {
		begin := time.Now()
		p, err := picture.Decode(data)
		var told *unit.Error
		if p != nil || !errors.As(err, &told) || told.Hint == "" || strings.Contains(told.Msg, "\n") {
			t.Errorf("%s: %v, %v", name, p, err)
		}
		if took := time.Since(begin); took > 2*time.Second {
			t.Errorf("%s was refused after %s", name, took)
		}
	}
}

func ExampleDecode() {
	_, err := picture.Decode([]byte("GIF89a"))
	fmt.Println(err)
	// Output: it is neither a PNG nor a JPEG: save it as PNG or JPEG
}
