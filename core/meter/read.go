package meter

import (
	"math"
	"strconv"

	"halfsplit/core/circuit"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A Reading is what the display shows.
type Reading struct {
	Mode     Mode
	Value    float64 // in Unit; meaningless when Overload
	Unit     string
	Shown    string
	Overload bool
	Disturbs []Disturbance
}

// A Disturbance is a device that another state came over while the meter was
// connected.
type Disturbance struct {
	Device   int
	Was, Now parts.Status
}

// A Refusal says why a mode cannot be used between these points now.
type Refusal struct {
	Code string // "refused.live"
	Args []string
}

// Read measures between red and black in the machine's present settled state.
// The meter stays in the network: the caller reverts or throws away the machine.
func (m Meter) Read(x *sim.Machine, mode Mode, red, black circuit.Node) (Reading, *Refusal) {
	switch mode {
	case Ohms, Beep:
		return m.resistance(x, mode, red, black)
	}
	r := Reading{Mode: mode, Unit: "V"}
	was := statuses(x)
	load := m.input(mode)
	x.Apply([]parts.Change{parts.Join(red, black, load)})
	x.Settle()
	dc := x.V(red) - x.V(black)
	ac := magnitude(x.VAC(red) - x.VAC(black))
	switch mode {
	case VDC:
		r.Value = dc
	case VAC:
		r.Value = ac
	default: // a tester and a low-impedance mode show whichever there is
		if r.Value = dc; ac > math.Abs(dc) {
			r.Value = ac
		}
	}
	r.Shown = Volts(r.Value, mode)
	r.Disturbs = compare(x, was)
	return r, nil
}

// Current reads the current of a wire from its first end to its second, direct
// or, where that is larger, alternating, as a clamp around it would show.
func Current(x *sim.Machine, branch int) Reading {
	amps := x.DC().I(branch)
	if x.AC() != nil {
		if ac := magnitude(x.AC().I(branch)); ac > math.Abs(amps) {
			amps = ac
		}
	}
	return Reading{Mode: Clamp, Value: amps, Unit: "A", Shown: strconv.FormatFloat(clean(amps, 4), 'f', 4, 64) + " A"}
}

func (m Meter) resistance(x *sim.Machine, mode Mode, red, black circuit.Node) (Reading, *Refusal) {
	dc := math.Abs(x.V(red) - x.V(black))
	ac := magnitude(x.VAC(red) - x.VAC(black))
	live := dc > m.LiveVolts || ac > m.LiveVolts
	if live {
		return Reading{}, &Refusal{Code: "refused.live", Args: []string{Volts(max(dc, ac), VDC)}}
	}
	if x.Powered() {
		return Reading{}, &Refusal{Code: "refused.powered"}
	}
	r := Reading{Mode: mode, Unit: "ohm", Value: x.DC().Z(red, black)}
	r.Overload = r.Value > m.MostOhms
	switch {
	case mode == Beep && r.Value < m.BeepBelow:
		r.Shown = "beep"
	case mode == Beep:
		r.Shown = "silent"
	case r.Overload:
		r.Shown = "OL"
	default:
		r.Shown = Resistance(r.Value)
	}
	return r, nil
}

// Volts writes a voltage as a display does: two decimals below 60 V direct, one
// above and for alternating voltage. Minus zero is zero.
func Volts(v float64, mode Mode) string {
	decimals := 2
	if mode == VAC || math.Abs(v) >= 60 {
		decimals = 1
	}
	return strconv.FormatFloat(clean(v, decimals), 'f', decimals, 64) + " V"
}

// clean rounds half away from zero at the given decimals, so that a host's last
// bit never shows, and drops the sign of zero.
func clean(v float64, decimals int) float64 {
	scale := 1.0
	for range decimals {
		scale *= 10
	}
	r := math.Round(float64(v*scale)) / scale
	if r == 0 {
		return 0
	}
	return r
}

// Resistance writes ohms as a display does.
func Resistance(v float64) string {
	switch {
	case v < 1000:
		return strconv.FormatFloat(clean(v, 1), 'f', 1, 64) + " Ω"
	case v < 1e6:
		return strconv.FormatFloat(clean(v/1e3, 2), 'f', 2, 64) + " kΩ"
	}
	return strconv.FormatFloat(clean(v/1e6, 2), 'f', 2, 64) + " MΩ"
}

func statuses(x *sim.Machine) []parts.Status {
	list := make([]parts.Status, len(x.Model.Net.Devices))
	for i := range list {
		list[i] = x.Status(i)
	}
	return list
}

func compare(x *sim.Machine, was []parts.Status) []Disturbance {
	var list []Disturbance
	for i := range was {
		if now := x.Status(i); now.State != was[i].State {
			list = append(list, Disturbance{Device: i, Was: was[i], Now: now})
		}
	}
	return list
}

func magnitude(c complex128) float64 {
	return math.Sqrt(float64(real(c)*real(c)) + float64(imag(c)*imag(c)))
}
