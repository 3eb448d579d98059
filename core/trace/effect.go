package trace

import (
	"math"
	"slices"
	"strings"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// An Effect says what becomes of a device.
type Effect string

// The effects, worst first.
const (
	Unsafe      Effect = "unsafe"      // touchable metal or a low-voltage device carries a dangerous voltage
	Unprotected Effect = "unprotected" // works, but its frame has lost the protective earth
	HeldOn      Effect = "held-on"     // on although the healthy panel has it off
	Chattering  Effect = "chattering"
	Dead        Effect = "dead"
	Starved     Effect = "starved"
	WrongValue  Effect = "wrong-value"
)

var effects = []Effect{Unsafe, HeldOn, Chattering, Dead, Starved, WrongValue, Unprotected}

// A Reason is one step of the explanation, as a code of package words with what
// it names.
type Reason struct {
	Code string
	Args []string
}

// An Affected device with what it was and is.
type Affected struct {
	Device   int // index into Net.Devices; -1 for a frame of a part that is no device
	Ref      string
	Effect   Effect
	Was, Now parts.Status
	Why      []Reason
}

// signalStep is the change of a loop signal that counts, in mA: half a percent
// of the 16 mA span, a common accuracy class.
const signalStep = 0.08

// celsiusStep is the change of a reported temperature that counts, in °C: choice,
// the order of a thermometer's own tolerance.
const celsiusStep = 1.0

// reports says that a state is a message: a card or amplifier that finds its line
// broken or shorted, a monitor that gives alarm.
func reports(state string) bool {
	return strings.HasPrefix(state, "line-") || strings.HasPrefix(state, "alarm-")
}

// touchAC and touchDC are the conventional touch voltage limits, in volts.
// Source: IEC 61140 / IEC 60364-4-41, 50 V AC and 120 V ripple-free DC.
const (
	touchAC = 50
	touchDC = 120
)

// frameOhms is what a frame's path to earth may reach before it counts as lost:
// above any protective conductor in a panel, far below insulation. Choice.
const frameOhms = 100

// judge compares two statuses of one device. Empty: not affected.
func judge(was, now parts.Status) Effect {
	switch {
	case now.State == "chattering" && was.State != "chattering":
		return Chattering
	case was.Grade == parts.On && now.Grade == parts.Off:
		return Dead
	case was.Grade == parts.On && now.Grade == parts.Weak && (now.Signal != 0 && !now.Starves || reports(now.State)):
		return WrongValue // out of the measuring range, and not for want of voltage
	case was.Grade == parts.On && now.Grade == parts.Weak, was.Grade == parts.Weak && now.Grade == parts.Off:
		return Starved
	case was.Grade < now.Grade:
		return HeldOn
	case math.Abs(was.Signal-now.Signal) > signalStep, math.Abs(was.Celsius-now.Celsius) > celsiusStep:
		return WrongValue
	}
	return ""
}

// Compare lists who differs in the machine's present state from the healthy
// one, worst first, without reasons.
func (b *Base) Compare(x *sim.Machine, faults []*fault.Fault) []Affected {
	return slices.Clone(b.compare(x, faults))
}

// compare is Compare in a buffer: the list is good until the next one.
func (b *Base) compare(x *sim.Machine, faults []*fault.Fault) []Affected {
	list := b.found[:0]
	for _, i := range b.suspicious(x) {
		now := x.Status(i)
		e := judge(b.Healthy[i], now)
		if e != Unsafe && b.overVolts(i, now) {
			e = Unsafe
		}
		if e != "" {
			list = append(list, Affected{Device: i, Ref: b.Model.Net.Devices[i].Ref, Effect: e, Was: b.Healthy[i], Now: now})
		}
	}
	list = b.compareFrames(list, x, faults)
	b.found = list
	sorted := b.sorted[:0]
	for _, e := range effects {
		for i := 0; i < len(list) && len(sorted) < len(list); i++ {
			if list[i].Effect == e {
				sorted = append(sorted, list[i])
			}
		}
	}
	b.sorted = sorted
	return sorted
}

// suspicious lists the devices whose status may differ from the healthy one: all,
// or those whose element sees something else than at the checkpoint.
func (b *Base) suspicious(x *sim.Machine) []int {
	list := b.devices[:0]
	elements, ok := x.Differing()
	if ok && x == b.Machine {
		for _, e := range elements {
			list = append(list, b.watching[e]...)
		}
		slices.Sort(list)
	} else {
		for i := range b.Model.Net.Devices {
			list = append(list, i)
		}
	}
	b.devices = list
	return list
}

// overVolts says that a device of extra-low voltage now sees a dangerous one.
func (b *Base) overVolts(i int, now parts.Status) bool {
	if b.Model.Net.Devices[i].Rated > touchAC {
		return false // it is made for that
	}
	for _, n := range b.Model.Net.Elements[b.Model.Net.Devices[i].Element].Sense {
		if abs(b.voltsAC[n]) > touchAC || math.Abs(b.volts[n]) > touchDC {
			return false // an output that has opened has the mains across it
		}
	}
	return b.Healthy[i].Volts < touchAC && now.Volts > touchDC || b.Healthy[i].Volts < touchAC/2 && now.Volts > touchAC
}

// compareFrames looks at touchable metal where the fault can concern it: when it
// alters a protective conductor, or joins what is not joined in the healthy panel.
func (b *Base) compareFrames(list []Affected, x *sim.Machine, faults []*fault.Fault) []Affected {
	earth, joins := b.concernsEarth(faults)
	if !earth && !joins {
		return list
	}
	below := b.earthing.below(faults)
	looked := below
	if joins { // anything may have become live
		looked = b.suspect(x, below)
	}
	for _, i := range looked {
		f := b.Model.Net.Frames[i]
		ac, dc := abs(x.VAC(f.Node)), math.Abs(x.V(f.Node))
		var e Effect
		_, over := slices.BinarySearch(below, i)
		switch {
		case (ac > touchAC || dc > touchDC) && bites(x, f.Node):
			e = Unsafe
		case over && b.frames[i] < frameOhms && x.DC().Z(f.Node, circuit.Earth) > frameOhms:
			e = Unprotected
		default:
			continue
		}
		a := Affected{Device: -1, Ref: f.Ref, Effect: e, Was: parts.Status{State: "earthed"}, Now: parts.Status{State: "unearthed", Volts: max(ac, dc)}}
		if e == Unsafe {
			a.Now.State = "live-frame"
		}
		list = append(list, a)
	}
	return list
}

// bites says that metal at a voltage nobody should touch also drives a current
// through somebody who does: not through filter capacitors or insulation alone.
func bites(x *sim.Machine, n circuit.Node) bool {
	if math.Abs(x.V(n))/(x.DC().Z(n, circuit.Earth)+bodyOhms) > feltDC {
		return true
	}
	return x.AC() != nil && abs(x.VAC(n))/abs(x.AC().Z(n, circuit.Earth)+bodyOhms) > feltAC
}

// The touch currents that nobody need fear, and the body they go through: IEC
// 61140, 0.5 mA AC and 2 mA DC (from memory); 1000 Ω is the usual figure.
const (
	feltAC   = 0.5e-3
	feltDC   = 2e-3
	bodyOhms = 1000
)

// concernsEarth says whether a fault alters a conductor of the protective earth,
// and whether it joins anything.
func (b *Base) concernsEarth(faults []*fault.Fault) (earth, joins bool) {
	for _, f := range faults {
		for _, c := range f.Changes {
			earth = earth || c.What == parts.SetBranch && b.earthy[c.Branch]
		}
		joins = joins || b.joins(f.Changes)
	}
	return earth, joins
}

func abs(c complex128) float64 {
	return math.Sqrt(float64(real(c)*real(c)) + float64(imag(c)*imag(c)))
}
