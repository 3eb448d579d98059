package trace

import (
	"math"
	"slices"
	"strings"

	"halfsplit/core/parts"
	"halfsplit/core/unit"
)

// What fools a technician once something has opened: current that goes on through
// other loads, through a blown-link indicator or an output that is off, and loads without a return whose
// terminals both stand at the voltage of the feed.

// seenVolts is what must be left across a device to be worth a reason: more than
// any joint drops, less than any lamp shows. Choice.
const seenVolts = 0.5

// leftOver says which loads or indicators the present current of a device takes
// that its healthy one does not. fault is named where nothing was named before.
func (w *why) leftOver(a *Affected, fault string) []Reason {
	if math.Abs(a.Now.Volts) < seenVolts {
		return nil
	}
	d := &w.base.Model.Net.Devices[a.Device]
	var healthy []int
	if a.Was.Grade != parts.Off { // what trickles through a device that is off is no way of its own
		healthy = w.pathOf(d, w.base.amps, w.base.ampsAC).all()
	}
	var loads []string
	for _, k := range w.pathOf(d, w.amps, w.ampsAC).all() {
		br := &w.base.Model.Net.Branches[k]
		amps := unit.Format(max(math.Abs(w.amps[k]), math.Abs(w.ampsAC[k])), unit.Current)
		switch {
		case br.Thing == d.Ref:
		case br.Role == parts.RoleContact && conductance(w.x, k) < leakSiemens:
			return append(w.named(fault), Reason{"why.leaks", []string{br.Thing, amps, d.Ref}})
		case slices.Contains(healthy, k):
		case br.Role == parts.RoleIndicator:
			return []Reason{{"why.leak", []string{br.Thing, amps, unit.Format(math.Abs(a.Now.Volts), unit.Voltage), d.Ref}}}
		case br.Role == parts.RoleLoad && !slices.Contains(loads, br.Thing):
			loads = append(loads, br.Thing)
		}
	}
	if len(loads) == 0 {
		return nil
	}
	return []Reason{{"why.series", []string{fault, d.Ref, strings.Join(loads, ", ")}}}
}

// leakSiemens is the conductance below which a contact or output counts as off:
// 1 kΩ, below any leakage of the trade and above any closed contact. Choice.
const leakSiemens = 1e-3

// rms is the alternating current of a branch, whatever its phase.
func (w *why) rms(k int) float64 {
	if w.x.AC() == nil {
		return 0
	}
	return abs(w.x.AC().I(k))
}

// named is the plain reason that a fault shifts the voltages; none without one.
func (w *why) named(fault string) []Reason {
	if fault == "" {
		return nil
	}
	return []Reason{{"why.shared", []string{fault}}}
}

// bothLive says that a device without a return stands with both its terminals at
// the voltage of its feed, against the other pole of what feeds it.
func (w *why) bothLive(d *parts.Device, p path) []Reason {
	sense := w.base.Model.Net.Elements[d.Element].Sense
	if len(sense) < 2 || len(p.feed) == 0 {
		return nil
	}
	source := &w.base.Model.Net.Branches[p.feed[0]]
	if source.Role != parts.RoleSource {
		return nil
	}
	pole := source.Ends.A
	if w.base.amps[p.feed[0]] < 0 {
		pole = source.Ends.B
	}
	volts := func(k int) float64 {
		return max(math.Abs(w.x.V(sense[k])-w.x.V(pole)), abs(w.x.VAC(sense[k])-w.x.VAC(pole)))
	}
	// choice: 5 V is clearly off for a 24 V input; a tenth is what insulation and a
	// meter may take from metal that hangs on electronics only
	if volts(0) < 5 || volts(1) < 5 || math.Abs(volts(0)-volts(1)) > 0.1*volts(0) {
		return nil
	}
	return []Reason{{"why.both-live", []string{d.Ref, unit.Format(volts(1), unit.Voltage), source.Thing}}}
}

// follows is the reason of a device whose current another one sets or gives: an
// affected load or source on its healthy way.
func (w *why) follows(d *parts.Device, depth int) []Reason {
	for _, k := range w.pathOf(d, w.base.amps, w.base.ampsAC).all() {
		br := &w.base.Model.Net.Branches[k]
		if br.Role != parts.RoleLoad && br.Role != parts.RoleSource {
			continue
		}
		owner := w.ownerOf(br.Thing)
		if a := w.affected[owner]; a != nil && owner != d.Ref && a.Device >= 0 {
			return w.because(Reason{"why.follows", []string{owner, d.Ref}}, owner, depth)
		}
	}
	return nil
}
