package online

import (
	"encoding/json"
	"io"
	"strings"
)

// vocabulary begins the link types of the GS1 Web Vocabulary.
const vocabulary = "https://ref.gs1.org/voc/"

// linkset is a set of links in JSON (RFC 9264, 4.2).
type linkset struct {
	Linkset []map[string]any `json:"linkset"`
}

// target is where a link leads (RFC 9264, 4.2.3 and 4.2.4).
type target struct {
	Href     string   `json:"href"`
	Type     string   `json:"type"`
	Hreflang []string `json:"hreflang"`
	Title    string   `json:"title"`
}

// Linkset writes where the Digital Link leads, for a resolver: the page is the
// default, and tells of the product, its ingredients and allergens and its
// nutrition; where the batch is withdrawn, that too.
func (p Page) Linkset(w io.Writer) error {
	to := target{Href: strings.TrimSuffix(p.Link, "/") + "/", Type: "text/html", Title: p.names()[0].Name}
	for _, l := range p.langs() {
		to.Hreflang = append(to.Hreflang, l.Code())
	}
	kinds := []string{"defaultLink", "pip"}
	if len(p.Said) > 0 {
		kinds = append(kinds, "ingredientsInfo", "allergenInfo")
		if p.Said[0].Label.Table != nil {
			kinds = append(kinds, "nutritionalInfo")
		}
	}
	if len(p.Stop) > 0 {
		kinds = append(kinds, "recallStatus")
	}
	context := map[string]any{"anchor": p.Link}
	for _, k := range kinds {
		context[vocabulary+k] = []target{to}
	}
	out := json.NewEncoder(w)
	out.SetEscapeHTML(false)
	out.SetIndent("", "  ")
	return out.Encode(linkset{[]map[string]any{context}})
}
