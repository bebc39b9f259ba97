package preflight

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// beside finds words that the law measures against others and wants in the same
// field of vision, such as the origin of the primary ingredient against that of
// the food (Reg. (EU) 2018/775 Art. 3), where they are too small, or where
// something stands between the two.
func beside(s Sheet, items []page.Item, found *diag.List) {
	if s.Market == nil {
		return
	}
	said := slices.DeleteFunc(slices.Clone(items), func(it page.Item) bool { return it.Run == nil || it.Role == role.Draft })
	for i, it := range said {
		of := s.Market.Against(it.Role)
		if of == "" {
			continue
		}
		largest := unit.Length(0)
		for _, o := range said {
			if o.Role == of {
				largest = max(largest, o.Run.XHeight)
			}
		}
		m, _ := s.Market.Beside(it.Role, largest, s.Pack.Face)
		tooSmall(s, it, it.Run.XHeight, m.Least, m.Cite.String(), found)
		if i == 0 || said[i-1].Role != it.Role && said[i-1].Role != of {
			found.Errorf(at(s, it), "apart", "report this: the two belong together", "%s: %s does not stand beside the %s (%s)", s.What, name(it), of, m.Cite)
		}
	}
}
