package sqlite

import (
	"context"
	"database/sql"
	"time"

	"chablon/labels/register"
)

const selectPrints = `SELECT number, kind, id, version, check_word, batch, made, series, lo, hi, count, digest, again, at,
	EXISTS (SELECT 1 FROM written WHERE print = number), pack, market, langs, paper, asked, file, once FROM prints `

// Record implements [register.Register].
func (r *Register) Record(ctx context.Context, p register.Print) (_ register.Print, err error) {
	if p, err = p.Clean(); err != nil {
		return p, err
	}
	err = r.write(ctx, func(ctx context.Context, tx *sql.Tx) error {
		if err := asked(ctx, tx, []register.Print{p}); err != nil {
			return err
		}
		if err := mayPrint(ctx, tx, p); err != nil {
			return err
		}
		return record(ctx, tx, &p)
	})
	if err != nil {
		return register.Print{}, err
	}
	return p, nil
}

// record writes down p and gives it its number.
func record(ctx context.Context, tx *sql.Tx, p *register.Print) error {
	if err := tx.QueryRowContext(ctx, "SELECT coalesce(max(number), 0) + 1 FROM prints").Scan(&p.Number); err != nil {
		return err
	}
	_, err := tx.ExecContext(ctx, `INSERT INTO prints (number, kind, id, version, check_word, batch, made, series, lo, hi, count, digest, again, at,
		pack, market, langs, paper, asked, file, once) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`, p.Number, p.Kind, p.ID, p.Version, p.CheckWord, p.Batch, p.Made,
		p.Series, p.From, p.To, p.Count, p.Digest, p.Again, p.At.Format(moment),
		p.Pack, p.Market, p.Langs, p.Paper, p.Asked, p.File, p.Once)
	return err
}

// given lists the blocks that hold numbers of p, in rising order.
func given(ctx context.Context, tx *sql.Tx, p register.Print) ([]register.Block, error) {
	return gather(ctx, tx, scanBlock, selectTakes+`WHERE series = ?1 AND lo <= ?3
		AND lo >= coalesce((SELECT max(lo) FROM takes WHERE series = ?1 AND lo <= ?2), 0) ORDER BY lo`, p.Series, p.From, p.To)
}

// printed gives the first print that bears a number of p, or none.
func printed(ctx context.Context, tx *sql.Tx, p register.Print) ([]register.Print, error) {
	return gather(ctx, tx, scanPrint, selectPrints+"WHERE series = ? AND series <> '' AND hi >= ? AND lo <= ? ORDER BY number LIMIT 1", p.Series, p.From, p.To)
}

// mayPrint refuses numbers that nobody was given, or that are on paper.
func mayPrint(ctx context.Context, tx *sql.Tx, p register.Print) error {
	if p.Series == "" {
		return nil
	}
	blocks, err := given(ctx, tx, p)
	switch {
	case err != nil:
		return err
	case !register.Covers(blocks, p.From, p.To):
		return p.NotTakenError()
	}
	gone, err := endedOf(ctx, tx, p.Series, p.From, p.To)
	if err == nil {
		err = p.VoidError(gone)
	}
	if err != nil || p.Again != "" {
		return err
	}
	old, err := printed(ctx, tx, p)
	if err != nil || len(old) == 0 {
		return err
	}
	return p.BeforeError(old[0])
}

// ClaimAll implements [register.Register]. It is one transaction: whoever asks
// for the same numbers comes before it or after it.
func (r *Register) ClaimAll(ctx context.Context, claims []register.Print) ([]register.Print, error) {
	out, order, err := register.Claims(claims)
	if err != nil {
		return nil, err
	}
	err = r.write(ctx, func(ctx context.Context, tx *sql.Tx) error { return claimEach(ctx, tx, out, order) })
	if err != nil {
		return nil, err
	}
	return out, nil
}

func claimEach(ctx context.Context, tx *sql.Tx, claims []register.Print, order []int) error {
	if err := asked(ctx, tx, claims); err != nil {
		return err
	}
	for _, i := range order {
		if err := claim(ctx, tx, &claims[i]); err != nil {
			return err
		}
	}
	return nil
}

// asked refuses claims of an asking that was printed already.
func asked(ctx context.Context, tx *sql.Tx, claims []register.Print) error {
	for _, once := range register.Askings(claims) {
		old, err := gather(ctx, tx, scanPrint, selectPrints+"WHERE once <> '' AND once = ? ORDER BY number LIMIT 1", once)
		if err != nil {
			return err
		}
		if len(old) > 0 {
			return register.TwiceError(old[0])
		}
	}
	return nil
}

// claim takes the numbers of p where they are due, and writes p down.
func claim(ctx context.Context, tx *sql.Tx, p *register.Print) error {
	blocks, err := given(ctx, tx, *p)
	if err != nil {
		return err
	}
	old, err := printed(ctx, tx, *p)
	if err != nil {
		return err
	}
	last, err := highest(ctx, tx, p.Series)
	if err != nil {
		return err
	}
	gone, err := endedOf(ctx, tx, p.Series, p.From, p.To)
	if err != nil {
		return err
	}
	due, err := p.Due(last, blocks, old, gone)
	if err == nil && due {
		err = take(ctx, tx, p.Block())
	}
	if err != nil {
		return err
	}
	return record(ctx, tx, p)
}

// Wrote implements [register.Register].
func (r *Register) Wrote(ctx context.Context, numbers []int64, at time.Time) error {
	at, err := register.Moment(at)
	if err != nil {
		return err
	}
	return r.write(ctx, func(ctx context.Context, tx *sql.Tx) error {
		for _, n := range numbers {
			there, err := gather(ctx, tx, func(rows *sql.Rows) (n int64, err error) { return n, rows.Scan(&n) }, "SELECT number FROM prints WHERE number = ?", n)
			if err != nil {
				return err
			}
			if len(there) == 0 {
				return register.NoPrintError(n)
			}
			if _, err := tx.ExecContext(ctx, "INSERT INTO written (print, at) VALUES (?, ?) ON CONFLICT DO NOTHING", n, at.Format(moment)); err != nil {
				return err
			}
		}
		return nil
	})
}

// Prints implements [register.Register].
func (r *Register) Prints(ctx context.Context, q register.Query) ([]register.Print, error) {
	where, arg := "", ""
	switch {
	case q.Batch != "":
		where, arg = "WHERE batch = ? ", q.Batch
	case q.Series != "":
		where, arg = "WHERE series <> '' AND series = ? ", q.Series
	case q.Once != "":
		where, arg = "WHERE once <> '' AND once = ? ", q.Once
	default:
		where, arg = "WHERE ? = '' ", ""
	}
	all, err := list(ctx, r, scanPrint, selectPrints+where+"ORDER BY number", arg)
	var out []register.Print
	for _, p := range all {
		if q.Matches(p) {
			out = append(out, p)
		}
	}
	return out, err
}

func scanPrint(rows *sql.Rows) (p register.Print, err error) {
	var at string
	err = rows.Scan(&p.Number, &p.Kind, &p.ID, &p.Version, &p.CheckWord, &p.Batch, &p.Made,
		&p.Series, &p.From, &p.To, &p.Count, &p.Digest, &p.Again, &at, &p.Written,
		&p.Pack, &p.Market, &p.Langs, &p.Paper, &p.Asked, &p.File, &p.Once)
	if err == nil {
		p.At, err = time.Parse(moment, at)
	}
	return p, err
}
