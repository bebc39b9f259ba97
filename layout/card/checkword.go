package card

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"strings"

	"chablon/labels/diag"
)

// Letters of check words: syllables of a consonant and a vowel. Left out are
// letters that a smudge or a quick eye takes for another or for a figure (B 8,
// E F, G 6, I 1 L in small, O 0 Q D, P R, S 5, U V, Z 2, M N W) and such as
// are spoken differently from language to language; one of each group stays.
const (
	consonants = "KLMRTY"
	vowels     = "AEU"
	syllables  = len(consonants) * len(vowels)
)

// CheckWord is a short word made from all that the card says: the same content
// gives the same word, on any paper, whichever copy it is and wherever it
// hangs. What a print adds and the shop's files do not ask for is left out:
// other batch sizes, clock times, shares of a base. Of 88,434 words, a changed card keeps its own by chance. A card that
// cannot be set has none.
func CheckWord(c Card) string {
	var found diag.List
	said := tell(c, &found)
	if found.Errors() > 0 {
		return ""
	}
	return said.Word
}

// checkWord makes the word: four syllables, none like the one before.
func (c *content) checkWord() string {
	sum := sha256.Sum256([]byte(strings.Join(c.lines(), "\n")))
	n := binary.BigEndian.Uint64(sum[:8])
	var b strings.Builder
	last := syllables
	for i := range 4 {
		of := uint64(syllables)
		if i > 0 {
			of--
		}
		at := int(n % of)
		n /= of
		if at >= last {
			at++
		}
		last = at
		if i == 2 {
			b.WriteByte('-')
		}
		b.WriteByte(consonants[at/len(vowels)])
		b.WriteByte(vowels[at%len(vowels)])
	}
	return b.String()
}

// lines is all that the card says, one text a line, in the order of reading.
func (c *content) lines() []string {
	w := &lister{}
	w.told(c.Name, c.Size, c.Allergens, c.None, c.Small)
	w.text(c.Version, c.Issued, c.Approved)
	for _, f := range c.Facts {
		w.told(f.What, f.Value)
	}
	if c.Times != nil {
		w.text(c.Times.Total, c.Times.Hands)
	}
	for _, l := range c.Lanes {
		w.text(l.Letter, l.Total)
		w.told(l.Name, l.Makes, l.Deposit, l.Keep)
	}
	for _, r := range c.Rows {
		w.text(fmt.Sprint(r.Lane, r.Again))
		if r.Step != nil {
			w.step(r.Step)
		}
	}
	w.told(c.Clashes...)
	w.told(c.Balance)
	w.told(c.Keep...)
	w.told(c.Cautions...)
	w.told(c.Rules...)
	return w.all
}

// lister gathers texts; an empty one keeps its place.
type lister struct{ all []string }

func (w *lister) text(s ...string) { w.all = append(w.all, s...) }

func (w *lister) told(ts ...told) {
	for _, t := range ts {
		w.text(strings.Join(t.In, "\t"))
	}
}

func (w *lister) step(s *step) {
	w.text(fmt.Sprint(s.No), s.Hands, s.Wait, s.Total)
	w.told(s.Do, s.Short, s.Tool, s.Look, s.CanWait, s.Keep)
	if s.Weight != nil {
		w.told(s.Weight.Pan)
		w.text(s.Weight.More)
	}
	for _, p := range append(s.Puts[:len(s.Puts):len(s.Puts)], s.Later...) {
		w.text(p.Letter, p.Amount, fmt.Sprint(p.Small, p.Aside))
		w.told(p.Name)
		w.told(p.Hints...)
	}
	for _, h := range s.Heats {
		w.heat(h)
	}
	if l := s.Limit; l != nil {
		w.text("limit")
		if l.Heat != nil {
			w.heat(*l.Heat)
		}
		w.told(l.From, l.Within, l.Hold, l.Measure, l.IfNot)
		w.text(fmt.Sprint(l.Record))
	}
	w.told(s.Cautions...)
	if s.Picture != nil {
		w.text(s.Picture.Digest)
		w.told(s.Picture.Says)
	}
	for _, x := range s.Says {
		w.told(x.Said)
	}
	for _, a := range s.Advice {
		w.told(a.Said)
	}
}

func (w *lister) heat(h heat) {
	w.text(h.Lead, h.Other)
	w.told(h.What)
}
