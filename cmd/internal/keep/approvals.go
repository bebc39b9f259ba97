package keep

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/shop"
)

// signLock is held while approvals.yaml is read, signed and written.
const signLock = ".approvals.lock"

// Sign puts approvals into approvals.yaml in the shop's folder dir, beside
// those that stand there by then, whoever wrote them, and gives the path and
// all of them. What was written is read back before it takes the place of the
// older file. The error is a [usage.Error] where the file that is there cannot
// be read.
func Sign(disk Disk, dir string, signed []shop.Approval) (file string, all shop.Approvals, err error) {
	f, err := OpenFolder(disk, dir)
	if err != nil {
		return "", all, err
	}
	file = f.Path(shop.ApprovalsFile)
	unlock, err := disk.Lock(f.Path(signLock))
	if err != nil {
		return file, all, fmt.Errorf("cannot sign in %s: %w", dir, err)
	}
	defer unlock()
	if all, err = standing(dir); err != nil {
		return file, all, err
	}
	all = all.With(signed...)
	d, err := f.Draft("", []File{{Name: shop.ApprovalsFile, Write: func(w io.Writer) error {
		_, err := w.Write(all.YAML())
		return err
	}}})
	if err != nil {
		return file, all, err
	}
	if err := d.readsBack(all); err != nil {
		return file, all, errors.Join(err, d.Discard())
	}
	return file, all, d.Name()
}

// standing reads what has been approved so far.
func standing(dir string) (shop.Approvals, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return shop.Approvals{}, fmt.Errorf("cannot open the shop: %w", err)
	}
	defer root.Close()
	var found diag.List
	all, ok := shop.ReadApprovals(root.FS(), &found)
	if !ok {
		d := found.All()[0]
		d.Pos.File = filepath.ToSlash(filepath.Join(dir, d.Pos.File))
		return all, usage.Errorf("mend it, or put an older one back, and sign again; nothing was written", "%s: %s", d.Pos, d.Msg)
	}
	return all, nil
}

// readsBack reads the approvals that were drafted, and compares them with what
// was to be written.
func (d *Draft) readsBack(want shop.Approvals) error {
	data, err := d.folder.disk.ReadFile(d.temps[0])
	if err != nil {
		return err
	}
	var found diag.List
	got, ok := shop.ParseApprovals(data, &found)
	same := ok && len(got.All) == len(want.All)
	for i := 0; same && i < len(want.All); i++ {
		same = got.All[i].Same(want.All[i])
	}
	if !same {
		return fmt.Errorf("what was written to %s does not read back as it was signed; the older one stays", d.folder.Path(shop.ApprovalsFile))
	}
	return nil
}
