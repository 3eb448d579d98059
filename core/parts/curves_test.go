package parts

import (
	"testing"

	"halfsplit/core/unit"
)

// The gates of IEC 60127-2: at each multiple of the rated current a link has
// opened within the window, and below the first it holds for an hour.
func TestFuseGates(t *testing.T) {
	const (
		second = 1e3
		minute = 60e3
	)
	type window struct{ multiple, min, max float64 }
	holds := func(m float64) window { return window{multiple: m} }
	for _, tc := range []struct {
		fuse   string
		source string
		gates  []window
	}{
		{"1 A F", "IEC 60127-2 sheet 2", []window{holds(1), holds(1.5), {2.1, 0, 30 * minute}, {2.75, 50, 2 * second}, {4, 10, 300}, {10, 0, 20}}},
		{"1 A T", "IEC 60127-2 sheet 3", []window{holds(1), holds(1.5), {2.1, 0, 2 * minute}, {2.75, 600, 10 * second}, {4, 150, 3 * second}, {10, 20, 300}}},
		{"6.3 A T", "IEC 60127-2 sheet 3", []window{holds(1.5), {2.75, 600, 10 * second}}},
		{"0.1 A T", "IEC 60127-2 sheet 3, up to 0.1 A", []window{holds(1.5), {2.1, 0, 2 * minute}, {2.75, 200, 10 * second}, {4, 40, 3 * second}, {10, 10, 300}}},
		{"2 A T H", "IEC 60127-2 sheet 5", []window{holds(1.5), {2.1, 0, 30 * minute}, {2.75, second, 80 * second}, {4, 95, 5 * second}, {10, 10, 100}}},
		{"4 A gG", "IEC 60269: 4 to 16 A, conventional currents (from memory)", []window{holds(1.5), {1.9, 0, hour}}},
		{"B6", "IEC 60898-1: 1.13 and 1.45 (hour), 2.55 (minute)", []window{holds(1.13), {1.45, 0, hour}, {2.55, second, minute}}},
		{"C6", "IEC 60898-1, magnetic limit 10 × 1.5 on DC", []window{holds(1.13), {2.55, second, minute}, {14.9, 0, minute}, {15, 0, 100}}},
		{"D10", "IEC 60898-1, magnetic limit 20 × 1.5 on DC", []window{holds(1.13), {30, 0, 100}}},
	} {
		f, err := unit.ParseFuse(tc.fuse)
		if err != nil {
			t.Fatal(err)
		}
		for _, g := range tc.gates {
			got, open := opens(curveOf(f), g.multiple)
			switch {
			case open != (g.max > 0):
				t.Errorf("%s at %g × In: opens %v, want %v (%s)", tc.fuse, g.multiple, open, g.max > 0, tc.source)
			case got.Max > g.max || got.Min < g.min || got.Min > got.Max:
				t.Errorf("%s at %g × In: %g to %g ms, want within %g to %g (%s)", tc.fuse, g.multiple, got.Min, got.Max, g.min, g.max, tc.source)
			}
		}
	}
}

// More current never opens a device later.
func TestCurvesFall(t *testing.T) {
	for _, class := range []string{"F", "T", "gG", "B", "C", "D"} {
		for _, breaking := range []string{"", "H"} {
			f := unit.Fuse{Rated: 2, Class: class, Breaking: breaking}
			last, opened := Wait{}, false
			for m := 0.1; m < 50; m += 0.01 {
				w, open := opens(curveOf(f), 2*m/f.Rated)
				if opened && (!open || w.Min > last.Min || w.Max > last.Max) {
					t.Fatalf("%s %s: %+v at %.2f × In after %+v", class, breaking, w, m, last)
				}
				last, opened = w, open
			}
			if !opened {
				t.Errorf("%s holds at 50 × In", class)
			}
		}
	}
}

// Cold resistance of 5 × 20 mm time-lag glass links, data sheet figures; and the
// drop at rated current stays below the sheet's maximum.
func TestLinkOhms(t *testing.T) {
	for _, tc := range []struct{ amps, ohms, mostDrop float64 }{
		{0.2, 1.60, 1.5}, {0.5, 0.37, 0.9}, {1, 0.117, 0.15}, {2, 0.045, 0.15}, {4, 0.017, 0.1}, {10, 0.007, 0.1},
	} {
		got := linkOhms(tc.amps)
		if !within(got, tc.ohms, 1e-12) || got*tc.amps > tc.mostDrop {
			t.Errorf("%g A: %g Ω, want %g and at most %g V at rated current", tc.amps, got, tc.ohms, tc.mostDrop)
		}
	}
	for a := 0.05; a < 16; a += 0.05 {
		if linkOhms(a) <= linkOhms(a+0.05) {
			t.Errorf("a %.2f A link has no more resistance than a larger one", a)
		}
	}
}
