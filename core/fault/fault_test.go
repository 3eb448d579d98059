package fault_test

import (
	"errors"
	"fmt"
	"testing"

	"halfsplit/core/fault"
	"halfsplit/core/internal/demo"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/scenarios"
)

func set(t testing.TB, name string) *fault.Set {
	t.Helper()
	return fault.All(parts.Assemble(demo.Panel(t, name)))
}

// Every listed fault is found by its own name, is repaired somewhere and changes
// something.
func TestListedFaultsAreComplete(t *testing.T) {
	for _, name := range demo.Names {
		s := set(t, name)
		if len(s.Faults) < 5*10 {
			t.Fatalf("%s: only %d faults", name, len(s.Faults))
		}
		for i := range s.Faults {
			f := &s.Faults[i]
			if got, err := s.Parse(f.Key()); err != nil || got != f {
				t.Errorf("%s: Parse gives %v, %v", f.Key(), got, err)
			}
			if len(f.Changes) == 0 || f.Place == "" || f.Repair == "" || f.Class == "" || !(f.Rate > 0) {
				t.Errorf("%s is incomplete: %+v", f.Key(), f.Mode)
			}
		}
	}
}

// Faults with values of their own, as people write them.
func TestParseBuilds(t *testing.T) {
	s := set(t, "training-bench")
	for _, tc := range []struct{ in, key string }{
		{"W10@S1:21=loose:47ohm", "W10@S1:21=loose:47ohm"},
		{"W10@S1:21=loose:1 kohm", "W10@S1:21=loose:1000ohm"},
		{"W10@S1:21=moved:K1:A1", "W10@S1:21=moved:K1:A1"},
		{"W10~W16=short", "W10~W16=short"},
		{"W10~PE=short:20ohm", "W10~PE=short:20ohm"},
		{"X1:1/out~X1:3/out=short", "X1:1/out~X1:3/out=short"},
		{"W10@X1:1/out~W16@X1:2/out=swapped", "W10@X1:1/out~W16@X1:2/out=swapped"},
	} {
		f, err := s.Parse(tc.in)
		if err != nil || f.Key() != tc.key {
			t.Errorf("Parse(%q) = %v, %v; want %s", tc.in, f, err, tc.key)
			continue
		}
		if again, err := s.Parse(f.Key()); err != nil || again.Key() != f.Key() {
			t.Errorf("%s does not read itself: %v", f.Key(), err)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	s := set(t, "training-bench")
	for _, tc := range []struct{ in, code string }{
		{"", "fault-form"},
		{"K1", "fault-form"},
		{"K1=", "fault-form"},
		{"=blown", "fault-form"},
		{"K9=stuck", "fault-unknown-thing"},
		{"K1=on-fire", "fault-unknown-mode"},
		{"W10@S1:21=loose:-5ohm", "fault-bad-value"},
		{"W10@S1:21=loose:lots", "fault-bad-value"},
		{"W10@S1:21=moved:S1:21", "fault-bad-value"},
	} {
		f, err := s.Parse(tc.in)
		var pe *fault.ParseError
		if !errors.As(err, &pe) || pe.Code != tc.code {
			t.Errorf("Parse(%q) = %v, %v; want %s", tc.in, f, err, tc.code)
		}
	}
}

func ExampleSet_Parse() {
	doc, _ := panel.Read(must(scenarios.Panel("training-bench")))
	s := fault.All(parts.Assemble(doc.Panel))
	f, _ := s.Parse("X1:2=fuse-blown")
	fmt.Println(f.Key(), "is mended at", f.Place)
	_, err := s.Parse("X1:2=melted")
	var pe *fault.ParseError
	errors.As(err, &pe)
	fmt.Println(pe.Code, pe.Choices[0])
	// Output:
	// X1:2=fuse-blown is mended at X1:2
	// fault-unknown-mode lever-open
}

func must(b []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return b
}
