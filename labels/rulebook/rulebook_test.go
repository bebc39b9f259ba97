package rulebook

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// TestEveryRuleHasAPage holds the book against the source: each rule that the
// code can say has a page, and no page is of a rule that it cannot say.
func TestEveryRuleHasAPage(t *testing.T) {
	if err := Check(); err != nil {
		t.Fatal(err)
	}
	named := rulesOf(t, sources(t))
	if len(named) < 150 {
		t.Fatalf("only %d rules found in the source", len(named))
	}
	for rule, where := range named {
		if _, ok := Get(rule); !ok {
			t.Errorf("%s: the rule %q has no page in rules.txt", where, rule)
		}
	}
	for _, rule := range Rules() {
		if named[rule] == "" {
			t.Errorf("rules.txt has a page for %q, which nothing says", rule)
		}
	}
	if rules := Rules(); !slices.IsSorted(rules) {
		t.Errorf("%v", rules)
	}
}

// A page that lacks a line, or stands twice, is refused.
func TestParse(t *testing.T) {
	whole := "[a]\nSomething is wrong.\nwhy: it is.\ndo: mend it\nlaw: our own rule"
	for _, bad := range []string{strings.Replace(whole, "why", "how", 1), whole + "\n\n" + whole, strings.TrimSuffix(whole, "\nlaw: our own rule")} {
		if _, err := parse(bad); err == nil {
			t.Errorf("taken:\n%s", bad)
		}
	}
	if pages, err := parse("# head\n\n" + whole); err != nil || pages["a"].Do != "mend it" {
		t.Error(pages, err)
	}
}

// source is one parsed file.
type source struct {
	set *token.FileSet
	*ast.File
}

func sources(t *testing.T) (out []source) {
	t.Helper()
	set := token.NewFileSet()
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(set, path, nil, 0)
		out = append(out, source{set, f})
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// rulesOf finds the rules: what is handed over as a parameter, a result or a
// field of that name, and written out there.
func rulesOf(t *testing.T, files []source) map[string]string {
	t.Helper()
	given, gives := places(files)
	out := map[string]string{}
	for _, f := range files {
		note := func(e ast.Expr) {
			if b, ok := e.(*ast.BasicLit); ok && b.Kind == token.STRING {
				if s, err := strconv.Unquote(b.Value); err == nil && aRule.MatchString(s) {
					out[s] = f.set.Position(b.Pos()).String()
				}
			}
		}
		inside := ""
		ast.Inspect(f.File, func(n ast.Node) bool {
			switch x := n.(type) {
			case *ast.FuncDecl:
				inside = x.Name.Name
			case *ast.CallExpr:
				if i, ok := given[callee(x)]; ok && i < len(x.Args) {
					note(x.Args[i])
				}
			case *ast.KeyValueExpr:
				if fmt.Sprint(x.Key) == "Rule" {
					note(x.Value)
				}
			case *ast.ReturnStmt:
				if i, ok := gives[inside]; ok && i < len(x.Results) {
					note(x.Results[i])
				}
			}
			return true
		})
	}
	return out
}

var aRule = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)

func callee(x *ast.CallExpr) string {
	switch f := x.Fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		return f.Sel.Name
	}
	return ""
}

// places gives, by the name of a function, which of its parameters and which of
// its results is called rule.
func places(files []source) (given, gives map[string]int) {
	given, gives = map[string]int{}, map[string]int{}
	for _, f := range files {
		for _, d := range f.Decls {
			if fd, ok := d.(*ast.FuncDecl); ok {
				at(fd.Type.Params, given, fd.Name.Name)
				at(fd.Type.Results, gives, fd.Name.Name)
			}
		}
	}
	return given, gives
}

func at(list *ast.FieldList, into map[string]int, name string) {
	if list == nil {
		return
	}
	n := 0
	for _, field := range list.List {
		for _, id := range field.Names {
			if id.Name == "rule" {
				into[name] = n
			}
			n++
		}
		if len(field.Names) == 0 {
			n++
		}
	}
}
