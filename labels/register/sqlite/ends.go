package sqlite

import (
	"context"
	"database/sql"
	"time"

	"chablon/labels/register"
)

const selectEnds = "SELECT series, lo, hi, state, why, at FROM ends "

// End implements [register.Register].
func (r *Register) End(ctx context.Context, all ...register.End) error {
	all, err := register.Ends(all)
	if err != nil {
		return err
	}
	return r.write(ctx, func(ctx context.Context, tx *sql.Tx) error { return endEach(ctx, tx, all) })
}

func endEach(ctx context.Context, tx *sql.Tx, all []register.End) error {
	for _, e := range all {
		if err := endOne(ctx, tx, e); err != nil {
			return err
		}
	}
	return nil
}

// endOne notes one end, where it may be.
func endOne(ctx context.Context, tx *sql.Tx, e register.End) error {
	of := register.Print{Series: e.Series, From: e.From, To: e.To}
	blocks, err := given(ctx, tx, of)
	if err != nil {
		return err
	}
	prints, err := gather(ctx, tx, scanPrint, selectPrints+"WHERE series = ? AND series <> '' AND hi >= ? AND lo <= ? ORDER BY number", e.Series, e.From, e.To)
	if err != nil {
		return err
	}
	before, err := endedOf(ctx, tx, e.Series, e.From, e.To)
	if err != nil {
		return err
	}
	if err := e.May(blocks, prints, before); err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, "INSERT INTO ends (series, lo, hi, state, why, at) VALUES (?, ?, ?, ?, ?, ?)",
		e.Series, e.From, e.To, string(e.State), e.Why, e.At.Format(moment))
	return err
}

// endedOf lists what became of any of the numbers.
func endedOf(ctx context.Context, tx *sql.Tx, series string, from, to int64) ([]register.End, error) {
	return gather(ctx, tx, scanEnd, selectEnds+"WHERE series = ? AND hi >= ? AND lo <= ? ORDER BY number", series, from, to)
}

// Ended implements [register.Register].
func (r *Register) Ended(ctx context.Context, series string) ([]register.End, error) {
	return list(ctx, r, scanEnd, selectEnds+"WHERE series = ? ORDER BY number", series)
}

func scanEnd(rows *sql.Rows) (e register.End, err error) {
	var at string
	if err = rows.Scan(&e.Series, &e.From, &e.To, &e.State, &e.Why, &at); err == nil {
		e.At, err = time.Parse(moment, at)
	}
	return e, err
}
