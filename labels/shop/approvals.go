package shop

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/unit"
)

// ApprovalsFile is the file of a shop that says who approved which facts. A
// shop in which nothing has been approved yet does not have it.
const ApprovalsFile = "approvals.yaml"

// PapersFile is the file that lists the paper in a folder of printed paper.
const PapersFile = "papers.sha256"

// Approvals is approvals.yaml.
type Approvals struct {
	Pos diag.Pos
	All []Approval `key:"approvals" must:"yes" help:"One entry for each product, pack and market; written by the program."`
}

// Approval is one signature: a person has read what a label says and stands
// by it. It holds as long as the facts have the digest.
type Approval struct {
	Pos         diag.Pos
	Product     Text               `key:"product" must:"yes" help:"Id of the product."`
	Pack        Text               `key:"pack" must:"yes" help:"Id of the pack."`
	Market      Text               `key:"market" must:"yes" help:"Code of the market."`
	Fingerprint Text               `key:"fingerprint" must:"yes" help:"Fingerprint of the facts that were read; never write it by hand."`
	By          Text               `key:"by" must:"yes" help:"Who approved."`
	On          diag.At[unit.Date] `key:"on" must:"yes" help:"Day of the approval."`
}

// is reports whether a and b approve the same thing. Codes of markets may
// differ in capitals.
func (a Approval) is(b Approval) bool {
	return a.Product.V == b.Product.V && a.Pack.V == b.Pack.V && strings.EqualFold(a.Market.V, b.Market.V)
}

// Find gives the approval of a product in a pack for a market, whatever its
// digest is.
func (a Approvals) Find(product, pack, market string) (Approval, bool) {
	key := Approval{Product: Text{V: product}, Pack: Text{V: pack}, Market: Text{V: market}}
	i := slices.IndexFunc(a.All, key.is)
	if i < 0 {
		return Approval{}, false
	}
	return a.All[i], true
}

// With gives the approvals with e put in, in place of the one for the same
// product, pack and market. The others stay as they are.
func (a Approvals) With(e Approval) Approvals {
	i := slices.IndexFunc(a.All, e.is)
	a.All = slices.Clone(a.All)
	if i < 0 {
		a.All = append(a.All, e)
	} else {
		a.All[i] = e
	}
	slices.SortStableFunc(a.All, func(x, y Approval) int {
		return cmp.Or(cmp.Compare(x.Product.V, y.Product.V), cmp.Compare(x.Pack.V, y.Pack.V),
			cmp.Compare(strings.ToLower(x.Market.V), strings.ToLower(y.Market.V)))
	})
	return a
}

// YAML writes the file, one entry after the other with one key a line, so that
// a change reads well in version control.
func (a Approvals) YAML() []byte {
	var b strings.Builder
	b.WriteString("# Who has read and approved what a label says. Written by: chablon approve.\n" +
		"# When the facts change, the fingerprint no longer fits, and nothing is printed for\n" +
		"# sale until somebody has approved them again.\n")
	if len(a.All) == 0 {
		b.WriteString("approvals: []\n")
		return []byte(b.String())
	}
	b.WriteString("approvals:\n")
	for _, e := range a.All {
		fmt.Fprintf(&b, "  - product: %s\n    pack: %s\n    market: %s\n    fingerprint: %s\n    by: %s\n    on: %s\n",
			scalar(e.Product.V), scalar(e.Pack.V), scalar(e.Market.V), scalar(e.Fingerprint.V), scalar(e.By.V), e.On.V)
	}
	return []byte(b.String())
}

var plainScalar = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9-]*(\.? [A-Za-z][A-Za-z0-9-]*)*\.?$`)

// scalar writes a text as YAML: as it is where nothing in it could be read
// otherwise, in quotes where something could.
func scalar(s string) string {
	reserved := slices.Contains([]string{"yes", "no", "true", "false", "null", "on", "off", "y", "n"}, strings.ToLower(s))
	if plainScalar.MatchString(s) && !reserved {
		return s
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
}

// approvals reads the file if there is one.
func (l *loader) approvals() {
	if _, err := fs.Lstat(l.fsys, ApprovalsFile); errors.Is(err, fs.ErrNotExist) {
		return
	}
	l.file(ApprovalsFile, &l.shop.Approvals, &l.shop.Approvals.Pos)
}

// digestForm is a digest: the number of its form, unless that is the first,
// and four groups of Base32 (RFC 4648).
var digestForm = regexp.MustCompile(`^(?:F([1-9][0-9]{0,3})-)?(?:[A-Z2-7]{4}-){3}[A-Z2-7]{4}$`)

// Form is the number of the form of the text that the digest was made of. The
// first form did not write its number. It is 0 for what is no digest.
func (a Approval) Form() int {
	m := digestForm.FindStringSubmatch(a.Fingerprint.V)
	switch {
	case m == nil:
		return 0
	case m[1] == "":
		return 1
	}
	n, _ := strconv.Atoi(m[1])
	return n
}

// approvals looks for entries that cannot count. An entry for what the shop no
// longer sells does no harm and is a caution.
func (c *checker) approvals() {
	for i, a := range c.Approvals.All {
		if !a.Product.Set() || !a.Pack.Set() || !a.Market.Set() || !a.Fingerprint.Set() {
			continue // reported by the reader
		}
		if slices.ContainsFunc(c.Approvals.All[:i], a.is) {
			c.wrong(a.Pos, "approval", "keep the one that is right, and approve it again", "%s in %s is approved for %s twice", a.Product.V, a.Pack.V, a.Market.V)
		}
		if !digestForm.MatchString(a.Fingerprint.V) {
			c.wrong(a.Fingerprint.Pos, "approval", "let chablon approve write it", "%q is not a fingerprint", a.Fingerprint.V)
		}
		c.approved(a)
	}
}

func (c *checker) approved(a Approval) {
	const hint = "take the entry out"
	p := c.Products[a.Product.V]
	if p == nil {
		if !c.refused[idLike(a.Product.V)] {
			c.caution(a.Product.Pos, "approval", hint, "the shop has no product %q", a.Product.V)
		}
		return
	}
	if _, ok := p.Pack(a.Pack.V); !ok && c.whole(p.Pos) {
		c.caution(a.Pack.Pos, "approval", hint, "%s has no pack %q", p.ID, a.Pack.V)
	}
	if _, ok := market.Get(a.Market.V); !ok {
		c.caution(a.Market.Pos, "approval", hint, "there is no market %q", a.Market.V)
	}
}
