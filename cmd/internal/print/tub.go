package print

import (
	"chablon/labels/unit"
	"chablon/layout/tub"
)

// TubOptions are the flags of tub labels alone.
type TubOptions struct {
	Mass unit.Mass `flag:"mass" is:"mass" help:"how much is in each tub; a line to write on when left out"`
}

func tubKind() *Kind {
	return &Kind{
		Name: "tub", File: "tubs", One: "tub label", Many: "tub labels",
		Short:   "Print the labels for the tubs of a sub-batch",
		Long:    "Prints what must stand on a tub in the cold room: name, day made, use by, batch,\nstorage, allergens, and whether it is raw.",
		Example: "  chablon tub pistachio-pastry-cream --mass \"1.5 kg\" --count 2",
		Next:    "Stick it on the tub, not on the lid.",
		Inside:  true,
		Of:      Formula, Speaks: Kitchen, Langs: 2, Usual: 2, Bears: ItsBatch, Most: 1000,
		Own:     func() any { return &TubOptions{} },
		Paper:   func(*Job) string { return "roll-100x60" },
		Compose: composeTub,
	}
}

func composeTub(j *Job) (Set, error) {
	t := tub.Tub{Shop: j.Shop, Formula: j.Formula, Mass: own[TubOptions](j).Mass, Made: j.Made, Batch: j.Batch, Langs: j.Langs,
		Of: j.Count, Stock: j.Stock, Dots: j.Printer.Resolution.V}
	s := Set{Heights: tub.Heights(j.Stock)}
	s.Date, _ = t.UseBy()
	for t.N = 1; t.N <= t.Of; t.N++ {
		art := tub.Compose(t, j.faces, j.Found)
		if art == nil {
			return Set{}, nil
		}
		s.Arts = append(s.Arts, art)
	}
	return s, nil
}
