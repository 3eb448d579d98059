package meter

import (
	"math"

	"halfsplit/core/circuit"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A Reading is what the display shows.
type Reading struct {
	Mode     Mode
	Value    float64 // in Unit; meaningless when Overload
	Unit     string  // "V", "mA" (ma), "A" (clamp), "ohm"
	Shown    string
	Overload bool
	Disturbs []Disturbance
	Mixed    bool // direct and alternating voltage are both there, above mixedVolts
}

// mixedVolts is how much of both makes a wave no longer a sine about zero.
const mixedVolts = 0.5

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
	// Blows is the current, in amperes, that would blow the meter's fuse if the
	// measurement were made all the same; 0 when nothing would happen to it.
	Blows float64
}

// Read measures between red and black in the machine's present settled state, in
// any mode but MA and Clamp. The meter stays in the network: the caller reverts or
// throws away the machine.
func (m Meter) Read(x *sim.Machine, mode Mode, red, black circuit.Node) (Reading, *Refusal) {
	if mode.Passive() {
		return m.passive(x, mode, red, black)
	}
	r := Reading{Mode: mode, Unit: "V"}
	was := statuses(x)
	x.Apply([]parts.Change{parts.Join(red, black, m.input(mode))})
	x.Settle()
	dc, ac := between(x, red, black)
	r.Mixed = min(math.Abs(dc), ac) > mixedVolts
	shownAs := mode
	switch mode {
	case VDC:
		r.Value = dc
	case VAC:
		r.Value = ac
	default: // a tester and a low-impedance mode show whichever there is
		if r.Value, shownAs = dc, VDC; ac > math.Abs(dc) {
			r.Value, shownAs = ac, VAC
		}
	}
	if r.Shown = m.Volts(r.Value, shownAs); math.Abs(r.Value) > m.MostVolts {
		r.Overload, r.Shown = true, overload
	}
	r.Disturbs = compare(x, was)
	return r, nil
}

// overload is what a display shows above its highest range, and with open leads.
const overload = "OL"

// between is the direct voltage from black to red and the alternating one.
func between(x *sim.Machine, red, black circuit.Node) (dc, ac float64) {
	return x.V(red) - x.V(black), magnitude(x.VAC(red) - x.VAC(black))
}

// Current reads the current of a wire from its first end to its second, direct
// or, where that is larger, alternating, as a clamp around it would show.
func (m Meter) Current(x *sim.Machine, branch int) Reading {
	amps := x.DC().I(branch)
	if x.AC() != nil {
		if ac := magnitude(x.AC().I(branch)); ac > math.Abs(amps) {
			amps = ac
		}
	}
	return Reading{Mode: Clamp, Value: amps, Unit: "A", Shown: m.Amps(amps)}
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

// Both reads the direct and the alternating voltage between two points, as a
// tester for absence of voltage does in turn. The meter stays in the network.
func (m Meter) Both(x *sim.Machine, red, black circuit.Node) (dc, ac float64) {
	x.Apply([]parts.Change{parts.Join(red, black, m.Input)})
	x.Settle()
	return between(x, red, black)
}
