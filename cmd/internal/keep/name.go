package keep

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"chablon/cmd/internal/usage"
)

// lockFile is held while files get their names.
const lockFile = ".papers.lock"

// numbered is the set of files that stay: they bear numbers that are given once.
const numbered = "numbered"

// tooOld is the age from which an unfinished file is of a program that died.
const tooOld = time.Hour

// Name gives the files their names, all or none: see the package comment. Of
// what lies in the folder only two things are ever taken away: files with the
// new names, and files that the list names as of the same set or as parts of
// the same run, if they still read as they were written.
func (d *Draft) Name() (err error) {
	n := naming{Draft: d, disk: d.folder.disk, dir: d.folder.dir}
	defer func() { err = errors.Join(err, d.Discard()) }()
	if d.set != "" {
		unlock, err := n.disk.Lock(d.folder.Path(lockFile))
		if err != nil {
			return fmt.Errorf("cannot write in %s: %w", n.dir, err)
		}
		defer unlock()
	}
	if err := n.look(); err != nil {
		return err
	}
	if err := n.swap(); err != nil {
		return errors.Join(err, n.back())
	}
	return n.clear()
}

// naming is what goes on while files get their names.
type naming struct {
	*Draft
	disk  Disk
	dir   string
	there []fs.FileInfo
	was   list
	gone  []string          // names of the older files that go
	moved map[string]string // where each of gone is now
	named int               // how many of the new files have their names
}

func (n *naming) path(name string) string { return filepath.Join(n.dir, name) }

// look finds out what has to go, sweeps what dead programs left, and changes
// nothing that can be seen.
func (n *naming) look() (err error) {
	if n.there, err = n.disk.List(n.dir); err != nil {
		return fmt.Errorf("cannot look into %s: %w", n.dir, err)
	}
	if n.set != "" {
		n.was = readList(n.disk, n.dir)
		n.sweep()
	}
	for _, info := range n.there {
		replaced, err := n.replaces(info)
		if err != nil {
			return err
		}
		if n.set != "" && (replaced || n.stale(info)) {
			n.gone = append(n.gone, info.Name())
		}
	}
	return nil
}

// sweep removes the unfinished files of programs that died long ago. One that
// cannot be removed does no harm.
func (n *naming) sweep() {
	for _, info := range n.there {
		if strings.HasPrefix(info.Name(), unfinished) && info.Mode().IsRegular() && time.Since(info.ModTime()) > tooOld {
			_ = n.disk.Remove(n.path(info.Name()))
		}
	}
}

// replaces reports whether a new file takes the place of one that is there.
func (n *naming) replaces(info fs.FileInfo) (bool, error) {
	i := slices.IndexFunc(n.files, func(f File) bool { return folded(f.Name) == folded(info.Name()) })
	switch {
	case i < 0:
		return false, nil
	case info.IsDir():
		return false, fmt.Errorf("cannot write %s: it is a folder", n.path(info.Name()))
	case n.files[i].Name != info.Name():
		return false, usage.Errorf("move the older one away, or print into another folder: --out",
			"%s is there already, and differs from %s in capital letters alone", n.path(info.Name()), n.files[i].Name)
	}
	return true, nil
}

// stale reports whether a file is of an older request of the same set, or an
// older part of the same run, and is still as it was written.
func (n *naming) stale(info fs.FileInfo) bool {
	if !info.Mode().IsRegular() {
		return false
	}
	for _, e := range n.was.entries {
		if e.name == info.Name() && (e.set == n.set || n.partOfNew(e.name) || n.dropped(e.name)) && n.reads(e) {
			return true
		}
	}
	return false
}

// partOfNew reports whether a file called name is a part of a run that is
// among the new files.
func (n *naming) partOfNew(name string) bool {
	run, part := runOf(name)
	return part && slices.ContainsFunc(n.files, func(f File) bool { return f.Run == run })
}

