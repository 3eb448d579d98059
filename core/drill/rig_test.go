package drill_test

import (
	"errors"
	"io/fs"
	"strings"
	"testing"

	"halfsplit/core/drill"
	"halfsplit/core/internal/demo"
	"halfsplit/core/panel"
	"halfsplit/scenarios"
)

// rigs are shared by all tests of one run: solving a panel's faults is the dear part.
var rigs = map[string]*drill.Rig{}

func rig(t testing.TB, name string) *drill.Rig {
	t.Helper()
	if rigs[name] == nil {
		p, problems := panel.AsFound(demo.Panel(t, name))
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		rigs[name] = drill.NewRig(p)
	}
	return rigs[name]
}

// embedded reads every embedded drill.
func embedded(t testing.TB) (names []string, docs []*drill.Doc) {
	t.Helper()
	files, err := fs.Glob(scenarios.Drills, "*.drill.json")
	if err != nil || len(files) == 0 {
		t.Fatalf("no drills: %v", err)
	}
	for _, f := range files {
		data, err := scenarios.Drills.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		doc, err := drill.Read(data)
		if err != nil {
			t.Fatalf("%s: %s", f, told(err))
		}
		names = append(names, strings.TrimSuffix(f, ".drill.json"))
		docs = append(docs, doc)
	}
	return names, docs
}

func told(err error) string {
	var pe *panel.Error
	if !errors.As(err, &pe) {
		return err.Error()
	}
	var list []string
	for _, p := range pe.Problems {
		list = append(list, p.Path+" "+p.Code+" "+strings.Join(p.Args, " | "))
	}
	return strings.Join(list, "; ")
}

// set sets a drill up, or fails.
func set(t testing.TB, doc *drill.Doc, seed int) *drill.Case {
	t.Helper()
	c, err := doc.Set(rigOf(t, doc), seed)
	if err != nil {
		t.Fatalf("%s: %s", doc.Drill.Name, told(err))
	}
	return c
}

// rigOf is the rig of a drill, embedded panels included.
func rigOf(t testing.TB, doc *drill.Doc) *drill.Rig {
	t.Helper()
	if doc.Drill.Panel == nil {
		return rig(t, doc.Drill.Demo)
	}
	if rigs[doc.Drill.Panel.Name] == nil {
		rigs[doc.Drill.Panel.Name] = drill.NewRig(doc.Drill.Panel)
	}
	return rigs[doc.Drill.Panel.Name]
}

// bench is a drill on the training bench with one fault.
func bench(t testing.TB, faults ...string) *drill.Doc {
	t.Helper()
	list := `"` + strings.Join(faults, `","`) + `"`
	doc, err := drill.Read([]byte(`{"format": "halfsplit-drill", "version": 1, "name": "bench", "grade": 1, "demo": "training-bench",
 "complaint": "It does not work.", "hidden": {"faults": [` + list + `], "plan": {"steps": 1}, "explanation": "of a test"}}`))
	if err != nil {
		t.Fatal(told(err))
	}
	return doc
}
