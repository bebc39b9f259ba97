package cli

import (
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/usage"
	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
)

// law prints what a market asks for, and how that is known.
func (a *app) law() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use: "law MARKET", Short: "Say what the law of a market asks for, and how that is known",
		Long: "Lists each particular by form of sale, with act, article and the day it was read;\n" +
			"then the days from which the law changes, the names whose composition it sets, what\n" +
			"nobody here has read, and what was read more than a year ago. It is a help for a competent person: the authentic text\n" +
			"and the local authority decide. The code of a country whose rules on food sold loose\n" +
			"are known here, such as DE, shows its market with them.",
		Example:   "  chablon law CA",
		Args:      exactlyOne("market"),
		ValidArgs: append(market.Codes(), market.Countries()...),
		RunE: func(_ *cobra.Command, args []string) error {
			m, ok := market.Get(args[0])
			if !ok {
				m, ok = market.OfCountry(args[0])
			}
			if !ok {
				return usage.Errorf("the markets are "+strings.ToUpper(strings.Join(market.Codes(), ", "))+"; rules of its own on food sold loose has one of "+strings.Join(market.Countries(), ", "), "there is no market %q", args[0])
			}
			today, _, err := a.clock()
			if err != nil {
				return err
			}
			if asJSON {
				return a.lawJSON(m, today)
			}
			showLaw(a.Out, m, today)
			return nil
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "write JSON, for another program")
	return c
}

// fromText says from which day a row is in force.
func fromText(d unit.Date) string {
	if d.IsZero() {
		return ""
	}
	return ", in force from " + d.String()
}

// lawRow is one row of the matrix as another program reads it.
type lawRow struct {
	Sale       market.Sale `json:"sale"`
	Particular role.Role   `json:"particular"`
	Duty       market.Duty `json:"duty"`
	In         role.Role   `json:"or-in,omitempty"`
	Where      market.Why  `json:"where,omitempty"`
	Act        string      `json:"act"`
	Article    string      `json:"article"`
	Read       string      `json:"read,omitempty"` // a day or month; left out where it is from memory
	From       string      `json:"in-force-from,omitempty"`
	Row        string      `json:"row"` // its name under accept-unread
}

// lawJSON writes the matrix, the forms of sale that nobody here knows, and the
// days of change.
func (a *app) lawJSON(m *market.Market, today unit.Date) error {
	out := struct {
		Market  string              `json:"market"`
		Rows    []lawRow            `json:"rows"`
		Unknown []market.Sale       `json:"unknown-sales"`
		Changes []map[string]string `json:"changes"`
		Unread  []string            `json:"unread-rows"`
		Stale   []string            `json:"not-read-for-a-year"`
	}{Market: m.Name(), Rows: []lawRow{}, Unknown: []market.Sale{}, Changes: []map[string]string{}, Unread: []string{}, Stale: []string{}}
	for _, s := range market.Sales() {
		rows, known := m.Matrix(s)
		if !known {
			out.Unknown = append(out.Unknown, s)
		}
		for _, r := range rows {
			one := lawRow{Sale: s, Particular: r.Role, Duty: r.Duty, In: r.In, Where: r.Why, Act: r.Act, Article: r.Article, Read: r.Read,
				Row: market.Place{Market: m.Code, Sale: s, Role: r.Role, Duty: r.Duty, Cite: r.Cite}.Mark()}
			if !r.From.IsZero() {
				one.From = r.From.String()
			}
			out.Rows = append(out.Rows, one)
		}
	}
	for _, c := range m.Changes {
		out.Changes = append(out.Changes, map[string]string{"from": c.From.String(), "change": declare.ChangeText(c.Key), "act": c.Act, "article": c.Article})
	}
	for _, p := range m.UnreadPlaces() {
		out.Unread = append(out.Unread, p.Mark())
	}
	for _, c := range m.Stale(today.AddMonths(-12)) {
		out.Stale = append(out.Stale, c.String())
	}
	data, err := json.MarshalIndent(out, "", "  ")
	if err == nil {
		_, err = a.Out.Write(append(data, '\n'))
	}
	return err
}

