package print

// reasonWords are the words for each key of a reason, with the names of its
// values in braces.
func reasonWords() map[string]string {
	return map[string]string{
		"allergen-contained":  "{allergen}: contained, declared",
		"allergen-may":        "{allergen}: not contained; may be in it, declared",
		"allergen-unheard":    "{allergen}: not declared; nobody says that it is in there or may get in",
		"allergen-undeclared": "{allergen}: not declared",
		"shown-at":            "the list shows it at {names}",
		"contains":            "{ingredient} contains it",
		"law-excepts":         "the law excepts it: {exception}",
		"no-source":           "no specification of what goes in says that it contains it",
		"supplier-traces":     "{ingredient} may contain it, says its supplier",
		"kitchen-traces":      "the kitchen cannot keep it out",
		"contained-anyway":    "it is contained, so the may-contain line leaves it out",
		"no-traces":           "nobody says that it may get in by cross-contact",
		"sulphites-over":      "{product}: {got} of the finished food, limit {limit}: declared. Nothing is taken off for cooking ({source}).",
		"sulphites-under":     "{product}: {got} of the finished food, limit {limit}: not declared. Nothing is taken off for cooking ({source}).",
		"sulphites-from":      "{got} from {ingredient}: {per-100-g} in 100 g, at {strength}",

		"water-none":     "water: no water is added as such; what the ingredients hold is not added water",
		"water-not-in":   "water: none is added to {product}",
		"water-listed":   "water in {product}: listed: {left} of the finished food, limit {limit}",
		"water-unlisted": "water in {product}: not listed: {left} of the finished food, limit {limit}",
		"water-piece":    "a piece takes {poured} of added water and {others} of all else, and weighs {finished} when it is finished",
		"water-left":     "what is left of it counts: {finished} less {others} is {left}; added water up to {limit} need not be named ({source})",
		"water-as-used":  "it counts as it went in, {left}; added water up to {limit} need not be named ({source})",

		"quantity":             "{name} {printed}: a declared quantity",
		"quantity-of-all":      "{used} used for 1000 pieces, over {of} (all that goes in): {share} before rounding; rounded by the house rule: whole percents from 10 %, one decimal below",
		"quantity-of-finished": "{used} used for 1000 pieces, over {of} (the finished mass, as water is lost): {share} before rounding; rounded by the house rule: whole percents from 10 %, one decimal below",
		"no-such-quantity":     "no percentage of the list is {asked} %",
		"quantities":           "the list declares {names}",
		"no-quantities":        "the list declares no quantity",

		"date":            "date: {kind}, {end} for what is made on {made}",
		"keeps":           "it keeps {life}, the day made being day 0",
		"component-keeps": "its component {product} keeps {life}, which is over sooner",

		"nutrient":             "{nutrient}: {shown} in {of} declared, {exact} before rounding",
		"energy-factors":       "computed from the ingredients with the factors of the law, {unit} for a gram: {factors}. kJ and kcal are each computed, never one from the other.",
		"nutrient-from":        "{amount} from {ingredient}, by {source}",
		"nutrient-from-others": "and {count} ingredients with less",

		"ingredient":       "{ingredient} ({bought-as})",
		"in-list":          "in the list as \"{name}\", place {place} of {of}",
		"in-list-inside":   "in the list as \"{name}\", inside \"{inside}\"",
		"not-in-list":      "not in the list by a name of its own",
		"amount":           "{amount}",
		"declared-with":    "declared as one with {ingredients}",
		"inner":            "{name}: {share} of what it is in",
		"inner-unnamed":    "{name} is not named on the label: see what is decided about {ingredient}",
		"also-part-of":     "the word is also part of what is known of {ingredients}",
		"comes-in":         "it comes in",
		"by-component":     "with the component {product}",
		"through":          "through {formula}, {amount}",
		"as":               "as {ingredient}, {amount}",
		"as-soaked-up":     "as {ingredient}, taken up from what it is cooked in, {amount}",
		"specification":    "specification {version} of {dated} by {supplier}, to be asked for again by {review-by}",
		"no-specification": "no specification",

		"formula":           "{formula}, version {version}: a formula; its ingredients stand in the list",
		"version-of":        "version of {issued}",
		"formula-comes-in":  "it comes in, {amount}",
		"together":          "together {amount}",
		"made-of":           "it is made of {ingredients}",
		"unused-ingredient": "the ingredient {ingredient}: not in this product; no line of it or of its formulas uses it",
		"unused-formula":    "the formula {formula}: not in this product",
		"used-nowhere":      "no product uses it",
		"used-by":           "it goes into {products}",

		"water-left-out":          "left out of the list: {got} of the finished food, and up to {limit} need not be named",
		"inner-list-relieved":     "its inner list is left out, but for allergens and additives: it is {got} of the finished food, less than {limit}, and the law sets its composition, or it is a mixture of spices or herbs",
		"carried-over":            "left out of the list: carried over, without a function in the finished food",
		"quid":                    "its quantity is declared, {got} before rounding: {limit}",
		"quid-exempt":             "{about}: its quantity is not declared: {got}",
		"may-contain":             "declared as what it may contain, by the assessment {limit}",
		"cross-contact-ruled-out": "the assessment {limit} found it to be kept out of {got}",
		"truly-free":              "its name speaks of {got}, and its specification says that there is none in it: {limit}",
		"opened":                  "not named itself: its parts stand in the list, as the product wants it",
		"joined":                  "declared together under one name: {limit}",
		"and-or":                  "declared with what may take its place: {limit}",
		"no-list":                 "the food needs no list: {got}",
		"processing-aid":          "left out of the list: it helps in the making and does nothing in the finished food",
		"volatile-not-measured":   "evaporates, but nobody measured what is left, so all of it counts",
		"volatile-left":           "evaporates: {got} of {limit} are left, as measured",
		"reconstituted":           "counted by its mass before drying, {got} instead of {limit}",
		"date-limited":            "its component decides the date: {got}, not {limit}",
		"date-left-out":           "no date is asked for",
		"portion":                 "a portion is {got}; hold it against the serving that the law means",
		"sulphites":               "{got} of sulphur dioxide, limit {limit}",
		"statement":               "a statement is called for by {limit}",
		"nutrition-left-out":      "no nutrition declaration: {got}",
	}
}

// keyWords are the words for the keys that values hold.
func keyWords() map[string]string {
	return map[string]string{
		"use-by":      "use by",
		"best-before": "best before",
		"none":        "none",

		"in-name":         "its name is in the name of the food",
		"emphasised":      "it is emphasised in words or pictures",
		"characterises":   "it is what the food is known by",
		"flavouring":      "it is there for its flavour, in a small quantity",
		"not-decisive":    "its quantity does not decide what the buyer chooses",
		"fixed-in-law":    "the law sets its quantity",
		"drained-weight":  "the drained weight is declared",
		"varying-mixture": "it is a mixture in varying proportions",

		"exempt-small-maker": "the maker is small and exempt",
		"exempt-small-pack":  "the pack is small and exempt",

		"single-ingredient": "it is made of one ingredient",
		"fresh-produce":     "it is fresh fruit or vegetables",
		"vinegar":           "it is vinegar by fermentation alone",
		"cultured-dairy":    "it is a cultured dairy product with nothing added",
		"carbonated-water":  "it is carbonated water",
	}
}
