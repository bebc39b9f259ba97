package shop

import (
	"path"
	"slices"
	"strings"
)

// MadeOf gives the ids of all that a product or a formula is made of, however
// deep, its own first: ingredients, formulas and products, what may take the
// place of another, and what something is cooked in. Ids that nothing bears
// are among them, so that a file that could not be read is not overlooked.
func (s *Shop) MadeOf(id string) []string {
	out, seen := []string{id}, map[string]bool{id: true}
	for at := 0; at < len(out); at++ {
		for _, next := range s.linked(out[at]) {
			if next != "" && !seen[next] {
				seen[next] = true
				out = append(out, next)
			}
		}
	}
	return out
}

// linked gives the ids that the file of a formula or a product names as parts
// of it.
func (s *Shop) linked(id string) (out []string) {
	var lines []Line
	if f := s.Formulas[id]; f != nil {
		lines = f.Lines
		if f.CookedIn != nil {
			out = append(out, f.CookedIn.Use.V)
		}
	}
	if p := s.Products[id]; p != nil {
		lines = slices.Concat(lines, p.Lines())
	}
	for _, l := range lines {
		out = append(out, l.Use.V, l.Or.V)
	}
	return out
}

// IDOf gives the id of the ingredient, formula or product that a file of the
// shop is about; false for every other file. Where the name of the file cannot
// be an id, it is the one that was probably meant.
func IDOf(file string) (string, bool) {
	dir, name := path.Split(file)
	name, yaml := strings.CutSuffix(name, ".yaml")
	if !yaml || !slices.Contains([]string{"ingredients/", "formulas/", "products/"}, dir) {
		return "", false
	}
	return idLike(name), true
}
