package main

import (
	"math"
	"testing"
)

// Whatever is typed after --reading, it is refused in words, or it is a reading
// with a mode, two points, and a figure or an overload.
func FuzzParseReading(f *testing.F) {
	for _, s := range []string{"vdc X1:3/out X2:1 24.1", "vdc X1:3/out X2:1 24,1 @ press S2", "ohms K1:A1 K1:A2 OL", "beep A B silent",
		"vdc W12@X1:4/out X2:1 -0.5@power-off", "vdc a b", "vdc a b NaN", "vdc a b Inf", "vdc a b 1e999", "vdc a b @", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, err := parseReading(s)
		if err != nil {
			if err.Error() == "" {
				t.Fatalf("parseReading(%q) says nothing", s)
			}
			return
		}
		if r.Mode == "" || r.Red == "" || r.Black == "" || (r.Value == nil) == (r.Shown == "") {
			t.Errorf("parseReading(%q) = %+v", s, r)
		}
		if r.Value != nil && (math.IsNaN(*r.Value) || math.IsInf(*r.Value, 0)) {
			t.Errorf("parseReading(%q) reads %g", s, *r.Value)
		}
	})
}