// dropped reports whether a file, or the run that it is a part of, is to go with
// its numbers.
func (n *naming) dropped(name string) bool {
	run, part := runOf(name)
	return slices.Contains(n.drop, name) || part && slices.Contains(n.drop, run+filepath.Ext(name))
}

// reads reports whether the file of an entry still reads as it was written.
func (n *naming) reads(e entry) bool {
	data, err := n.disk.ReadFile(n.path(e.name))
	return err == nil && sumOf(data) == e.sum
}

// swap takes the older files out of sight, gives the new ones their names, and
// writes the list. Files of no set take the place of older ones directly.
func (n *naming) swap() error {
	if n.set == "" {
		return n.come()
	}
	now := n.now()
	both := list{entries: slices.Concat(n.was.entries, now.entries)}
	for _, step := range []func() error{
		func() error { return n.writeList(both.text()) }, n.leave, n.come,
		func() error { return n.writeList(now.text()) },
	} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// leave takes the older files out of sight.
func (n *naming) leave() error {
	n.moved = map[string]string{}
	for i, name := range n.gone {
		aside := fmt.Sprintf("%s-older-%d", n.temps[0], i)
		if err := n.rename(n.path(name), aside, name); err != nil {
			return err
		}
		n.moved[name] = aside
	}
	return n.sync()
}

// come gives the new files their names.
func (n *naming) come() error {
	for i, f := range n.files {
		if err := n.rename(n.temps[i], n.path(f.Name), f.Name); err != nil {
			return err
		}
		n.named++
	}
	return n.sync()
}

// now is what the list will say.
func (n *naming) now() list {
	out := list{finished: true}
	for _, e := range n.was.entries {
		there := slices.ContainsFunc(n.there, func(i fs.FileInfo) bool { return i.Name() == e.name })
		if there && !slices.Contains(n.gone, e.name) && e.set != n.set {
			out.entries = append(out.entries, e)
		}
	}
	for i, f := range n.files {
		set := n.set
		if f.Stays {
			set = numbered
		}
		out.entries = append(out.entries, entry{f.Name, n.sums[i], set})
	}
	return out
}

func (n *naming) rename(from, to, name string) error {
	if err := n.disk.Rename(from, to); err != nil {
		return fmt.Errorf("cannot write %s: %w", n.path(name), err)
	}
	return nil
}

func (n *naming) sync() error {
	if err := n.disk.SyncFolder(n.dir); err != nil {
		return fmt.Errorf("cannot write in %s: %w", n.dir, err)
	}
	return nil
}

// writeList writes the list over the one before.
func (n *naming) writeList(text string) error {
	d := &Draft{folder: n.folder}
	err := d.write(File{Name: listFile, Write: func(w io.Writer) error { _, err := io.WriteString(w, text); return err }})
	if err == nil {
		err = n.rename(d.temps[0], n.path(listFile), listFile)
	}
	if err != nil {
		return errors.Join(err, d.Discard())
	}
	return n.sync()
}

// back puts the older files back after an error.
func (n *naming) back() error {
	var errs error
	if n.set == "" {
		return nil // each is whole, old or new
	}
	for i := n.named - 1; i >= 0; i-- {
		errs = errors.Join(errs, n.disk.Rename(n.path(n.files[i].Name), n.temps[i]))
	}
	for name, aside := range n.moved {
		errs = errors.Join(errs, n.disk.Rename(aside, n.path(name)))
	}
	n.moved = nil
	if errs != nil {
		return errs
	}
	return n.listBack()
}

// listBack puts the older list back.
func (n *naming) listBack() error {
	if n.was.data != nil {
		return n.writeList(string(n.was.data))
	}
	if err := n.disk.Remove(n.path(listFile)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// clear removes the older files, which are out of sight.
func (n *naming) clear() error {
	n.temps = nil
	var errs error
	for _, aside := range n.moved {
		if err := n.disk.Remove(aside); err != nil {
			errs = errors.Join(errs, fmt.Errorf("an older file must go: %w", err))
		}
	}
	return errs
}
