package print

import (
	"crypto/sha256"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"
	"sync"
	"time"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Kept is a shop that stays read from one request to the next, for a program
// that answers many. What its files say is looked at for each request, and they
// are read anew as soon as one of them says something else: no answer is older
// than the files. Several goroutines may ask at once.
type Kept struct {
	dir   string
	files fs.FS

	mu    sync.Mutex
	press *Press // as read; nil before the first request
	state string // of the files that it was read from
}

// Keep keeps the shop in dir, or the demo shop when dir is empty. The error is
// that of [Open].
func Keep(dir string) (*Kept, error) {
	files, err := folder(dir)
	if err != nil {
		return nil, err
	}
	return &Kept{dir: dir, files: files}, nil
}

// State is the same as long as the files of the shop say the same.
func (k *Kept) State() (string, error) {
	h := sha256.New()
	err := fs.WalkDir(k.files, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case name == ".":
			return nil
		case strings.HasPrefix(d.Name(), "."), d.IsDir() && k.paper(name), strings.HasPrefix(name, "print-book.db"):
			if d.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		return k.note(h, name, d)
	})
	return fmt.Sprintf("%x", h.Sum(nil)), err
}

// Source is the text of a file of the shop, by its name inside the folder.
func (k *Kept) Source(name string) (string, error) {
	data, err := fs.ReadFile(k.files, name)
	return string(data), err
}

// paper reports whether a folder is one that the program writes into.
func (k *Kept) paper(name string) bool {
	if name == "out" || name == "schemas" {
		return true
	}
	_, err := fs.Stat(k.files, path.Join(name, shop.PapersFile))
	return err == nil
}

// note notes what a file says; of one that is no text, how large and how old it
// is.
func (k *Kept) note(to io.Writer, name string, d fs.DirEntry) error {
	info, err := d.Info()
	if err != nil {
		return err
	}
	fmt.Fprintf(to, "%q %v\n", name, info.Mode())
	if d.IsDir() {
		return nil
	}
	if !strings.HasSuffix(name, ".yaml") || !info.Mode().IsRegular() || info.Size() > mostText {
		fmt.Fprintln(to, info.Size(), info.ModTime().UnixNano())
		return nil
	}
	data, err := fs.ReadFile(k.files, name)
	sum := sha256.Sum256(data)
	fmt.Fprintf(to, "%x %v\n", sum, err != nil)
	return nil
}

// mostText is how large a file may be whose text is looked at; none that is read
// is larger.
const mostText = 4 << 20

// Press is a press of its own for one request, with the shop as its files are
// now.
func (k *Kept) Press(today unit.Date, made time.Time) (*Press, error) {
	state, err := k.State()
	if err != nil {
		return nil, fmt.Errorf("cannot read the shop's folder: %w", err)
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.press == nil || k.state != state || k.press.Today != today {
		if k.press, err = open(k.dir, k.files, today, made); err != nil {
			return nil, err
		}
		k.state = state
	}
	p := *k.press
	p.Made, p.Clock = made, made
	p.Found = &diag.List{}
	p.Found.AddAll(k.press.Found)
	p.next, p.held = &counter{}, &held{}
	return &p, nil
}
