package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"strings"
	"time"

	"chablon/labels/register"
)

const selectCopies = `SELECT number, id, version, issued, check_word, size, n, m, place, paper, langs, at, down, by FROM copies `

// Post implements [register.Register].
func (r *Register) Post(ctx context.Context, c register.Copy) (out register.Posting, err error) {
	if c, err = c.Clean(); err != nil {
		return out, err
	}
	err = r.write(ctx, func(ctx context.Context, tx *sql.Tx) error {
		out, err = post(ctx, tx, c)
		return err
	})
	if err != nil {
		return register.Posting{}, err
	}
	return out, nil
}

func post(ctx context.Context, tx *sql.Tx, c register.Copy) (out register.Posting, err error) {
	if err := tx.QueryRowContext(ctx, "SELECT coalesce(max(number), 0) + 1 FROM copies").Scan(&c.Number); err != nil {
		return out, err
	}
	out.Copy = c
	near, err := gather(ctx, tx, scanCopy, selectCopies+"WHERE down IS NULL AND id = ? AND place = ? ORDER BY number", c.ID, c.Place)
	if err != nil {
		return out, err
	}
	for _, d := range near {
		if !c.SameAs(d) {
			out.Beside = append(out.Beside, d)
			continue
		}
		d.Down, d.By = c.At, c.Number
		if err := end(ctx, tx, d); err != nil {
			return out, err
		}
		out.Replaced = append(out.Replaced, d)
	}
	_, err = tx.ExecContext(ctx, `INSERT INTO copies (number, id, version, issued, check_word, size, n, m, place, paper, langs, at)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`, c.Number, c.ID, c.Version, c.Issued, c.CheckWord, c.Size, c.N, c.Of,
		c.Place, c.Paper, strings.Join(c.Langs, ","), c.At.Format(moment))
	return out, err
}

// end notes when c was taken down, and by which copy.
func end(ctx context.Context, tx *sql.Tx, c register.Copy) error {
	_, err := tx.ExecContext(ctx, "UPDATE copies SET down = ?, by = ? WHERE number = ?", c.Down.Format(moment), c.By, c.Number)
	return err
}

// TakeDown implements [register.Register].
func (r *Register) TakeDown(ctx context.Context, number int64, at time.Time) (c register.Copy, err error) {
	if at, err = register.Moment(at); err != nil {
		return c, err
	}
	err = r.write(ctx, func(ctx context.Context, tx *sql.Tx) error {
		found, err := gather(ctx, tx, scanCopy, selectCopies+"WHERE number = ?", number)
		switch {
		case err != nil:
			return err
		case len(found) == 0:
			return register.UnknownCopyError(number)
		case !found[0].Hangs():
			return found[0].DownError()
		}
		c = found[0]
		c.Down = at
		return end(ctx, tx, c)
	})
	if err != nil {
		return register.Copy{}, err
	}
	return c, nil
}

// Posted implements [register.Register].
func (r *Register) Posted(ctx context.Context) ([]register.Copy, error) {
	all, err := list(ctx, r, scanCopy, selectCopies+"WHERE down IS NULL")
	register.SortCopies(all)
	return all, err
}

// History implements [register.Register].
func (r *Register) History(ctx context.Context, id string) ([]register.Copy, error) {
	return list(ctx, r, scanCopy, selectCopies+"WHERE ?1 = '' OR id = ?1 ORDER BY number", id)
}

func scanCopy(rows *sql.Rows) (c register.Copy, err error) {
	var langs, at string
	var down sql.NullString
	err = rows.Scan(&c.Number, &c.ID, &c.Version, &c.Issued, &c.CheckWord, &c.Size, &c.N, &c.Of, &c.Place, &c.Paper, &langs, &at, &down, &c.By)
	if err != nil {
		return c, err
	}
	if langs != "" {
		c.Langs = strings.Split(langs, ",")
	}
	c.At, err = time.Parse(moment, at)
	if down.Valid {
		var err2 error
		c.Down, err2 = time.Parse(moment, down.String)
		err = errors.Join(err, err2)
	}
	return c, err
}
