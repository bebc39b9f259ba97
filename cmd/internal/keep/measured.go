package keep

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/shop"
)

// measureLock is held while measured.yaml is read and written.
const measureLock = ".measured.lock"

const measuredHead = "# What the kitchen weighed and timed. Written by: chablon measured; or by hand.\nmeasured:\n"

// Measure puts an entry at the end of measured.yaml in the shop's folder dir, as
// it stands there by then, and gives its path. Nothing that stands in it is
// changed. What is to be written is read before it is; the error is a
// [usage.Error] where it cannot be.
func Measure(disk Disk, dir string, m shop.Measurement) (file string, err error) {
	f, err := OpenFolder(disk, dir)
	if err != nil {
		return "", err
	}
	file = f.Path(shop.MeasuredFile)
	unlock, err := disk.Lock(f.Path(measureLock))
	if err != nil {
		return file, fmt.Errorf("cannot note in %s: %w", dir, err)
	}
	defer unlock()
	before, err := os.ReadFile(filepath.Join(dir, shop.MeasuredFile))
	if errors.Is(err, os.ErrNotExist) {
		before, err = []byte(measuredHead), nil
	}
	if err != nil {
		return file, fmt.Errorf("cannot read what was measured before: %w", err)
	}
	all := strings.TrimRight(string(before), "\n") + "\n" + m.YAML()
	var found diag.List
	if _, ok := shop.ParseMeasurements([]byte(all), &found); !ok {
		d := found.All()[0]
		d.Pos.File = filepath.ToSlash(file)
		return file, usage.Errorf("mend the file, or what is to be noted; nothing was written", "%s: %s", d.Pos, d.Msg)
	}
	d, err := f.Draft("", []File{{Name: shop.MeasuredFile, Write: func(w io.Writer) error {
		_, err := io.WriteString(w, all)
		return err
	}}})
	if err != nil {
		return file, err
	}
	return file, d.Name()
}
