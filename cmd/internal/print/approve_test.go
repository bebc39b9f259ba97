package print

import (
	"bytes"
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/samples"
)

var update = flag.Bool("update", false, "rewrite golden files, and the approvals of the demo shop")

const demoFolder = "../../../samples/quoin-and-crumb"

// TestDemoApproved: the demo shop ships with a valid approval for each of its
// products in every pack and market, and with no other.
func TestDemoApproved(t *testing.T) {
	p := demoPress(t)
	if *update {
		approveDemo(t)
		p = demoPressIn(t, demoFolder)
	}
	n := 0
	for _, id := range p.Shop.ProductIDs {
		all, err := p.declared(p.Shop.Products[id], "", "", "")
		if err != nil || p.Found.Errors() > 0 {
			t.Fatal(err, p.Found.All())
		}
		for _, d := range all {
			n++
			if !d.Approval.Valid || d.Approval.By != "Mara B." {
				t.Errorf("%s: %s; read it, then run this test with -update", d.Name(), d.Approval)
			}
		}
	}
	if n != len(p.Shop.Approvals.All) || n < 7 {
		t.Errorf("%d approvals for %d declarations", len(p.Shop.Approvals.All), n)
	}
}

// approveDemo signs anew whatever has changed.
func approveDemo(t *testing.T) {
	p := demoPressIn(t, demoFolder)
	if _, err := p.Approve(ApproveRequest{All: true, By: "Mara B."}); err != nil || p.Found.Errors() > 0 {
		t.Fatal(err, p.Found.All())
	}
	if _, err := p.SaveApprovals(); err != nil {
		t.Fatal(err)
	}
}

func demoPressIn(t testing.TB, dir string) *Press {
	d := unit.Date{Year: 2026, Month: 3, Day: 17}
	p, err := Open(dir, d, d.Time())
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// newShop writes the demo shop into a folder, edits its files (file, old, new
// by threes), and opens it.
func newShop(t testing.TB, edits ...string) *Press {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "shop")
	if _, err := New(dir, true); err != nil {
		t.Fatal(err)
	}
	signatures(t, dir)
	for e := range slices.Chunk(edits, 3) {
		edit(t, filepath.Join(dir, e[0]), e[1], e[2])
	}
	return demoPressIn(t, dir)
}

// signatures copies those of the demo shop, which New leaves out, into dir.
func signatures(t testing.TB, dir string) {
	t.Helper()
	signed, err := fs.ReadFile(samples.Demo(), shop.ApprovalsFile)
	if err != nil || os.WriteFile(filepath.Join(dir, shop.ApprovalsFile), signed, 0o644) != nil {
		t.Fatal("the signatures were not copied", err)
	}
}

func edit(t testing.TB, file, old, new string) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil || !bytes.Contains(data, []byte(old)) {
		t.Fatalf("%s: no %q to replace (%v)", file, old, err)
	}
	if err := os.WriteFile(file, bytes.Replace(data, []byte(old), []byte(new), 1), 0o644); err != nil {
		t.Fatal(err)
	}
}

// rules lists the rules of the findings, errors only.
func rules(found *diag.List) []string {
	var out []string
	for _, d := range found.All() {
		if !d.Warning {
			out = append(out, d.Rule)
		}
	}
	return out
}

// What changes the facts stops the sale until somebody signs; what does not
// change them does not.
func TestChangeStopsSale(t *testing.T) {
	const tartlet = "products/pear-hazelnut-tartlet.yaml"
	for _, c := range []struct {
		what  string
		edits []string
		sold  bool
	}{
		{"nothing", nil, true},
		{"a step", []string{tartlet, "Chill the lined rings.", "Chill the rings."}, true},
		{"the life", []string{tartlet, "life: 2 days", "life: 3 days"}, false},
		{"the name", []string{tartlet, "en: Pear and hazelnut", "en: Hazelnut and pear"}, false},
		{"sulphites too little to count", []string{"ingredients/rum.yaml", "contains: []", "contains: [sulphites]",
			"ingredients/rum.yaml", "sulphites: 0 mg/kg", "sulphites: 5 mg/kg"}, true},
		{"another one", []string{"ingredients/rum.yaml", "contains: []", "contains: [celery]"}, false},
		{"cross-contact", []string{"ingredients/rum.yaml", "may-contain: []", "may-contain: [sesame]"}, false},
		{"the digest", []string{"approvals.yaml", "product: pear-hazelnut-tartlet\n    pack: box-of-2\n    market: EU\n    fingerprint: ", "product: pear-hazelnut-tartlet\n    pack: box-of-2\n    market: EU\n    fingerprint: ABCD-ABCD-ABCD-ABCD # "}, false},
		{"another shop's product", []string{"products/pistachio-choux.yaml", "life: 1 day", "life: 2 days\n  because: tried for two days"}, true},
	} {
		p := newShop(t, c.edits...)
		b := asked(t, p, "label", "pear-hazelnut-tartlet", Request{})
		if (len(b.Papers) == 1) != c.sold || slices.Contains(rules(b.Found), "not-approved") == c.sold {
			t.Errorf("%s: %d papers, %v", c.what, len(b.Papers), b.Found.All())
		}
	}
}

