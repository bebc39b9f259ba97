package counter

import (
	"net/http"
	"net/url"
	"slices"
	"strings"

	"chablon/cmd/internal/print"
)

// thing is what paper can be asked for: a product or a formula.
type thing struct {
	ID   string
	Name named
	More []link // its packs, where it has several
	Path string
}

// link is a way to another page.
type link struct {
	Text, Path string
	On         bool // it is the page that is shown
}

// choose lists the products, the formulas, and the paper of the shop.
func (a *ask) choose() error {
	if err := a.open(); err != nil {
		return err
	}
	find := strings.TrimSpace(a.r.FormValue("find"))
	out := struct {
		Find               string
		Products, Formulas []thing
		Sheets             []link
		Errors             int
	}{Find: find, Errors: a.press.Found.Errors()}
	for _, id := range a.press.Shop.ProductIDs {
		q := a.press.Shop.Products[id]
		t := thing{ID: id, Name: a.name(q.Name, id), Path: paperPath("label", id)}
		if len(q.Packs) > 1 {
			for _, p := range q.PackIDs() {
				t.More = append(t.More, link{Text: p, Path: t.Path + "&pack=" + url.QueryEscape(p)})
			}
		}
		if t.matches(find) {
			out.Products = append(out.Products, t)
		}
	}
	for _, id := range a.press.Shop.FormulaIDs {
		t := thing{ID: id, Name: a.name(a.press.Shop.Formulas[id].Name, id), Path: paperPath("card", id)}
		if t.matches(find) {
			out.Formulas = append(out.Formulas, t)
		}
	}
	for _, k := range print.Kinds() {
		if k.Short != "" && offered(k) && (k.Of == print.Plan || k.Of == print.Shop) {
			out.Sheets = append(out.Sheets, link{Text: a.Kind(k.Name), Path: "/paper?kind=" + k.Name})
		}
	}
	return a.show(http.StatusOK, "choose", a.W("choose"), out)
}

// matches reports whether a thing is looked for; capitals do not matter.
func (t thing) matches(find string) bool {
	low := strings.ToLower(find)
	return strings.Contains(strings.ToLower(t.Name.Text), low) || strings.Contains(t.ID, low)
}

// paperPath is the page for paper of a kind, of something.
func paperPath(kind, id string) string {
	return "/paper?" + url.Values{"kind": {kind}, "id": {id}}.Encode()
}

// kindsOf are the kinds of paper that there are of a product or formula.
func (a *ask) kindsOf(id, now string) (out []link) {
	for _, k := range print.Kinds() {
		if k.Short != "" && offered(k) && id != "" && slices.Contains(k.IDs(a.press), id) {
			out = append(out, link{Text: a.Kind(k.Name), Path: paperPath(k.Name, id), On: k.Name == now})
		}
	}
	return out
}
