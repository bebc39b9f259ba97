package keep

import (
	"context"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"time"

	"github.com/rogpeppe/go-internal/lockedfile"
)

// Disk is what is asked of the file system. [Machine] is the one of this
// machine; tests hand in one that fails, or dies, at a chosen step.
type Disk interface {
	// MkdirAll makes a folder and those above it, and reports whether the
	// folder itself was missing.
	MkdirAll(dir string) (made bool, err error)

	// Create makes an empty file in dir with a hidden name that no file has.
	Create(dir string) (Temp, error)

	Rename(from, to string) error
	Remove(name string) error
	ReadFile(name string) ([]byte, error)

	// List gives what lies in a folder.
	List(dir string) ([]fs.FileInfo, error)

	// SyncFolder brings the names in a folder to the disk, where the system
	// lets a program ask for it.
	SyncFolder(dir string) error

	// Lock waits until no other program holds the file called name, or until
	// patience is over. A program that dies lets go.
	Lock(name string) (unlock func(), err error)
}

// Temp is a file that is being written under a hidden name.
type Temp interface {
	io.WriteCloser
	Name() string // with its folder
	Sync() error
}

// unfinished begins the hidden name of every file that has no name yet.
const unfinished = ".unfinished-"

// patience is how long a lock is waited for.
const patience = 10 * time.Second

// Machine is the file system of this machine. Files and folders get the rights
// that the user's umask leaves.
type Machine struct{}

// MkdirAll implements [Disk].
func (Machine) MkdirAll(dir string) (made bool, err error) {
	_, err = os.Stat(dir)
	return os.IsNotExist(err), os.MkdirAll(dir, 0o777)
}

// Create implements [Disk].
func (Machine) Create(dir string) (Temp, error) {
	for try := 0; ; try++ {
		name := filepath.Join(dir, fmt.Sprintf("%s%016x", unfinished, rand.Uint64()))
		f, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
		if !os.IsExist(err) || try == 100 {
			return f, err
		}
	}
}

// Rename implements [Disk].
func (Machine) Rename(from, to string) error { return os.Rename(from, to) }

// Remove implements [Disk].
func (Machine) Remove(name string) error { return os.Remove(name) }

// ReadFile implements [Disk].
func (Machine) ReadFile(name string) ([]byte, error) { return os.ReadFile(name) }

// List implements [Disk].
func (Machine) List(dir string) ([]fs.FileInfo, error) {
	entries, err := os.ReadDir(dir)
	var out []fs.FileInfo
	for _, e := range entries {
		if info, err := e.Info(); err == nil { // else it went away just now
			out = append(out, info)
		}
	}
	return out, err
}

// SyncFolder implements [Disk].
func (Machine) SyncFolder(dir string) error {
	if runtime.GOOS == "windows" {
		return nil // it lets nobody open a folder for this
	}
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	err = f.Sync()
	if e := f.Close(); err == nil {
		err = e
	}
	return err
}

// Lock implements [Disk].
func (Machine) Lock(name string) (unlock func(), err error) {
	type got struct {
		unlock func()
		err    error
	}
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	c := make(chan got, 1)
	go func() {
		unlock, err := lockedfile.MutexAt(name).Lock()
		c <- got{unlock, err}
	}()
	select {
	case g := <-c:
		return g.unlock, g.err
	case <-ctx.Done():
		go func() { // whoever gives up lets go as soon as the lock comes
			if g := <-c; g.err == nil {
				g.unlock()
			}
		}()
		return nil, fmt.Errorf("another program keeps %s to itself", name)
	}
}
