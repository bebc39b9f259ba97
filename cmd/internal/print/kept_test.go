package print

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"chablon/cmd/internal/keep"
	"chablon/labels/register"
	"chablon/labels/unit"
)

// kept is a copy of the demo shop with a print book, kept read.
func kept(t testing.TB) (*Kept, string) {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "shop")
	if err := os.CopyFS(dir, os.DirFS("../../../samples/quoin-and-crumb")); err != nil {
		t.Fatal(err)
	}
	book, err := keep.Begin(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := book.Close(); err != nil {
		t.Fatal(err)
	}
	k, err := Keep(dir)
	if err != nil {
		t.Fatal(err)
	}
	return k, dir
}

var keptDay = unit.Date{Year: 2026, Month: 3, Day: 17}

func pressOf(t testing.TB, k *Kept) *Press {
	t.Helper()
	p, err := k.Press(keptDay, time.Date(2026, 3, 17, 9, 0, 0, 0, time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The shop is read once, and anew as soon as one file says something else or
// another is there; paper and the print book are no files of the shop.
func TestKept(t *testing.T) {
	k, dir := kept(t)
	first := pressOf(t, k)
	if err := os.MkdirAll(filepath.Join(dir, "out", "x"), 0o777); err != nil {
		t.Fatal(err)
	}
	if again := pressOf(t, k); again.Shop != first.Shop || again.Found == first.Found || again.held == first.held || again.next == first.next {
		t.Error("two requests do not share what was read, or share more")
	}
	file := filepath.Join(dir, "shop.yaml")
	old, err := os.Stat(file)
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	change := strings.Replace(string(data), "name: Quoin", "name: Quoyn", 1) // as long as before, and as old
	if err := os.WriteFile(file, []byte(change), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := os.Chtimes(file, old.ModTime(), old.ModTime()); err != nil {
		t.Fatal(err)
	}
	second := pressOf(t, k)
	if second.Shop == first.Shop || !strings.Contains(second.Shop.Profile.Name.V, "Quoyn") {
		t.Error("a change was not read")
	}
	if err := os.Remove(filepath.Join(dir, "products", second.Shop.ProductIDs[0]+".yaml")); err != nil {
		t.Fatal(err)
	}
	if third := pressOf(t, k); len(third.Shop.ProductIDs) != len(second.Shop.ProductIDs)-1 {
		t.Error("a file that went was not noticed")
	}
}

// What is looked at is what is printed; the same asking prints once, of paper
// with numbers and without; and a running number does not change what it says.
func TestOnce(t *testing.T) {
	k, dir := kept(t)
	ctx := context.Background()
	for _, kind := range []string{"label", "card", "card-list"} {
		ask := func() (*Press, Batch) {
			p := pressOf(t, k)
			r := Request{}
			if kind == "label" {
				r.Count = 3
			}
			if p.KindOf(kind).ofID() {
				r.IDs = []string{"pear-hazelnut-tartlet"}
			}
			b, err := p.Print(p.KindOf(kind), r)
			if err != nil {
				t.Fatal(kind, err)
			}
			if len(b.Papers) == 0 {
				t.Fatal(kind, b.Found.All())
			}
			return p, b
		}
		p, b := ask()
		digest, seen := b.Digest(), b.Seen()
		if len(seen) != 1 || len(seen[0].Pictures) == 0 {
			t.Fatalf("%s: %d papers", kind, len(seen))
		}
		if err := p.Once(ctx, &b, "asking-"+kind); err != nil {
			t.Fatal(err)
		}
		out := filepath.Join(dir, "out")
		paths, err := p.Save(ctx, keep.Machine{}, b, out, nil)
		if err != nil || len(paths) != 1 {
			t.Fatal(kind, paths, err)
		}
		p, b = ask()
		if b.Digest() != digest {
			t.Errorf("%s: the same run has another digest when it is asked for again", kind)
		}
		if err := p.Once(ctx, &b, "asking-"+kind); err != nil {
			t.Fatal(err)
		}
		if _, err := p.Save(ctx, keep.Machine{}, b, out, nil); register.RuleOf(err) != register.Twice {
			t.Errorf("%s: the same asking a second time: %v", kind, err)
		}
		book, err := keep.Book(ctx, dir)
		if err != nil {
			t.Fatal(err)
		}
		all, err := book.Prints(ctx, register.Query{Once: "asking-" + kind})
		if err != nil || len(all) != 1 || !all[0].Written || filepath.Join(out, all[0].File) != paths[0] {
			t.Errorf("%s: the book has %+v, %v", kind, all, err)
		}
		if err := book.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

// Whatever is different is another run: how many, the day, the pack's paper, and
// a word of the shop's files.
func TestDigest(t *testing.T) {
	k, dir := kept(t)
	digest := func(r Request) string {
		p := pressOf(t, k)
		r.IDs = []string{"pear-hazelnut-tartlet"}
		b, err := p.Print(p.KindOf("label"), r)
		if err != nil || len(b.Papers) == 0 {
			t.Fatal(r, err)
		}
		return b.Digest()
	}
	seen := map[string]string{}
	differs := func(what, d string) {
		if old := seen[d]; old != "" {
			t.Errorf("%s has the digest of %s", what, old)
		}
		seen[d] = what
	}
	differs("one", digest(Request{}))
	differs("two", digest(Request{Count: 2}))
	differs("yesterday", digest(Request{Made: keptDay.AddDays(-1)}))
	differs("other paper", digest(Request{Paper: "a4-6"}))
	differs("other batch", digest(Request{Batch: "L99"}))
	file := filepath.Join(dir, "shop.yaml")
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	coarse := strings.Replace(string(data), "resolution: 12 per mm", "resolution: 12 per mm\n    right: 0.5 mm", 1)
	if err := os.WriteFile(file, []byte(coarse), 0o666); err != nil {
		t.Fatal(err)
	}
	differs("a printer set otherwise", digest(Request{}))
}
