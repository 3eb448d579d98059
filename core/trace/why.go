package trace

import (
	"math"
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
		return w.earthReasons(a)
	case Unsafe:
		list := []Reason{{"why.live", []string{a.Ref, unit.Format(a.Now.Volts, unit.Voltage)}}}
		for _, f := range w.faults {
			if w.base.joins(f.Changes) {
				list = append(list, Reason{"why.brings", []string{f.Key}})
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
		return append(r, w.leftOver(a, "")...)
	}
	if r := w.newFeed(d, depth); r != nil {
		return r
	}
	if r := w.leftOver(a, w.faults[0].Key); r != nil {
		return r
	}
	if r := w.follows(d, depth); r != nil {
		return r
	}
	return w.drag()
}

// ownFault is the reason that the device itself is what failed.
func (w *why) ownFault(d *parts.Device) []Reason {
	for _, f := range w.faults {
		if f.Thing == d.Ref || f.Thing == d.Part {
			return []Reason{{"why.own", []string{f.Key, d.Ref}}}
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

// opened looks along the healthy way for what no longer conducts: first what a
// fault has opened, then what another device has.
func (w *why) opened(d *parts.Device, depth int) []Reason {
	if r := w.openedAlong(w.pathOf(d, w.base.amps, w.base.ampsAC), d, depth); r != nil {
		return r
	}
	sense := w.base.Model.Net.Elements[d.Element].Sense
	if !d.Kind.Analogue || len(sense) < 4 {
		return nil
	}
	// an instrument fed apart from its signal: the way of the signal
	return w.openedAlong(w.between(sense[3], sense[2], w.base.amps, w.base.ampsAC), d, depth)
}

func (w *why) openedAlong(p path, d *parts.Device, depth int) []Reason {
	var off []int
	for i, k := range p.all() {
		if conductance(w.x, k) >= 0.1*w.base.conducts[k] { // a current that is set, by a transmitter, has none in either
			continue
		}
		if r := w.openedByFault(d, k, i >= len(p.feed)); r != nil {
			return r
		}
		off = append(off, k)
	}
	for _, k := range off {
		br := &w.base.Model.Net.Branches[k]
		if br.Role == parts.RoleFuse {
			return append([]Reason{{"why.fuse-opened", []string{br.Thing, d.Ref}}}, w.blew(br.Thing)...)
		}
		owner := w.ownerOf(br.Thing)
		if owner == d.Ref {
			continue // its own seal-in let go after the cause
		}
		code := "why.switched"
		switch {
		case br.Role == parts.RoleSource && w.affected[owner] != nil && w.affected[owner].Effect == Starved:
			code = "why.source-weak"
		case br.Role == parts.RoleSource:
			code = "why.source"
		case owner == br.Thing:
			code = "why.switched-off"
		}
		return w.because(Reason{code, []string{br.Thing, owner, d.Ref}}, owner, depth)
	}
	return nil
}

func (w *why) openedByFault(d *parts.Device, k int, back bool) []Reason {
	br := &w.base.Model.Net.Branches[k]
	f := w.faultOf(br)
	switch {
	case f == nil:
		return nil
	case br.Role == parts.RoleSource:
		return []Reason{{"why.source-fault", []string{f.Key, d.Ref}}}
	case conductance(w.x, k) > 1e-6:
		volts := max(math.Abs(w.amps[k]), math.Abs(w.ampsAC[k])) / conductance(w.x, k)
		return []Reason{{"why.resistive", []string{f.Key, br.Thing, d.Ref, unit.Format(volts, unit.Voltage)}}}
	}
	amps := max(math.Abs(w.base.amps[k]), math.Abs(w.base.ampsAC[k]))
	args := []string{f.Key, br.Thing, unit.Format(amps, unit.Current), d.Ref}
	if back {
		return append([]Reason{{"why.open-return", args}}, w.bothLive(d)...)
	}
	return []Reason{{"why.open", args}}
}

// blew is what drew more than a fuse holds.
func (w *why) blew(fuse string) []Reason {
	for _, f := range w.faults {
		if w.base.joins(f.Changes) {
			return []Reason{{"why.blew", []string{f.Key, fuse}}}
		}
	}
	return w.drag()
}

// because appends the reasons of the device that is the cause.
func (w *why) because(r Reason, owner string, depth int) []Reason {
	if a := w.affected[owner]; a != nil && a.Device >= 0 {
		return append([]Reason{r}, w.reasons(a, depth+1)...)
	}
	return []Reason{r}
}

// newFeed looks along the present way for what did not conduct before, or for a
// link a fault has made.
func (w *why) newFeed(d *parts.Device, depth int) []Reason {
	for _, k := range w.pathOf(d, w.amps, w.ampsAC).all() {
		if conductance(w.x, k) <= 10*w.base.conducts[k] {
			continue
		}
		br := &w.base.Model.Net.Branches[k]
		if f := w.faultOf(br); f != nil {
			return []Reason{{"why.closed", []string{f.Key, br.Thing, d.Ref}}}
		}
		owner := w.ownerOf(br.Thing)
		r := Reason{"why.switched-on", []string{br.Thing, owner, d.Ref}}
		if owner == br.Thing {
			r.Code = "why.conducts"
		}
		if owner == d.Ref {
			return []Reason{r}
		}
		return w.because(r, owner, depth)
	}
	return nil
}

// drag is the last resort: the links of the faults carry current that was not
// there before, or the fault moves the voltages.
func (w *why) drag() []Reason {
	link := 0
	for _, f := range w.faults {
		most := 0.0
		for _, c := range f.Changes {
			if c.What != parts.AddLink {
				continue
			}
			most = max(most, math.Abs(w.x.DC().LinkI(link)))
			if w.x.AC() != nil {
				most = max(most, abs(w.x.AC().LinkI(link)))
			}
			link++
		}
		if most > leastAmps {
			return []Reason{{"why.new-path", []string{f.Key, unit.Format(most, unit.Current)}}}
		}
	}
	if len(w.faults) > 0 {
		return []Reason{{"why.shared", []string{w.faults[0].Key}}}
	}
	return nil
}

// earthReasons names what parted a frame from earth.
func (w *why) earthReasons(a *Affected) []Reason {
	for _, f := range w.faults {
		for _, c := range f.Changes {
			if c.What == parts.SetBranch && w.base.earthy[c.Branch] {
				return []Reason{{"why.earth", []string{f.Key, w.base.Model.Net.Branches[c.Branch].Thing, a.Ref}}}
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
