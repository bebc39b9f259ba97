package print

import (
	"strings"

	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/explain"
	"chablon/labels/margin"
	"chablon/labels/scale"
	"chablon/labels/unit"
)

// WhyRequest asks how a word came onto a label, or why it did not.
type WhyRequest struct {
	ID, Word string
	Pack     string `flag:"pack" help:"id of the pack; the product's first when left out" of:"pack"`
	Market   string `flag:"market" help:"code of the market; the shop's first when left out" of:"market"`
	Batch    string `flag:"batch" help:"batch code, of a batch that today's plan makes otherwise"`
}

// Why is the answer: the reasons behind one word.
type Why struct {
	*Declaration
	Word    string
	Reasons []*explain.Reason
	About   string          // what of the label was asked about, in few words; "" where no figure decides it
	Margins []margin.Margin // how far figures may be off before that changes
}

// Why answers: from the label back through product, formula and ingredient to
// the supplier's specification, with the masses on the way. The word may be a
// name in any language, an id, an allergen, "water", a percentage, a nutrient
// or "date". What is wrong with the declaration is in Found, and there is no
// answer then.
func (p *Press) Why(r WhyRequest) (*Why, error) {
	d, err := p.Declare(DeclareRequest{ID: r.ID, Pack: r.Pack, Market: r.Market, Batch: r.Batch})
	if err != nil || p.Found.Errors() > 0 {
		return nil, err
	}
	reasons, near := explain.Ask(explain.Question{Shop: d.press.Shop, Facts: d.Facts, Lang: d.Langs[0], Word: r.Word})
	if reasons == nil {
		hint := "ask for the name of an ingredient or allergen, an id, water, a percentage, a nutrient or date"
		if near != "" {
			hint = "did you mean " + near + "?"
		}
		return nil, usage.Errorf(hint, "nothing behind the label of %s is called %q", r.ID, r.Word)
	}
	return &Why{Declaration: d, Word: r.Word, Reasons: reasons}, nil
}

// piece is what a finished piece weighs.
func (w *Why) piece() unit.Mass { return w.Facts.Finished / unit.Mass(scale.Basis) }

// Text is the answer in plain text, each reason below what it stands behind.
func (w *Why) Text() string {
	s := &sheet{}
	s.line("%s: a finished piece weighs %s; other masses are those that go in", w.Name(), short(w.piece()))
	for _, r := range w.Reasons {
		s.line("")
		w.tell(s, r, "")
	}
	w.tellMargins(s)
	return s.String()
}

func (w *Why) tell(s *sheet, r *explain.Reason, indent string) {
	s.item(indent, saidReason(r), w.at(r.Pos))
	for _, u := range r.Under {
		w.tell(s, u, indent+"  ")
	}
}

// at is a place as it can be opened from where the command was given.
func (w *Why) at(p diag.Pos) string {
	if !p.Known() {
		return ""
	}
	if w.press.Name != "" {
		p.File = w.press.Name + "/" + p.File
	}
	return p.String()
}

// saidReason is one reason in words.
func saidReason(r *explain.Reason) string {
	var fill []string
	for name, v := range r.Values {
		fill = append(fill, "{"+name+"}", saidValue(v))
	}
	return strings.NewReplacer(fill...).Replace(reasonWords()[r.Key])
}
