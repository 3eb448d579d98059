package check_test

import (
	"encoding/json"
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"halfsplit/core/check"
	"halfsplit/core/words"
)

var update = flag.Bool("update", false, "rewrite the golden files")

const badDir = "../../testdata/bad"

// badFile is a bad document: NAME.json as it is, or NAME.grow, which describes a
// document too large to keep.
func badFile(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if filepath.Ext(path) == ".json" {
		return data
	}
	var g struct {
		Head, Repeat, Tail string
		Times              int
	}
	if err := json.Unmarshal(data, &g); err != nil {
		t.Fatal(path, err)
	}
	return []byte(g.Head + strings.Repeat(g.Repeat, g.Times) + g.Tail)
}

// rendered is what a person is told about a file.
func rendered(name string, data []byte) (text string, codes []string) {
	problems := check.Document(data).Problems
	var b strings.Builder
	for _, p := range problems {
		b.WriteString(words.Render("en", name, p) + "\n")
		codes = append(codes, p.Code)
	}
	return b.String(), codes
}

// Every bad file gives its exact message; every code has the file of its name,
// and that file has the code. Read a changed .want before committing it.
func TestGoldenBad(t *testing.T) {
	var paths []string
	for _, pattern := range []string{"*.json", "*.grow"} {
		found, err := filepath.Glob(filepath.Join(badDir, pattern))
		if err != nil {
			t.Fatal(err)
		}
		paths = append(paths, found...)
	}
	if len(paths) == 0 {
		t.Fatal("no bad files found in " + badDir)
	}
	have := map[string]bool{}
	for _, path := range paths {
		code := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
		have[code] = true
		t.Run(code, func(t *testing.T) {
			got, codes := rendered(code+".json", badFile(t, path))
			wantFile := filepath.Join(badDir, code+".want")
			if *update {
				if err := os.WriteFile(wantFile, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(wantFile)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) {
				t.Errorf("got\n%swant\n%s", got, want)
			}
			found := false
			for _, c := range codes {
				found = found || c == code
			}
			if !found {
				t.Errorf("the file does not have the problem it is named after, but %q", codes)
			}
			if strings.Contains(got, "⟨") || strings.Count(got, "\n") != 2*len(codes) {
				t.Errorf("a sentence or a hint is missing:\n%s", got)
			}
		})
	}
	codes := problemCodes(t)
	for code := range codes {
		if !have[code] {
			t.Errorf("%s has no file in %s", code, badDir)
		}
	}
	for code := range have {
		if !codes[code] {
			t.Errorf("%s is no code of package check or panel", code)
		}
	}
	for code := range check.Severities {
		if !have[code] {
			t.Errorf("%s has a severity and no file", code)
		}
	}
}

// problemCodes are the texts in the source of packages check and panel that the
// catalogue has a sentence for.
func problemCodes(t *testing.T) map[string]bool {
	t.Helper()
	all := words.Catalogue("en")
	codes := map[string]bool{}
	for _, dir := range []string{".", "../panel"} {
		paths, err := filepath.Glob(filepath.Join(dir, "*.go"))
		if err != nil {
			t.Fatal(err)
		}
		for _, path := range paths {
			if strings.HasSuffix(path, "_test.go") {
				continue
			}
			src, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			f, err := parser.ParseFile(token.NewFileSet(), path, src, 0)
			if err != nil {
				t.Fatal(err)
			}
			ast.Inspect(f, func(n ast.Node) bool {
				if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
					s, _ := strconv.Unquote(lit.Value)
					if _, ok := all[s+".hint"]; ok {
						codes[s] = true
					}
				}
				return true
			})
		}
	}
	if len(codes) < 40 {
		t.Fatalf("only %d codes found in the source", len(codes))
	}
	return codes
}
