// Package samples answers: how does a whole shop look?
//
// It holds the folder of an invented pastry kitchen: 38 ingredients with their
// specifications, 12 formulas, 7 products, a customer and two plans. Whoever starts a shop
// copies it and changes it; tests print from it. Its people, suppliers and
// assessments are made up, and so are the figures of every "supplier
// specification"; figures with a table and a code are that table's.
package samples

import (
	"embed"
	"io/fs"
)

// Name is the folder of the demo shop.
const Name = "quoin-and-crumb"

//go:embed quoin-and-crumb
var shop embed.FS

// WorkshopName is the folder of the workshop of the same house.
const WorkshopName = "crumb-workshop"

//go:embed crumb-workshop
var workshop embed.FS

// Workshop is the folder of the workshop: five formulas, each with something
// that a step can say. It can only be read.
func Workshop() fs.FS {
	return below(workshop, WorkshopName)
}

// FirstName is the folder of the shop that somebody new begins with.
const FirstName = "first-shop"

//go:embed first-shop
var first embed.FS

// First is the folder of a shop that is as small as one can be and prints: three
// ingredients, a formula, a product and a plan, with questions as comments. What
// must become the user's own says EXAMPLE. It can only be read.
func First() fs.FS {
	return below(first, FirstName)
}

// Demo is the folder of the demo shop, with shop.yaml at its top. It can only
// be read.
func Demo() fs.FS {
	return below(shop, Name)
}

// below is a folder of what is embedded.
func below(all embed.FS, dir string) fs.FS {
	sub, err := fs.Sub(all, dir)
	if err != nil {
		return all // the names above are valid paths, so this is never reached
	}
	return sub
}
