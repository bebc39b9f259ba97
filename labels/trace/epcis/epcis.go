// Package epcis answers: how does another house's computer read what happened?
//
// [Document] writes events as an EPCIS 2.0 document in JSON-LD (GS1 EPCIS 2.0,
// Core Business Vocabulary 2.0): a delivery is an ObjectEvent, making is a
// TransformationEvent, packing and loading are AggregationEvents, shipping is
// an ObjectEvent with source and destination, and what was undone carries an
// errorDeclaration. It only exports: the book is the truth.
package epcis

import (
	"encoding/json"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"chablon/labels/gs1"
	"chablon/labels/trace"
	"chablon/labels/unit"
)

// House is what the document needs to know of the kitchen.
type House struct {
	Stem  string              // of links, such as https://label.example; [gs1.CanonicalStem] when empty
	Name  string              // of the business, for the source of what is shipped
	GTIN  func(string) string // GTIN of a product's pack, or ""; nil for none
	Until func(string) string // name of the date on the label of a product: best-before or use-by; nil for none
}

// context is the published JSON-LD context, and the prefix of the master data
// of lots (CBV 2.0).
var context = []any{
	"https://ref.gs1.org/standards/epcis/2.0.0/epcis-context.jsonld",
	map[string]string{"cbvmda": "urn:epcglobal:cbv:mda:"},
}

type document struct {
	Context []any  `json:"@context"`
	Type    string `json:"type"`
	Schema  string `json:"schemaVersion"`
	Created string `json:"creationDate"`
	Body    body   `json:"epcisBody"`
}

type body struct {
	Events []event `json:"eventList"`
}

// event holds the members of all kinds of event that are written here.
type event struct {
	Type     string     `json:"type"`
	ID       string     `json:"eventID"`
	Time     string     `json:"eventTime"`
	Record   string     `json:"recordTime"`
	Zone     string     `json:"eventTimeZoneOffset"`
	Error    *wrong     `json:"errorDeclaration,omitempty"`
	Action   string     `json:"action,omitempty"`
	Step     string     `json:"bizStep,omitempty"`
	State    string     `json:"disposition,omitempty"`
	Point    *at        `json:"readPoint,omitempty"`
	Parent   string     `json:"parentID,omitempty"`
	EPCs     []string   `json:"epcList,omitempty"`
	Children []string   `json:"childEPCs,omitempty"`
	Of       []quantity `json:"childQuantityList,omitempty"`
	Quantity []quantity `json:"quantityList,omitempty"`
	In       []quantity `json:"inputQuantityList,omitempty"`
	Out      []quantity `json:"outputQuantityList,omitempty"`
	Papers   []paper    `json:"bizTransactionList,omitempty"`
	Source   []party    `json:"sourceList,omitempty"`
	Dest     []dest     `json:"destinationList,omitempty"`
	Lot      *lotData   `json:"ilmd,omitempty"`
}

type at struct {
	ID string `json:"id"`
}

type wrong struct {
	Time   string `json:"declarationTime"`
	Reason string `json:"reason"`
}

type quantity struct {
	Class string      `json:"epcClass"`
	N     json.Number `json:"quantity,omitempty"`
	Unit  string      `json:"uom,omitempty"`
}

type paper struct {
	Type string `json:"type"`
	ID   string `json:"bizTransaction"`
}

type party struct {
	Type string `json:"type"`
	ID   string `json:"source"`
}

type dest struct {
	Type string `json:"type"`
	ID   string `json:"destination"`
}

type lotData struct {
	Number string `json:"cbvmda:lotNumber"`
	Before string `json:"cbvmda:bestBeforeDate,omitempty"`
	Expiry string `json:"cbvmda:itemExpirationDate,omitempty"`
}

// Document writes events, in the order given, as one EPCIS document; made is
// the moment of the document. The events must be those of a book: with their
// numbers, undone ones and the undoing ones among them.
func Document(h House, made time.Time, events []trace.Event) ([]byte, error) {
	d := document{Context: context, Type: "EPCISDocument", Schema: "2.0", Created: stamp(made)}
	undone := map[int64]trace.Event{}
	for _, e := range events {
		if e.Kind == trace.Undo {
			undone[e.Undoes] = e
		}
	}
	for _, e := range events {
		list, err := h.events(e)
		if err != nil {
			return nil, err
		}
		if u, ok := undone[e.Number]; ok {
			for i := range list {
				list[i].Error = &wrong{stamp(u.Noted), "incorrect_data"}
			}
		}
		d.Body.Events = append(d.Body.Events, list...)
	}
	if d.Body.Events == nil {
		d.Body.Events = []event{}
	}
	return json.MarshalIndent(d, "", "  ")
}

func stamp(t time.Time) string { return t.UTC().Format(time.RFC3339) }

// events are the one or more events that say e; of an undoing there is none of
// its own.
func (h House) events(e trace.Event) ([]event, error) {
	base := event{ID: h.uri("event", strconv.FormatInt(e.Number, 10)), Time: stamp(e.At), Record: stamp(e.Noted), Zone: e.Zone,
		Point: &at{h.uri("place", h.Name)}}
	switch e.Kind {
	case trace.Receive:
		return h.received(base, e)
	case trace.Make:
		return h.made(base, e)
	case trace.Pack, trace.Load:
		return h.packed(base, e)
	case trace.Ship:
		return h.shipped(base, e)
	case trace.Withdraw:
		base.Type, base.Action, base.Step, base.State = "ObjectEvent", "OBSERVE", "holding", "recalled"
		var err error
		base.Quantity, err = h.quantities(e.In)
		return []event{base}, err
	}
	return nil, nil
}

