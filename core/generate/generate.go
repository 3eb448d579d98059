// Package generate draws panels of any size that nobody has built: for trying
// the tool, for measuring it, and for tests that want more than two examples.
//
// # Shape
//
// A panel is made of sections of about 100 terminal blocks. Each has a DC supply
// of its own, fused 24 V distribution, a 0 V strip bonded to earth by a link, a
// start-stop circuit whose relay feeds other branches, 4-20 mA loops, inputs,
// outputs and motors, and now and then a circuit of the rarer kinds: sensors of
// every form, thermometers, a safety relay, outputs of 230 V, a circuit of 24 V AC or
// one without earth, a second feed. Up to six sections share one incoming supply.
//
// The drawing is a correct one: every fuse protects its wire, every frame has its
// protective conductor, no clamp holds more than two wires. In its condition
// "normal" everything is on but the lamps labelled "stopped".
package generate

import (
	"strconv"

	"halfsplit/core/panel"
)

// The sizes Generate can draw, in terminal blocks.
const (
	Least = 20
	Most  = 20_000
)

const (
	sectionBlocks = 100 // about so many blocks have one supply
	groupSections = 6   // so many sections at most share one incoming supply
)

// Generate draws a panel of so many terminal blocks, brought within Least and
// Most. The same size and seed give the same panel, on every host.
func Generate(terminals int, seed uint64) *panel.Panel {
	terminals = min(max(terminals, Least), Most)
	d := &drawing{
		random: random{seed},
		last:   map[string]int{},
		normal: map[string]string{},
		idle:   map[string]string{},
		p: &panel.Panel{
			Format: panel.Format, Version: panel.Version,
			Name:  "Generated panel, " + strconv.Itoa(terminals) + " terminals, seed " + strconv.FormatUint(seed, 10),
			About: "Drawn by a program; no such panel stands anywhere.",
		},
	}
	sizes := d.sizes(terminals)
	for k := 0; k < len(sizes); k += groupSections {
		d.group(k, sizes[k:min(k+groupSections, len(sizes))])
	}
	d.p.Conditions = []panel.Condition{
		{Name: "normal", About: "Running: every start button was pressed and let go.", Set: d.normal, Steps: d.steps},
		{Name: "stopped", About: "Power on, nothing started; the controller holds its outputs off.", Set: d.idle},
	}
	return d.p
}

// sizes shares the blocks out among sections, evenly but for a little.
func (d *drawing) sizes(terminals int) []int {
	n := max(1, (terminals+sectionBlocks/2)/sectionBlocks)
	sizes := make([]int, n)
	for k := range sizes {
		sizes[k] = terminals/n + min(1, terminals%n/(k+1))
	}
	sum := 0
	for _, s := range sizes {
		sum += s
	}
	sizes[n-1] += terminals - sum
	for k := 1; k < n; k += 2 {
		shift := d.below(11)
		sizes[k-1], sizes[k] = sizes[k-1]+shift, sizes[k]-shift
	}
	return sizes
}

// group draws an incoming supply with its main breaker, earth bar and sections,
// the first of which is number first.
func (d *drawing) group(first int, sizes []int) {
	mains, bar, breaker := d.ref("G"), d.ref("WE"), d.ref("Q")
	d.p.Mains = append(d.p.Mains, panel.Mains{Ref: mains, Voltage: "230 V", Frequency: "50 Hz",
		Earthing: d.earthing(), Impedance: "0.2 ohm", From: "isolator of " + mains + " in the distribution board"})
	main := d.part(panel.Part{Ref: breaker, Kind: "breaker", Label: "main", Ratings: map[string]string{"poles": "2"}})
	d.part(panel.Part{Ref: bar, Kind: "pe-bar", Label: "earth bar", Channels: 1 + len(sizes)})
	d.unsized = d.unsized[:0]
	d.feed(mains+":L", breaker+":1", "BK")
	d.feed(mains+":N", breaker+":3", "BU")
	d.wire(mains+":PE", bar+":1", "10 mm2", "4 m", "GNYE")
	line, neutral, amps := breaker+":2", breaker+":4", 0.0
	for k, size := range sizes {
		s := d.section(first+k+1, size, line, neutral, bar+":"+strconv.Itoa(k+2))
		line, neutral = s.line, s.neutral
		amps += s.mains
	}
	// The main breaker and the wires before the sections' own breakers are chosen
	// by what hangs on them.
	rating := ladder(amps*1.3, mainBreakers)
	d.p.Parts[main].Ratings["current"] = rating.text
	for _, k := range d.unsized {
		d.p.Wires[k].Size = rating.size
	}
}

// earthing is mostly TN-S: other systems of IEC 60364-1 are met now and then.
func (d *drawing) earthing() string {
	if d.chance(85) {
		return "TN-S"
	}
	return pick(&d.random, "TN-C-S", "TT", "IT")
}

// A rung is a size one can buy, with the wire it asks for.
type rung struct {
	amps             float64
	text, size, link string // link is a breaker that carries what it gives
}

// Wires after IEC 60204-1 table 6, column B2: 1.5 mm² carries 13 A, 2.5 mm² 17 A,
// 4 mm² 23 A, 6 mm² 30 A, 10 mm² 40 A (from memory).
var (
	mainBreakers = []rung{{10, "C10", "1.5 mm2", ""}, {16, "C16", "2.5 mm2", ""}, {20, "C20", "4 mm2", ""}, {25, "C25", "6 mm2", ""}, {40, "C40", "10 mm2", ""}}
	supplySizes  = []rung{{2.5, "2.5 A", "1.5 mm2", "C4"}, {5, "5 A", "1.5 mm2", "C6"}, {10, "10 A", "1.5 mm2", "C10"}, {20, "20 A", "4 mm2", "C20"}}
)

// ladder gives the first rung that carries amps, or the last.
func ladder(amps float64, rungs []rung) rung {
	for _, r := range rungs {
		if amps <= r.amps {
			return r
		}
	}
	return rungs[len(rungs)-1]
}
