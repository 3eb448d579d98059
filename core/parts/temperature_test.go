package parts

import (
	"math"
	"testing"
)

// IEC 60751, table of a Pt100, in Ω.
func TestPt100(t *testing.T) {
	for _, tc := range []struct{ celsius, ohms float64 }{
		{0, 100}, {10, 103.90}, {20, 107.79}, {50, 119.40}, {76, 129.37}, {100, 138.51}, {150, 157.33}, {200, 175.86}, {300, 212.05}, {400, 247.09}, {500, 280.98}, {850, 390.48},
	} {
		if got := PtOhms(tc.celsius); math.Abs(got-tc.ohms) > 0.0051 {
			t.Errorf("%g °C: %.3f Ω, want %.2f", tc.celsius, got, tc.ohms)
		}
		if got := PtCelsius(tc.ohms); math.Abs(got-tc.celsius) > 0.02 {
			t.Errorf("%.2f Ω: %.3f °C, want %g", tc.ohms, got, tc.celsius)
		}
	}
}

// IEC 60584-1, table of type K, in mV against 0 °C (from memory), at temperatures
// that the model has no point at. Straight lines between its points are 0.3 °C off
// at most; a class 1 couple itself may be 1.5 °C off.
func TestTypeK(t *testing.T) {
	for _, tc := range []struct{ celsius, millivolts float64 }{
		{25, 1.000}, {75, 3.059}, {125, 5.124}, {175, 7.140}, {225, 9.141}, {275, 11.182}, {350, 14.293}, {450, 18.516}, {550, 22.776}, {650, 27.025}, {750, 31.213}, {850, 35.313}, {950, 39.314},
	} {
		volts := (tc.millivolts - 0.798) * 1e-3 // the other end at 20 °C
		if got := TypeKCelsius(volts); math.Abs(got-tc.celsius) > 0.35 {
			t.Errorf("%.3f mV: %.2f °C, want %g", tc.millivolts, got, tc.celsius)
		}
		if got := TypeKCelsius(TypeKVolts(tc.celsius)); math.Abs(got-tc.celsius) > 1e-9 {
			t.Errorf("%g °C comes back as %g", tc.celsius, got)
		}
	}
	if v := TypeKVolts(20); v != 0 {
		t.Errorf("%g V with both ends at 20 °C", v)
	}
}
