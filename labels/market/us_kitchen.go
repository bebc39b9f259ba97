package market

import "chablon/labels/unit"

// usKitchen is the model Food Code. Its pairs of °C and °F are the rule's own
// and are not converted.
func usKitchen() []Limit {
	at := func(article string) Cite { return readIn(foodCode, article) }
	start := bothUnits(57, 135)
	return append([]Limit{
		cooling("cooling-first", &start, bothUnits(21, 70), 2*unit.Hour, at("3-501.14(A)(1)")),
		cooling("cooling-whole", &start, bothUnits(5, 41), 6*unit.Hour, at("3-501.14(A)(2)")),
		cooling("cooling-from-ambient", nil, bothUnits(5, 41), 4*unit.Hour, memory(foodCode, "3-501.14(B)")),
		keepAt("cold", Cold, bothUnits(5, 41), UpTo, at("3-501.16(A)(2)")),
		keepAt("hot", Hot, bothUnits(57, 135), From, at("3-501.16(A)(1)")),
		cook("eggs-to-order", bothUnits(63, 145), 15, at("3-401.11(A)(1)")),
		cook("pooled-eggs", bothUnits(68, 155), 17, memory(foodCode, "3-401.11(A)(2); 15 s in older editions")),
		cook("poultry-and-stuffed", bothUnits(74, 165), 1, memory(foodCode, "3-401.11(A)(3); less than 1 s, 15 s in older editions")),
		{Key: "reheating", Kind: Heating, To: pair(bothUnits(74, 165)), Edge: From, Within: 2 * unit.Hour, Hold: 15,
			Law: true, Cite: at("3-403.11")},
		cook("plant-food-for-hot-holding", bothUnits(57, 135), 0, at("3-401.13")),
		{Key: "ready-to-eat", Kind: Keeping, To: pair(bothUnits(5, 41)), Edge: UpTo, Days: 7, Law: true, Cite: at("3-501.17")},
		{Key: "time-only", Kind: Clock, Within: 4 * unit.Hour, Law: true, Cite: memory(foodCode, "3-501.19(B)")},
		{Key: "time-only-cool", Kind: Clock, To: pair(bothUnits(21, 70)), Edge: UpTo, Within: 6 * unit.Hour, Law: true,
			Cite: memory(foodCode, "3-501.19(C)")},
	}, liquidEggs()...)
}

func pair(p Pair) *Pair { return &p }

// liquidEggs is the pasteurisation of liquid egg products, in °F and seconds:
// 3.5 minutes at the higher and 6.2 minutes at the lower temperature.
func liquidEggs() []Limit {
	const short, long = 3*unit.Minute + 30, 6*unit.Minute + 12
	c := readIn(eggs, "590.570")
	both := func(key string, high, low int64) []Limit {
		return []Limit{cook(key, onlyF(high), short, c), cook(key+"-long", onlyF(low), long, c)}
	}
	limits := []Limit{cook("egg-whole", onlyF(140), short, c)}
	limits = append(limits, both("egg-albumen", 134, 132)...)
	limits = append(limits, both("egg-whole-blend", 142, 140)...)
	limits = append(limits, both("egg-whole-fortified", 144, 142)...)
	limits = append(limits, both("egg-whole-salted", 146, 144)...)
	limits = append(limits, both("egg-whole-sugared", 142, 140)...)
	limits = append(limits, both("egg-yolk", 142, 140)...)
	limits = append(limits, both("egg-yolk-sugared", 146, 144)...)
	return append(limits, both("egg-yolk-salted", 146, 144)...)
}
