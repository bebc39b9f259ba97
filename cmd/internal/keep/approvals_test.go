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

// A measurement is put behind those that stand there, comments and all; a file
// that cannot be read is left as it is.
func TestMeasure(t *testing.T) {
	dir := t.TempDir()
	var m shop.Measurement
	m.On.V, m.Of.V, m.Stage.V, m.Before.V, m.After.V = unit.Date{Year: 2026, Month: 3, Day: 17}, "passion-caramel", "boil", unit.Kilogram, 750*unit.Gram
	for range 2 {
		if _, err := keep.Measure(keep.Machine{}, dir, m); err != nil {
			t.Fatal(err)
		}
	}
	file := filepath.Join(dir, shop.MeasuredFile)
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var found diag.List
	got, ok := shop.ParseMeasurements(data, &found)
	if !ok || len(got.All) != 2 || got.All[1].After.V != 750*unit.Gram || got.All[1].Of.V != "passion-caramel" {
		t.Fatalf("%+v, %v", got, found.All())
	}
	bad := []byte("measured:\n  - on: yesterday\n")
	if err := os.WriteFile(file, bad, 0o600); err != nil {
		t.Fatal(err)
	}
	_, err = keep.Measure(keep.Machine{}, dir, m)
	var slip *usage.Error
	if data, _ = os.ReadFile(file); !errors.As(err, &slip) || string(data) != string(bad) {
		t.Errorf("%v; the file holds %q", err, data)
	}
}
