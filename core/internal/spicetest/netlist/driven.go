package netlist

import (
	"math"

	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// currentTransformer writes a bar or a few turns, and a secondary that drives the
// primary's current times the ratio out of S1; beyond the saturation voltage its core
// takes what is left.
func (w *writer) currentTransformer(p *panel.Part) {
	rated, knee := quantity(p.Ratings, "current", unit.Current, 5), quantity(p.Ratings, "saturation", unit.Voltage, 250)
	ratio := rated / quantity(p.Ratings, "primary", unit.Current, 50)
	bar := w.resistor(p.Ref+" primary", p.Ref+":P1", p.Ref+":P2", barOhms)
	driven := w.state(p.Ref + " primary").Draw
	out := w.line(p.Ref, p.Ref+":S2", p.Ref+":S1", ohms(quantity(p.Ratings, "resistance", unit.Resistance, 0.2)), Two{Ohms: magnetisingOhms, Amps: driven})
	saturated := w.state(p.Ref).Mode == "core-saturated"
	core := Two{}
	if saturated {
		core = Two{Ohms: coreOhms, Volts: knee}
	}
	iron := w.line(p.Ref+" core", p.Ref+":S2", p.Ref+":S1", Two{}, core)
	if w.Frequency == 0 {
		return
	}
	w.claim(p.Ref+" has its ratio", func(v Solution) float64 {
		// The bar drops millivolts of mains: what the last bits of its two ends come to
		// through a milliohm is no current.
		rounding := ratio * 0x1p-51 * magnitude(v.AC[w.Lines[bar].A]) / barOhms
		return (driven - ratio*magnitude(w.Lines[bar].AC.Through(w.acrossAC(v, bar)))) / (1e-7*(1e-6+driven) + rounding)
	}, -1, 1)
	// The voltage that all of the driven current would need outside; next to nothing
	// flows there when it is open.
	w.claim(p.Ref+" has its core as it is", func(v Solution) float64 {
		u := w.acrossAC(v, out)
		outside := magnitude(w.Lines[out].AC.Through(u) + w.Lines[iron].AC.Through(u))
		if saturated {
			return math.Copysign(1, w.Lines[out].AC.Amps*magnitude(u)-knee*outside)
		}
		return math.Copysign(1, knee-magnitude(u))
	}, 1, 1)
}
