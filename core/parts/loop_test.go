package parts

import "testing"

func TestLoopBands(t *testing.T) {
	// NAMUR NE 43: 3.8 to 20.5 mA is measurement, up to 3.6 and from 21.0 mA the
	// instrument reports itself; between them it is beyond its range. No current
	// at all is a broken loop (common practice).
	for _, tc := range []struct {
		milliamps float64
		band      string
		grade     Grade
	}{
		{0, "no-current", Off}, {0.05, "no-current", Off}, {3.2, "fail-low", Weak}, {3.6, "fail-low", Weak}, {3.61, "under-range", Weak},
		{3.79, "under-range", Weak}, {3.8, "measuring", On}, {4, "measuring", On}, {12, "measuring", On}, {20, "measuring", On}, {20.5, "measuring", On},
		{20.51, "over-range", Weak}, {20.99, "over-range", Weak}, {21, "fail-high", Weak}, {21.6, "fail-high", Weak}, {23, "fail-high", Weak},
	} {
		if got := BandOf(tc.milliamps / 1e3); got != tc.band || gradeOf(got) != tc.grade {
			t.Errorf("%g mA: %s, grade %d, want %s, %d", tc.milliamps, got, gradeOf(got), tc.band, tc.grade)
		}
	}
}

func TestLoopAmps(t *testing.T) {
	// IEC 60381-1: 4 to 20 mA is 0 to 100 %. NE 43: saturated at 3.8 and 20.5 mA.
	for _, tc := range []struct{ value, milliamps float64 }{
		{0, 4}, {0.25, 8}, {0.5, 12}, {0.75, 16}, {1, 20}, {-0.01, 3.84}, {-0.5, 3.8}, {1.02, 20.32}, {1.5, 20.5},
		{failLow, 3.5}, {failHigh, 21.5},
	} {
		if got := 1e3 * LoopAmps(tc.value); !within(got, tc.milliamps, 1e-12) {
			t.Errorf("%g of the range: %g mA, want %g", tc.value, got, tc.milliamps)
		}
	}
}
