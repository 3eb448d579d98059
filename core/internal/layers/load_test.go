package layers

import (
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"strings"
	"testing"

	"golang.org/x/tools/go/packages"
)

// A unit is one package of the core with its types, tests left out.
type unit struct {
	path  string // "halfsplit/core/panel"
	fset  *token.FileSet
	files []*ast.File
	info  *types.Info
}

const module = "halfsplit/"

// loadCore loads every package below core.
func loadCore(t *testing.T) []unit {
	t.Helper()
	loaded, err := packages.Load(&packages.Config{
		Mode: packages.NeedName | packages.NeedFiles | packages.NeedSyntax | packages.NeedTypes |
			packages.NeedTypesInfo | packages.NeedImports | packages.NeedDeps,
	}, module+"core/...")
	if err != nil {
		t.Fatal(err)
	}
	if len(loaded) < 3 {
		t.Fatalf("found %d packages below core: nothing is being checked", len(loaded))
	}
	var out []unit
	for _, p := range loaded {
		for _, e := range p.Errors {
			t.Fatalf("%s: %v", p.PkgPath, e)
		}
		out = append(out, unit{p.PkgPath, p.Fset, p.Syntax, p.TypesInfo})
	}
	return out
}

// sample type-checks one file of source as if it were the package at path.
func sample(t *testing.T, path, src string) unit {
	t.Helper()
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, "sample.go", src, 0)
	if err != nil {
		t.Fatal(err)
	}
	info := &types.Info{
		Uses: map[*ast.Ident]types.Object{}, Selections: map[*ast.SelectorExpr]*types.Selection{},
		Types: map[ast.Expr]types.TypeAndValue{},
	}
	conf := types.Config{Importer: importer.ForCompiler(fset, "source", nil)}
	if _, err := conf.Check(path, fset, []*ast.File{file}, info); err != nil {
		t.Fatal(err)
	}
	return unit{path, fset, []*ast.File{file}, info}
}

// pure says whether a package is core proper: not a host, not test-only code.
func pure(path string) bool {
	return strings.HasPrefix(path, module+"core/") &&
		!strings.HasPrefix(path, module+"core/cmd/") && !strings.HasPrefix(path, module+"core/internal/")
}

func imports(u unit) []string {
	var out []string
	for _, f := range u.files {
		for _, i := range f.Imports {
			out = append(out, strings.Trim(i.Path.Value, `"`))
		}
	}
	return out
}

// broken reports a rule that finds nothing wrong in what breaks it.
func broken(t *testing.T, rule string, found []string, want string) {
	t.Helper()
	for _, f := range found {
		if strings.Contains(f, want) {
			return
		}
	}
	t.Errorf("%s: found %q, want a complaint about %q", rule, found, want)
}
