package check

import (
	"halfsplit/core/unit"
)

// gauges is the largest overcurrent device, in amperes, for a copper conductor
// by gauge. Sources: NEC 240.4(D) from 18 to 10 AWG; NFPA 79 table 12.5.1 for the
// thinner ones (from memory).
var gauges = []struct {
	awg  int
	amps float64
}{{26, 1}, {24, 2}, {22, 3}, {20, 5}, {18, 7}, {16, 10}, {14, 15}, {12, 20}, {10, 30}}

// sections is the current-carrying capacity, in amperes, of a PVC-insulated
// copper conductor by cross-section in mm² at 40 °C. Source: IEC 60204-1 table 6,
// column B2 (multicore cable in conduit or trunking, the most careful column).
// Below 0.75 mm² the figures of the gauge of nearly the same area stand in
// (choice).
var sections = []struct{ mm2, amps float64 }{
	{0.14, 1}, {0.25, 2}, {0.34, 3}, {0.5, 5}, {0.75, 8.5}, {1, 10.1}, {1.5, 13.1}, {2.5, 17.4}, {4, 23}, {6, 30}, {10, 40}, {16, 54},
}

// allows is the largest protective device for a conductor as written. A size
// between two of a table counts as the thinner one. ok is false below or far
// above the tables, where nothing is claimed. Bundling and warmer surroundings
// are not counted: the tables are the most that can be right.
func allows(size string) (amps float64, ok bool) {
	mm2, err := unit.Parse(size, unit.Area)
	if err != nil {
		return 0, false
	}
	const slack = 1.005 // 0.75 and the computed area of a gauge are not exact numbers
	for _, g := range gauges {
		area := unit.AWGArea(g.awg)
		if mm2 < area*slack && mm2*slack > area {
			return g.amps, true
		}
	}
	for _, s := range sections {
		if mm2*slack >= s.mm2 {
			amps, ok = s.amps, mm2 <= 16*slack
		}
	}
	return amps, ok
}
