// Package samples answers: how does a whole shop look?
//
// It holds the folder of an invented pastry kitchen: 38 ingredients with their
// specifications, 12 formulas, 6 products and two plans. Whoever starts a shop
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

// Demo is the folder of the demo shop, with shop.yaml at its top. It can only
// be read.
func Demo() fs.FS {
	sub, err := fs.Sub(shop, Name)
	if err != nil {
		return shop // Name is a valid path, so this is never reached
	}
	return sub
}
