package layers

import (
	"fmt"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// order lists the core from the bottom up. A package imports only packages
// named before it.
var order = []string{
	"pace", "unit", "panel", "circuit", "logic", "parts", "fault", "check", "draft", "sim", "meter", "trace", "diagnose",
	"record", "drill", "drill/script", "wirelist", "share", "draw", "sheet", "generate", "words", "api",
}

// wrongOrder returns a line for each import that goes down or sideways.
func wrongOrder(path string, imported []string) (wrong []string) {
	place := slices.Index(order, strings.TrimPrefix(path, module+"core/"))
	if pure(path) && place < 0 {
		wrong = append(wrong, fmt.Sprintf("%s has no place in the order: add it to order_test.go", path))
	}
	for _, i := range imported {
		if !strings.HasPrefix(i, module) {
			continue
		}
		below := slices.Index(order, strings.TrimPrefix(i, module+"core/"))
		switch {
		case strings.HasPrefix(i, module+"core/cmd/"), strings.HasPrefix(i, module+"wasm/") && pure(path):
			wrong = append(wrong, fmt.Sprintf("%s imports the host %s", path, i))
		case pure(path) && strings.HasPrefix(i, module+"web"):
			wrong = append(wrong, fmt.Sprintf("%s imports the page", path))
		case pure(path) && strings.HasPrefix(i, module+"core/") && (below < 0 || below >= place):
			wrong = append(wrong, fmt.Sprintf("%s imports %s, which is not above it", path, i))
		}
	}
	return wrong
}

func TestOrder(t *testing.T) {
	for _, u := range loadCore(t) {
		for _, w := range wrongOrder(u.path, imports(u)) {
			t.Error(w)
		}
	}
	broken(t, "order", wrongOrder("halfsplit/core/circuit", []string{"halfsplit/core/parts"}), "not above it")
	broken(t, "order", wrongOrder("halfsplit/core/api", []string{"halfsplit/core/internal/spicetest"}), "not above it")
	broken(t, "order", wrongOrder("halfsplit/core/api", []string{"halfsplit/core/cmd/halfsplit"}), "imports the host")
	broken(t, "order", wrongOrder("halfsplit/core/gadget", nil), "has no place")
	if w := wrongOrder("halfsplit/core/parts", []string{"halfsplit/core/circuit", "fmt"}); len(w) > 0 {
		t.Errorf("order: %q", w)
	}
}

// TestCoreWorkerHasNoScripts: the scripting engine is four times the size of
// everything else and its memory has no bound, so it is a module of its own.
func TestCoreWorkerHasNoScripts(t *testing.T) {
	list := func(pkg string) string {
		cmd := exec.Command("go", "list", "-deps", pkg)
		cmd.Env = append(cmd.Environ(), "GOOS=js", "GOARCH=wasm")
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		return string(out)
	}
	deps := list(module + "wasm/core")
	if !strings.Contains(deps, module+"wasm/bridge\n") {
		t.Fatal("the core worker's dependencies are not listed: nothing is being checked")
	}
	for line := range strings.SplitSeq(deps, "\n") {
		if strings.Contains(line, "dop251/") || strings.Contains(line, "goja") {
			t.Errorf("the core worker depends on %s", line)
		}
	}
}
