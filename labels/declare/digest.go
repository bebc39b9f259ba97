package declare

import (
	"crypto/sha256"
	"encoding/base32"
	"fmt"

	"chablon/labels/shop"
)

// Digest is a short fingerprint of all that a label says, but for what changes
// from day to day: the date itself and the batch code. Whoever approves the
// facts approves this digest; it is the same for the same facts, on any day
// and on any machine, and another as soon as anything said changes, in any
// language that the shop has words in.
//
// It names its [Form], and is made of the first 80 bits of the SHA-256 (FIPS
// 180-4) of [Facts.Canon], written in Base32 (RFC 4648): "F2-" and four groups
// of four letters and figures.
func (f *Facts) Digest() string {
	sum := sha256.Sum256([]byte(f.Canon()))
	s := base32.StdEncoding.EncodeToString(sum[:10])
	return fmt.Sprintf("F%d-%s-%s-%s-%s", Form, s[:4], s[4:8], s[8:12], s[12:])
}

// Standing is what a signature is worth for some facts.
type Standing int

// The standings of a signature.
const (
	Holds     Standing = iota // it is under these very facts
	Changed                   // it is under other facts
	OtherForm                 // its digest is of another form, so nothing can be compared
)

// Under tells what the signature a is worth for f. Only one that [Holds] lets
// anything be sold.
func (f *Facts) Under(a shop.Approval) Standing {
	switch {
	case a.Form() != Form:
		return OtherForm
	case a.Fingerprint.V != f.Digest():
		return Changed
	}
	return Holds
}
