package layers

import (
	"fmt"
	"go/ast"
	"go/types"
	"slices"
	"strings"
	"testing"
)

// hosts are the packages through which a program reaches its host.
var hosts = []string{"os", "os/exec", "io/ioutil", "net", "net/http", "syscall", "syscall/js", "math/rand", "crypto/rand",
	"math/cmplx", "unsafe"}

// banned are functions by package: clocks, chance, and those of math that are
// written in assembly on some processors or use products that others fuse.
// What is left of math is exact or correctly rounded.
var banned = map[string][]string{
	"time": {"Now", "Since", "Until", "After", "AfterFunc", "Tick", "NewTicker", "NewTimer", "Sleep"},
	"math/rand/v2": {"Int", "IntN", "Int32", "Int32N", "Int64", "Int64N", "Uint32", "Uint32N", "Uint64", "Uint64N",
		"UintN", "N", "Float32", "Float64", "ExpFloat64", "NormFloat64", "Perm", "Shuffle"},
	"math": {"Acos", "Acosh", "Asin", "Asinh", "Atan", "Atan2", "Atanh", "Cbrt", "Cos", "Cosh", "Erf", "Erfc",
		"Erfcinv", "Erfinv", "Exp", "Exp2", "Expm1", "Gamma", "Hypot", "J0", "J1", "Jn", "Lgamma", "Log", "Log10",
		"Log1p", "Log2", "Pow", "Sin", "Sincos", "Sinh", "Tan", "Tanh", "Y0", "Y1", "Yn"},
}

func impure(u unit) (wrong []string) {
	for _, i := range imports(u) {
		if slices.Contains(hosts, i) {
			wrong = append(wrong, fmt.Sprintf("%s imports %s", u.path, i))
		}
	}
	for _, f := range u.files {
		ast.Inspect(f, func(n ast.Node) bool {
			id, ok := n.(*ast.Ident)
			if !ok {
				return true
			}
			fn, ok := u.info.Uses[id].(*types.Func)
			if !ok || fn.Pkg() == nil || fn.Signature().Recv() != nil {
				return true
			}
			if slices.Contains(banned[fn.Pkg().Path()], fn.Name()) {
				wrong = append(wrong, fmt.Sprintf("%s: %s.%s", u.fset.Position(id.Pos()), fn.Pkg().Path(), fn.Name()))
			}
			return true
		})
	}
	return wrong
}

func TestPurity(t *testing.T) {
	for _, u := range loadCore(t) {
		if !pure(u.path) {
			continue
		}
		for _, w := range impure(u) {
			t.Error(w)
		}
	}
	bad := impure(sample(t, "halfsplit/core/bad", `package bad
import ("os"; "time"; "math")
var Args, Clock, Power, Root = os.Args, time.Now, math.Pow(2, 3), math.Sqrt(2)`))
	broken(t, "purity", bad, "imports os")
	broken(t, "purity", bad, "time.Now")
	broken(t, "purity", bad, "math.Pow")
	if s := strings.Join(bad, " "); strings.Contains(s, "Sqrt") {
		t.Errorf("purity: a square root is rounded the same everywhere: %s", s)
	}
}
