package sqlite

import (
	"context"
	"database/sql"
	"time"

	"chablon/labels/register"
)

const selectSendings = "SELECT mark, printer, what, series, lo, hi, pages, came, why, at FROM sendings "

// Sent implements [register.Register].
func (r *Register) Sent(ctx context.Context, s register.Sending) error {
	s, err := s.Clean()
	if err != nil {
		return err
	}
	return r.write(ctx, func(ctx context.Context, tx *sql.Tx) error {
		before, err := gather(ctx, tx, scanSending, selectSendings+"WHERE mark = ? ORDER BY number", s.Mark)
		if err != nil {
			return err
		}
		if err := s.May(before); err != nil {
			return err
		}
		_, err = tx.ExecContext(ctx, "INSERT INTO sendings (mark, printer, what, series, lo, hi, pages, came, why, at) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
			s.Mark, s.Printer, s.What, s.Series, s.From, s.To, s.Pages, string(s.Came), s.Why, s.At.Format(moment))
		return err
	})
}

// Sendings implements [register.Register].
func (r *Register) Sendings(ctx context.Context) ([]register.Sending, error) {
	return list(ctx, r, scanSending, selectSendings+"ORDER BY number")
}

func scanSending(rows *sql.Rows) (s register.Sending, err error) {
	var at string
	if err = rows.Scan(&s.Mark, &s.Printer, &s.What, &s.Series, &s.From, &s.To, &s.Pages, &s.Came, &s.Why, &at); err == nil {
		s.At, err = time.Parse(moment, at)
	}
	return s, err
}
