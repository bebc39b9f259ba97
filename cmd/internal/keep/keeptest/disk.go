// Package keeptest answers: what is left when the disk fails, or the program
// dies, at a given step?
//
// A [Disk] does what the machine's disk does until that step. No rights of the
// system's are needed for it.
package keeptest

import (
	"errors"
	"io/fs"
	"os"
	"syscall"

	"chablon/cmd/internal/keep"
)

// How a disk ends.
type How int

// The ways.
const (
	Fail How = iota // one step is refused: the disk is full; all others work
	Kill            // the step is half done, and nothing works after it
	Cut             // as Kill, and files that were not synced lose their second half
)

// ErrDead is what every step says after the end.
var ErrDead = errors.New("the machine has stopped")

// Disk is the machine's disk up to step At, counted from 1; with 0 it only
// counts. Writing, syncing, renaming, making and removing are steps.
type Disk struct {
	keep.Machine
	At    int
	How   How
	Steps int // done so far

	unsynced map[string]bool
}

// Over reports whether step At was reached.
func (d *Disk) Over() bool { return d.At > 0 && d.Steps >= d.At }

// step counts one step, and says whether it is refused, and whether half of it
// is done all the same.
func (d *Disk) step() (half bool, err error) {
	d.Steps++
	switch {
	case d.At == 0 || d.Steps < d.At || d.How == Fail && d.Steps > d.At:
		return false, nil
	case d.How == Fail:
		return false, &fs.PathError{Op: "step", Path: "disk", Err: syscall.ENOSPC}
	}
	return d.Steps == d.At, ErrDead
}

// End does what the end leaves to be done: a power cut takes what was not
// synced.
func (d *Disk) End() error {
	var errs error
	for name := range d.unsynced {
		if info, err := os.Stat(name); err == nil && d.How == Cut {
			errs = errors.Join(errs, os.Truncate(name, info.Size()/2))
		}
	}
	return errs
}

// MkdirAll implements [keep.Disk].
func (d *Disk) MkdirAll(dir string) (bool, error) {
	if _, err := d.step(); err != nil {
		return false, err
	}
	return d.Machine.MkdirAll(dir)
}

// Create implements [keep.Disk].
func (d *Disk) Create(dir string) (keep.Temp, error) {
	half, err := d.step()
	if err != nil && !half {
		return nil, err
	}
	t, e := d.Machine.Create(dir)
	if err != nil {
		return nil, errors.Join(err, e, t.Close())
	}
	if e != nil {
		return nil, e
	}
	if d.unsynced == nil {
		d.unsynced = map[string]bool{}
	}
	d.unsynced[t.Name()] = true
	return &temp{t, d}, nil
}

// Rename implements [keep.Disk].
func (d *Disk) Rename(from, to string) error {
	if _, err := d.step(); err != nil {
		return err
	}
	if d.unsynced[from] {
		delete(d.unsynced, from)
		d.unsynced[to] = true
	}
	return d.Machine.Rename(from, to)
}

// Remove implements [keep.Disk].
func (d *Disk) Remove(name string) error {
	if _, err := d.step(); err != nil {
		return err
	}
	return d.Machine.Remove(name)
}

// SyncFolder implements [keep.Disk].
func (d *Disk) SyncFolder(dir string) error {
	if _, err := d.step(); err != nil {
		return err
	}
	return d.Machine.SyncFolder(dir)
}

// temp is a file of a Disk.
type temp struct {
	keep.Temp
	disk *Disk
}

// Write implements [io.Writer].
func (t *temp) Write(data []byte) (int, error) {
	half, err := t.disk.step()
	switch {
	case half:
		n, _ := t.Temp.Write(data[:len(data)/2])
		return n, err
	case err != nil:
		return 0, err
	}
	return t.Temp.Write(data)
}

// Sync implements [keep.Temp].
func (t *temp) Sync() error {
	if _, err := t.disk.step(); err != nil {
		return err
	}
	delete(t.disk.unsynced, t.Name())
	return t.Temp.Sync()
}
