package diagnose

import (
	"math"
	"testing"
)

// Both agree with the library to twelve digits, which is far more than a
// likelihood needs; what matters is that they are the same on every host.
func TestElementaryFunctions(t *testing.T) {
	for x := -690.0; x <= 0; x += 0.37 {
		if got, want := expNeg(x), math.Exp(x); !(math.Abs(got-want) <= 1e-12*want) {
			t.Errorf("expNeg(%g) = %g, want %g", x, got, want)
		}
	}
	for x := 1e-12; x < 1e12; x *= 1.7 {
		if got, want := log2(x), math.Log2(x); !(math.Abs(got-want) <= 1e-12*math.Max(1, math.Abs(want))) {
			t.Errorf("log2(%g) = %g, want %g", x, got, want)
		}
	}
	if expNeg(-1e6) != 0 || log2(1) != 0 {
		t.Error("ends: e^-1e6 and log2 1 are 0")
	}
}
