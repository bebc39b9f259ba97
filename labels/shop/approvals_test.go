package shop_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

func approval(product, pack, market, digest, by string) shop.Approval {
	var a shop.Approval
	a.Product.V, a.Pack.V, a.Market.V, a.Fingerprint.V, a.By.V = product, pack, market, digest, by
	a.On.V = unit.Date{Year: 2026, Month: 3, Day: 17}
	return a
}

const digest = "ABCD-EFGH-IJKL-2345"

func TestApprovalTags(t *testing.T) {
	if err := read.Check(shop.Approvals{}); err != nil {
		t.Error(err)
	}
}

// One key a line, in the order of the ids, whoever came first.
func TestApprovalsYAML(t *testing.T) {
	var a shop.Approvals
	a = a.With(approval("tart", "box", "GB", digest, "Mara B."))
	a = a.With(approval("tart", "bag", "EU", digest, `O'Hara: "the chef"`))
	a = a.With(approval("cake", "box", "EU", digest, "no"))
	a = a.With(approval("tart", "box", "gb", "WXYZ-EFGH-IJKL-2345", "Ilo")) // in place of the first
	got := string(a.YAML())
	_, got, _ = strings.Cut(got, "approvals:\n")
	const want = `  - product: cake
    pack: box
    market: EU
    fingerprint: ABCD-EFGH-IJKL-2345
    by: "no"
    on: 2026-03-17
  - product: tart
    pack: bag
    market: EU
    fingerprint: ABCD-EFGH-IJKL-2345
    by: "O'Hara: \"the chef\""
    on: 2026-03-17
  - product: tart
    pack: box
    market: gb
    fingerprint: WXYZ-EFGH-IJKL-2345
    by: Ilo
    on: 2026-03-17
`
	if got != want {
		t.Errorf("%s", got)
	}
}

// What is written is read again as it was.
func TestApprovalsRoundTrip(t *testing.T) {
	name := rapid.StringOfN(rapid.RuneFrom([]rune("abcXYZ019 -.:#'\"\\&*!|>%@`{}[],éß中_~?")), 1, 20, -1).
		Filter(func(s string) bool { return strings.TrimSpace(s) == s && s != "" })
	rapid.Check(t, func(rt *rapid.T) {
		var a shop.Approvals
		for range rapid.IntRange(0, 4).Draw(rt, "n") {
			a = a.With(approval(name.Draw(rt, "product"), name.Draw(rt, "pack"), name.Draw(rt, "market"), digest, name.Draw(rt, "by")))
		}
		var back shop.Approvals
		var found diag.List
		if !read.Bytes("approvals.yaml", a.YAML(), &back, &found) || len(back.All) != len(a.All) {
			rt.Fatalf("%v\n%s", found.All(), a.YAML())
		}
		for i, e := range a.All {
			b := back.All[i]
			if e.Product.V != b.Product.V || e.Pack.V != b.Pack.V || e.Market.V != b.Market.V || e.By.V != b.By.V || e.On.V != b.On.V {
				rt.Fatalf("%+v came back as %+v", e, b)
			}
		}
	})
}

func TestApprovalFind(t *testing.T) {
	a := shop.Approvals{}.With(approval("tart", "box", "EU", digest, "Mara B."))
	if e, ok := a.Find("tart", "box", "eu"); !ok || e.By.V != "Mara B." {
		t.Errorf("%+v, %v", e, ok)
	}
	for _, key := range [][3]string{{"tart", "box", "gb"}, {"tart", "", "eu"}, {"cake", "box", "eu"}} {
		if _, ok := a.Find(key[0], key[1], key[2]); ok {
			t.Errorf("%v is approved", key)
		}
	}
	b := a.With(approval("tart", "box", "EU", digest, "Ilo"))
	if e, _ := a.Find("tart", "box", "EU"); e.By.V != "Mara B." || len(b.All) != 1 {
		t.Errorf("With changed what it was given: %+v", e)
	}
}

// No approvals.yaml is no fault; a wrong one is, and nothing is approved by it.
func TestApprovalFaults(t *testing.T) {
	entry := func(product, pack, market, digest string) string {
		return fmt.Sprintf("  - {product: %s, pack: %s, market: %s, fingerprint: %s, by: Mara B., on: 2026-03-17}\n", product, pack, market, digest)
	}
	for _, c := range []struct {
		what, file string
		want       []string
	}{
		{"none", "", nil},
		{"empty", "approvals: []\n", nil},
		{"right", "approvals:\n" + entry("apple-tart", "box-of-2", "EU", digest), nil},
		{"gone product", "approvals:\n" + entry("plum-tart", "box", "EU", digest), []string{`caution: the shop has no product "plum-tart"`}},
		{"gone pack", "approvals:\n" + entry("apple-tart", "sack", "EU", digest), []string{`caution: apple-tart has no pack "sack"`}},
		{"no market", "approvals:\n" + entry("apple-tart", "box-of-2", "moon", digest), []string{`caution: there is no market "moon"`}},
		{"digest", "approvals:\n" + entry("apple-tart", "box-of-2", "EU", "abc"), []string{`"abc" is not a fingerprint`}},
		{"twice", "approvals:\n" + entry("apple-tart", "box-of-2", "EU", digest) + entry("apple-tart", "box-of-2", "eu", digest), []string{"apple-tart in box-of-2 is approved for eu twice"}},
		{"no name", "approvals:\n  - {product: apple-tart, pack: box, market: EU, fingerprint: " + digest + ", on: 2026-03-17}\n", []string{`"by" is missing here`}},
		{"other word", "approved: []\n", []string{"approved"}},
	} {
		in := small(t)
		if c.file != "" {
			in[shop.ApprovalsFile] = &fstest.MapFile{Data: []byte(c.file)}
		}
		var found diag.List
		shop.Load(in, &found)
		var got []string
		for _, d := range found.All() {
			if d.Pos.File == shop.ApprovalsFile {
				got = append(got, d.String())
			}
		}
		for _, w := range c.want {
			if !slices.ContainsFunc(got, func(s string) bool { return strings.Contains(s, w) }) {
				t.Errorf("%s: %q is not among\n%s", c.what, w, strings.Join(got, "\n"))
			}
		}
		if c.want == nil && got != nil {
			t.Errorf("%s: %s", c.what, strings.Join(got, "\n"))
		}
	}
}

// A shop of 5,000 products in five packs for two markets, all signed, is read,
// searched and signed again, in far less than a cook would wait for.
func TestManyApprovals(t *testing.T) {
	var all []shop.Approval
	for i := range 50_000 {
		all = append(all, approval(fmt.Sprint("product-number-", i/10), fmt.Sprint("box-of-", i%5), []string{"EU", "GB"}[i/5%2], digest, "Mara B."))
	}
	began := time.Now()
	a := shop.Approvals{}.With(all...)
	var found diag.List
	back, ok := shop.ReadApprovals(fstest.MapFS{shop.ApprovalsFile: {Data: a.YAML()}}, &found)
	if !ok || len(back.All) != 50_000 {
		t.Fatalf("%d approvals, %v", len(back.All), found.All())
	}
	for _, e := range all {
		if _, ok := back.Find(e.Product.V, e.Pack.V, e.Market.V); !ok {
			t.Fatalf("%v is not found", e)
		}
	}
	if took := time.Since(began); took > time.Minute {
		t.Errorf("took %s", took)
	}
}
