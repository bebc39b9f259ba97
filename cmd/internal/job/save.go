package job

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

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
func (f *Folder) Save(name string, write func(io.Writer) error) (err error) {
	if name != filepath.Base(name) || !fs.ValidPath(name) || strings.HasPrefix(name, ".") {
		return fmt.Errorf("%q is not a plain file name", name)
	}
	t, err := os.CreateTemp(f.dir, ".unfinished-*")
	if err != nil {
		return fmt.Errorf("cannot write in %s: %w", f.dir, err)
	}
	defer func() {
		if err != nil {
			err = errors.Join(fmt.Errorf("cannot write %s: %w", f.Path(name), err), os.Remove(t.Name()))
		}
	}()
	b := bufio.NewWriterSize(t, 1<<16)
	if err := errors.Join(write(b), b.Flush(), t.Chmod(0o644), t.Sync(), t.Close()); err != nil {
		return err
	}
	return os.Rename(t.Name(), f.Path(name))
}
