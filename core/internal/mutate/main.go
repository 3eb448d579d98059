// Command mutate breaks the core's physics in one place after another, in a copy
// of the sources, and shows which tests notice: those of the quickest packages that
// do. It prints a table in Markdown and fails when something broken goes unnoticed.
//
//	go run ./core/internal/mutate        from the top of the repository
package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// tested are the packages whose tests are run, quick ones first: those of a group
// together, and the next group where none of them fails.
var tested = [][]string{{"unit", "circuit", "parts", "fault", "check", "sim", "meter", "trace"}, {"api"}, {"internal/spicetest"}}

// fewer asks the package that stands on ngspice with fewer panels.
var fewer = map[string][]string{"internal/spicetest": {"-panels=40", "-pairs=100"}}

func main() {
	only := flag.String("only", "", "part of a mutant's description")
	flag.Parse()
	dir, err := copyTree()
	if err != nil {
		fail(err)
	}
	defer os.RemoveAll(dir)
	if failed, err := run(dir); err != nil || len(failed) > 0 {
		os.RemoveAll(dir)
		fail(fmt.Errorf("the tests fail with nothing broken: %v %w", failed, err))
	}
	fmt.Println("| broken | in | noticed by |\n| --- | --- | --- |")
	alive := 0
	for _, m := range mutants {
		if !strings.Contains(m.what, *only) {
			continue
		}
		failed, err := m.try(dir)
		if err != nil {
			os.RemoveAll(dir)
			fail(err)
		}
		if len(failed) == 0 {
			alive++
			failed = []string{"**nothing**"}
		}
		fmt.Printf("| %s | %s | %s |\n", m.what, m.file, strings.Join(failed, ", "))
	}
	if alive > 0 {
		os.RemoveAll(dir)
		fail(fmt.Errorf("%d broken places go unnoticed", alive))
	}
}

func fail(err error) {
	fmt.Fprintln(os.Stderr, "mutate:", err)
	os.Exit(1)
}

// copyTree copies what the tests need into a directory of its own.
func copyTree() (string, error) {
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return "", err
	}
	for _, name := range []string{"core", "scenarios", "testdata"} {
		if err := os.CopyFS(filepath.Join(dir, name), os.DirFS(name)); err != nil {
			return dir, err
		}
	}
	for _, name := range []string{"go.mod", "go.sum", "DEVELOPERS.md"} {
		data, err := os.ReadFile(name)
		if err != nil {
			return dir, err
		}
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			return dir, err
		}
	}
	return dir, nil
}

// broken gives the text of the mutant's file with the place broken.
func (m mutant) broken(source []byte) ([]byte, error) {
	if n := bytes.Count(source, []byte(m.old)); n != 1 {
		return nil, fmt.Errorf("%q stands %d times in core/%s: mend the list of mutants", m.old, n, m.file)
	}
	return bytes.Replace(source, []byte(m.old), []byte(m.new), 1), nil
}

// try breaks the place, runs the tests, and mends it again.
func (m mutant) try(dir string) ([]string, error) {
	file := filepath.Join(dir, "core", m.file)
	sound, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	broken, err := m.broken(sound)
	if err != nil {
		return nil, err
	}
	if err := os.WriteFile(file, broken, 0o600); err != nil {
		return nil, err
	}
	failed, err := run(dir)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", m.what, err)
	}
	return failed, os.WriteFile(file, sound, 0o600)
}

// limit bounds the tests of one package: what loops for ever is noticed too.
const limit = 3 * time.Minute

// run gives the names of the tests that fail, by package: the first of each and
// how many more. An error is a tree that does not compile.
func run(dir string) (failed []string, err error) {
	for _, group := range tested {
		args := []string{"test", "-json", "-timeout=" + limit.String()}
		for _, p := range group {
			args = append(args, "./core/"+p)
		}
		for _, p := range group {
			args = append(args, fewer[p]...)
		}
		cmd := exec.Command("go", args...)
		cmd.Dir = dir
		var complaint bytes.Buffer
		cmd.Stderr = &complaint
		out, _ := cmd.Output() // its exit says no more than its output
		if len(out) == 0 {
			return nil, fmt.Errorf("go test says nothing: %s", complaint.String())
		}
		if failed, err = failures(out, group); err != nil || len(failed) > 0 {
			return failed, err
		}
	}
	return nil, nil
}

// failures reads the output of go test -json of some packages.
func failures(out []byte, group []string) (list []string, err error) {
	tests := map[string][]string{} // of each package that failed
	compiler := ""
	for line := range bytes.Lines(out) {
		var e struct{ Action, Package, Test, ImportPath, Output string }
		if json.Unmarshal(line, &e) != nil {
			continue
		}
		if e.Action == "build-fail" {
			return nil, fmt.Errorf("%s does not compile:\n%s", e.ImportPath, compiler)
		}
		if e.Action == "build-output" {
			compiler += e.Output
		}
		if e.Action != "fail" {
			continue
		}
		p := strings.TrimPrefix(e.Package, "halfsplit/core/")
		if name, _, sub := strings.Cut(e.Test, "/"); !sub && name != "" {
			tests[p] = append(tests[p], name)
		} else if tests[p] == nil {
			tests[p] = []string{}
		}
	}
	for _, p := range group {
		names, ok := tests[p]
		if !ok {
			continue
		}
		slices.Sort(names)
		switch len(names) {
		case 0:
			list = append(list, p+" does not end")
		case 1:
			list = append(list, p+" "+names[0])
		default:
			list = append(list, fmt.Sprintf("%s %s and %d more", p, names[0], len(names)-1))
		}
	}
	return list, nil
}
