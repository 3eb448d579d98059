package layers

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"strings"
	"testing"

	"halfsplit/core/parts"
)

// kindFields are where the name of a kind is held.
var kindFields = map[string][]string{
	"halfsplit/core/panel.Part":  {"Kind"},
	"halfsplit/core/panel.Block": {"Type"},
	"halfsplit/core/parts.Kind":  {"Name"},
}

// decidesByKind returns every place that compares, switches on or indexes by
// the name of a kind. Asking whether a name is there at all ("") is allowed.
func decidesByKind(u unit, names map[string]bool) (wrong []string) {
	say := func(n ast.Node, what string) {
		wrong = append(wrong, fmt.Sprintf("%s: %s; ask package parts instead", u.fset.Position(n.Pos()), what))
	}
	constant := func(e ast.Expr) (string, bool) {
		tv := u.info.Types[e]
		if tv.Value == nil || tv.Type == nil || !types.Identical(tv.Type.Underlying(), types.Typ[types.String]) &&
			!types.Identical(tv.Type.Underlying(), types.Typ[types.UntypedString]) {
			return "", false
		}
		return strings.Trim(tv.Value.ExactString(), `"`), true
	}
	kind := func(e ast.Expr) bool {
		for {
			p, ok := e.(*ast.ParenExpr)
			if !ok {
				break
			}
			e = p.X
		}
		sel, ok := e.(*ast.SelectorExpr)
		if !ok || u.info.Selections[sel] == nil {
			return false
		}
		owner := u.info.Selections[sel].Recv()
		if p, ok := owner.(*types.Pointer); ok {
			owner = p.Elem()
		}
		for _, field := range kindFields[owner.String()] {
			if sel.Sel.Name == field {
				return true
			}
		}
		return false
	}
	for _, f := range u.files {
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.BinaryExpr:
				if n.Op != token.EQL && n.Op != token.NEQ {
					return true
				}
				x, xConst := constant(n.X)
				y, yConst := constant(n.Y)
				absent := xConst && x == "" || yConst && y == ""
				if (kind(n.X) || kind(n.Y)) && !absent {
					say(n, "compares the kind of a part")
				} else if xConst && names[x] || yConst && names[y] {
					say(n, "compares with the name of a kind")
				}
			case *ast.SwitchStmt:
				if n.Tag != nil && kind(n.Tag) {
					say(n, "switches on the kind of a part")
				}
			case *ast.IndexExpr:
				if kind(n.Index) {
					say(n, "looks up by the kind of a part")
				}
			case *ast.CallExpr:
				if fn, ok := n.Fun.(*ast.SelectorExpr); ok && isStrings(u, fn) {
					for _, a := range n.Args {
						if kind(a) {
							say(n, "takes the name of a kind apart")
						}
					}
				}
			case *ast.CaseClause:
				for _, e := range n.List {
					if c, ok := constant(e); ok && names[c] {
						say(e, fmt.Sprintf("has a case for %q", c))
					}
				}
			}
			return true
		})
	}
	return wrong
}

// isStrings: a function of package strings, which could compare a kind.
func isStrings(u unit, fn *ast.SelectorExpr) bool {
	obj, ok := u.info.Uses[fn.Sel].(*types.Func)
	return ok && obj.Pkg() != nil && obj.Pkg().Path() == "strings"
}

// kindNames are the names that can mean nothing but a kind: one that is also
// an everyday word (a fuse, a diode) may be compared as such elsewhere.
func kindNames(t *testing.T) map[string]bool {
	names := map[string]bool{}
	for _, k := range parts.Kinds() {
		if strings.Contains(k.Name, "-") {
			names[k.Name] = true
		}
	}
	if len(names) < 5 {
		t.Fatalf("the catalogue names %d kinds: nothing is being checked", len(names))
	}
	return names
}

func TestNothingDecidesByKind(t *testing.T) {
	names := kindNames(t)
	for _, u := range loadCore(t) {
		if u.path == module+"core/parts" || strings.HasPrefix(u.path, module+"core/internal/") {
			continue
		}
		for _, w := range decidesByKind(u, names) {
			t.Error(w)
		}
	}
	var one string
	for name := range names {
		one = name
	}
	bad := decidesByKind(sample(t, "halfsplit/core/bad", `package bad
import ("halfsplit/core/panel"; "strings")
func A(p panel.Part) bool { return p.Kind == "relay" }
func B(b *panel.Block) int { switch b.Type { default: return 1 } }
func C(p panel.Part) int { return map[string]int{}[(p.Kind)] }
func D(s string) int { switch s { case "`+one+`": return 1 }; return 0 }
func E(p panel.Part) bool { return strings.HasPrefix(p.Kind, "f") }
func F(s string) bool { return s == "`+one+`" }`), names)
	for _, want := range []string{":3:", ":4:", ":5:", ":6:", ":7:", ":8:"} {
		broken(t, "kinds", bad, want)
	}
	if fine := decidesByKind(sample(t, "halfsplit/core/good", `package good
import "halfsplit/core/panel"
func A(p panel.Part) bool { return p.Kind == "" || p.Tag == "relay" }`), names); len(fine) > 0 {
		t.Errorf("kinds: %q", fine)
	}
}
