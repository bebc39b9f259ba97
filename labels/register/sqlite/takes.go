package sqlite

import (
	"context"
	"database/sql"
	"time"

	"chablon/labels/register"
)

const selectTakes = "SELECT series, lo, hi, at, what FROM takes "

// Take implements [register.Register].
func (r *Register) Take(ctx context.Context, w register.Want) (b register.Block, err error) {
	if w, err = w.Clean(); err != nil {
		return b, err
	}
	err = r.write(ctx, func(ctx context.Context, tx *sql.Tx) error {
		last, err := highest(ctx, tx, w.Series.Name)
		if err != nil {
			return err
		}
		if b, err = w.Next(last); err != nil {
			return err
		}
		return take(ctx, tx, b)
	})
	if err != nil {
		return register.Block{}, err
	}
	return b, nil
}

// highest is the highest number given of a series, or 0.
func highest(ctx context.Context, tx *sql.Tx, series string) (last int64, err error) {
	err = tx.QueryRowContext(ctx, `SELECT coalesce((SELECT hi FROM takes WHERE series = ? ORDER BY lo DESC LIMIT 1), 0)`, series).Scan(&last)
	return last, err
}

// take writes down a block that is given.
func take(ctx context.Context, tx *sql.Tx, b register.Block) error {
	_, err := tx.ExecContext(ctx, "INSERT INTO takes (series, lo, hi, at, what) VALUES (?, ?, ?, ?, ?)",
		b.Series, b.From, b.To, b.At.Format(moment), b.For)
	return err
}

// Taken implements [register.Register].
func (r *Register) Taken(ctx context.Context, series string) ([]register.Block, error) {
	return list(ctx, r, scanBlock, selectTakes+"WHERE series = ? ORDER BY lo", series)
}

func scanBlock(rows *sql.Rows) (b register.Block, err error) {
	var at string
	if err = rows.Scan(&b.Series, &b.From, &b.To, &at, &b.For); err == nil {
		b.At, err = time.Parse(moment, at)
	}
	return b, err
}
