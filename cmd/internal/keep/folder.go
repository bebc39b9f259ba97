// Package keep answers: what is on the disk, and is it whole?
//
// It is all that touches the disk for the commands: finished files are saved
// so that none is ever half there, an earlier revision of a shop is read from
// git, and the register's file is opened.
package keep

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// File is one finished file that has not been written yet.
type File struct {
	Name  string // without a folder
	Run   string // what all parts of it are called, where it may be cut into parts: NAME of NAME-part-NN.pdf
	Write func(io.Writer) error
}

// Folder is where finished files go. Nothing half-written ever has a final
// name: a file is written beside its place, flushed to the disk and renamed.
type Folder struct{ dir string }

// OpenFolder makes the folder dir if it is missing.
func OpenFolder(dir string) (*Folder, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("cannot make the folder %s: %w", dir, err)
	}
	return &Folder{dir}, nil
}

// Path is the path of the file called name in the folder.
func (f *Folder) Path(name string) string { return filepath.Join(f.dir, name) }

// Save writes one file. A name that would leave the folder is an error.
func (f *Folder) Save(name string, write func(io.Writer) error) error {
	temp, err := f.draft(name, write)
	if err != nil {
		return err
	}
	return f.name(temp, name)
}

// SaveAll writes the files of one request. They get their names only when the
// last of them is on the disk: the paper of a day is all there, or not at all.
// Parts of an older, longer run of the same name are then taken away, so that
// they are not printed with the new ones.
func (f *Folder) SaveAll(files []File) (err error) {
	var temps []string
	defer func() {
		if err != nil {
			for _, t := range temps {
				_ = os.Remove(t) // those that have their names already are gone from here
			}
		}
	}()
	for _, p := range files {
		temp, err := f.draft(p.Name, p.Write)
		if err != nil {
			return err
		}
		temps = append(temps, temp)
	}
	for i, p := range files {
		if err := f.name(temps[i], p.Name); err != nil {
			return err
		}
	}
	return f.stale(files)
}

// stale takes away the parts of the runs among files that this time have
// fewer parts. Only NAME-part-NN.pdf of such a run is touched.
func (f *Folder) stale(files []File) error {
	var errs error
	entries, err := os.ReadDir(f.dir)
	if err != nil {
		return fmt.Errorf("cannot look for older parts in %s: %w", f.dir, err)
	}
	for _, e := range entries {
		run, ok := partOf(e.Name())
		old := ok && e.Type().IsRegular() && slices.ContainsFunc(files, func(p File) bool { return p.Run == run }) &&
			!slices.ContainsFunc(files, func(p File) bool { return p.Name == e.Name() })
		if !old {
			continue
		}
		if err := os.Remove(f.Path(e.Name())); err != nil {
			errs = errors.Join(errs, fmt.Errorf("%s is of an older run and must go: %w", f.Path(e.Name()), err))
		}
	}
	return errs
}

// partOf gives the name of the run that a file called NAME-part-NN.pdf is of.
func partOf(file string) (run string, ok bool) {
	name, ok := strings.CutSuffix(file, ".pdf")
	i := strings.LastIndex(name, "-part-")
	if !ok || i < 1 {
		return "", false
	}
	n := name[i+len("-part-"):]
	return name[:i], len(n) >= 2 && len(n) <= 3 && strings.Trim(n, "0123456789") == ""
}

// draft writes what will be the file called name beside its place.
func (f *Folder) draft(name string, write func(io.Writer) error) (temp string, err error) {
	if name != filepath.Base(name) || !fs.ValidPath(name) || strings.HasPrefix(name, ".") {
		return "", fmt.Errorf("%q is not a plain file name", name)
	}
	t, err := os.CreateTemp(f.dir, ".unfinished-*")
	if err != nil {
		return "", fmt.Errorf("cannot write in %s: %w", f.dir, err)
	}
	b := bufio.NewWriterSize(t, 1<<16)
	err = write(b)
	for _, then := range []func() error{b.Flush, func() error { return t.Chmod(0o644) }, t.Sync} {
		if err == nil {
			err = then()
		}
	}
	if err = errors.Join(err, t.Close()); err != nil {
		return "", errors.Join(fmt.Errorf("cannot write %s: %w", f.Path(name), err), os.Remove(t.Name()))
	}
	return t.Name(), nil
}

// name gives a finished file its name.
func (f *Folder) name(temp, name string) error {
	if err := os.Rename(temp, f.Path(name)); err != nil {
		return errors.Join(fmt.Errorf("cannot write %s: %w", f.Path(name), err), os.Remove(temp))
	}
	return nil
}
