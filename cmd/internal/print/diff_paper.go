package print

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"chablon/cmd/internal/usage"
)

// drawn is one paper of a state of the shop, to be compared with that of
// another: what it is of, and a digest of all that stands on its pages. The
// places in the files are not in it, nor is the mark of a draft, so a comment
// or an approval changes nothing.
type drawn struct {
	kind         *Kind
	of           string // id of the product or formula, or "plan NAME"
	which        string // pack and market
	digest, mark string
}

// key tells papers apart.
func (d drawn) key() string { return d.kind.Name + "\x00" + d.of + "\x00" + d.which }

// drawings sets every paper that the shop's files are good for, in the batches
// of today.
func (p *Press) drawings() (out map[string]drawn, err error) {
	out = map[string]drawn{}
	for _, k := range p.kinds {
		if k.Places {
			continue
		}
		for _, r := range p.all(k) {
			r.compare = true
			d, err := p.draw(k, r)
			if err != nil {
				return nil, err
			}
			out[d.key()] = d
		}
	}
	return out, nil
}

// draw sets one paper. What cannot be printed is a finding of the shop.
func (p *Press) draw(k *Kind, r Request) (drawn, error) {
	d := drawn{kind: k}
	switch {
	case r.plan != nil:
		d.of = "plan " + r.plan.ID
	case p.Shop.Products[r.IDs[0]] != nil:
		d.of, d.which = r.IDs[0], r.Pack+" "+r.Market
	default:
		d.of = r.IDs[0]
	}
	j, err := p.make(k, r, subjects(k, r)[0])
	var bad *usage.Error
	if errors.As(err, &bad) {
		p.Found.Errorf(p.placeOf(r), "unknown", bad.Hint, "%s", bad.Msg)
		return d, nil
	}
	if err != nil {
		return d, err
	}
	if p.Found.AddAll(j.Found); j.Found.Errors() == 0 {
		d.digest = j.digest()
		if k.Mark != nil {
			d.mark = k.Mark(j)
		}
	}
	return d, nil
}

// touched lists what must be printed anew of a product, a formula or a plan,
// kind by kind; which packs and markets, where it is not all of them. anew
// reports whether a card is among it.
func (d *differ) touched(of string) (out []string, anew bool) {
	for _, k := range d.new.kinds {
		var which []string
		all, mark := 0, ""
		for _, now := range d.now {
			was, ok := d.was[now.key()]
			if now.kind != k || now.of != of || !ok {
				continue
			}
			if all++; was.digest != now.digest {
				which = append(which, now.which)
				if was.mark != now.mark {
					mark = fmt.Sprintf(" (check word %s, was %s)", now.mark, was.mark)
				}
			}
		}
		if len(which) == 0 {
			continue
		}
		name := k.Many
		if k.Mark != nil {
			name, anew = k.One+mark, anew || mark != ""
		}
		if slices.Sort(which); len(which) < all {
			name += " (" + strings.Join(which, ", ") + ")"
		}
		out = append(out, name)
	}
	return out, anew
}
