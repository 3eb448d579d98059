package netlist

import (
	"math"

	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

var inf = math.Inf(1)

// supply writes a DC supply: a voltage behind a little resistance up to its
// limit, that current beyond it, nothing when off or when held above its own
// voltage from outside.
func (w *writer) supply(p *panel.Part) {
	volts, limit := quantity(p.Ratings, "voltage", unit.Voltage, 24), quantity(p.Ratings, "current", unit.Current, 5)
	start := quantity(p.Ratings, "input", unit.Voltage, 85)
	efficiency := quantity(p.Ratings, "efficiency", unit.Ratio, 0.88)
	s := w.state(p.Ref)
	dc, ac := ohms(supplyBleed), ohms(supplyBleed)
	switch s.Mode {
	case "running":
		dc, ac = Two{Ohms: supplyOhms, Volts: volts}, ohms(supplyOhms)
	case "limiting":
		dc.Amps = limit
	}
	in := w.line(p.Ref+" input", p.Ref+":L", p.Ref+":N", ohms(supplyInput), ohms(1/(1/supplyInput+s.Draw)))
	out := w.line(p.Ref+" output", p.Ref+":-", p.Ref+":+", dc, ac)
	for _, filter := range [][2]string{{"y-capacitor", ":PE"}, {"coupling", ":-"}} {
		if farads, err := unit.Parse(p.Ratings[filter[0]], unit.Capacitance); err == nil && farads > 0 {
			for _, pole := range []string{":L", ":N"} {
				w.line(p.Ref+" "+filter[0]+" "+pole, p.Ref+pole, p.Ref+filter[1], Two{}, w.series(100, farads))
			}
		}
	}
	if s.Held {
		return
	}
	amps := func(v Solution) float64 { return real(w.Lines[out].DC.Through(w.across(v, out))) }
	across := func(v Solution) float64 { return -real(w.across(v, out)) }
	mains := func(v Solution) float64 {
		if v.AC == nil {
			return 0
		}
		return magnitude(w.acrossAC(v, in))
	}
	if s.Mode == "stopped" || s.Mode == "" {
		w.claim(p.Ref+" does not start", mains, 0, start)
		return
	}
	w.claim(p.Ref+" keeps running", mains, 0.9*start, inf)
	switch s.Mode {
	case "running":
		w.claim(p.Ref+" gives no more than its limit", amps, -inf, limit)
		w.claim(p.Ref+" takes no more than its bleeder", func(v Solution) float64 { return amps(v) + across(v)/supplyBleed }, -1e-9, inf)
	case "limiting":
		w.claim(p.Ref+" is dragged below its voltage", across, -inf, volts-limit*supplyOhms)
		w.claim(p.Ref+" gives its limit", amps, 0, inf)
	case "standby":
		w.claim(p.Ref+" is held above its voltage", across, volts, inf)
	}
	w.claim(p.Ref+" draws what it gives, times losses", func(v Solution) float64 {
		u := mains(v)
		return s.Draw * u * u / (supplyIdle + max(0, across(v)*amps(v))/efficiency)
	}, 1, 1)
}

// signalOf is the current an instrument wants to signal.
func (w *writer) signalOf(ref string, s State) float64 {
	if amps, ok := w.signal[ref]; ok {
		return amps
	}
	return loopAmps(s.Input)
}

// twoWire writes an instrument that lives on the loop.
func (w *writer) twoWire(p *panel.Part) {
	lift := quantity(p.Ratings, "lift-off", unit.Voltage, 12)
	if low := quantity(p.Ratings, "lift-off-4ma", unit.Voltage, lift); low != lift {
		lift = low + (lift-low)*(w.signalOf(p.Ref, w.state(p.Ref))-0.004)/0.016
	}
	k := w.loopCurve(p, p.Ref, p.Ref+":+", p.Ref+":-", lift)
	if s := w.state(p.Ref); s.Mode != "regulating" && s.Mode != "starved" {
		w.claim(p.Ref+" is below lift-off", func(v Solution) float64 { return real(w.across(v, k)) }, -inf, lift)
	}
}

// loopCurve writes what lets a signal's current through: that current above
// lift-off, nearly a short beyond lift-off where the loop cannot give that much,
// next to nothing below.
func (w *writer) loopCurve(p *panel.Part, id, from, to string, lift float64) int {
	s := w.state(p.Ref)
	signal := w.signalOf(p.Ref, s)
	dc := ohms(twoWireOff)
	switch s.Mode {
	case "regulating":
		dc = Two{Amps: signal}
	case "starved":
		dc = Two{Ohms: twoWireSlope, Volts: -lift}
	}
	k := w.line(id, from, to, dc, ohms(twoWireOff))
	volts := func(v Solution) float64 { return real(w.across(v, k)) }
	knee := lift + signal*twoWireSlope
	switch s.Mode {
	case "regulating":
		w.claim(p.Ref+" has lift-off at its signal", volts, knee, inf)
	case "starved":
		w.claim(p.Ref+" is between lift-off and its signal", volts, lift, knee)
	}
	return k
}

// fourWire writes an instrument fed apart, which drives its signal up to a
// voltage.
func (w *writer) fourWire(p *panel.Part) {
	least, most := quantity(p.Ratings, "least", unit.Voltage, 18), quantity(p.Ratings, "compliance", unit.Voltage, 15)
	s := w.state(p.Ref)
	signal := w.signalOf(p.Ref, s)
	w.resistor(p.Ref+" supply", p.Ref+":L+", p.Ref+":M", 24*24/quantity(p.Ratings, "power", unit.Power, 2))
	dc := ohms(fourWireOff)
	switch s.Mode {
	case "driving":
		dc = Two{Amps: signal}
	case "saturated":
		dc = Two{Ohms: fourWireKnee, Volts: most}
	}
	out := w.line(p.Ref+" signal", p.Ref+":-", p.Ref+":+", dc, ohms(fourWireOff))
	fed := func(v Solution) float64 { return v.DC[w.index[p.Ref+":L+"]] - v.DC[w.index[p.Ref+":M"]] }
	volts := func(v Solution) float64 { return -real(w.across(v, out)) }
	knee := most - signal*fourWireKnee
	switch s.Mode {
	case "driving":
		w.claim(p.Ref+" drives below its compliance", volts, -inf, knee)
	case "saturated":
		w.claim(p.Ref+" is at its compliance", volts, knee, inf)
	default:
		w.claim(p.Ref+" is not fed", fed, -inf, least)
		return
	}
	w.claim(p.Ref+" is fed", fed, least, inf)
}

func (w *writer) claim(what string, value func(Solution) float64, low, high float64) {
	w.Claims = append(w.Claims, Claim{what, value, low, high})
}

// carries claims that a line's current stays below most.
func (w *writer) carries(what string, line int, most float64) {
	w.claim(what, func(v Solution) float64 {
		l := &w.Lines[line]
		i := math.Abs(real(l.DC.Through(w.across(v, line))))
		if v.AC != nil {
			i = max(i, magnitude(l.AC.Through(w.acrossAC(v, line))))
		}
		return i
	}, 0, most)
}

// across is the direct voltage from A to B of a line.
func (c *Circuit) across(v Solution, line int) complex128 {
	l := &c.Lines[line]
	return complex(v.DC[l.A]-v.DC[l.B], 0)
}

func (c *Circuit) acrossAC(v Solution, line int) complex128 {
	l := &c.Lines[line]
	return v.AC[l.A] - v.AC[l.B]
}

func magnitude(c complex128) float64 { return math.Hypot(real(c), imag(c)) }
