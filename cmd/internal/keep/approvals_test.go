package keep_test

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/keep/keeptest"
	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// signer names, for a process started by a test, the shop to sign in.
const signer = "KEEP_TEST_SIGN"

// TestMain lets the test program be started again as somebody who signs.
func TestMain(m *testing.M) {
	dir, product, ok := strings.Cut(os.Getenv(signer), "|")
	if !ok {
		os.Exit(m.Run())
	}
	if _, _, err := keep.Sign(keep.Machine{}, dir, []shop.Approval{approval(product)}); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func approval(product string) (a shop.Approval) {
	a.Product.V, a.Pack.V, a.Market.V, a.Fingerprint.V, a.By.V = product, "box", "EU", "ABCD-EFGH-IJKL-2345", `Mara "M." B.`
	a.On.V = unit.Date{Year: 2026, Month: 3, Day: 17}
	return a
}

// approved lists who is approved in a shop's folder.
func approved(t *testing.T, dir string) []string {
	t.Helper()
	var found diag.List
	all, ok := shop.ReadApprovals(os.DirFS(dir), &found)
	if !ok {
		t.Fatal(found.All())
	}
	var out []string
	for _, a := range all.All {
		out = append(out, a.Product.V)
	}
	return out
}

// Six processes that sign for six products at once leave six signatures.
func TestSigningAtOnce(t *testing.T) {
	self, err := os.Executable()
	must(t, err)
	dir := t.TempDir()
	for round := range 3 {
		var all []*exec.Cmd
		for i := range 6 {
			c := exec.Command(self)
			c.Env = append(os.Environ(), fmt.Sprintf("%s=%s|tart-%d-%d", signer, dir, round, i))
			c.Stderr = os.Stderr
			must(t, c.Start())
			all = append(all, c)
		}
		for _, c := range all {
			if err := c.Wait(); err != nil {
				t.Error(err)
			}
		}
		if got := approved(t, dir); len(got) != 6*(round+1) {
			t.Errorf("round %d: %v", round, got)
		}
	}
}

// Whenever the disk fails, or the program dies, or the power goes, the older
// signatures are there, and the new one is there too or was refused.
func TestSignAnyMoment(t *testing.T) {
	for _, how := range []keeptest.How{keeptest.Fail, keeptest.Kill, keeptest.Cut} {
		for at, reached := 1, true; reached; at++ {
			dir := t.TempDir()
			_, _, err := keep.Sign(keep.Machine{}, dir, []shop.Approval{approval("tart")})
			must(t, err)
			disk := &keeptest.Disk{At: at, How: how}
			_, _, err = keep.Sign(disk, dir, []shop.Approval{approval("cake")})
			must(t, disk.End())
			reached = disk.Over()
			got := strings.Join(approved(t, dir), " ")
			if got != "cake tart" && (err == nil || got != "tart") {
				t.Errorf("how %d, step %d: %q, %v", how, at, got, err)
			}
		}
	}
}

// A file that cannot be read is not written over: what somebody signed is in
// it.
func TestSignOverBroken(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, shop.ApprovalsFile)
	must(t, os.WriteFile(file, []byte("approvals:\n  - product: tart\n   pack: box\n"), 0o666))
	_, _, err := keep.Sign(keep.Machine{}, dir, []shop.Approval{approval("cake")})
	var told *usage.Error
	if !errors.As(err, &told) || !strings.Contains(told.Msg, "approvals.yaml:") || told.Hint == "" {
		t.Errorf("%v", err)
	}
	if data, err := os.ReadFile(file); err != nil || !strings.HasSuffix(string(data), "   pack: box\n") {
		t.Errorf("written over: %s, %v", data, err)
	}
}
