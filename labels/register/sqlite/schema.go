package sqlite

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"

	"chablon/labels/register"
)

//go:embed steps/*.sql
var steps embed.FS

// application marks the file as ours: the letters "chab" as a number
// (sqlite.org/pragma.html, application_id).
const application = 'c'<<24 | 'h'<<16 | 'a'<<8 | 'b'

// head is what the file says of itself.
type head struct{ application, version, tables int }

// prepare looks whether the file is a sound register and brings it up to date.
// Before it is known to be one, or to be fresh, nothing is written.
func (r *Register) prepare(ctx context.Context, fresh bool) error {
	h, err := r.head(ctx)
	if err != nil {
		return err
	}
	all, err := readSteps()
	if err != nil {
		return err
	}
	switch {
	case h.application != application && !(fresh && h == head{}):
		return foreign(r.path)
	case h.version < 0:
		return damaged(r.path).Because(fmt.Errorf("its tables are of form %d", h.version))
	case h.version > len(all):
		return register.Refuse(register.Newer, "use the newer chablon, or put back the backup made before it",
			"the print book %s was written by a newer chablon", r.path)
	}
	if err := r.sound(ctx); err != nil {
		return err
	}
	if err := r.migrate(ctx, all, h.version); err != nil {
		return err
	}
	return r.setWAL(ctx)
}

func (r *Register) head(ctx context.Context) (h head, err error) {
	err = r.db.QueryRowContext(ctx, `SELECT application_id, user_version, (SELECT count(*) FROM sqlite_schema)
		FROM pragma_application_id, pragma_user_version`).Scan(&h.application, &h.version, &h.tables)
	return h, err
}

// sound reads the whole file once: a damaged part that is found only later may
// hide numbers that were given.
func (r *Register) sound(ctx context.Context) error {
	var says string
	if err := r.db.QueryRowContext(ctx, "PRAGMA quick_check(1)").Scan(&says); err != nil {
		return err
	}
	if says != "ok" {
		return damaged(r.path).Because(fmt.Errorf("%s", says))
	}
	return nil
}

// readSteps gives the steps that make and change the tables, in order. A step
// that was released is never changed; a new one is added.
func readSteps() ([]string, error) {
	names, err := fs.Glob(steps, "steps/*.sql") // sorted
	if err != nil {
		return nil, err
	}
	var all []string
	for i, name := range names {
		data, err := steps.ReadFile(name)
		if err != nil {
			return nil, err
		}
		if want := fmt.Sprintf("steps/%03d_", i+1); len(name) < len(want) || name[:len(want)] != want {
			return nil, fmt.Errorf("the step %s should begin with %s", name, want)
		}
		all = append(all, string(data))
	}
	return all, nil
}

// migrate takes the steps that the file has not taken, all or none. How many it
// has taken stands in its head.
func (r *Register) migrate(ctx context.Context, all []string, taken int) error {
	if taken == len(all) {
		return nil
	}
	tx, err := r.db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	for i, step := range all[taken:] {
		if _, err := tx.ExecContext(ctx, step); err != nil {
			_ = tx.Rollback()
			return fmt.Errorf("step %d of the print book's tables: %w", taken+i+1, err)
		}
	}
	mark := fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d", application, len(all))
	if _, err := tx.ExecContext(ctx, mark); err != nil {
		_ = tx.Rollback()
		return err
	}
	return tx.Commit()
}

func (r *Register) setWAL(ctx context.Context) error {
	var mode string
	if err := r.db.QueryRowContext(ctx, "PRAGMA journal_mode = WAL").Scan(&mode); err != nil {
		return err
	}
	if mode != "wal" {
		return unwritten(r.path, fmt.Errorf("journal mode %s", mode))
	}
	return nil
}

// moment is a moment as the file keeps it: text that a person can read.
const moment = "2006-01-02T15:04:05Z"

// list gathers the rows of a query.
func list[T any](ctx context.Context, r *Register, scan func(*sql.Rows) (T, error), query string, args ...any) ([]T, error) {
	if r.turn.over() {
		return nil, register.ErrClosed()
	}
	out, err := gather(ctx, r.db, scan, query, args...)
	return out, r.said(ctx, err)
}

// asker is a database or a transaction.
type asker interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
}

func gather[T any](ctx context.Context, db asker, scan func(*sql.Rows) (T, error), query string, args ...any) ([]T, error) {
	rows, err := db.QueryContext(ctx, query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var out []T
	for rows.Next() {
		v, err := scan(rows)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	return out, rows.Err()
}
