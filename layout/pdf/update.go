package pdf

import (
	"bufio"
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"fmt"
	"hash"
	"io"
	"slices"
	"strings"
	"sync"
	"unicode/utf16"
)

// Objects that gopdf always puts first.
const (
	catalogID   = 1
	resourcesID = 4
)

// write ends the document: gopdf's part, then the update.
func (b *book) write(w io.Writer) error {
	s := &sink{w: bufio.NewWriterSize(w, 1<<16), sum: sha256.New()}
	next, err := b.pour(s)
	if err != nil {
		return err
	}
	b.finish(&update{sink: s, next: next, packers: &b.inks.faces.packers})
	if err := s.w.Flush(); err != nil {
		return fmt.Errorf("writing the document: %w", err)
	}
	return nil
}

// pour adds the typefaces and lets gopdf write; it may do so only once. It
// gives the first object number that is free.
func (b *book) pour(s *sink) (next int, err error) {
	defer caught(&err)
	for i := range b.inks.used {
		if k := &b.inks.used[i]; k.any {
			if err := k.addTo(&b.gp); err != nil {
				return 0, fmt.Errorf("adding the %s typeface: %w", k.name, err)
			}
		}
	}
	next = b.gp.GetNextObjectID()
	if _, err := b.gp.WriteTo(s); err != nil {
		return 0, fmt.Errorf("writing the document: %w", err)
	}
	return next, nil
}

// finish writes the objects that gopdf left out or wrote too coarsely.
func (b *book) finish(u *update) {
	u.put(catalogID, "<< /Type /Catalog /Pages 2 0 R"+lang(b.doc.Lang)+
		" /ViewerPreferences << /PrintScaling /None /DisplayDocTitle true >> >>")
	faces := b.faceObjects(u)
	var names strings.Builder
	var pictures strings.Builder
	for i, pic := range b.shown.all {
		fmt.Fprintf(&pictures, " /P%d %d 0 R", i, u.imageObject(pic))
	}
	for i, f := range b.forms {
		fmt.Fprintf(&names, " /A%d %d 0 R", i, u.formObject(f, faces, pictures.String()))
	}
	names.WriteString(pictures.String())
	u.put(resourcesID, fmt.Sprintf("<< /Font <<%s >> /XObject <<%s >> >>", faces, names.String()))
	u.end(u.add(b.info()))
}

func lang(tag string) string {
	if tag == "" {
		return ""
	}
	return " /Lang (" + tag + ")"
}

// info is the information dictionary, 14.3.3.
func (b *book) info() string {
	var s strings.Builder
	s.WriteString("<< /Producer (chablon)")
	if b.doc.Title != "" {
		fmt.Fprintf(&s, " /Title <%X>", textString(b.doc.Title))
	}
	if !b.doc.Made.IsZero() {
		s.WriteString(" /CreationDate (D:" + b.doc.Made.UTC().Format("20060102150405") + "Z)")
	}
	s.WriteString(" >>")
	return s.String()
}

// textString writes s as UTF-16 with its byte order mark, 7.9.2.2. Control
// characters become blanks; one of them would begin the code of a language.
func textString(s string) []byte {
	out := []byte{0xFE, 0xFF}
	for _, u := range utf16.Encode([]rune(s)) {
		if u < ' ' {
			u = ' '
		}
		out = append(out, byte(u>>8), byte(u))
	}
	return out
}

// faceObjects replaces what gopdf wrote about each typeface, all but the font
// file itself, and gives the entries for a resource dictionary.
func (b *book) faceObjects(u *update) string {
	var names strings.Builder
	for i := range b.inks.used {
		k := &b.inks.used[i]
		if !k.any {
			continue
		}
		name := subsetName(k)
		u.put(k.id, u.stream("", []byte(k.backToText())))
		u.put(k.id+2, k.descriptor(name))
		if k.own != nil {
			file := k.embedded()
			u.put(k.id+1, u.stream(fmt.Sprintf(" /Length1 %d", len(file)), file))
		}
		u.put(k.id+3, k.cidFont(name))
		u.put(k.id+4, fmt.Sprintf("<< /Type /Font /Subtype /Type0 /BaseFont /%s /Encoding /Identity-H"+
			" /DescendantFonts [%d 0 R] /ToUnicode %d 0 R >>", name, k.id+3, k.id))
		fmt.Fprintf(&names, " /F%d %d 0 R", i, k.id+4)
	}
	return names.String()
}

// embedded is the file of a face of a shop's own: with the glyphs that are used,
// or whole where its licence asks for that or it cannot be parted.
func (k *ink) embedded() []byte {
	if k.own.Whole {
		return k.own.File
	}
	var used []uint16
	for g := range k.eachGlyph {
		used = append(used, g)
	}
	file, err := subset(k.own.File, used)
	if err != nil {
		return k.own.File
	}
	return file
}

