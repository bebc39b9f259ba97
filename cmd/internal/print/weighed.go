package print

import (
	"fmt"
	"strconv"

	"chablon/cmd/internal/usage"
	"chablon/labels/gs1"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// digit is how far from the usual a weight may be; one that has a digit too
// many or too few is farther.
const digit = 8

// weighed takes the weight of a pack or carton that is sold by weight: the one
// that was read off the scale. What is only tried or compared weighs what a
// usual one does. The weight is a fact of this pack alone, so no signature is
// about it.
func (j *Job) weighed() error {
	k, w := j.Pack, j.Request.Weight
	switch {
	case k == nil || !j.Kind.Weighs:
		return nil
	case !k.ByWeight() && w != 0:
		return usage.Errorf("leave out --weight", "%s in %s is not sold by weight", j.ID, k.ID.V)
	case !k.ByWeight() || w == 0 && j.Request.compare:
		return nil
	case w == 0:
		return usage.Errorf(`read it off the scale, without the pack: --weight "312 g"`, "every pack of %s in %s is weighed", j.ID, k.ID.V)
	case w < 0 || w%unit.Gram != 0:
		return usage.Errorf("take a scale that shows grams", "%s is no weight in whole grams", w)
	case j.Kind.SSCC && j.Request.Count > 1:
		return usage.Errorf("print them one by one, each with its weight", "every carton of %s is weighed", j.ID)
	}
	inside := unit.Mass(1)
	if j.Kind.SSCC { // what is weighed is all that is in the carton
		inside = unit.Mass(j.packs())
	}
	if usual := k.Net.V * inside; w > digit*usual || w < usual/digit {
		return usage.Errorf("look at the scale; if it is right, write a usual weight under net:", "%s is far from the usual %s of %s in %s", w, usual, j.ID, k.ID.V)
	}
	j.Pack = k.Weighing(w / inside)
	return nil
}

// usualWeight is what a pack or carton of a kind usually weighs; nothing where
// it is not sold by weight.
func usualWeight(kind *Kind, q *shop.Product, pack string) unit.Mass {
	k, ok := q.Pack(pack)
	switch {
	case !ok || !kind.Weighs || !k.ByWeight():
		return 0
	case kind.SSCC && q.Carton != nil:
		return k.Net.V * unit.Mass(max(1, q.Carton.Holds.V))
	}
	return k.Net.V
}

// heavy tells the files of packs of different weights apart.
func (j *Job) heavy() []string {
	if j.Request.Weight == 0 {
		return nil
	}
	return []string{strconv.FormatInt(int64(j.Request.Weight/unit.Gram), 10) + "-g"}
}

// Counter says how the numbers of the counter are made, for whoever checks the
// shop's files: the template, and what each item is. It is empty where nothing
// is weighed at a counter.
func (p *Press) Counter() (out []string) {
	t, err := gs1.ParseCounterNumber(p.Shop.Profile.CounterNumber.V)
	if err != nil {
		return nil
	}
	of := map[string]string{"weight": "W weight in grams", "price": "P price in the smallest coin"}[t.Of()]
	out = append(out, fmt.Sprintf("numbers of the counter: %s (I item, %s, V check digit over it, C check digit); compare them with the rules of your country", t, of))
	for _, id := range p.Shop.ProductIDs {
		q := p.Shop.Products[id]
		for i := range q.Packs {
			k := &q.Packs[i]
			if n, err := p.Shop.CounterNumber(k); err == nil && n != "" {
				out = append(out, fmt.Sprintf("  %s  %s in %s, %s", n, id, k.ID.V, k.Net.V))
			}
		}
	}
	return out
}
