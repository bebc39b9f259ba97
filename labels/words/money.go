package words

import (
	"strings"

	"chablon/labels/unit"
)

// Money gives a price: "€4.20" in English, "4,20 €" in German. The euro and the
// pound have their signs, all other currencies their code of ISO 4217, which
// means one thing only. Amounts from five digits on stand in groups.
func (l *Lang) Money(m unit.Money) string { return l.MoneyIn(m.Currency, m.Minor, m.Decimals()) }

// MoneyIn writes n × 10^-decimals of a currency, as [Lang.Money] does; a unit
// price may be finer than the smallest coin.
func (l *Lang) MoneyIn(currency string, n int64, decimals int) string {
	form, sign := l.entries["money"].text, currency
	switch {
	case sign == "EUR":
		sign = "€"
	case sign == "GBP":
		sign = "£"
	case strings.HasPrefix(form, "{sign}{n}"):
		sign += noBreak
	}
	return put(form, "sign", sign, "n", l.Plain(n, decimals))
}
