package check

import (
	"halfsplit/core/unit"
)

// A capacity is what a conductor may be protected by, in amperes: up to careful
// nothing is said, up to most it is doubtful, above it wrong.
type capacity struct{ careful, most float64 }

// gauges is the largest overcurrent device for a copper conductor by gauge.
// Sources: careful NEC 240.4(D) from 18 to 10 AWG; most, and both of the thinner
// gauges, NFPA 79 table 12.5.1 (from memory), which gives control circuits more
// at 14 and 12 AWG.
var gauges = []struct {
	awg int
	capacity
}{
	{26, capacity{1, 1}}, {24, capacity{2, 2}}, {22, capacity{3, 3}}, {20, capacity{5, 5}}, {18, capacity{7, 7}},
	{16, capacity{10, 10}}, {14, capacity{15, 20}}, {12, capacity{20, 25}}, {10, capacity{30, 30}},
}

// sections is the current-carrying capacity of a PVC-insulated copper conductor by
// cross-section in mm² at 40 °C. Source: IEC 60204-1 table 6: careful column B2
// (multicore cable in conduit or trunking), most column E (in free air). Below
// 0.75 mm² the figures of the gauge of nearly the same area stand in (choice).
var sections = []struct {
	mm2 float64
	capacity
}{
	{0.14, capacity{1, 1}}, {0.25, capacity{2, 2}}, {0.34, capacity{3, 3}}, {0.5, capacity{5, 5}},
	{0.75, capacity{8.5, 10.4}}, {1, capacity{10.1, 12.4}}, {1.5, capacity{13.1, 16.1}}, {2.5, capacity{17.4, 22}},
	{4, capacity{23, 30}}, {6, capacity{30, 37}}, {10, capacity{40, 52}}, {16, capacity{54, 70}},
}

// allows is what a conductor as written may be protected by. A size between two
// of a table counts as the thinner one. ok is false below or above the tables,
// where nothing is claimed. Bundling and warmer surroundings are not counted: the
// tables are the most that can be right.
func allows(size string) (c capacity, ok bool) {
	mm2, err := unit.Parse(size, unit.Area)
	if err != nil {
		return capacity{}, false
	}
	const slack = 1.005 // 0.75 and the computed area of a gauge are not exact numbers
	for _, g := range gauges {
		area := unit.AWGArea(g.awg)
		if mm2 < area*slack && mm2*slack > area {
			return g.capacity, true
		}
	}
	for _, s := range sections {
		if mm2*slack >= s.mm2 {
			c, ok = s.capacity, mm2 <= 16*slack
		}
	}
	return c, ok
}
