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
	"chablon/labels/read"
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

	index map[approvalKey]int // place in All; nil where it was not made
}

// approvalKey is what an approval is of.
type approvalKey struct{ product, pack, market, batch string }

// key is what a is of. Codes of markets may differ in capitals.
func (a Approval) key() approvalKey {
	return approvalKey{a.Product.V, a.Pack.V, strings.ToLower(a.Market.V), a.Batch.V}
}

// indexed is a with its index, in which the first of two entries for one thing
// stands.
func (a Approvals) indexed() Approvals {
	a.index = make(map[approvalKey]int, len(a.All))
	for i, e := range a.All {
		if _, ok := a.index[e.key()]; !ok {
			a.index[e.key()] = i
		}
	}
	return a
}

// Approval is one signature: a person has read what a label says and stands
// by it. It holds as long as the facts have the digest.
type Approval struct {
	Pos         diag.Pos
	Product     Text               `key:"product" must:"yes" help:"Id of the product."`
	Pack        Text               `key:"pack" must:"yes" help:"Id of the pack."`
	Market      Text               `key:"market" must:"yes" help:"Code of the market." list:"market"`
	Batch       Text               `key:"batch" help:"Batch code, where the signature is for one batch that is made otherwise."`
	Fingerprint Text               `key:"fingerprint" must:"yes" help:"Fingerprint of the facts that were read; never write it by hand."`
	By          Text               `key:"by" must:"yes" help:"Who approved."`
	On          diag.At[unit.Date] `key:"on" must:"yes" help:"Day of the approval."`
}

// Find gives the approval of a product in a pack for a market, whatever its
// digest is.
func (a Approvals) Find(product, pack, market string) (Approval, bool) {
	return a.FindBatch(product, pack, market, "")
}

// FindBatch gives the approval of one batch that is made otherwise; of the
// product as it is with "".
func (a Approvals) FindBatch(product, pack, market, batch string) (Approval, bool) {
	if a.index == nil {
		a = a.indexed()
	}
	i, ok := a.index[approvalKey{product, pack, strings.ToLower(market), batch}]
	if !ok {
		return Approval{}, false
	}
	return a.All[i], true
}

// With gives the approvals with new ones put in, each in place of the one for
// the same product, pack and market. The others stay as they are.
func (a Approvals) With(more ...Approval) Approvals {
	a.All = slices.Clone(a.All)
	a = a.indexed()
	for _, e := range more {
		if i, ok := a.index[e.key()]; ok {
			a.All[i] = e
			continue
		}
		a.index[e.key()] = len(a.All)
		a.All = append(a.All, e)
	}
	slices.SortStableFunc(a.All, func(x, y Approval) int {
		return cmp.Or(cmp.Compare(x.Product.V, y.Product.V), cmp.Compare(x.Pack.V, y.Pack.V),
			cmp.Compare(strings.ToLower(x.Market.V), strings.ToLower(y.Market.V)), cmp.Compare(x.Batch.V, y.Batch.V))
	})
	return a.indexed()
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
		fmt.Fprintf(&b, "  - product: %s\n    pack: %s\n    market: %s\n", scalar(e.Product.V), scalar(e.Pack.V), scalar(e.Market.V))
		if e.Batch.V != "" {
			fmt.Fprintf(&b, "    batch: %s\n", scalar(e.Batch.V))
		}
		fmt.Fprintf(&b, "    fingerprint: %s\n    by: %s\n    on: %s\n", scalar(e.Fingerprint.V), scalar(e.By.V), e.On.V)
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

// ReadApprovals reads approvals.yaml in a shop's folder, if there is one, and
// reports whether there was no error in it.
func ReadApprovals(fsys fs.FS, found *diag.List) (a Approvals, ok bool) {
	if _, err := fs.Lstat(fsys, ApprovalsFile); errors.Is(err, fs.ErrNotExist) {
		return a, true
	}
	ok = read.Rows(fsys, ApprovalsFile, &a, found)
	if !a.Pos.Known() {
		a.Pos = diag.Pos{File: ApprovalsFile}
	}
	return a.indexed(), ok
}

// ParseApprovals reads the text of an approvals.yaml.
func ParseApprovals(data []byte, found *diag.List) (a Approvals, ok bool) {
	ok = read.RowsOf(ApprovalsFile, data, &a, found)
	return a.indexed(), ok
}

// Same reports whether a and b are the same signature, wherever they stand.
func (a Approval) Same(b Approval) bool {
	return a.Product.V == b.Product.V && a.Pack.V == b.Pack.V && a.Market.V == b.Market.V && a.Batch.V == b.Batch.V &&
		a.Fingerprint.V == b.Fingerprint.V && a.By.V == b.By.V && a.On.V == b.On.V
}

// approvals reads the file if there is one.
func (l *loader) approvals() {
	var ok bool
	if l.shop.Approvals, ok = ReadApprovals(l.fsys, l.found); !ok {
		l.shop.broken[ApprovalsFile] = true
	}
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
		if first, ok := c.Approvals.index[a.key()]; ok && first < i {
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
