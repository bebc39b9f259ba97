package text

import (
	"fmt"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// NoGlyph says that a letter cannot be drawn. Left alone it would come out as
// a hole in the text.
type NoGlyph struct {
	Rune rune
	Src  diag.Pos
}

func (e *NoGlyph) Error() string {
	return fmt.Sprintf("the character %q (U+%04X) is not in the fonts", e.Rune, e.Rune)
}

// Diag is the finding for the shop.
func (e *NoGlyph) Diag() diag.Diag {
	hint := "write it in other letters"
	if combining(e.Rune) {
		hint = "type the letter and its accent as one character"
	}
	return diag.Diag{Pos: e.Src, Rule: "glyph", Msg: e.Error(), Hint: hint}
}

// TooWide says that a word does not fit on a line of its own.
type TooWide struct {
	Word        string
	Need, Width unit.Length
	Src         diag.Pos
}

func (e *TooWide) Error() string {
	return fmt.Sprintf("%q is %.2f mm wide and there are %.2f mm", e.Word, e.Need.MM(), e.Width.MM())
}

// Diag is the finding for the shop.
func (e *TooWide) Diag() diag.Diag {
	return diag.Diag{Pos: e.Src, Rule: "too-wide", Msg: e.Error(),
		Hint: "take a larger label or a shorter word; words are never hyphenated here"}
}