func (h House) received(b event, e trace.Event) (_ []event, err error) {
	b.Type, b.Action, b.Step, b.State = "ObjectEvent", "OBSERVE", "receiving", "in_progress"
	b.Source, b.Dest = []party{{"owning_party", h.uri("partner", e.Partner)}}, []dest{{"owning_party", h.uri("partner", h.Name)}}
	b.Papers = h.papers("desadv", e.Order)
	b.Quantity, err = h.quantities(e.Out)
	return []event{b}, err
}

// made is a transformation; a batch that was opened before anything is in it is
// observed only.
func (h House) made(b event, e trace.Event) (_ []event, err error) {
	if b.Out, err = h.quantities(e.Out); err != nil {
		return nil, err
	}
	b.Step, b.State = "commissioning", "active"
	b.Lot = &lotData{Number: e.Out[0].Code}
	if h.Until != nil && e.Until != "" {
		switch h.Until(e.Out[0].ID) {
		case "best-before":
			b.Lot.Before = e.Until
		case "use-by":
			b.Lot.Expiry = e.Until
		}
	}
	if len(e.In) == 0 {
		b.Type, b.Action, b.Quantity, b.Out = "ObjectEvent", "ADD", b.Out, nil
		return []event{b}, nil
	}
	b.Type = "TransformationEvent"
	b.In, err = h.quantities(e.In)
	return []event{b}, err
}

// packed is one aggregation for each carton or pallet that comes out.
func (h House) packed(b event, e trace.Event) (out []event, err error) {
	b.Type, b.Action, b.Step, b.State = "AggregationEvent", "ADD", "packing", "in_progress"
	for i, p := range e.Out {
		one := b
		if len(e.Out) > 1 {
			one.ID += "/" + strconv.Itoa(i+1)
		}
		if one.Parent, err = h.thing(p.Thing); err != nil {
			return nil, err
		}
		if e.Kind == trace.Load {
			one.Children, err = h.things(e.In)
		} else {
			one.Of, err = h.quantities(bare(e.In))
		}
		if err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	return out, nil
}

// bare leaves the amounts out: they are those of all cartons together.
func bare(list []trace.Part) []trace.Part {
	list = slices.Clone(list)
	for i := range list {
		list[i].Mass, list[i].Pieces = 0, 0
	}
	return list
}

func (h House) shipped(b event, e trace.Event) (_ []event, err error) {
	b.Type, b.Action, b.Step, b.State = "ObjectEvent", "OBSERVE", "shipping", "in_transit"
	b.Source, b.Dest = []party{{"owning_party", h.uri("partner", h.Name)}}, []dest{{"owning_party", h.uri("partner", e.Partner)}}
	b.Papers = h.papers("po", e.Order)
	b.EPCs, err = h.things(e.In)
	return []event{b}, err
}

func (h House) papers(kind, number string) []paper {
	if number == "" {
		return nil
	}
	return []paper{{kind, h.uri("order", number)}}
}

func (h House) things(list []trace.Part) (out []string, err error) {
	for _, p := range list {
		id, err := h.thing(p.Thing)
		if err != nil {
			return nil, err
		}
		out = append(out, id)
	}
	return out, nil
}

// quantities are parts with their amounts: kilograms under the code KGM of
// UN/ECE Recommendation 20, pieces without a unit.
func (h House) quantities(list []trace.Part) (out []quantity, err error) {
	for _, p := range list {
		q := quantity{}
		if q.Class, err = h.thing(p.Thing); err != nil {
			return nil, err
		}
		switch {
		case p.Mass > 0:
			q.N, q.Unit = kilograms(p.Mass), "KGM"
		case p.Pieces > 0:
			q.N = json.Number(strconv.FormatInt(int64(p.Pieces), 10))
		}
		out = append(out, q)
	}
	return out, nil
}

// kilograms is m in full, as JSON writes a number.
func kilograms(m unit.Mass) json.Number {
	whole, rest := int64(m/unit.Kilogram), int64(m%unit.Kilogram)
	if rest == 0 {
		return json.Number(strconv.FormatInt(whole, 10))
	}
	digits := strconv.FormatInt(int64(unit.Kilogram)+rest, 10)[1:]
	return json.Number(strconv.FormatInt(whole, 10) + "." + strings.TrimRight(digits, "0"))
}

// thing is the name of t that the whole world can tell apart: a GS1 Digital
// Link where there is a GTIN or an SSCC, else an address under the own stem.
func (h House) thing(t trace.Thing) (string, error) {
	switch {
	case t.Kind == trace.Carton || t.Kind == trace.Pallet:
		return gs1.Link(h.Stem, []gs1.Element{{AI: "00", Value: t.Code}})
	case t.Kind == trace.Batch && h.GTIN != nil:
		gtin, err := gs1.Pad(h.GTIN(t.ID))
		if err == nil {
			if link, err := gs1.Link(h.Stem, []gs1.Element{{AI: "01", Value: gtin}, {AI: "10", Value: t.Code}}); err == nil {
				return link, nil
			}
		}
	}
	return h.uri(string(t.Kind), t.ID, t.Code), nil
}

// uri is an address under the own stem.
func (h House) uri(steps ...string) string {
	s := h.Stem
	if s == "" {
		s = gs1.CanonicalStem
	}
	s = strings.TrimSuffix(s, "/")
	for _, step := range steps {
		s += "/" + url.PathEscape(step)
	}
	return s
}
