// Package sqlite answers: how are the books of the kitchen kept in one file?
//
// The file lies beside the shop and is an SQLite database in WAL mode. What a
// call has returned is on the disk (synchronous = FULL), so neither a crash nor
// a power cut can make it forget a number. The database itself refuses to
// delete, to write over, or to give a number twice.
//
// Several programs of one machine may use the file at once. A lock file in
// front of it gives them their turns: without it SQLite's own waiting starves
// some of them. The file must lie on a disk of the machine, not in a folder
// shared over a network: WAL mode needs memory that all its users share
// (sqlite.org/wal.html). While it is open, its newest entries lie in a second
// file whose name ends in -wal: a backup takes both, or waits until no program
// uses it.
package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"time"

	driver "modernc.org/sqlite"

	"chablon/labels/register"
)

// FileName is what the file is usually called.
const FileName = "print-book.db"

// patience is how long a call waits for its turn.
const patience = 10 * time.Second

// Register is the books in one file.
type Register struct {
	db   *sql.DB
	turn *turn
	path string
	wait time.Duration
}

var _ register.Register = (*Register)(nil)

// Open opens the register in the file path, which must be there: a register
// begun anew in place of a lost one would give its numbers a second time.
func Open(ctx context.Context, path string) (*Register, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil, register.Refuse(register.Missing,
			"if this shop had one, fetch it from the backup; if it never had one, begin one", "there is no print book %s", path)
	case err != nil:
		return nil, failed(path, err)
	case !info.Mode().IsRegular():
		return nil, foreign(path)
	case info.Size() == 0:
		return nil, register.Refuse(register.Damaged,
			"fetch it from the backup; if this shop never had a print book, delete the empty file and begin one", "the print book %s is empty", path)
	}
	return open(ctx, path, false)
}

// Begin makes a new, empty register in the file path, where no file may be.
func Begin(ctx context.Context, path string) (*Register, error) {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
	if errors.Is(err, os.ErrExist) {
		return nil, register.Refuse(register.There, "open it, or name another file", "%s is there already", path)
	}
	if err != nil {
		return nil, unwritten(path, err)
	}
	if err := f.Close(); err != nil {
		return nil, unwritten(path, err)
	}
	r, err := open(ctx, path, true)
	if err == nil {
		return r, nil
	}
	if info, e := os.Stat(path); e == nil && info.Size() == 0 {
		err = errors.Join(err, os.Remove(path)) // nobody uses an empty file
	}
	return nil, err
}

// open opens a file that is there, and brings it up to date; a new one is empty.
func open(ctx context.Context, path string, fresh bool) (*Register, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, failed(path, err)
	}
	c, err := driver.NewConnector(dsn(path))
	if err != nil {
		return nil, failed(path, err)
	}
	r := &Register{db: sql.OpenDB(c), turn: newTurn(filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".lock")), path: path, wait: patience}
	r.db.SetMaxOpenConns(1)
	if err := r.alone(ctx, func(ctx context.Context) error { return r.prepare(ctx, fresh) }); err != nil {
		return nil, errors.Join(err, r.Close())
	}
	return r, nil
}

// Close implements [register.Register].
func (r *Register) Close() error {
	r.turn.shut()
	if err := r.db.Close(); err != nil {
		return failed(r.path, err)
	}
	return nil
}

// write runs do in one transaction, when it is this program's turn.
func (r *Register) write(ctx context.Context, do func(context.Context, *sql.Tx) error) error {
	return r.alone(ctx, func(ctx context.Context) error {
		tx, err := r.db.BeginTx(ctx, nil)
		if err != nil {
			return err
		}
		if err := do(ctx, tx); err != nil {
			_ = tx.Rollback() // it fails only where the transaction is over anyway
			return err
		}
		return tx.Commit()
	})
}

// alone runs do when it is this program's turn.
func (r *Register) alone(ctx context.Context, do func(context.Context) error) error {
	ctx, cancel := context.WithTimeoutCause(ctx, r.wait, errPatience)
	defer cancel()
	release, err := r.turn.take(ctx)
	if err != nil {
		return r.said(ctx, err)
	}
	defer release()
	return r.said(ctx, do(ctx))
}
