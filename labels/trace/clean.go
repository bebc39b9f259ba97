package trace

import (
	"regexp"
	"slices"
	"time"

	"chablon/labels/gs1"
	"chablon/labels/register"
	"chablon/labels/unit"
)

var zone = regexp.MustCompile(`^[+-](0\d|1[0-4]):[0-5]\d$`)

// Clean is e as a book keeps it: texts with single spaces, moments in UTC. It
// looks at the event alone; [Check] holds it against what is known. The error
// is an [*register.Error].
func (e Event) Clean() (Event, error) {
	e.Number = 0
	for _, s := range []struct {
		what string
		text *string
	}{{"who noted it", &e.Who}, {"the partner", &e.Partner}, {"the order", &e.Order}, {"the fingerprint", &e.Facts}, {"the reason", &e.Why}} {
		var err error
		if *s.text, err = register.Text(s.what, *s.text); err != nil {
			return e, err
		}
	}
	var err error
	if e.At, err = register.Moment(e.At); err != nil {
		return e, err
	}
	if e.Noted, err = register.Moment(e.Noted); err != nil {
		return e, err
	}
	if e.Zone == "" {
		e.Zone = "+00:00"
	}
	if err := e.days(); err != nil {
		return e, err
	}
	if e.In, err = parts(e.In); err != nil {
		return e, err
	}
	if e.Out, err = parts(e.Out); err != nil {
		return e, err
	}
	return e, e.shape()
}

// days refuses moments and days that cannot be.
func (e Event) days() error {
	if !zone.MatchString(e.Zone) {
		return refuse(`write it like "+01:00"`, "the zone %q is not an offset from UTC", e.Zone)
	}
	if e.At.After(e.Noted.Add(24 * time.Hour)) {
		return refuse("look at the day and at the clock of this machine", "%s has not come yet", e.At.Format(time.DateOnly))
	}
	for _, d := range []string{e.Made, e.Until} {
		if _, err := time.Parse(time.DateOnly, d); d != "" && err != nil {
			return refuse(`write year, month and day like "2026-03-17"`, "%q is not a day", d)
		}
	}
	if e.Made != "" && e.Until != "" && e.Until < e.Made {
		return refuse("look at both days", "it would be kept until %s, before it is made on %s", e.Until, e.Made)
	}
	return nil
}

// parts is list with clean codes, the same thing once, its amounts added up.
func parts(list []Part) ([]Part, error) {
	var out []Part
	at := map[Thing]int{}
	for _, p := range list {
		var err error
		if p.Thing, err = p.Thing.Clean(); err != nil {
			return nil, err
		}
		if p.Mass < 0 || p.Pieces < 0 {
			return nil, refuse("give what there is of it", "less than nothing of %s", p.Thing)
		}
		i, before := at[p.Thing]
		if !before {
			at[p.Thing] = len(out)
			out = append(out, p)
			continue
		}
		if out[i].Mass > unit.Mass(1<<62)-p.Mass {
			return nil, refuse("look at the masses", "more of %s than can be counted", p.Thing)
		}
		out[i].Mass += p.Mass
		out[i].Pieces += p.Pieces
	}
	return out, nil
}

// Clean is t as a book keeps it. The error is an [*register.Error].
func (t Thing) Clean() (Thing, error) {
	if !slices.Contains([]Kind{Lot, Batch, Carton, Pallet}, t.Kind) {
		return t, refuse("it is a lot, a batch, a carton or a pallet", "%q is no kind of thing", t.Kind)
	}
	var err error
	if t.ID, err = register.Text("the id", t.ID); err != nil {
		return t, err
	}
	if t.Code, err = register.Text("the code", t.Code); err != nil {
		return t, err
	}
	switch {
	case t.Code == "":
		return t, refuse("give the code on it", "the %s has no code", t.Kind)
	case t.Kind == Pallet != (t.ID == ""):
		return t, refuse("name what it is of", "%s %s is of nothing", t.Kind, t.Code)
	case t.Kind == Carton || t.Kind == Pallet:
		if err := gs1.ValidAs("SSCC", t.Code); err != nil {
			return t, refuse("give the 18 digits under the bars", "%s is not a carton number (SSCC): %v", t.Code, err)
		}
	}
	return t, nil
}

// shape refuses an event whose sides do not fit its kind.
func (e Event) shape() error {
	s, ok := shapes()[e.Kind]
	if !ok {
		return refuse("", "%q is no kind of event", e.Kind)
	}
	switch {
	case e.Kind == Undo && e.Undoes < 1:
		return refuse("give the number of the event", "nothing is undone")
	case s.why && e.Why == "":
		return refuse("say why", "the reason is missing")
	case s.partner != "" && e.Partner == "":
		return refuse("name "+s.partner, "%s is missing", s.partner)
	case s.made && e.Made == "":
		return refuse("give the day of making", "the day on which the batch was made is missing")
	}
	if err := s.in.fits(e.In, "goes in"); err != nil {
		return err
	}
	if err := s.out.fits(e.Out, "comes out"); err != nil {
		return err
	}
	for _, p := range e.Out {
		if e.Kind == Receive && p.Mass == 0 {
			return refuse("weigh it, or take the mass from the delivery note", "how much of %s came in?", p.Thing)
		}
	}
	return nil
}

// side is what may stand on one side of an event, and how much of it.
type side struct {
	least, most int
	kinds       []Kind
}

func (s side) fits(list []Part, where string) error {
	if len(list) < s.least {
		return refuse("name it", "nothing %s", where)
	}
	if len(list) > s.most {
		return refuse("note it in several steps", "more than %d things %s", s.most, where)
	}
	for _, p := range list {
		if !slices.Contains(s.kinds, p.Kind) {
			return refuse("", "a %s cannot be what %s here", p.Kind, where)
		}
	}
	return nil
}

type shape struct {
	in, out   side
	partner   string
	made, why bool
}

// many is how many things one event may have on a side.
const many = 200_000

// shapes says for each kind of event what goes in and what comes out.
func shapes() map[EventKind]shape {
	food := []Kind{Lot, Batch}
	boxes := []Kind{Carton, Pallet}
	return map[EventKind]shape{
		Receive:  {out: side{1, many, []Kind{Lot}}, partner: "the supplier"},
		Make:     {in: side{0, many, food}, out: side{1, 1, []Kind{Batch}}, made: true},
		Pack:     {in: side{1, many, []Kind{Batch}}, out: side{1, many, []Kind{Carton}}},
		Load:     {in: side{1, many, []Kind{Carton}}, out: side{1, 1, []Kind{Pallet}}},
		Ship:     {in: side{1, many, boxes}, partner: "the customer"},
		Withdraw: {in: side{1, many, food}, why: true},
		Undo:     {why: true},
	}
}

func refuse(hint, format string, args ...any) error {
	return register.Refuse(register.Input, hint, format, args...)
}
