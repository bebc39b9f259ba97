package words

import (
	"strings"

	"chablon/labels/unit"
)

// Money gives a price: "€4.20" in English, "4,20 €" in German. The euro and the
// pound have their signs, all other currencies their code of ISO 4217, which
// means one thing only. Amounts from five digits on stand in groups.
func (l *Lang) Money(m unit.Money) string {
	form, sign := l.entries["money"].text, m.Currency
	switch {
	case sign == "EUR":
		sign = "€"
	case sign == "GBP":
		sign = "£"
	case strings.HasPrefix(form, "{sign}{n}"):
		sign += noBreak
	}
	return put(form, "sign", sign, "n", l.Plain(m.Minor, m.Decimals()))
}
