package shop

import (
	"fmt"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// A usage is how much of a line the steps have used so far.
type usage struct {
	share unit.Share
	pos   diag.Pos // of the last use
}

// stepUses: every line goes in at one step, or its shares at several, and
// steps use only lines and what earlier steps made. A line that uses nothing
// known and a step that uses no line are one mistake most of the time, and
// reported once.
func (c *checker) stepUses() {
	c.sheets(func(s sheet) {
		refs, used := s.refs(), map[string]usage{}
		loose := slices.ContainsFunc(s.lines, c.loose) || s.medium.Set() && !c.known(s.medium.V)
		astray := false
		for _, st := range s.steps {
			for _, u := range st.Uses {
				if !c.oneUse(u) {
					astray = astray || !u.Step.Set()
					continue
				}
				known := slices.Contains(refs, u.Line.V)
				switch {
				case !known && loose && c.known(u.Line.V):
				case !known && c.whole(s.pos):
					astray = true
					c.noLine(s, u, refs)
				default:
					c.use(u, used)
				}
			}
		}
		if len(s.steps) > 0 && c.whole(s.pos) && !astray {
			c.unused(s, used)
		}
	})
}

// oneUse reports whether a use is of a line; one of nothing, or of a line and
// a step at once, is told.
func (c *checker) oneUse(u Use) bool {
	c.share(u.Share, "the share of a use")
	if u.Line.Set() == u.Step.Set() && c.whole(u.Pos) {
		c.wrong(u.Pos, "uses", "write line: with a line, or step: with the id of an earlier step", "this use is of a line and of a step, or of neither")
	}
	return u.Line.Set() && !u.Step.Set()
}

func (c *checker) noLine(s sheet, u Use, refs []string) {
	hint := meant(u.Line.V, refs, "lines here are "+list(refs))
	if slices.Contains(s.ids(), u.Line.V) {
		hint = fmt.Sprintf("%s is a step: write {step: %s} for what it made", u.Line.V, u.Line.V)
	}
	c.wrong(u.Line.Pos, "uses", hint, "%s has no line %q", s.name, u.Line.V)
}

// use counts a use of a line; more than all of it cannot go in.
func (c *checker) use(u Use, used map[string]usage) {
	before := used[u.Line.V]
	sum := before.share + u.Part()
	switch {
	case before.share > 0 && (before.share >= unit.Whole || !u.Share.Set()):
		c.wrong(u.Line.Pos, "uses", fmt.Sprintf("say how much goes in at each step, such as {line: %s, share: 50 %%}, or write two lines, one of them with another name under as", u.Line.V),
			"%q goes in twice, first at %s; it would be weighed twice", u.Line.V, before.pos)
	case sum > unit.Whole:
		c.wrong(u.Share.Pos, "uses", "the shares of a line make 100 %", "with this step, %s of %q goes in", sum, u.Line.V)
	}
	used[u.Line.V] = usage{min(sum, unit.Whole), u.Line.Pos}
}

// unused reports what no step uses, or not all of.
func (c *checker) unused(s sheet, used map[string]usage) {
	missing := func(ref string, pos diag.Pos) {
		switch u := used[ref]; {
		case u.share == 0:
			c.wrong(pos, "uses", "name it under uses: of the step where it goes in", "no step of %s uses %s", s.name, ref)
		case u.share < unit.Whole:
			c.wrong(u.pos, "uses", "the shares of a line make 100 %", "only %s of %q goes in", u.share, ref)
		}
	}
	for _, l := range s.lines {
		if l.Use.Set() && !c.loose(l) {
			missing(l.Ref(), l.Use.Pos)
		}
	}
	if c.known(s.medium.V) {
		missing(s.medium.V, s.medium.Pos)
	}
}
