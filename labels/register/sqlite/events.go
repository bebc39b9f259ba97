package sqlite

import (
	"cmp"
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"chablon/labels/register"
	"chablon/labels/trace"
)

var _ trace.Books = (*Register)(nil)

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

// ClaimWith implements [trace.Books].
func (r *Register) ClaimWith(ctx context.Context, claims []register.Print, events []trace.Event) ([]register.Print, error) {
	out, order, err := register.Claims(claims)
	if err != nil {
		return nil, err
	}
	err = r.write(ctx, func(ctx context.Context, tx *sql.Tx) error { return claimWith(ctx, tx, out, order, events) })
	if err != nil {
		return nil, err
	}
	return out, nil
}

func claimWith(ctx context.Context, tx *sql.Tx, claims []register.Print, order []int, events []trace.Event) error {
	if err := trace.FreeToPrint(ctx, reader{tx}, claims); err != nil {
		return err
	}
	if err := claimEach(ctx, tx, claims, order); err != nil {
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
}

// errTried ends a transaction of which nothing is to be kept.
var errTried = errors.New("only tried")

// Try implements [trace.Books].
func (r *Register) Try(ctx context.Context, claims []register.Print, events []trace.Event) error {
	out, order, err := register.Claims(claims)
	if err != nil {
		return err
	}
	var refused error
	err = r.write(ctx, func(ctx context.Context, tx *sql.Tx) error {
		if refused = claimWith(ctx, tx, out, order, events); refused == nil {
			refused = errTried
		}
		return refused
	})
	if refused == errTried {
		return nil
	}
	return err
}

// EndWith implements [trace.Books].
func (r *Register) EndWith(ctx context.Context, ends []register.End, events []trace.Event) error {
	ends, err := register.Ends(ends)
	if err != nil {
		return err
	}
	return r.write(ctx, func(ctx context.Context, tx *sql.Tx) error {
		if err := endEach(ctx, tx, ends); err != nil {
			return err
		}
		_, err := note(ctx, tx, events)
		return err
	})
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
func (r *Register) With(ctx context.Context, side trace.Side, list []trace.Thing, kinds ...trace.EventKind) (out []trace.Event, err error) {
	err = r.read(ctx, func(ctx context.Context, rd reader) error {
		out, err = rd.With(ctx, side, list, kinds...)
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

// With implements [trace.Reader]. The things go in as one text in JSON, grouped
// by what they are of, so that there may be as many as a trace has cartons.
func (rd reader) With(ctx context.Context, side trace.Side, list []trace.Thing, kinds ...trace.EventKind) ([]trace.Event, error) {
	text, err := json.Marshal(grouped(list))
	if err != nil {
		return nil, err
	}
	only, err := json.Marshal(kinds)
	if err != nil {
		return nil, err
	}
	return rd.events(ctx, `WHERE e.number IN (
			WITH g AS MATERIALIZED (SELECT value ->> 'k' AS kind, value ->> 'i' AS id, value -> 'c' AS codes FROM json_each(?1))
			SELECT p.event FROM g CROSS JOIN json_each(g.codes) j CROSS JOIN parts p
			WHERE p.code = j.value AND p.id = g.id AND p.kind = g.kind AND p.side = ?2)
		AND (?3 = 'null' OR e.kind IN (SELECT value FROM json_each(?3))) AND `+notUndone, string(text), string(side), string(only))
}

// group is things of one kind and one id, by their codes.
type group struct {
	Kind  trace.Kind `json:"k"`
	ID    string     `json:"i"`
	Codes []string   `json:"c"`
}

func grouped(list []trace.Thing) []*group {
	out := []*group{}
	at := map[trace.Thing]*group{} // by a thing without its code
	for _, t := range list {
		key := trace.Thing{Kind: t.Kind, ID: t.ID}
		if at[key] == nil {
			at[key] = &group{Kind: t.Kind, ID: t.ID}
			out = append(out, at[key])
		}
		at[key].Codes = append(at[key].Codes, t.Code)
	}
	return out
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
	_, err = gather(ctx, rd.db, func(rows *sql.Rows) (struct{}, error) { return struct{}{}, scanParts(rows, at) },
		"SELECT j.value, "+partsOn("in")+", "+partsOn("out")+" FROM json_each(?) j", string(text))
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

// partsOn gives the parts on one side of event j.value as one text, each closed
// by the sign for the end of a record and its fields by that for the end of a
// unit (ISO/IEC 646), which no text in a book can hold: a row for each part
// costs several times as much.
func partsOn(side string) string {
	return `(SELECT group_concat(q.n || char(31) || q.kind || char(31) || q.id || char(31) || q.code || char(31) || q.mass || char(31) || q.pieces, char(30))
		FROM parts q WHERE q.event = j.value AND q.side = '` + side + `')`
}

// scanParts reads the parts of an event.
func scanParts(rows *sql.Rows, at map[int64]*trace.Event) error {
	var event int64
	var in, out sql.NullString
	if err := rows.Scan(&event, &in, &out); err != nil {
		return err
	}
	var err error
	if at[event].In, err = readParts(in.String); err != nil {
		return err
	}
	at[event].Out, err = readParts(out.String)
	return err
}

// readParts reads one side of an event, in the order in which it was said.
func readParts(text string) ([]trace.Part, error) {
	if text == "" {
		return nil, nil
	}
	type placed struct {
		n int64
		trace.Part
	}
	list := make([]placed, 0, strings.Count(text, "\x1e")+1)
	for record := range strings.SplitSeq(text, "\x1e") {
		n, p, err := readPart(record)
		if err != nil {
			return nil, err
		}
		list = append(list, placed{n, p})
	}
	slices.SortFunc(list, func(a, b placed) int { return cmp.Compare(a.n, b.n) })
	out := make([]trace.Part, len(list))
	for i, p := range list {
		out[i] = p.Part
	}
	return out, nil
}

func readPart(record string) (n int64, p trace.Part, err error) {
	var f [6]string
	rest := record
	for i := range f {
		f[i], rest, _ = strings.Cut(rest, "\x1f")
	}
	p.Thing = trace.Thing{Kind: trace.Kind(f[1]), ID: f[2], Code: f[3]}
	for _, number := range []struct {
		text string
		to   *int64
	}{{f[0], &n}, {f[4], (*int64)(&p.Mass)}, {f[5], (*int64)(&p.Pieces)}} {
		if *number.to, err = strconv.ParseInt(number.text, 10, 64); err != nil {
			return n, p, fmt.Errorf("a part of an event cannot be read: %w", err)
		}
	}
	return n, p, nil
}
