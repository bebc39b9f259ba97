package pdf_test

import (
	"bytes"
	"slices"
	"testing"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pdf"
)

// A picture that stands on many pages is in the file once; another one is
// another object.
func TestOneObjectAPicture(t *testing.T) {
	gray := bytes.Repeat([]byte{0, 255}, 50)
	show := func(digest string) *page.Page {
		it := page.Item{Box: page.Rect{X: unit.MM, Y: unit.MM, W: 40 * unit.MM, H: 40 * unit.MM}, Role: role.Note,
			Picture: &page.Picture{W: 10, H: 10, Gray: gray, Digest: digest}}
		return &page.Page{W: 100 * unit.MM, H: 100 * unit.MM, Items: []page.Item{it, it.Moved(50*unit.MM, 0)}}
	}
	var out bytes.Buffer
	doc := pdf.Doc{Title: "t", Pages: slices.Values([]*page.Page{show("a"), show("a"), show("b")})}
	if err := pdf.Write(&out, doc); err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(out.Bytes(), []byte("/Subtype /Image")); n != 2 {
		t.Errorf("%d image objects for two pictures", n)
	}
	bad := show("c")
	bad.Items[0].Picture.Gray = gray[:7]
	if err := pdf.Write(&out, pdf.Doc{Pages: slices.Values([]*page.Page{bad})}); err == nil {
		t.Error("a picture without all its pixels is drawn")
	}
}
