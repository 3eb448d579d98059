package parts

import "halfsplit/core/unit"

// A gate of a time-current characteristic: at this multiple of the rated
// current the device has opened within Max and not before Min milliseconds.
type gate struct {
	multiple float64
	min, max float64
}

const hour = 3600e3

// curves by characteristic, gates in rising order. Below the first gate the
// device holds. Sources: F and T, IEC 60127-2 glass, low breaking capacity,
// sheets 2 and 3; "T 0.1" the same for links up to 0.1 A; "T H" ceramic, high
// breaking capacity, sheet 5, up to 3.15 A; gG, IEC 60269 conventional currents
// (from memory, 4 to 16 A); B, C, D, IEC 60898-1 with the magnetic limits raised by
// half for DC.
var curves = map[string][]gate{
	"F":     {{2.1, 50, hour / 2}, {2.75, 50, 2e3}, {4, 10, 300}, {10, 0, 20}},
	"T":     {{2.1, 600, 120e3}, {2.75, 600, 10e3}, {4, 150, 3e3}, {10, 20, 300}},
	"T 0.1": {{2.1, 200, 120e3}, {2.75, 200, 10e3}, {4, 40, 3e3}, {10, 10, 300}},
	"T H":   {{2.1, 1e3, hour / 2}, {2.75, 1e3, 80e3}, {4, 95, 5e3}, {10, 10, 100}},
	"gG":    {{1.9, 1e3, hour}, {4, 100, 5e3}, {10, 1, 100}},
	"B":     {{1.45, 1e3, hour}, {2.55, 1e3, 60e3}, {7.5, 0, 100}},
	"C":     {{1.45, 1e3, hour}, {2.55, 1e3, 60e3}, {15, 0, 100}},
	"D":     {{1.45, 1e3, hour}, {2.55, 1e3, 60e3}, {30, 0, 100}},
}

// curveOf picks the curve of a rating. A fuse of unsaid class is taken as
// time-lag, the slower answer.
func curveOf(f unit.Fuse) []gate {
	if c, ok := curves[f.Class]; ok && f.Class != "T" {
		return c
	}
	switch {
	case f.Breaking == "H":
		return curves["T H"]
	case f.Rated <= 0.1:
		return curves["T 0.1"]
	}
	return curves["T"]
}

// opens says whether a device must open at m times its rated current, and when:
// not later than at the gate passed, not earlier than at the next one.
func opens(curve []gate, m float64) (Wait, bool) {
	if m < curve[0].multiple {
		return Wait{}, false
	}
	k := 0
	for k+1 < len(curve) && curve[k+1].multiple <= m {
		k++
	}
	w := Wait{Min: curve[k].min, Max: curve[k].max}
	if k+1 < len(curve) && m > curve[k].multiple {
		w.Min = curve[k+1].min
	}
	return w, true
}

// coldOhms of fuse links by rating. Source: data sheets of 5 × 20 mm time-lag
// glass links, typical cold resistance.
var coldOhms = []struct{ amps, ohms float64 }{
	{0.2, 1.60}, {0.5, 0.37}, {1, 0.117}, {2, 0.045}, {4, 0.017}, {10, 0.007},
}

// linkOhms interpolates coldOhms; beyond its ends resistance goes with 1/rating.
func linkOhms(amps float64) float64 {
	t := coldOhms
	if amps <= t[0].amps {
		return t[0].ohms * t[0].amps / amps
	}
	for k := 1; k < len(t); k++ {
		if amps <= t[k].amps {
			f := (amps - t[k-1].amps) / (t[k].amps - t[k-1].amps)
			return t[k-1].ohms + float64(f*(t[k].ohms-t[k-1].ohms))
		}
	}
	last := t[len(t)-1]
	return last.ohms * last.amps / amps
}
