package fault_test

import (
	"errors"
	"testing"

	"halfsplit/core/fault"
)

// Whatever is typed for a fault, Parse gives its own error, or a fault that names
// itself: read again by its name it is the same one, and what it changes is there.
func FuzzParse(f *testing.F) {
	s := set(f, "training-bench")
	for i := 0; i < len(s.Faults); i += 7 {
		f.Add(s.Faults[i].Key())
	}
	for _, text := range []string{"W10@S1:21=loose:1 kohm", "W10~PE=short:0,5Ω", "W10~W16=short", "W10@S1:21=moved:K1:A1",
		"X1:1/out~X1:3/out=short", "W10@X1:1/out~W16@X1:2/out=swapped", "=", "W10=", "~=short", "W10~W10=short", "P1=open:1ohm"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, err := s.Parse(text)
		if err != nil {
			var own *fault.ParseError
			if !errors.As(err, &own) || own.Code == "" {
				t.Fatalf("Parse(%q): %v", text, err)
			}
			return
		}
		again, err := s.Parse(got.Key())
		if err != nil || again.Key() != got.Key() {
			t.Fatalf("Parse(%q) is %s, which is read as %v, %v", text, got.Key(), again, err)
		}
		for _, c := range got.Changes {
			if c.Branch >= len(s.Net.Branches) || c.Element >= len(s.Net.Elements) || int(max(c.Ends.A, c.Ends.B)) >= len(s.Net.Nodes) {
				t.Errorf("Parse(%q) changes what is not there: %+v", text, c)
			}
		}
	})
}