// Without approvals nothing of any kind is printed for sale, and the cards are:
// they hang in the kitchen.
func TestNothingApproved(t *testing.T) {
	p := newShop(t)
	p.Shop.Approvals = shop.Approvals{}
	sold := 0
	for _, k := range p.kinds {
		for _, r := range p.all(k) {
			b, err := p.Print(k, r)
			refused := slices.Contains(rules(b.Found), "not-approved") && len(b.Papers) == 0
			if err != nil || refused != k.sold() {
				t.Errorf("%s of %v: %d papers, %v, %v", k.Name, r.IDs, len(b.Papers), err, b.Found.All())
			}
			if k.sold() {
				sold++
			}
		}
	}
	if sold < 15 {
		t.Errorf("only %d papers are sold", sold)
	}
	b, err := p.Day(DayOptions{})
	if err != nil || len(b.Left) != 6 {
		t.Fatal(b.Left, err)
	}
	for _, q := range b.Papers {
		for _, k := range p.kinds {
			if k.sold() && strings.HasPrefix(q.Name, k.File+"-") {
				t.Errorf("%s was printed", q.Name)
			}
		}
	}
	for _, d := range b.Found.All() {
		if d.Rule == "not-approved" && !strings.Contains(d.Hint, "chablon approve "+filepath.Base(strings.TrimSuffix(d.Pos.File, ".yaml"))) {
			t.Errorf("the hint does not say how to approve: %s", d)
		}
	}
	if b, err = p.Day(DayOptions{WholeOnly: true}); err != nil || len(b.Papers) > 0 || b.Found.Errors() == 0 {
		t.Errorf("all or nothing: %d papers, %v", len(b.Papers), err)
	}
}

// Signing touches what has changed and leaves the rest with its name and day.
func TestApprove(t *testing.T) {
	p := newShop(t, "products/pistachio-choux.yaml", "life: 1 day", "life: 2 days\n  because: tried for two days")
	p.Today = unit.Date{Year: 2026, Month: 4, Day: 1}
	before := slices.Clone(p.Shop.Approvals.All)
	all, err := p.Approve(ApproveRequest{All: true, By: " Ilo "})
	if err != nil || len(all) != len(before) {
		t.Fatal(len(all), err, p.Found.All())
	}
	if _, err := p.SaveApprovals(); err != nil {
		t.Fatal(err)
	}
	again := demoPressIn(t, p.Name)
	again.Today = p.Today
	for i, a := range again.Shop.Approvals.All {
		b := before[i]
		if fresh := a.Product.V == "pistachio-choux"; fresh != (a.By.V == "Ilo") || fresh != (a.On.V == p.Today) || fresh == (a.Fingerprint.V == b.Fingerprint.V) {
			t.Errorf("%s: by %s on %s, %s", a.Product.V, a.By.V, a.On.V, a.Fingerprint.V)
		}
	}
	if b := asked(t, again, "label", "pistachio-choux", Request{}); len(b.Papers) != 1 {
		t.Error(b.Found.All())
	}
}

func TestApproveRefused(t *testing.T) {
	for _, c := range []struct {
		r    ApproveRequest
		want string
	}{
		{ApproveRequest{ID: "pistachio-choux"}, "say who approves"},
		{ApproveRequest{ID: "pistachio-choux", By: "a\tb"}, "at most 100 characters"},
		{ApproveRequest{ID: "pistachio-chou", By: "Ilo"}, "did you mean pistachio-choux?"},
		{ApproveRequest{ID: "pistachio-choux", By: "Ilo", Pack: "sack"}, "one of"},
		{ApproveRequest{ID: "pistachio-choux", By: "Ilo", Market: "eup"}, "did you mean eu?"},
	} {
		_, err := demoPress(t).Approve(c.r)
		unknown, ok := err.(*usage.Error)
		if !ok || !strings.Contains(unknown.Hint, c.want) {
			t.Errorf("%+v: %v", c.r, err)
		}
	}
	if _, err := demoPress(t).SaveApprovals(); err == nil {
		t.Error("the demo shop was written to")
	}
	p := newShop(t, "ingredients/butter.yaml", "fr: beurre", "it: burro")
	all, err := p.Approve(ApproveRequest{All: true, By: "Ilo"})
	if err != nil || all != nil || p.Found.Errors() == 0 {
		t.Errorf("a name is missing, yet %d were approved (%v)", len(all), err)
	}
}
