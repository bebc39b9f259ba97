package declare

import "chablon/labels/role"

// Calls are the particulars that this food calls for where the law asks for
// them only of some foods: what [market.Market.Needs] has as When is then due,
// on every label, whoever set it.
func (f *Facts) Calls() []role.Role {
	var out []role.Role
	call := func(what role.Role, when bool) {
		if when {
			out = append(out, what)
		}
	}
	k := f.Product.Keep
	call(role.Keep, k.Temp.Set() || k.Opened.Set())
	call(role.Use, f.Product.Prepared())
	return out
}
