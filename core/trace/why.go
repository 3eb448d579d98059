package trace

import (
	"strings"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/unit"
)

// explain finds the reasons of every affected device: first which branch on its
// healthy way has opened, else which new one feeds it, else what drags it down.
func (b *Base) explain(x *sim.Machine, faults []*fault.Fault, list []Affected) {
	w := &why{base: b, x: x, faults: faults, affected: map[string]*Affected{}}
	w.amps, w.ampsAC = currents(x)
	for i := range list {
		w.affected[list[i].Ref] = &list[i]
	}
	for i := range list {
		list[i].Why = w.reasons(&list[i], 0)
	}
}

type why struct {
	base         *Base
	x            *sim.Machine
	faults       []*fault.Fault
	affected     map[string]*Affected
	amps, ampsAC []float64
}

// deepest bounds the chain of causes: relay on relay on supply.
const deepest = 4

func (w *why) reasons(a *Affected, depth int) []Reason {
	if depth > deepest {
		return nil
	}
	switch a.Effect {
	case Unprotected:
		list := w.earthReasons(a)
		if a.Now.Volts > touchAC {
			list = append(list, Reason{"why.stray", []string{a.Ref, unit.Format(a.Now.Volts, unit.Voltage)}})
		}
		return list
	case Unsafe:
		list := []Reason{{"why.live", []string{a.Ref, unit.Format(a.Now.Volts, unit.Voltage)}}}
		if a.Device >= 0 && w.base.Model.Net.Devices[a.Device].Kind.Drives {
			return append(list, w.openedWhileDriven(a.Ref)...)
		}
		for _, f := range w.faults {
			if w.base.joins(f.Changes) {
				list = append(list, Reason{"why.brings", []string{f.Key()}})
			}
		}
		return append(list, w.earthReasons(a)...)
	}
	d := &w.base.Model.Net.Devices[a.Device]
	if own := w.ownFault(d); own != nil {
		return own
	}
	if a.Effect == HeldOn {
		if r := w.newFeed(d, depth); r != nil {
			return r
		}
	}
	if r := w.opened(d, depth); r != nil {
		if r[len(r)-1].Code == "why.leaks" {
			return r
		}
		return append(r, w.leftOver(a, "")...)
	}
	if r := w.newFeed(d, depth); r != nil {
		return r
	}
	if r := w.leftOver(a, w.faults[0].Key()); r != nil {
		return r
	}
	if w.blown() == "" {
		if r := w.newPath(); r != nil {
			return r
		}
	}
	if r := w.follows(d, depth); r != nil {
		return r
	}
	if r := w.onTheWay(d); r != nil {
		return r
	}
	return w.drag()
}

// openedWhileDriven names what opened the circuit of a device that drives it.
func (w *why) openedWhileDriven(ref string) (list []Reason) {
	driven := w.base.Model.Net.Driven()
	for _, f := range w.faults {
		for k := range w.base.Model.Net.Branches {
			br := &w.base.Model.Net.Branches[k]
			if driven[k] && w.faultOf(br) == f && conductance(w.x, k) < 0.1*w.base.conducts[k] {
				list = append(list, Reason{"why.driven", []string{f.Key(), ref}})
				break
			}
		}
	}
	return list
}

// ownFault is the reason that the device itself is what failed.
func (w *why) ownFault(d *parts.Device) []Reason {
	for _, f := range w.faults {
		if f.Thing == d.Ref || f.Thing == d.Part {
			return []Reason{{"why.own", []string{f.Key(), d.Ref}}}
		}
	}
	return nil
}

// pathOf is the way of the device's current in a set of branch currents: direct
// where there is any, else alternating.
func (w *why) pathOf(d *parts.Device, dc, ac []float64) path {
	sense := w.base.Model.Net.Elements[d.Element].Sense
	if len(sense) < 2 {
		return path{}
	}
	return w.between(sense[0], sense[1], dc, ac)
}

func (w *why) between(a, z circuit.Node, dc, ac []float64) path {
	if p := w.base.follow(a, z, dc); !p.empty() {
		return p
	}
	return w.base.follow(a, z, ac)
}

// conductance of a branch for the comparison: direct or alternating.
func conductance(x *sim.Machine, k int) float64 {
	g := x.DC().Value(k).G
	if x.AC() != nil {
		g = max(g, abs(x.AC().Value(k).Y))
	}
	return g
}

// ways are the healthy ways of a device's currents: of its supply, then those of
// its signal or channels where it has such.
func (w *why) ways(d *parts.Device) []path {
	list := []path{w.pathOf(d, w.base.amps, w.base.ampsAC)}
	sense := w.base.Model.Net.Elements[d.Element].Sense
	if d.Kind.Feeds { // what it feeds is not what it lives on
		return list
	}
	if len(sense) >= 4 { // a signal of its own: out of the third terminal, into the fourth
		list = append(list, w.between(sense[3], sense[2], w.base.amps, w.base.ampsAC))
	}
	for i := 2; i < len(sense); i++ {
		list = append(list, w.between(sense[i], sense[1], w.base.amps, w.base.ampsAC))
	}
	return list
}

// onTheWay names a fault of something that lies on a way of the device and
// changed without opening it: a sensor that does not follow its target.
func (w *why) onTheWay(d *parts.Device) []Reason {
	for _, p := range w.ways(d) {
		for _, k := range p.all() {
			for _, f := range w.faults {
				if f.Thing == w.base.Model.Net.Branches[k].Thing {
					return []Reason{{"why.on-way", []string{f.Key(), d.Ref}}}
				}
			}
		}
	}
	return nil
}

// earthReasons names what parted a frame from earth.
func (w *why) earthReasons(a *Affected) []Reason {
	for _, f := range w.faults {
		for _, c := range f.Changes {
			if c.What == parts.SetBranch && w.base.earthy[c.Branch] {
				return []Reason{{"why.earth", []string{f.Key(), w.base.Model.Net.Branches[c.Branch].Thing, a.Ref}}}
			}
		}
	}
	return nil
}

// faultOf is the fault that alters this branch.
func (w *why) faultOf(br *parts.Branch) *fault.Fault {
	for _, f := range w.faults {
		if f.Thing == br.Thing {
			return f
		}
		for _, c := range f.Changes {
			switch {
			case c.What == parts.SetBranch && &w.base.Model.Net.Branches[c.Branch] == br:
				return f
			case c.What != parts.SetBranch && c.What != parts.AddLink && w.base.Model.Net.Elements[c.Element].Ref == br.Thing:
				return f
			}
		}
	}
	return nil
}

// ownerOf is the device a branch belongs to: "K1" for "K1:13-14".
func (w *why) ownerOf(thing string) string {
	for _, d := range w.base.Model.Net.Devices {
		if d.Ref == thing {
			return thing
		}
	}
	ref, _, _ := strings.Cut(thing, ":")
	return ref
}
