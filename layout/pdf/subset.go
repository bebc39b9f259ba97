package pdf

import (
	"encoding/binary"
	"errors"
	"slices"
)

// carried are the tables of a TrueType file that a reader of PDF needs, 9.9.
func carried() []string {
	return []string{"cvt ", "fpgm", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "prep"}
}

// subset is a TrueType file with the outlines of some glyphs alone, and of all
// that these are made of, however deep; glyphs keep their numbers. The library
// follows parts of glyphs, but not their parts, which faces of a shop's own have.
func subset(file []byte, glyphs []uint16) ([]byte, error) {
	tables := tablesOf(file)
	glyf, loca, head := tables["glyf"], tables["loca"], tables["head"]
	if len(head) < 54 || len(glyf) == 0 || len(loca) < 4 {
		return nil, errors.New("it has no TrueType outlines")
	}
	s := &subsetter{glyf: glyf, loca: loca, long: binary.BigEndian.Uint16(head[50:]) == 1, keep: map[int]bool{0: true}}
	for _, g := range glyphs {
		s.take(int(g))
	}
	tables["glyf"], tables["loca"] = s.tables()
	return fontFile(tables), nil
}

// tablesOf are the tables of a font file by their tags.
func tablesOf(file []byte) map[string][]byte {
	out := map[string][]byte{}
	if len(file) < 12 {
		return out
	}
	for i := 12; i < 12+16*int(binary.BigEndian.Uint16(file[4:])) && i+16 <= len(file); i += 16 {
		from, n := uint64(binary.BigEndian.Uint32(file[i+8:])), uint64(binary.BigEndian.Uint32(file[i+12:]))
		if from+n <= uint64(len(file)) {
			out[string(file[i:i+4])] = file[from : from+n]
		}
	}
	return out
}

// A subsetter gathers the glyphs that are kept.
type subsetter struct {
	glyf, loca []byte
	long       bool
	keep       map[int]bool
}

// glyphs is how many glyphs the face has.
func (s *subsetter) glyphs() int {
	if s.long {
		return len(s.loca)/4 - 1
	}
	return len(s.loca)/2 - 1
}

// outline is what the file says of glyph g.
func (s *subsetter) outline(g int) []byte {
	if g >= s.glyphs() {
		return nil
	}
	from, to := 2*int(binary.BigEndian.Uint16(s.loca[2*g:])), 2*int(binary.BigEndian.Uint16(s.loca[2*g+2:]))
	if s.long {
		from, to = int(binary.BigEndian.Uint32(s.loca[4*g:])), int(binary.BigEndian.Uint32(s.loca[4*g+4:]))
	}
	if from > to || to > len(s.glyf) {
		return nil
	}
	return s.glyf[from:to]
}

// take keeps glyph g and what it is made of.
func (s *subsetter) take(g int) {
	if s.keep[g] {
		return
	}
	s.keep[g] = true
	for _, part := range partsOf(s.outline(g)) {
		s.take(part)
	}
}

// partsOf are the glyphs that an outline is made of; none where it is drawn.
func partsOf(o []byte) (out []int) {
	if len(o) < 10 || int16(binary.BigEndian.Uint16(o)) >= 0 {
		return nil
	}
	for i := 10; i+4 <= len(o); {
		flags := binary.BigEndian.Uint16(o[i:])
		out = append(out, int(binary.BigEndian.Uint16(o[i+2:])))
		i += 6
		if flags&1 != 0 { // offsets are words
			i += 2
		}
		switch {
		case flags&8 != 0: // one scale
			i += 2
		case flags&0x40 != 0: // one for x and one for y
			i += 4
		case flags&0x80 != 0: // two by two
			i += 8
		}
		if flags&0x20 == 0 { // no more parts
			break
		}
	}
	return out
}

// tables are the outlines that are kept, and where each begins.
func (s *subsetter) tables() (glyf, loca []byte) {
	put := func() {
		if s.long {
			loca = binary.BigEndian.AppendUint32(loca, uint32(len(glyf)))
		} else {
			loca = binary.BigEndian.AppendUint16(loca, uint16(len(glyf)/2))
		}
	}
	for g := range s.glyphs() {
		put()
		if s.keep[g] {
			glyf = append(glyf, s.outline(g)...)
			glyf = append(glyf, make([]byte, -len(glyf)&3)...)
		}
	}
	put()
	return glyf, loca
}

// fontFile puts tables into a file.
func fontFile(tables map[string][]byte) []byte {
	var tags []string
	for _, tag := range carried() {
		if len(tables[tag]) > 0 {
			tags = append(tags, tag)
		}
	}
	slices.Sort(tags)
	n, most, log := len(tags), 1, 0
	for most*2 <= n {
		most, log = most*2, log+1
	}
	out := []byte{0, 1, 0, 0}
	for _, v := range []int{n, most * 16, log, (n - most) * 16} {
		out = binary.BigEndian.AppendUint16(out, uint16(v))
	}
	var body []byte
	for _, tag := range tags {
		data := tables[tag]
		out = append(out, tag...)
		for _, v := range []uint32{sum(data), uint32(12 + 16*n + len(body)), uint32(len(data))} {
			out = binary.BigEndian.AppendUint32(out, v)
		}
		body = append(body, data...)
		body = append(body, make([]byte, -len(body)&3)...)
	}
	return append(out, body...)
}

// sum is the checksum of a table.
func sum(data []byte) (out uint32) {
	for len(data) >= 4 {
		out, data = out+binary.BigEndian.Uint32(data), data[4:]
	}
	last := [4]byte{}
	copy(last[:], data)
	return out + binary.BigEndian.Uint32(last[:])
}
