package trace

import (
	"math"

	"halfsplit/core/fault"
	"halfsplit/core/parts"
	"halfsplit/core/unit"
)

// opened looks along the healthy way for what no longer conducts: first what a
// fault has opened, then what another device has.
func (w *why) opened(d *parts.Device, depth int) []Reason {
	for _, p := range w.ways(d) {
		if r := w.openedAlong(p, d, depth); r != nil {
			return r
		}
	}
	return nil
}

func (w *why) openedAlong(p path, d *parts.Device, depth int) []Reason {
	var off []int
	for i, k := range p.all() {
		if conductance(w.x, k) >= 0.1*w.base.conducts[k] { // a current that is set, by a transmitter, has none in either
			continue
		}
		if r := w.openedByFault(d, k, p, i >= len(p.feed)); r != nil {
			return r
		}
		if w.base.Model.Net.Branches[k].Role != parts.RoleLoad { // a load that no longer conducts suffers, it does not switch
			off = append(off, k)
		}
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

func (w *why) openedByFault(d *parts.Device, k int, p path, back bool) []Reason {
	br := &w.base.Model.Net.Branches[k]
	f := w.faultOf(br)
	switch {
	case f == nil:
		return nil
	case br.Role == parts.RoleSource:
		return []Reason{{"why.source-fault", []string{f.Key(), d.Ref}}}
	case br.Role == parts.RoleContact && conductance(w.x, k) < leakSiemens && conductance(w.x, k) > 1e-6:
		amps := unit.Format(max(math.Abs(w.amps[k]), w.rms(k)), unit.Current)
		return []Reason{{"why.off", []string{f.Key(), d.Ref}}, {"why.leaks", []string{br.Thing, amps, d.Ref}}}
	case conductance(w.x, k) > 1e-6:
		volts := max(math.Abs(w.amps[k]), math.Abs(w.ampsAC[k])) / conductance(w.x, k)
		return []Reason{{"why.resistive", []string{f.Key(), br.Thing, d.Ref, unit.Format(volts, unit.Voltage)}}}
	}
	amps := max(math.Abs(w.base.amps[k]), math.Abs(w.base.ampsAC[k]))
	args := []string{f.Key(), br.Thing, unit.Format(amps, unit.Current), d.Ref}
	if back {
		return append([]Reason{{"why.open-return", args}}, w.bothLive(d, p)...)
	}
	return []Reason{{"why.open", args}}
}

// blew is what drew more than a fuse holds.
func (w *why) blew(fuse string) []Reason {
	if f := w.joiner(); f != nil {
		return []Reason{{"why.blew", []string{f.Key(), fuse}}}
	}
	return w.drag()
}

// joiner is the fault that makes a way of its own: a new link before a contact
// that conducts; nil without one.
func (w *why) joiner() (found *fault.Fault) {
	for _, f := range w.faults {
		for _, c := range f.Changes {
			if c.What == parts.AddLink {
				return f
			}
		}
		if found == nil && w.base.joins(f.Changes) {
			found = f
		}
	}
	return found
}

// blown is the first fuse or breaker that current has opened; empty without.
func (w *why) blown() string {
	for k := range w.base.Model.Net.Branches {
		br := &w.base.Model.Net.Branches[k]
		if br.Role == parts.RoleFuse && conductance(w.x, k) < 0.1*w.base.conducts[k] && w.faultOf(br) == nil {
			return br.Thing
		}
	}
	return ""
}

// because appends the reasons of the device that is the cause.
func (w *why) because(r Reason, owner string, depth int) []Reason {
	if a := w.affected[owner]; a != nil && a.Device >= 0 {
		return append([]Reason{r}, w.reasons(a, depth+1)...)
	}
	for _, f := range w.faults {
		if f.Thing == owner {
			return []Reason{r, {"why.own", []string{f.Key(), owner}}}
		}
	}
	return []Reason{r}
}

// newFeed looks along the present way for what did not conduct before: the faults
// on it, else or beside them the first thing that another device has closed.
func (w *why) newFeed(d *parts.Device, depth int) (list []Reason) {
	first := -1
	for _, k := range w.pathOf(d, w.amps, w.ampsAC).all() {
		br := &w.base.Model.Net.Branches[k]
		if conductance(w.x, k) <= 10*w.base.conducts[k] {
			continue
		}
		if f := w.faultOf(br); f != nil {
			list = append(list, Reason{"why.closed", []string{f.Key(), br.Thing, d.Ref}})
			continue
		}
		if first < 0 {
			first = k
		}
	}
	if first < 0 {
		return list
	}
	br := &w.base.Model.Net.Branches[first]
	owner := w.ownerOf(br.Thing)
	r := Reason{"why.switched-on", []string{br.Thing, owner, d.Ref}}
	if owner == br.Thing {
		r.Code = "why.conducts"
	}
	if owner == d.Ref {
		return append(list, r)
	}
	return append(list, w.because(r, owner, depth)...)
}

// drag is the last resort: a fuse has opened meanwhile, the links of the faults
// carry current that was not there before, or the fault moves the voltages.
func (w *why) drag() []Reason {
	if fuse := w.blown(); fuse != "" {
		if f := w.joiner(); f != nil {
			return []Reason{{"why.dip", []string{f.Key(), fuse}}}
		}
	}
	if r := w.newPath(); r != nil {
		return r
	}
	if len(w.faults) > 0 {
		return []Reason{{"why.shared", []string{w.faults[0].Key()}}}
	}
	return nil
}

// newPath is the link of a fault that carries current; nil without one.
func (w *why) newPath() []Reason {
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
			return []Reason{{"why.new-path", []string{f.Key(), unit.Format(most, unit.Current)}}}
		}
	}
	return nil
}