func showLaw(w io.Writer, m *market.Market, today unit.Date) {
	fmt.Fprintf(w, "%s (%s)\n", m.Name(), strings.Join(m.Places, ", "))
	for _, s := range market.Sales() {
		rows, known := m.Matrix(s)
		fmt.Fprintf(w, "\n%s\n", saleText(s))
		if !known {
			fmt.Fprintln(w, "  nobody here knows what is asked for; no label is printed")
		}
		for _, r := range rows {
			fmt.Fprintf(w, "  %-12s %-38s %s%s\n", r.Role, dutyText(r), citeText(r.Cite), fromText(r.From))
		}
	}
	showNational(w, m.National)
	fmt.Fprint(w, "\nchanges\n")
	for _, c := range m.Changes {
		state := "in force since"
		if today.Before(c.From) {
			state = "to come on"
		}
		fmt.Fprintf(w, "  %s %s: %s; %s\n", state, c.From, declare.ChangeText(c.Key), citeText(c.Cite))
	}
	showNames(w, m, today)
	showUnread(w, m)
	showCites(w, "not read again for a year", m.Stale(today.AddMonths(-12)))
}

// showNational says what the country adds on food sold loose or packed where it
// is sold: its language, and its words for additives.
func showNational(w io.Writer, n *market.National) {
	if n == nil {
		return
	}
	fmt.Fprintf(w, "\nof %s, for what is sold loose or packed where it is sold\n", n.Country)
	fmt.Fprintf(w, "  %-12s %-38s %s\n", "language", strings.Join(n.Languages.Codes, ", "), citeText(n.Languages.Cite))
	for _, x := range n.Additives {
		what := append(slices.Clone(x.Classes), x.Numbers...)
		fmt.Fprintf(w, "  %-12s %-38s %s\n", "words", strings.Join(what, ", "), citeText(x.Cite))
	}
}

// showUnread lists what nobody has read, with the names under which a shop signs
// for it; last what no label waits for.
func showUnread(w io.Writer, m *market.Market) {
	fmt.Fprint(w, "\nfrom memory: read them; what rests on a row with a name is a draft until shop.yaml signs for it under accept-unread\n")
	rest := m.Unread()
	for _, p := range m.UnreadPlaces() {
		rest = slices.DeleteFunc(rest, func(c market.Cite) bool { return c == p.Cite })
		fmt.Fprintf(w, "  %-20s %-12s %s\n", p.Mark(), p.Sale, p.Cite)
	}
	for _, c := range rest {
		fmt.Fprintf(w, "  %s\n", c)
	}
	if len(m.Unread()) == 0 {
		fmt.Fprintln(w, "  nothing")
	}
}

func showCites(w io.Writer, title string, all []market.Cite) {
	fmt.Fprintf(w, "\n%s\n", title)
	for _, c := range all {
		fmt.Fprintf(w, "  %s\n", citeText(c))
	}
	if len(all) == 0 {
		fmt.Fprintln(w, "  nothing")
	}
}

func saleText(s market.Sale) string {
	return map[market.Sale]string{market.Prepacked: "prepacked", market.Direct: "packed on the premises where it is sold",
		market.Loose: "sold loose", market.Remote: "before a purchase at a distance", market.Case: "cartons between businesses"}[s]
}

// dutyText says the duty of a row, and what it hangs on.
func dutyText(r market.Row) string {
	duty := map[market.Duty]string{market.Must: "due", market.When: "where it applies", market.Elsewhere: "by other means", market.Free: "free"}[r.Duty]
	switch r.Why {
	case market.SmallFace:
		return fmt.Sprintf("%s, face under %d cm²", duty, r.Face/unit.CM2)
	case market.SmallNet:
		return fmt.Sprintf("%s, under %s", duty, r.Net)
	case market.DayFresh:
		return duty + ", eaten within a day"
	case market.LocalSale:
		return duty + ", small maker, local sale"
	case market.DateLot:
		return duty + ", date shows the day"
	case market.UseByDate:
		return duty + ", with a use-by date"
	case market.HandedOver:
		return duty + ", handed over by staff"
	}
	if r.In != "" {
		return duty + ", or in the " + string(r.In)
	}
	return duty
}

// citeText says where a row stands and how it is known.
func citeText(c market.Cite) string {
	switch {
	case c.Memory:
		return c.String() + " (from memory)"
	case c.House:
		return c.String() + " (our own rule)"
	}
	via := ""
	if c.Via != "" {
		via = ", from " + c.Via
	}
	return c.String() + " (read " + c.Read + via + ")"
}
