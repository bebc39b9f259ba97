package sqlite

import (
	"context"
	"database/sql"
	"encoding/json"
	"time"

	"chablon/labels/register"
	"chablon/labels/trace"
)

var _ trace.Book = (*Register)(nil)

// Note implements [trace.Book].
func (r *Register) Note(ctx context.Context, list ...trace.Event) (out []trace.Event, err error) {
	err = r.write(ctx, func(ctx context.Context, tx *sql.Tx) (err error) {
		out, err = note(ctx, tx, list)
		return err
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// ClaimWith claims as [register.Register.ClaimAll] does, and notes events as
// [trace.Book.Note] does, all or none of both: a number that is on a carton and
// what is in the carton are one fact. An event that only opens a batch which is
// known already is not kept again.
func (r *Register) ClaimWith(ctx context.Context, claims []register.Print, events []trace.Event) ([]register.Print, error) {
	out, order, err := register.Claims(claims)
	if err != nil {
		return nil, err
	}
	err = r.write(ctx, func(ctx context.Context, tx *sql.Tx) error {
		if err := claimEach(ctx, tx, out, order); err != nil {
			return err
		}
		for _, e := range events {
			known, err := trace.Opens(ctx, reader{tx}, e)
			if err == nil && !known {
				_, err = note(ctx, tx, []trace.Event{e})
			}
			if err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// note keeps events in one transaction.
func note(ctx context.Context, tx *sql.Tx, list []trace.Event) (out []trace.Event, err error) {
	var last int64
	if err := tx.QueryRowContext(ctx, "SELECT coalesce(max(number), 0) FROM events").Scan(&last); err != nil {
		return nil, err
	}
	for i, e := range list {
		e, err := e.Clean()
		if err == nil {
			err = trace.Check(ctx, reader{tx}, e)
		}
		if err != nil {
			return nil, trace.Which(i, len(list), err)
		}
		last++
		e.Number = last
		if err := insertEvent(ctx, tx, e); err != nil {
			return nil, err
		}
		out = append(out, e)
	}
	return out, nil
}

func insertEvent(ctx context.Context, tx *sql.Tx, e trace.Event) error {
	undoes := sql.NullInt64{Int64: e.Undoes, Valid: e.Undoes > 0}
	_, err := tx.ExecContext(ctx, `INSERT INTO events (number, kind, at, noted, zone, who, partner, ord, made, until, facts, why, undoes)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`, e.Number, e.Kind, e.At.Format(moment), e.Noted.Format(moment), e.Zone, e.Who,
		e.Partner, e.Order, e.Made, e.Until, e.Facts, e.Why, undoes)
	if err != nil {
		return err
	}
	put, err := tx.PrepareContext(ctx, "INSERT INTO parts (event, side, n, kind, id, code, mass, pieces) VALUES (?, ?, ?, ?, ?, ?, ?, ?)")
	if err != nil {
		return err
	}
	defer put.Close()
	for side, list := range map[trace.Side][]trace.Part{trace.In: e.In, trace.Out: e.Out} {
		for n, p := range list {
			if _, err := put.ExecContext(ctx, e.Number, side, n, p.Kind, p.ID, p.Code, int64(p.Mass), int64(p.Pieces)); err != nil {
				return err
			}
		}
	}
	return nil
}

// Events implements [trace.Book].
func (r *Register) Events(ctx context.Context) (out []trace.Event, err error) {
	err = r.read(ctx, func(ctx context.Context, rd reader) error {
		out, err = rd.events(ctx, "")
		return err
	})
	return out, err
}

// With implements [trace.Reader].
func (r *Register) With(ctx context.Context, side trace.Side, list []trace.Thing) (out []trace.Event, err error) {
	err = r.read(ctx, func(ctx context.Context, rd reader) error {
		out, err = rd.With(ctx, side, list)
		return err
	})
	return out, err
}

// Event implements [trace.Reader].
func (r *Register) Event(ctx context.Context, number int64) (e trace.Event, undone bool, err error) {
	err = r.read(ctx, func(ctx context.Context, rd reader) error {
		e, undone, err = rd.Event(ctx, number)
		return err
	})
	return e, undone, err
}

// Named implements [trace.Reader].
func (r *Register) Named(ctx context.Context, code string) (out []trace.Thing, err error) {
	err = r.read(ctx, func(ctx context.Context, rd reader) error {
		out, err = rd.Named(ctx, code)
		return err
	})
	return out, err
}

// read runs do on the books as they are at one moment.
func (r *Register) read(ctx context.Context, do func(context.Context, reader) error) error {
	_, err := list(ctx, r, func(*sql.Rows) (int, error) { return 0, nil }, "SELECT 0 WHERE 0") // refuses a closed register
	if err != nil {
		return err
	}
	tx, err := r.db.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return r.said(ctx, err)
	}
	err = do(ctx, reader{tx})
	_ = tx.Rollback() // nothing was written
	return r.said(ctx, err)
}

// reader looks events up within one transaction.
type reader struct{ db asker }

// notUndone leaves out what was undone, and the undoing.
const notUndone = "e.kind <> 'undo' AND NOT EXISTS (SELECT 1 FROM events u WHERE u.undoes = e.number)"

// With implements [trace.Reader]. The things go in as one text in JSON, so that
// there may be as many as a trace has cartons.
func (rd reader) With(ctx context.Context, side trace.Side, list []trace.Thing) ([]trace.Event, error) {
	rows := make([][3]string, len(list))
	for i, t := range list {
		rows[i] = [3]string{t.Code, t.ID, string(t.Kind)}
	}
	text, err := json.Marshal(rows)
	if err != nil {
		return nil, err
	}
	return rd.events(ctx, `WHERE e.number IN (SELECT p.event FROM json_each(?1) j CROSS JOIN parts p
		WHERE p.code = j.value ->> 0 AND p.id = j.value ->> 1 AND p.kind = j.value ->> 2 AND p.side = ?2) AND `+notUndone, string(text), string(side))
}

// Event implements [trace.Reader].
func (rd reader) Event(ctx context.Context, number int64) (trace.Event, bool, error) {
	all, err := rd.events(ctx, "WHERE e.number = ?", number)
	if err != nil {
		return trace.Event{}, false, err
	}
	if len(all) == 0 {
		return trace.Event{}, false, trace.NoEvent(number)
	}
	undone, err := gather(ctx, rd.db, func(rows *sql.Rows) (n int64, err error) { return n, rows.Scan(&n) },
		"SELECT number FROM events WHERE undoes = ?", number)
	return all[0], len(undone) > 0, err
}

// Named implements [trace.Reader].
func (rd reader) Named(ctx context.Context, code string) ([]trace.Thing, error) {
	return gather(ctx, rd.db, func(rows *sql.Rows) (t trace.Thing, err error) { return t, rows.Scan(&t.Kind, &t.ID, &t.Code) },
		`SELECT p.kind, p.id, p.code FROM parts p JOIN events e ON e.number = p.event
		WHERE p.code = ? AND p.side = 'out' AND `+notUndone+" GROUP BY p.kind, p.id, p.code ORDER BY min(p.event), min(p.n)", code)
}

// events reads the events that where picks, with their parts.
func (rd reader) events(ctx context.Context, where string, args ...any) ([]trace.Event, error) {
	all, err := gather(ctx, rd.db, scanEvent, `SELECT e.number, e.kind, e.at, e.noted, e.zone, e.who, e.partner, e.ord, e.made, e.until,
		e.facts, e.why, coalesce(e.undoes, 0) FROM events e `+where+" ORDER BY e.number", args...)
	if err != nil || len(all) == 0 {
		return all, err
	}
	at := map[int64]*trace.Event{}
	numbers := make([]int64, len(all))
	for i := range all {
		at[all[i].Number], numbers[i] = &all[i], all[i].Number
	}
	text, err := json.Marshal(numbers)
	if err != nil {
		return nil, err
	}
	_, err = gather(ctx, rd.db, func(rows *sql.Rows) (struct{}, error) { return struct{}{}, scanPart(rows, at) },
		`SELECT q.event, q.side, q.kind, q.id, q.code, q.mass, q.pieces FROM json_each(?) j CROSS JOIN parts q
		WHERE q.event = j.value ORDER BY j.id, q.side, q.n`, string(text))
	return all, err
}

func scanEvent(rows *sql.Rows) (e trace.Event, err error) {
	var at, noted string
	if err = rows.Scan(&e.Number, &e.Kind, &at, &noted, &e.Zone, &e.Who, &e.Partner, &e.Order, &e.Made, &e.Until, &e.Facts, &e.Why, &e.Undoes); err != nil {
		return e, err
	}
	if e.At, err = time.Parse(moment, at); err != nil {
		return e, err
	}
	e.Noted, err = time.Parse(moment, noted)
	return e, err
}

func scanPart(rows *sql.Rows, at map[int64]*trace.Event) error {
	var event int64
	var side trace.Side
	var p trace.Part
	if err := rows.Scan(&event, &side, &p.Kind, &p.ID, &p.Code, &p.Mass, &p.Pieces); err != nil {
		return err
	}
	e := at[event]
	if side == trace.In {
		e.In = append(e.In, p)
	} else {
		e.Out = append(e.Out, p)
	}
	return nil
}
