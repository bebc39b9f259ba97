package keep

import (
	"io"

	"chablon/labels/shop"
)

// Approvals writes approvals.yaml into the shop's folder dir and gives its
// path.
func Approvals(dir string, all shop.Approvals) (path string, err error) {
	f, err := OpenFolder(Machine{}, dir)
	if err != nil {
		return "", err
	}
	err = f.Save(shop.ApprovalsFile, func(w io.Writer) error {
		_, err := w.Write(all.YAML())
		return err
	})
	return f.Path(shop.ApprovalsFile), err
}
