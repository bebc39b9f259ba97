package market

import (
	"slices"
	"strings"
)

// Operator is the rule on whose name and address stands on a label: countries in
// which that house must be established; none where an address anywhere will do.
type Operator struct {
	Territory []string // ISO 3166
	Cite
}

// Here reports whether an address in a country will do.
func (o Operator) Here(country string) bool {
	return len(o.Territory) == 0 || slices.Contains(o.Territory, strings.ToUpper(country))
}
