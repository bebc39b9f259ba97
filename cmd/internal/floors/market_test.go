package floors

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"chablon/labels/market"
)

// A market is one file of labels/market. What a rule elsewhere needs to know of
// it stands there as a value with its source, and no other file asks for its
// code: a market that is added then gets everything that the others have.
func TestMarketsStayInOnePlace(t *testing.T) {
	err := filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		rel, _ := filepath.Rel(root, p)
		switch {
		case err != nil:
			return err
		case d.IsDir() && (rel == "samples" || rel == filepath.Join("labels", "market") || strings.HasPrefix(d.Name(), ".") && rel != "."):
			return fs.SkipDir
		case d.IsDir() || !strings.HasSuffix(p, ".go") || strings.HasSuffix(p, "_test.go"):
			return nil
		}
		for _, at := range marketCodes(t, p) {
			t.Errorf("%s names a market: give labels/market a value that says what is asked here", at)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// marketCodes are the places where a file writes the code of a market.
func marketCodes(t *testing.T, file string) []string {
	t.Helper()
	set := token.NewFileSet()
	f, err := parser.ParseFile(set, file, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	ast.Inspect(f, func(n ast.Node) bool {
		if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			if s, err := strconv.Unquote(lit.Value); err == nil && slices.Contains(market.Codes(), strings.ToLower(s)) {
				out = append(out, set.Position(lit.Pos()).String()+": "+lit.Value)
			}
		}
		return true
	})
	return out
}

// The search finds what it is for.
func TestMarketCodesAreFound(t *testing.T) {
	if got := marketCodes(t, filepath.Join(root, "labels", "market", "us.go")); len(got) < 2 {
		t.Errorf("the file of a market names %v", got)
	}
}
