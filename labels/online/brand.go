package online

import (
	"encoding/base64"
	"html/template"
)

// Brand is how the business shows itself at the head of a page. It says nothing
// that the label says, and stands on no page of a batch that is withdrawn: that
// is said before anything else.
type Brand struct {
	Drawing *Drawing // the emblem as a drawing, in the colour of the reader's letters
	Picture []byte   // or as a PNG; nil for none
	Written []string // lines of the name beside it; with none the emblem speaks for the business
	Under   string   // a word below them
	Divider string   // "stone", "thin" or "none"
}

// Drawing is a path of SVG (its attribute d) and the size of its viewBox.
type Drawing struct{ Path, W, H string }

// brandStyle is what the head adds to the style of the page. Its letters are no
// smaller than the reader's.
const brandStyle = `header { align-items: center; border-bottom: 0.1rem solid; display: flex; flex-wrap: wrap; gap: 0.5rem 1rem; line-height: 1.15; padding-bottom: 1rem; position: relative; }
header.none { border-bottom: 0; }
header.stone::after { border-bottom: 0.3rem solid; bottom: -0.1rem; content: ""; inset-inline-start: 0; position: absolute; width: 4rem; }
header svg, header img { flex: none; height: 4.5rem; max-width: 40%; }
header svg { fill: CanvasText; }
header img { background: white; object-fit: contain; padding: 0.25rem; }
header p { margin: 0; }
header .name { font-size: 1.5em; font-weight: bold; }
header .under { font-weight: bold; letter-spacing: 0.15em; text-transform: uppercase; }
`

// head is the brand where it stands on the page, else nil.
func (p Page) head() *Brand {
	if len(p.Stop) > 0 {
		return nil
	}
	return p.Brand
}

// style is that of the page.
func (p Page) style() string {
	if p.head() == nil {
		return style
	}
	return style + brandStyle
}

// picture is the emblem as an address that holds it: html/template passes none
// of the scheme data, but this one is a picture whatever its bytes are.
func (p Page) picture() template.URL {
	if p.head() == nil || p.Brand.Picture == nil || p.Brand.Drawing != nil {
		return ""
	}
	return template.URL("data:image/png;base64," + base64.StdEncoding.EncodeToString(p.Brand.Picture))
}
