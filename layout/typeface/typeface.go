// Package typeface answers: may this face of the shop's own be printed with?
//
// [Read] takes a TrueType file and the licence that lies beside it and gives
// what a label needs to know of the face, measured in its outlines and not
// taken on trust: how high its x is, how thin its thinnest stroke, which letters
// it has. The name of the food is set in it, and is a word of the law. Findings
// say which file, and what to do.
package typeface

import (
	"bytes"
	"fmt"
	"unicode"
	"unicode/utf8"

	"golang.org/x/image/font/sfnt"

	"chablon/fonts"
	"chablon/labels/diag"
	"chablon/labels/unit"
)

// What a file may hold at most, in bytes.
const (
	MaxFace    = 4 << 20
	MaxLicence = 256 << 10
)

// File is one file of the shop's folder. Src is the place that names it.
type File struct {
	Name string
	Data []byte
	Src  diag.Pos
}

// Face is a face that may be printed with, never changed once it is read.
// Lengths are in units of the design, Em of which are one em.
type Face struct {
	File
	Em     int64
	X, Cap int64 // height of the x and of the capitals, as they are drawn
	Thin   int64 // thinnest stroke of the letters a, e, n, o and t
	Whole  bool  // its licence bits ask that it is embedded whole
	Lining bool  // its figures are of one height and stand on the line

	letters map[rune]sfnt.GlyphIndex // that have an outline, or are a blank
}

// Read reads a face. It gives nil, and at least one error in found, for what
// may not be printed with; whatever is in the file, it comes to an end.
func Read(file, licence File, found *diag.List) *Face {
	r := &reader{Face: &Face{File: file}, found: found}
	r.licence(licence)
	if r.whole() && r.outlines() {
		r.embedding()
		r.measures()
	}
	if r.bad {
		return nil
	}
	return r.Face
}

// Missing tells the first letter of s that the face cannot draw. Letters that
// are never drawn (soft hyphen, joiners) are not missing.
func (f *Face) Missing(s string) (rune, bool) {
	for _, r := range s {
		if _, ok := f.letters[r]; !ok && !unicode.Is(unicode.Cf, r) {
			return r, true
		}
	}
	return 0, false
}

// Covers finds the first letter of a text that the face lacks, before anything
// is printed: it is never replaced by a letter of another face.
func (f *Face) Covers(t diag.At[string], found *diag.List) {
	if r, missing := f.Missing(t.V); missing {
		found.Errorf(t.Pos, "typeface", "write it in other letters, or take another face", "the face %s has no %q (U+%04X), which is in %q", f.Name, r, r, t.V)
	}
}

// LeastSize is the smallest size, of the em, at which the thinnest stroke is
// two dots; 0 for a printer whose dots are not known.
func (f *Face) LeastSize(d unit.Dots) unit.Length {
	two := d.At(2)
	return unit.Length((int64(two)*f.Em + f.Thin - 1) / f.Thin)
}

// A reader reads one face.
type reader struct {
	*Face
	found *diag.List
	bad   bool
	font  *sfnt.Font
	ink   map[rune]outline // of the letters that are measured
	drawn int              // points of all letters so far
}

// refuse tells why the face may not be printed with.
func (r *reader) refuse(hint, format string, args ...any) bool {
	r.bad = true
	r.found.Errorf(r.place(r.File), "typeface", hint, "the face %s %s", r.Name, fmt.Sprintf(format, args...))
	return false
}

func (r *reader) place(f File) diag.Pos {
	if f.Src.Known() {
		return f.Src
	}
	return diag.Pos{File: f.Name}
}

// licence asks that the words lie beside the face under which it is used.
func (r *reader) licence(l File) {
	say := func(hint, what string) {
		r.bad = true
		r.found.Errorf(r.place(l), "licence", hint, "the licence %s of the face %s %s", l.Name, r.Name, what)
	}
	switch {
	case len(bytes.TrimSpace(l.Data)) == 0:
		say("copy the licence that came with the face into this file", "is empty")
	case len(l.Data) > MaxLicence || !utf8.Valid(l.Data):
		say("save it as plain text", "is no text")
	}
}

// embedding reads what the maker of the face allows: fsType of the table OS/2.
// Where several of its lower bits are set, the one that allows most counts.
func (r *reader) embedding() {
	os2 := fonts.Table(r.Data, "OS/2")
	bits := int(os2[8])<<8 | int(os2[9])
	r.Whole = bits&0x0100 != 0
	switch {
	case bits&0x0200 != 0:
		r.refuse("ask its maker for one that may be embedded", "may be embedded as a picture of dots alone")
	case bits&0x8 != 0 || bits&0x6 == 0:
	case bits&0x4 != 0:
		r.found.Warnf(r.place(r.File), "typeface", "read its licence before PDFs are handed on", "the face %s may be embedded for looking at and printing alone", r.Name)
	default:
		r.refuse("ask its maker for one that may be embedded", "may not be embedded")
	}
}
