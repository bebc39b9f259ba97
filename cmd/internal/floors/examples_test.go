package floors

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// TestExamples: every package of the two storeys that has something to call
// shows how, in at least one example that is run: one with its output.
func TestExamples(t *testing.T) {
	calls, shown := map[string]bool{}, map[string]bool{}
	for _, storey := range []string{"labels", "layout"} {
		err := filepath.WalkDir(filepath.Join(root, storey), func(p string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(p, ".go") {
				return err
			}
			f, err := parser.ParseFile(token.NewFileSet(), p, nil, parser.ParseComments)
			if err != nil {
				return err
			}
			dir, _ := filepath.Rel(root, filepath.Dir(p))
			if strings.HasSuffix(p, "_test.go") {
				shown[dir] = shown[dir] || hasExample(f)
			} else {
				calls[dir] = calls[dir] || hasCall(f)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if len(calls) < 30 {
		t.Fatalf("only %d packages found", len(calls))
	}
	for dir, exported := range calls {
		if exported && !shown[dir] {
			t.Errorf("%s has exported functions and no example that is run", filepath.ToSlash(dir))
		}
	}
}

// hasCall reports whether a file has an exported function.
func hasCall(f *ast.File) bool {
	for _, d := range f.Decls {
		if fn, ok := d.(*ast.FuncDecl); ok && fn.Name.IsExported() {
			return true
		}
	}
	return false
}

// hasExample reports whether a file has an example with its output.
func hasExample(f *ast.File) bool {
	for _, d := range f.Decls {
		fn, ok := d.(*ast.FuncDecl)
		if !ok || fn.Recv != nil || !strings.HasPrefix(fn.Name.Name, "Example") {
			continue
		}
		for _, c := range f.Comments {
			text := strings.ToLower(strings.TrimSpace(c.Text()))
			if c.Pos() > fn.Body.Pos() && c.End() < fn.Body.End() &&
				(strings.HasPrefix(text, "output:") || strings.HasPrefix(text, "unordered output:")) {
				return true
			}
		}
	}
	return false
}
