// Package fonts answers: which faces do we ship?
//
// Two static TrueType faces, regular and bold, unchanged from their source.
// README.md here names each file, its licence and its hash.
package fonts

import (
	"crypto/sha256"
	_ "embed" // the font files
	"encoding/hex"
	"fmt"
)

//go:embed files/RobotoCondensed-Regular.ttf
var regular string

//go:embed files/RobotoCondensed-Bold.ttf
var bold string

// SHA-256 of the two files; README.md lists the same.
const (
	regularSum = "936069d5e46da383bff37b629a73e0bfb8b8ac7bc54cfb927fb700f6a890e9aa"
	boldSum    = "7f109b2b6d72e7563522d3c3d2c6c8b79ec5a711bfdf483b93e345eab5b5ef94"
)

// Regular is the whole file of the regular face; the caller owns the copy.
func Regular() []byte { return []byte(regular) }

// Bold is the whole file of the bold face; the caller owns the copy.
func Bold() []byte { return []byte(bold) }

// Check compares both faces with the hashes they were released with. A font
// cut short can still be drawn with, only without some of its letters, so
// whoever loads the faces checks first.
func Check() error {
	if err := check("regular", []byte(regular), regularSum); err != nil {
		return err
	}
	return check("bold", []byte(bold), boldSum)
}

func check(face string, file []byte, want string) error {
	sum := sha256.Sum256(file)
	if got := hex.EncodeToString(sum[:]); got != want {
		return fmt.Errorf("the %s face is damaged: its SHA-256 is %s, not %s", face, got, want)
	}
	return nil
}
