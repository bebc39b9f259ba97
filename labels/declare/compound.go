package declare

// part turns a thing into a printed part, with its inner list where the law
// asks for one.
func (f *food) part(t thing, relieved bool) Part {
	p := Part{
		Ref: first(t.ids), Name: t.name, Alt: t.alt, Class: t.class, Group: t.group, Hydrogenated: t.hydrogenated,
		Varying: t.varying, Mass: t.mass, Src: t.src, Allergens: f.declarable(t.contains), Excepted: t.excepted,
	}
	if f.product.Additives.V == "numbers" && t.class != "" {
		p.Number = f.number(t)
	}
	p.Inner = f.inner(t.inner, relieved)
	if len(p.Inner) == 1 && nameKey(p.Inner[0].Name) == nameKey(p.Name) && p.Inner[0].Class == "" {
		p.Inner = p.Inner[0].Inner // nothing but itself
	}
	p.Show = without(p.Allergens, shown(p.Inner))
	return p
}

// inner makes the printed inner ingredients of a compound ingredient. Where
// its inner list is relieved, only additives with a function and whatever
// holds an allergen stay (Annex VII Part E point 2, Art. 21). Additives that
// are carried over without a function are left out unless they hold an
// allergen (Art. 20(b)(i)).
func (f *food) inner(in []thing, relieved bool) []Part {
	things := append([]thing(nil), in...)
	byMass(things)
	var out []Part
	for _, t := range things {
		p := f.part(t, relieved || f.relieved(t))
		switch holds := len(p.Allergens) > 0 || len(p.Inner) > 0; {
		case t.carried && !holds:
			f.record(Decision{Rule: CarriedOver, Part: t.name[0].V.V, Name: t.name, Pos: t.src})
		case relieved && p.Class == "" && !holds:
		default:
			out = append(out, p)
		}
	}
	return out
}

// relieved reports whether the inner list of a compound ingredient may be
// dropped: less than the market's limit of the finished food, and its
// composition set in law or a mixture of spices or herbs.
func (f *food) relieved(t thing) bool {
	rule := f.market.List.Compound
	if len(t.inner) == 0 || !t.limited || t.group != "" || !rule.Holds(t.mass, f.finished) {
		return false
	}
	f.decide(InnerListRelieved, first(t.ids), f.ofFinished(t.mass), Percent(rule.Share), t.src)
	return true
}

// shown are the allergens that the parts show themselves.
func shown(parts []Part) []string {
	var out []string
	for _, p := range parts {
		out = union(out, p.Show)
		out = union(out, shown(p.Inner))
	}
	return out
}
