package pdftest

import (
	"image"
	"image/png"
	"os"
	"os/exec"
	"testing"
)

// ShownBy is the picture, a PNG, that another program makes in file.
func ShownBy(t testing.TB, file, tool string, args ...string) *image.Gray {
	t.Helper()
	if msg, err := exec.Command(tool, args...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, msg)
	}
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return Gray(img)
}
