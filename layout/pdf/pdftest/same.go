package pdftest

import (
	"image"
	"image/draw"
)

// Gray is a picture in shades of grey, on white paper.
func Gray(img image.Image) *image.Gray {
	out := image.NewGray(image.Rect(0, 0, img.Bounds().Dx(), img.Bounds().Dy()))
	draw.Draw(out, out.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Over)
	return out
}

// Off is the share of pixels in which two pictures differ by more than half of
// black; what one of them has beyond the other's edge is not looked at.
func Off(a, b *image.Gray) float64 {
	all := a.Rect.Intersect(b.Rect)
	n := 0
	for y := range all.Dy() {
		for x := range all.Dx() {
			if d := int(a.Pix[y*a.Stride+x]) - int(b.Pix[y*b.Stride+x]); d > 127 || d < -127 {
				n++
			}
		}
	}
	return float64(n) / float64(all.Dx()*all.Dy())
}

// Shrunk is a picture with one pixel for each square of n by n: their mean.
func Shrunk(img *image.Gray, n int) *image.Gray {
	out := image.NewGray(image.Rect(0, 0, img.Rect.Dx()/n, img.Rect.Dy()/n))
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			sum := 0
			for i := range n * n {
				sum += int(img.Pix[(y*n+i/n)*img.Stride+x*n+i%n])
			}
			out.Pix[y*out.Stride+x] = uint8((sum + n*n/2) / (n * n))
		}
	}
	return out
}