// subsetName is the name of a face in part, 9.6.4: six letters that differ
// with the characters it holds.
func subsetName(k *ink) string {
	sum := sha256.Sum256([]byte(k.font + k.text()))
	tag := sum[:6]
	for i := range tag {
		tag[i] = 'A' + tag[i]%26
	}
	return string(tag) + "+" + k.font
}

// descriptor is the font descriptor, 9.8; the flag says that the characters
// go beyond the Latin ones of old, and a stem width of 0 that it is not known.
func (k *ink) descriptor(name string) string {
	m := &k.metrics
	return fmt.Sprintf("<< /Type /FontDescriptor /FontName /%s /Flags 4 /FontBBox [%d %d %d %d] /ItalicAngle 0"+
		" /Ascent %d /Descent %d /CapHeight %d /XHeight %d /StemV 0 /FontFile2 %d 0 R >>",
		name, k.em(m.XMin()), k.em(m.YMin()), k.em(m.XMax()), k.em(m.YMax()),
		k.em(m.TypoAscender()), k.em(m.TypoDescender()), k.em(m.CapHeight()), k.em(m.XHeight()), k.id+1)
}

// cidFont lists the width of each glyph to a ten-thousandth of an em, 9.7.4.
func (k *ink) cidFont(name string) string {
	var w strings.Builder
	for g := range k.eachGlyph {
		n := k.width(g)
		fmt.Fprintf(&w, " %d [%d.%d]", g, n/10, n%10)
	}
	return fmt.Sprintf("<< /Type /Font /Subtype /CIDFontType2 /BaseFont /%s /FontDescriptor %d 0 R"+
		" /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >>"+
		" /CIDToGIDMap /Identity /DW 500 /W [%s ] >>", name, k.id+2, w.String())
}

// formObject adds an artwork, 8.10. Its box is a hand wider than the artwork,
// so that an overhanging letter is not cut.
func (u *update) formObject(f form, faces, pictures string) int {
	const over = 14_400
	dict := []byte("/Type /XObject /Subtype /Form /BBox [")
	for _, v := range []int64{-over, -over, f.w + over, f.h + over} {
		dict = append(appendMilli(dict, v), ' ')
	}
	if pictures != "" {
		pictures = " /XObject <<" + pictures + " >>"
	}
	dict = fmt.Appendf(dict, "] /Resources << /Font <<%s >>%s >> ", faces, pictures)
	return u.add(u.stream(string(dict), f.ops))
}

// stream packs data and makes a stream object of it.
func (u *update) stream(dict string, data []byte) string {
	var z bytes.Buffer
	zip := u.packers.Get().(*zlib.Writer)
	defer u.packers.Put(zip)
	zip.Reset(&z)
	zip.Write(data) // a Buffer takes everything
	zip.Close()
	return fmt.Sprintf("<< %s/Filter /FlateDecode /Length %d >>\nstream\n%s\nendstream", dict, z.Len(), z.Bytes())
}

// A sink counts and sums what it passes on. gopdf drops the errors of its
// writer; the buffer keeps the first one until Flush.
type sink struct {
	w    *bufio.Writer
	n    int64
	sum  hash.Hash
	xref int64 // where the last cross reference table begins
}

func (s *sink) Write(p []byte) (int, error) {
	if string(p) == "xref\n" {
		s.xref = s.n
	}
	s.n += int64(len(p))
	s.sum.Write(p)
	return s.w.Write(p)
}

// An update is the part after gopdf's end of file, 7.5.6.
type update struct {
	*sink
	next    int // first free object number
	objs    []placedObject
	packers *sync.Pool
}

type placedObject struct {
	id int
	at int64
}

func (u *update) add(body string) int {
	u.next++
	u.put(u.next-1, body)
	return u.next - 1
}

func (u *update) put(id int, body string) {
	u.objs = append(u.objs, placedObject{id, u.n})
	fmt.Fprintf(u, "%d 0 obj\n%s\nendobj\n", id, body)
}

// end writes the cross reference table and the trailer, 7.5.4 and 7.5.5. The
// identifier is a sum over all that stands before.
func (u *update) end(info int) {
	prev := u.xref
	slices.SortFunc(u.objs, func(a, b placedObject) int { return a.id - b.id })
	start := u.n
	io.WriteString(u, "xref\n")
	for rest := u.objs; len(rest) > 0; {
		n := 1
		for n < len(rest) && rest[n].id == rest[0].id+n {
			n++
		}
		fmt.Fprintf(u, "%d %d\n", rest[0].id, n)
		for _, o := range rest[:n] {
			fmt.Fprintf(u, "%010d 00000 n \n", o.at)
		}
		rest = rest[n:]
	}
	id := u.sum.Sum(nil)[:16]
	fmt.Fprintf(u, "trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R /Prev %d /ID [<%X> <%X>] >>\nstartxref\n%d\n%%%%EOF\n",
		u.next, catalogID, info, prev, id, id, start)
}
