package follow

import (
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"chablon/cmd/internal/usage"
	"chablon/labels/trace"
	"chablon/labels/unit"
)

// columns are the headings of a table of events, in the order in which they
// are written; they may be read in any order, and those not needed left out.
var columns = []string{"what", "of", "code", "mass", "pieces", "into", "into-code", "partner", "order", "day", "until", "why"}

// Table writes rows of what was done, for a person to correct and for
// [Desk.Read] to note.
func Table(w io.Writer, rows []Row) error {
	c := csv.NewWriter(w)
	if err := c.Write(columns); err != nil {
		return err
	}
	for _, r := range rows {
		if err := c.Write(r.cells()); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

// Row is one line of a table of events.
type Row struct {
	What, Of, Code  string
	Mass            unit.Mass
	Pieces          unit.Count
	Into, IntoCode  string
	Partner, Order  string
	Day, Until, Why string
}

func (r Row) cells() []string {
	return []string{r.What, r.Of, r.Code, mass(r.Mass), count(r.Pieces), r.Into, r.IntoCode, r.Partner, r.Order, r.Day, r.Until, r.Why}
}

func mass(m unit.Mass) string {
	if m == 0 {
		return ""
	}
	return m.String()
}

func count(n unit.Count) string {
	if n == 0 {
		return ""
	}
	return strconv.FormatInt(int64(n), 10)
}

// most is how many lines one table may have.
const most = 20_000

// Read reads a table and gives its events with the line that each is from.
// Lines that make one batch belong together. Every fault is said with its line.
func (d *Desk) Read(ctx context.Context, name string, r io.Reader) ([]trace.Event, []int, error) {
	rows, err := parse(name, r)
	if err != nil {
		return nil, nil, err
	}
	var out []trace.Event
	var lines []int
	for _, l := range rows {
		e, err := d.read(ctx, l)
		if err != nil {
			return nil, nil, at(name, l.line, err)
		}
		if n := len(out); n > 0 && len(out[n-1].Out) > 0 && together(out[n-1], e) {
			out[n-1].In, out[n-1].Out = append(out[n-1].In, e.In...), append(out[n-1].Out, e.Out...)
			continue
		}
		out, lines = append(out, e), append(lines, l.line)
	}
	return out, lines, nil
}

// together reports whether b goes on with the making that a began; what came
// out closes it.
func together(a, b trace.Event) bool {
	open := a.Out[len(a.Out)-1]
	return a.Kind == trace.Make && b.Kind == trace.Make && open.Thing == b.Out[0].Thing && a.Made == b.Made && a.Why == b.Why &&
		open.Mass == 0 && open.Pieces == 0
}

// Keep notes what a table says, all or none; an error names its line.
func (d *Desk) Keep(ctx context.Context, name string, r io.Reader) ([]trace.Event, error) {
	list, lines, err := d.Read(ctx, name, r)
	if err != nil {
		return nil, err
	}
	if len(list) == 0 {
		return nil, usage.Errorf("give it a line", "%s says nothing", name)
	}
	done, err := d.Book.Note(ctx, list...)
	var which *trace.RefusedError
	if errors.As(err, &which) {
		return nil, at(name, lines[which.Place], which.Err)
	}
	return done, err
}

func at(name string, line int, err error) error {
	hint := ""
	if h, ok := err.(interface{ Hint() string }); ok {
		hint = h.Hint()
	}
	var u *usage.Error
	if errors.As(err, &u) {
		hint = u.Hint
	}
	return usage.Errorf(hint, "%s:%d: %v; nothing was noted", name, line, err)
}

type line struct {
	line  int
	cells map[string]string
}

func parse(name string, r io.Reader) ([]line, error) {
	c := csv.NewReader(r)
	c.FieldsPerRecord = -1
	c.TrimLeadingSpace = true
	head, err := c.Read()
	if err != nil {
		return nil, usage.Errorf("its first line is: "+strings.Join(columns, ","), "%s is no table: %v", name, err)
	}
	for i, h := range head {
		head[i] = strings.TrimSpace(strings.TrimPrefix(h, "\ufeff"))
		if !slices.Contains(columns, head[i]) {
			return nil, usage.Errorf("the columns are: "+strings.Join(columns, ","), "%s:1: there is no column %q", name, head[i])
		}
	}
	var out []line
	for {
		cells, err := c.Read()
		if errors.Is(err, io.EOF) {
			return out, nil
		}
		n, _ := c.FieldPos(0)
		switch {
		case err != nil:
			return nil, usage.Errorf("look at the quotation marks", "%s: %v", name, err)
		case len(cells) > len(head):
			return nil, usage.Errorf("put what holds a comma between quotation marks", "%s:%d: %d cells, but %d columns", name, n, len(cells), len(head))
		case len(out) == most:
			return nil, usage.Errorf("cut it into several", "%s has more than %d lines", name, most)
		}
		l := line{n, map[string]string{}}
		for i, s := range cells {
			l.cells[head[i]] = strings.TrimSpace(s)
		}
		out = append(out, l)
	}
}

// read turns one line into its event.
func (d *Desk) read(ctx context.Context, l line) (e trace.Event, err error) {
	var r Row
	if r, err = l.row(); err != nil {
		return e, err
	}
	day, until := unit.Date{}, unit.Date{}
	if r.Day != "" {
		if day, err = unit.ParseDate(r.Day); err != nil {
			return e, err
		}
	}
	if r.Until != "" {
		if until, err = unit.ParseDate(r.Until); err != nil {
			return e, err
		}
	}
	switch r.What {
	case "lot":
		return d.Lot(Lot{Ingredient: r.Of, Code: r.Code, Mass: r.Mass, From: r.Partner, Order: r.Order, Until: until, Day: day})
	case "used":
		return d.Batch(Batch{ID: r.Into, Code: r.IntoCode, Made: day, Why: r.Why, Used: []Use{{r.Of, r.Code, r.Mass, r.Pieces}}})
	case "made":
		return d.Batch(Batch{ID: r.Of, Code: r.Code, Made: day, Why: r.Why, Mass: r.Mass, Pieces: r.Pieces})
	case "shipped":
		return d.Ship(ctx, Ship{SSCCs: []string{r.Code}, To: r.Partner, Order: r.Order, Day: day})
	}
	return e, usage.Unknown("line that begins with", r.What, []string{"lot", "used", "made", "shipped"})
}

func (l line) row() (r Row, err error) {
	c := l.cells
	r = Row{What: c["what"], Of: c["of"], Code: c["code"], Into: c["into"], IntoCode: c["into-code"], Partner: c["partner"],
		Order: c["order"], Day: c["day"], Until: c["until"], Why: c["why"]}
	if r.Code == "?" {
		return r, usage.Errorf("write the code that stands on the pack", "which lot of %s was it?", r.Of)
	}
	if s := c["mass"]; s != "" {
		if r.Mass, err = unit.ParseMass(s); err != nil {
			return r, fmt.Errorf("mass: %w", err)
		}
	}
	if s := c["pieces"]; s != "" {
		if r.Pieces, err = unit.ParseCount(s); err != nil {
			return r, fmt.Errorf("pieces: %w", err)
		}
	}
	return r, nil
}
