// Package keep answers: what is on the disk, and is it whole?
//
// It is all that touches the disk for the commands: finished files are saved
// so that none is ever half there, approvals are signed, an earlier revision
// of a shop is read from git, and the register's file is opened.
//
// # What a kill leaves in a folder of paper
//
// The files of one request are first written beside their places under hidden
// names ([Folder.Draft]). Only then do they get their names ([Draft.Name]): the
// older files that they replace go out of sight first, then the new ones come
// in, and at the end a list is written of what belongs together. So whenever
// the program dies, the files of a request that can be seen are all old or all
// new, never some of each; if they are not all there, the list says that it is
// not finished, and giving the command again mends it. An error puts the older
// files back.
package keep

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"chablon/cmd/internal/usage"
)

// File is one finished file that has not been written yet.
type File struct {
	Name  string // without a folder
	Run   string // what all parts of it are called, where it may be cut into parts or pages: NAME of NAME-part-NN.pdf
	Write func(io.Writer) error
	Stays bool // no later request takes it away, because it bears numbers that are given once
}

// Folder is where finished files go.
type Folder struct {
	disk Disk
	dir  string
	made bool // by OpenFolder
}

// OpenFolder opens the folder dir on a disk; it is made if it is missing.
func OpenFolder(disk Disk, dir string) (*Folder, error) {
	made, err := disk.MkdirAll(dir)
	if err != nil {
		return nil, fmt.Errorf("cannot make the folder %s: %w", dir, err)
	}
	return &Folder{disk, dir, made}, nil
}

// Path is the path of the file called name in the folder.
func (f *Folder) Path(name string) string { return filepath.Join(f.dir, name) }

// Save writes one file that belongs to no set: it is whole, or as it was
// before. A name that would leave the folder is an error.
func (f *Folder) Save(name string, write func(io.Writer) error) error {
	d, err := f.Draft("", []File{{Name: name, Write: write}})
	if err != nil {
		return err
	}
	return d.Name()
}

// Draft is files that are whole and on the disk, but have no names yet.
type Draft struct {
	folder *Folder
	set    string
	files  []File
	temps  []string // hidden name of each
	sums   []string // SHA-256 of each, as hex digits
	drop   []string // names of files with numbers that go
}

// Drop lets [Draft.Name] take away files with these names whose numbers are on
// nothing any more. Like all others they go only if the list names them and they
// still read as they were written.
func (d *Draft) Drop(names ...string) { d.drop = append(d.drop, names...) }

// Draft writes the files of one request, none under its name. The set names
// what they are all of, such as "day": files of an older request of the same
// set are taken away by [Draft.Name]. With an empty set they are on their own.
// Two files of one name are an error, as are two that a disk without capital
// letters would take for one.
func (f *Folder) Draft(set string, files []File) (*Draft, error) {
	d := &Draft{folder: f, set: set}
	seen := map[string]string{}
	for _, file := range files {
		key := folded(file.Name)
		if old, twice := seen[key]; twice {
			return nil, errors.Join(twoOfOneName(old, file.Name), d.Discard())
		}
		seen[key] = file.Name
		if err := d.write(file); err != nil {
			return nil, errors.Join(err, d.Discard())
		}
	}
	return d, nil
}

func twoOfOneName(a, b string) error {
	return usage.Errorf("print them one by one, into folders of their own: --out",
		"two papers would be called %s (%s): one of them would be lost", a, b)
}

// folded is a name as a disk sees it that does not tell capitals from small
// letters.
func folded(name string) string { return strings.ToLower(strings.ToUpper(name)) }

// write writes one file under a hidden name.
func (d *Draft) write(file File) (err error) {
	if !plain(file.Name) {
		return fmt.Errorf("%q is not a plain file name", file.Name)
	}
	t, err := d.folder.disk.Create(d.folder.dir)
	if err != nil {
		return fmt.Errorf("cannot write in %s: %w", d.folder.dir, err)
	}
	d.files, d.temps = append(d.files, file), append(d.temps, t.Name())
	sum := sha256.New()
	b := bufio.NewWriterSize(t, 1<<16)
	err = file.Write(io.MultiWriter(b, sum))
	for _, then := range []func() error{b.Flush, t.Sync} {
		if err == nil {
			err = then()
		}
	}
	if err = errors.Join(err, t.Close()); err != nil {
		return fmt.Errorf("cannot write %s: %w", d.folder.Path(file.Name), err)
	}
	d.sums = append(d.sums, hex.EncodeToString(sum.Sum(nil)))
	return nil
}

// Discard takes back what has no name yet, and the folder if it was made for
// it. After [Draft.Name] it does nothing.
func (d *Draft) Discard() error {
	var errs error
	for _, t := range d.temps {
		errs = errors.Join(errs, d.folder.disk.Remove(t))
	}
	if d.temps != nil && d.folder.made {
		_ = d.folder.disk.Remove(d.folder.dir) // stays if anything is in it
	}
	d.temps = nil
	return errs
}
