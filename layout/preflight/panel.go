package preflight

import (
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// panelDrawn finds a nutrition declaration that is not drawn as the market says,
// in a form that this pack may bear: each of its parts there, none smaller than
// the law's size, bold where the law wants it bold and nowhere else, its lines as
// far apart, and nothing else within its box.
func panelDrawn(s Sheet, items []page.Item, found *diag.List) {
	if s.Market == nil || len(s.Market.Nutrition.Panel.Forms) == 0 || !has(items, role.Nutrition) {
		return
	}
	p := panelOf(s, items, found)
	if p == nil {
		return
	}
	p.parts()
	p.rows()
	p.within()
	for _, it := range p.marks {
		p.size(it)
	}
	p.spaced()
	p.alone(items)
}

// panel is one nutrition panel on a page.
type panel struct {
	Sheet
	form  market.PanelForm
	box   page.Item
	marks []page.Item // that belong to it
	found *diag.List
}

// panelOf is the panel on the page; nil, with a finding, where the declaration
// is not drawn as one.
func panelOf(s Sheet, items []page.Item, found *diag.List) *panel {
	p := &panel{Sheet: s, found: found}
	for _, it := range items {
		switch {
		case it.Panel == nil && it.Role == role.Nutrition:
			p.wrong(it, "draw it as the panel", "%s is not part of the panel (%s)", name(it), s.Market.Nutrition.Panel.Cite)
			return nil
		case it.Panel == nil:
		case it.Panel.Part == role.Box:
			p.box = it
			p.marks = append(p.marks, it)
		default:
			p.marks = append(p.marks, it)
		}
	}
	if p.box.Panel == nil {
		found.Errorf(s.Src, "panel", "draw it as the panel", "%s: the nutrition declaration has no box around it (%s)", s.What, s.Market.Nutrition.Panel.Cite)
		return nil
	}
	for _, f := range s.Market.Nutrition.Panel.For(s.Pack.Surface) {
		if f.Key == p.box.Panel.Form {
			p.form = f
			return p
		}
	}
	p.wrong(p.box, "measure surface: of the pack again, or take a paper with room for a larger form", "a pack with %s of surface may not bear its nutrition panel in the form %s",
		s.Pack.Surface, p.box.Panel.Form)
	return nil
}

func (p *panel) wrong(it page.Item, hint, format string, args ...any) {
	p.found.Errorf(at(p.Sheet, it), "panel", hint, p.What+": "+format, args...)
}

// parts finds parts and lines of the form that are not there, and lines that
// are thinner than half a dot less than they are drawn.
func (p *panel) parts() {
	for _, t := range p.form.Types {
		if !p.bears(t.Part, "") {
			p.wrong(p.box, "report this", "the nutrition panel lacks its %s (%s)", t.Part, t.Cite)
		}
	}
	for _, l := range p.form.Lines {
		if !p.bears(l.Part, "") {
			p.wrong(p.box, "report this", "the nutrition panel lacks its %s (%s)", l.Part, l.Cite)
		}
		for _, it := range p.marks {
			if it.Panel.Part == l.Part && thickness(it)+p.halfDot() < l.Thick {
				p.wrong(it, "report this", "the %s of the nutrition panel is %.2f mm thick, and must be %.2f mm (%s)", l.Part, thickness(it).MM(), l.Thick.MM(), l.Cite)
			}
		}
	}
}

// within finds a panel that takes more of the pack's surface than its form may.
func (p *panel) within() {
	area, most := unit.AreaOf(p.box.Box.W, p.box.Box.H), p.form.Most(p.Pack.Surface)
	if most > 0 && area > most {
		p.wrong(p.box, "report this", "the nutrition panel takes %s, and in this form may take %s (%s)", area, most, p.form.Cite)
	}
}

// halfDot is what a line may lose on a printer's dots.
func (p *panel) halfDot() unit.Length {
	if p.Dots.N == 0 {
		return 10
	}
	return p.Dots.At(1)/2 + 10
}

// thickness is how thick a line is: that of its stroke, or the narrower side of
// a filled one.
func thickness(it page.Item) unit.Length {
	if it.Shape != nil && it.Shape.Stroke > 0 {
		return it.Shape.Stroke
	}
	return min(it.Box.W, it.Box.H)
}

// bears reports whether a part is there; row "" is any.
func (p *panel) bears(part, row string) bool { return p.count(part, row) > 0 }

func (p *panel) count(part, row string) (n int) {
	for _, it := range p.marks {
		if it.Panel.Part == part && (row == "" || it.Panel.Row == row) {
			n++
		}
	}
	return n
}

// rows finds nutrients that the market asks for and the panel does not say, and
// percentages that are missing beside them.
func (p *panel) rows() {
	n := p.Market.Nutrition
	for _, x := range n.Nutrients {
		if !x.Must {
			continue
		}
		if !p.bears(role.Nutrient, x.Key) && !p.bears(role.Mineral, x.Key) && !p.bears(role.Energy, x.Key) {
			p.wrong(p.box, "report this", "the nutrition panel lacks %s (%s)", x.Key, x.Cite)
		}
		if len(n.Per) > 1 && p.count(role.Nutrient, x.Key) < 1+len(n.Per) {
			p.wrong(p.box, "report this", "the nutrition panel lacks a figure of %s (%s)", x.Key, x.Cite)
		}
		if n.Declares(x.Key) && !p.bears(role.Share, x.Key) && !p.bears(role.Mineral, x.Key) {
			p.wrong(p.box, "report this", "the nutrition panel lacks the percentage of %s (%s)", x.Key, x.Ref)
		}
	}
}

// size finds letters of the panel that are smaller than the law's, and those of
// the wrong weight.
func (p *panel) size(it page.Item) {
	if it.Run == nil {
		return
	}
	t := p.form.Type(it.Panel.Part)
	if it.Run.Size+10 < t.Least {
		p.wrong(it, "choose a larger paper; the panel's letters may not become smaller", "%s (%s) of the nutrition panel is set in %.1f points, and must be in %.1f (%s)",
			name(it), it.Panel.Part, it.Run.Size.Pt(), t.Least.Pt(), t.Cite)
	}
	bold := it.Run.Face == "bold"
	if t.Bold && !bold || bold && !t.Bold && it.Panel.Part != role.Nutrient {
		p.wrong(it, "report this", "%s (%s) of the nutrition panel is in the wrong weight (%s)", name(it), it.Panel.Part, t.Cite)
	}
}

// spaced finds lines of one part that stand closer than the law lets them.
func (p *panel) spaced() {
	for i, a := range p.marks {
		for _, b := range p.marks[:i] {
			if a.Run == nil || b.Run == nil || a.Panel.Part != b.Panel.Part || !a.Box.InColumn(b.Box) {
				continue
			}
			apart := max(a.Run.Baseline-b.Run.Baseline, b.Run.Baseline-a.Run.Baseline)
			t := p.form.Type(a.Panel.Part)
			if apart > 0 && apart+10 < t.Least+t.Lead {
				p.wrong(a, "report this", "%s and %s of the nutrition panel stand %.2f mm apart, and must be %.2f mm (%s)",
					name(b), name(a), apart.MM(), (t.Least + t.Lead).MM(), t.Cite)
			}
		}
	}
}

// alone finds what stands in the box and is no part of the panel, and parts of
// the panel outside of it.
func (p *panel) alone(items []page.Item) {
	for _, it := range items {
		inside := it.Box.Overlaps(p.box.Box)
		switch {
		case it.Role == role.Draft || it.Panel == nil && !inside:
		case it.Panel == nil:
			p.wrong(it, "print less on it", "%s stands in the box of the nutrition panel", name(it))
		case !p.box.Box.Contains(it.Box):
			p.wrong(it, "report this", "%s of the nutrition panel stands outside its box", name(it))
		}
	}
}
