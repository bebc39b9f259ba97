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
		var last int64
		err := tx.QueryRowContext(ctx, `SELECT coalesce((SELECT hi FROM takes WHERE series = ? ORDER BY lo DESC LIMIT 1), 0)`, w.Series.Name).Scan(&last)
		if err != nil {
			return err
		}
		if b, err = w.Next(last); err != nil {
			return err
		}
		_, err = tx.ExecContext(ctx, "INSERT INTO takes (series, lo, hi, at, what) VALUES (?, ?, ?, ?, ?)",
			b.Series, b.From, b.To, b.At.Format(moment), b.For)
		return err
	})
	if err != nil {
		return register.Block{}, err
	}
	return b, nil
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
