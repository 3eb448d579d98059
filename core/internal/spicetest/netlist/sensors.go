package netlist

import (
	"strconv"

	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// on says whether a sensor's output is switched on: NO with a target, NC without,
// unless it is stuck.
func (w *writer) on(p *panel.Part) bool {
	switch w.stuck[p.Ref] {
	case "stuck-on":
		return true
	case "stuck-off":
		return false
	}
	return (w.state(p.Ref).Input != 0) != (p.Ratings["function"] == "NC")
}

// threeWire writes a sensor of IEC 60947-5-2 with a supply and a transistor, which
// carries current one way from high to low.
func (w *writer) threeWire(p *panel.Part, high, low string) {
	s := w.state(p.Ref)
	least, drop := quantity(p.Ratings, "least", unit.Voltage, 10), quantity(p.Ratings, "drop", unit.Voltage, 1)
	limit := quantity(p.Ratings, "load", unit.Current, 0.2)
	supply := Two{Ohms: (24 - guard) / quantity(p.Ratings, "consumption", unit.Current, 10e-3), Volts: -guard}
	out := ohms(24 / quantity(p.Ratings, "leakage", unit.Current, 0.1e-3))
	outAC := out
	switch s.Mode {
	case "unfed", "":
		supply = ohms(unfed)
	case "on":
		out, outAC = Two{Ohms: transistor, Volts: -drop}, ohms(transistor)
	case "limiting":
		out = Two{Amps: limit}
	}
	in := w.line(p.Ref+" supply", p.Ref+":1", p.Ref+":3", supply, ohms(supply.Ohms))
	k := w.line(p.Ref, p.Ref+":"+high, p.Ref+":"+low, out, outAC)
	if s.Held {
		return
	}
	fed := func(v Solution) float64 { return real(w.across(v, in)) }
	across := func(v Solution) float64 { return real(w.across(v, k)) }
	switch s.Mode {
	case "unfed", "":
		w.claim(p.Ref+" is not fed", fed, -inf, guard)
		return
	case "starting":
		w.claim(p.Ref+" is fed too little", fed, guard, least)
		return
	}
	w.claim(p.Ref+" is fed", fed, least, inf)
	switch s.Mode {
	case "on":
		w.claim(p.Ref+" carries its load", func(v Solution) float64 { return real(w.Lines[k].DC.Through(w.across(v, k))) }, -1e-9, limit)
	case "held":
		w.claim(p.Ref+" is held from outside", across, -inf, drop)
	case "limiting":
		w.claim(p.Ref+" is overloaded", across, drop+limit*transistor, inf)
	}
	if w.on(p) == (s.Mode == "off") {
		w.claim(p.Ref+" obeys its target", func(Solution) float64 { return 1 }, 0, 0)
	}
}

// inSeries writes a two-wire sensor of IEC 60947-5-2: one curve through 0 at the
// guard diode's voltage and the residual current at the drop.
func (w *writer) inSeries(p *panel.Part) {
	s := w.state(p.Ref)
	residual, drop := quantity(p.Ratings, "residual", unit.Current, 0.8e-3), quantity(p.Ratings, "drop", unit.Voltage, 5)
	limit := quantity(p.Ratings, "load", unit.Current, 0.1)
	full := drop + (limit-residual)*transistor // V at which it limits
	dc, ac := ohms(unfed), ohms(unfed)
	low, high := -inf, guard
	switch s.Mode {
	case "rising":
		dc, low, high = Two{Ohms: (drop - guard) / residual, Volts: -guard}, guard, drop
		ac = ohms(dc.Ohms)
	case "off":
		dc, low, high = Two{Amps: residual}, drop, inf
	case "on":
		dc, low, high = Two{Ohms: transistor, Volts: residual*transistor - drop}, drop, full
		ac = ohms(transistor)
	case "limiting":
		dc, low, high = Two{Amps: limit}, full, inf
	}
	k := w.line(p.Ref, p.Ref+":1", p.Ref+":4", dc, ac)
	w.claim(p.Ref+" is where its curve has it", func(v Solution) float64 { return real(w.across(v, k)) }, low, high)
	if on := s.Mode == "on" || s.Mode == "limiting"; on && !w.on(p) || s.Mode == "off" && w.on(p) {
		w.claim(p.Ref+" obeys its target", func(Solution) float64 { return 1 }, 0, 0)
	}
}

// inputCommon is the terminal that a digital input card's channels share.
func inputCommon(p *panel.Part) []string {
	switch p.Ratings["form"] {
	case "sourcing":
		return []string{"L+"}
	case "ac":
		return []string{"N"}
	}
	return []string{"M"}
}

// inputs writes the channels of a digital input card, IEC 61131-2: of type 1 and
// for alternating current a resistance; of types 2 and 3 a constant current above
// the voltage up to which they are off.
func (w *writer) inputs(p *panel.Part) {
	common := p.Ref + ":" + inputCommon(p)[0]
	for n := range channelsOf(p) {
		ref := p.Ref + ":" + strconv.Itoa(n)
		from, to := ref, common
		if p.Ratings["form"] == "sourcing" {
			from, to = common, ref
		}
		amps := map[string]float64{"2": 7e-3, "3": 2.6e-3}[p.Ratings["type"]]
		switch {
		case p.Ratings["form"] == "ac":
			w.resistor(ref, from, to, quantity(p.Ratings, "resistance", unit.Resistance, 22e3))
			continue
		case amps == 0:
			w.resistor(ref, from, to, quantity(p.Ratings, "resistance", unit.Resistance, 4800))
			continue
		}
		amps = quantity(p.Ratings, "current", unit.Current, amps)
		knee := quantity(p.Ratings, "off", unit.Voltage, 5)
		dc, low, high := ohms(knee/amps), -inf, knee
		if w.state(ref).Mode == "conducting" {
			dc, low, high = Two{Amps: amps}, knee, inf
		}
		k := w.line(ref, from, to, dc, ohms(24/amps))
		w.claim(ref+" is on its side of the knee", func(v Solution) float64 { return real(w.across(v, k)) }, low, high)
	}
}
