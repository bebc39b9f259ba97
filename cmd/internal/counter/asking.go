package counter

import (
	"encoding"
	"net/http"
	"net/url"
	"reflect"
	"slices"
	"strings"

	"chablon/cmd/internal/print"
	"chablon/labels/unit"
)

// mostCount is how many pieces one form may ask for: what a hand can check.
const mostCount = 2000

// An asking is what a form asks for: paper of one kind, and of what.
type asking struct {
	kind *print.Kind
	id   string
	req  print.Request
	form url.Values // the same, as the form said it
}

// fields of an asking that the kinds share, beside kind and id.
const fields = "pack market languages paper count made-d made-m made-y batch weight first-place for order"

// asking reads what a form asks for. Only ids that the shop knows come out of it.
func (a *ask) asking(q url.Values) (asking, error) {
	out := asking{kind: a.press.KindOf(q.Get("kind")), id: q.Get("id"), form: url.Values{}}
	k := out.kind
	if k == nil || k.Short == "" || !offered(k) {
		return out, &refusal{http.StatusNotFound, "no-page", nil}
	}
	ids := k.IDs(a.press)
	if len(ids) > 0 && !slices.Contains(ids, out.id) {
		return out, &refusal{http.StatusNotFound, "no-page", nil}
	}
	out.form.Set("kind", k.Name)
	if len(ids) > 0 {
		out.req.IDs = []string{out.id}
		out.form.Set("id", out.id)
	}
	for _, name := range strings.Fields(fields) {
		if v := strings.TrimSpace(q.Get(name)); v != "" {
			out.form.Set(name, v)
		}
	}
	if err := a.common(k, out.form, &out.req); err != nil {
		return out, err
	}
	if k.Own != nil {
		out.req.Own = k.Own()
		return out, a.own(q, out.form, out.req.Own)
	}
	return out, nil
}

// offered reports whether a kind can be asked for from here: it needs no more
// than a form of fields.
func offered(k *print.Kind) bool {
	return !slices.Contains([]string{"pallet", "withdraw", "traced", "notice"}, k.Name)
}

// common reads the fields that the kinds share.
func (a *ask) common(k *print.Kind, q url.Values, r *print.Request) (err error) {
	takes := func(name string) string {
		if !k.Takes(name) {
			return ""
		}
		return q.Get(name)
	}
	r.Pack, r.Market, r.Paper, r.Batch = takes("pack"), takes("market"), q.Get("paper"), takes("batch")
	r.For, r.Order = takes("for"), takes("order")
	if s := q.Get("languages"); s != "" {
		r.Languages = strings.FieldsFunc(s, func(c rune) bool { return c == ',' || c == ' ' })
	}
	if r.Count, err = countIn(takes("count")); err != nil {
		return err
	}
	if r.Count > mostCount {
		return &refusal{http.StatusBadRequest, "too-many", nil}
	}
	if r.FirstPlace, err = countIn(takes("first-place")); err != nil {
		return err
	}
	if r.Weight, err = a.massIn(takes("weight")); err != nil {
		return err
	}
	if k.Takes("made") {
		r.Made, err = a.dayIn(q, "made")
	}
	return err
}

// ownFields are the flags of kinds that a form has, by what they are.
const ownFields = "pieces mass packs days place ready"

// own reads the fields of one kind alone.
func (a *ask) own(q, form url.Values, into any) error {
	v := reflect.ValueOf(into).Elem()
	for i := range v.NumField() {
		name := v.Type().Field(i).Tag.Get("flag")
		text := strings.TrimSpace(q.Get(name))
		if name == "" || text == "" || !slices.Contains(strings.Fields(ownFields), name) {
			continue
		}
		form.Set(name, text)
		if err := a.set(v.Field(i).Addr().Interface(), text); err != nil {
			return err
		}
	}
	return nil
}

// set reads one field by its type.
func (a *ask) set(to any, text string) (err error) {
	switch to := to.(type) {
	case *string:
		*to = text
	case *unit.Mass:
		*to, err = a.massIn(text)
	case *unit.Count:
		*to, err = countIn(text)
	case encoding.TextUnmarshaler:
		if err = to.UnmarshalText([]byte(text)); err != nil {
			err = &refusal{http.StatusBadRequest, "bad-number", err}
		}
	}
	return err
}

// hasOwn lists the fields of a kind alone that a form shows.
func hasOwn(k *print.Kind) (out []string) {
	if k.Own == nil {
		return nil
	}
	t := reflect.TypeOf(k.Own()).Elem()
	for i := range t.NumField() {
		if name := t.Field(i).Tag.Get("flag"); name != "" && slices.Contains(strings.Fields(ownFields), name) {
			out = append(out, name)
		}
	}
	return out
}
