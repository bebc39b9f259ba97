package sqlite

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"syscall"
	"time"

	driver "modernc.org/sqlite"

	"chablon/labels/register"
)

// Primary result codes, sqlite.org/rescode.html (from memory; the tests cause
// each of them).
const (
	codeError    = 1
	codePerm     = 3
	codeBusy     = 5
	codeReadOnly = 8
	codeIO       = 10
	codeCorrupt  = 11
	codeFull     = 13
	codeCantOpen = 14
	codeNotADB   = 26
)

// said puts the machine's error into words for a cook. What is a refusal
// already, or an end that the caller asked for, stays as it is.
func (r *Register) said(ctx context.Context, err error) error {
	var at *driver.Error
	switch {
	case err == nil || register.RuleOf(err) != "":
		return err
	case errors.Is(err, errPatience) || context.Cause(ctx) == errPatience:
		return r.busy(err)
	case ctx.Err() != nil:
		return fmt.Errorf("the print book was not waited for: %w", ctx.Err())
	case r.turn.over():
		return register.ErrClosed()
	case errors.As(err, &at):
		return r.saidCode(at.Code()&0xff, err)
	case errors.As(err, new(*fs.PathError)) || errors.Is(err, syscall.ENOSPC):
		return unwritten(r.path, err)
	case errors.As(err, new(*time.ParseError)):
		return damaged(r.path).Because(err)
	}
	return failed(r.path, err)
}

func (r *Register) saidCode(code int, err error) error {
	switch code {
	case codeBusy:
		return r.busy(err)
	case codePerm, codeReadOnly, codeIO, codeFull, codeCantOpen:
		return unwritten(r.path, err)
	case codeCorrupt, codeError: // tables are not what its head says
		return damaged(r.path).Because(err)
	case codeNotADB:
		return foreign(r.path).Because(err)
	}
	return failed(r.path, err)
}

func failed(path string, err error) *register.Error {
	return register.Refuse(register.Failed, "give the command again; if it says so again, keep the file and put back the last backup",
		"the print book %s failed", path).Because(err)
}

func (r *Register) busy(err error) error {
	return register.Refuse(register.Busy, "close the other program, or wait until it is done, and try again",
		"another program keeps the print book %s to itself", r.path).Because(err)
}

func unwritten(path string, err error) *register.Error {
	return register.Refuse(register.Unwritten, "is the disk full, or may this user not write there? nothing was printed in vain: numbers taken are kept",
		"the print book %s cannot be written", path).Because(err)
}

func damaged(path string) *register.Error {
	return register.Refuse(register.Damaged,
		"keep the file, put back the last backup, and begin each series above the highest number on paper",
		"the print book %s is damaged; nothing in it was changed", path)
}

func foreign(path string) *register.Error {
	return register.Refuse(register.Foreign, "name the print book's own file; if this was it, put back the last backup",
		"%s is not a print book, or its beginning is damaged; nothing in it was changed", path)
}
