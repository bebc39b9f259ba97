package print

import "chablon/layout/withdraw"

// withdrawKind is the sheet of the copies that must come down; the list of what
// hangs prints it.
func withdrawKind() *Kind {
	return &Kind{
		Name: "withdraw", File: "withdraw", One: "withdraw sheet", Many: "withdraw sheets",
		Next:   "Take down what is on the sheet, then: chablon wall --down with their numbers.",
		Inside: true,
		Of:     Shop, Speaks: Kitchen, Langs: 1, Usual: 1, Form: "card",
		Compose: composeWithdraw,
	}
}

func composeWithdraw(j *Job) (Set, error) {
	lang := j.Langs[0]
	sheet := withdraw.Sheet{Shop: j.Shop.Profile.Name.V, Lang: lang, Day: j.Today, Stock: j.Stock, Dots: j.Printer.Resolution.V}
	for _, c := range j.Request.stale {
		sheet.Entries = append(sheet.Entries, withdraw.Entry{Stale: c, Name: j.nameOf(c.Copy.ID, lang.Code())})
	}
	return Set{Pages: withdraw.Compose(sheet, j.faces, j.Found), Heights: withdraw.Heights()}, nil
}

// Withdraw makes the sheet of the copies that must come down.
func (p *Press) Withdraw(posted Posted) (Batch, error) {
	return p.Print(p.KindOf("withdraw"), Request{stale: posted.Stale})
}
