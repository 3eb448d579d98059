package main

import (
	"os"
	"strings"
	"testing"
)

// Every place still stands once in the sources, so that the long run breaks what
// it says it breaks.
func TestMutantsApply(t *testing.T) {
	if len(mutants) < 20 {
		t.Errorf("%d mutants are too few", len(mutants))
	}
	for _, m := range mutants {
		source, err := os.ReadFile("../../" + m.file)
		if err != nil {
			t.Fatal(err)
		}
		broken, err := m.broken(source)
		if err != nil {
			t.Error(err)
		} else if string(broken) == string(source) {
			t.Errorf("%s: nothing is broken", m.what)
		}
	}
}

func TestFailures(t *testing.T) {
	out := `{"Action":"run","Package":"halfsplit/core/sim","Test":"TestA"}
{"Action":"fail","Package":"halfsplit/core/sim","Test":"TestA/one"}
{"Action":"fail","Package":"halfsplit/core/sim","Test":"TestA"}
{"Action":"fail","Package":"halfsplit/core/sim","Test":"TestB"}
{"Action":"fail","Package":"halfsplit/core/sim"}
{"Action":"fail","Package":"halfsplit/core/unit"}
{"Action":"pass","Package":"halfsplit/core/meter"}`
	list, err := failures([]byte(out), []string{"unit", "sim", "meter"})
	if got, want := strings.Join(list, "; "), "unit does not end; sim TestA and 1 more"; got != want || err != nil {
		t.Errorf("got %q, %v, want %q", got, err, want)
	}
	if _, err := failures([]byte(`{"ImportPath":"halfsplit/core/sim","Action":"build-fail"}`), nil); err == nil {
		t.Error("what does not compile is taken for something")
	}
}
