package sim_test

import (
	"errors"
	"testing"

	"halfsplit/core/sim"
)

// Whatever is typed after --at, Condition gives its own error, or moves of things
// that are there to positions their kinds have.
func FuzzCondition(f *testing.F) {
	m := open(f, "dosing-skid")
	for _, name := range m.Conditions() {
		f.Add(name)
	}
	for _, text := range []string{"", "normal; press S2; release S2", "standby; set B1 50 %", "set B1 4 mA", "normal; set B1 -1 %", "normal; open X3:1",
		"normal;;; turn-off S3", "power-off; switch-on G0", "normal; set A3:0 on", "normal; press", "normal; set B1", ";", "normal; press =A+P-S2"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, err := m.Condition(text)
		if err != nil {
			var own *sim.ConditionError
			if !errors.As(err, &own) || own.Code == "" {
				t.Fatalf("Condition(%q): %v", text, err)
			}
			return
		}
		for _, mv := range append(c.Set, c.Steps...) {
			if mv.Element < 0 || mv.Element >= len(m.Net.Elements) {
				t.Fatalf("Condition(%q) moves %+v", text, mv)
			}
			k := m.Net.Elements[mv.Element].Kind
			known := k.Analogue && mv.Input >= -0.25 && mv.Input <= 1.3125 // 0 to 25 mA
			for _, p := range k.Positions {
				known = known || p.Value == mv.Input
			}
			if !known {
				t.Errorf("Condition(%q) puts a %s to %g", text, k.Name, mv.Input)
			}
		}
	})
}
