package fonts

import "encoding/binary"

// Table is the part of a TrueType file with the given tag (OpenType 1.9, table
// directory), nil when there is none or it lies outside of the file.
func Table(file []byte, tag string) []byte {
	if len(file) < 12 {
		return nil
	}
	for i := 12; i < 12+16*int(binary.BigEndian.Uint16(file[4:])) && i+16 <= len(file); i += 16 {
		if string(file[i:i+4]) != tag {
			continue
		}
		from, n := uint64(binary.BigEndian.Uint32(file[i+8:])), uint64(binary.BigEndian.Uint32(file[i+12:]))
		if from+n <= uint64(len(file)) {
			return file[from : from+n]
		}
	}
	return nil
}
