package drill

import (
	"slices"
	"strconv"
	"strings"
)

// An Offer is a kind of act that is possible now. Targets lists what it may be done
// to where that is few; empty, it may be done to anything of the panel it fits.
type Offer struct {
	Kind    string
	Targets []string
}

// Offers lists what can be done now, in the order of Kinds; none once the attempt
// has ended.
func (a *Attempt) Offers() (list []Offer) {
	if a.Ended != "" {
		return nil
	}
	for _, kind := range Kinds {
		o := Offer{Kind: kind}
		ok := true
		switch kind {
		case DoAsk:
			o.Targets = a.unasked()
			ok = len(o.Targets) > 0
		case DoRead:
			o.Targets = a.Case.tools()
		case DoOperate:
			o.Targets = a.steps()
		case DoPull:
			o.Targets = a.Case.fuses()
			ok = len(o.Targets) > 0
		case DoLock:
			for _, ref := range a.isolators() {
				i, _ := a.Case.Rig.Model.Net.Input(ref)
				if a.x.Input(i) != a.Case.Rig.Model.Net.Elements[i].Kind.Positions[0].Value && !slices.Contains(a.locked, i) {
					o.Targets = append(o.Targets, ref)
				}
			}
			ok = len(o.Targets) > 0
		case DoUnlock:
			for _, i := range a.locked {
				o.Targets = append(o.Targets, a.Case.Rig.Model.Net.Elements[i].Ref)
			}
			ok = len(o.Targets) > 0
		case DoProveDead: // what was called first
			if n := len(a.Calls); n > 0 && a.Calls[n-1].Class != Nothing {
				for _, p := range a.Case.Pairs(a.Calls[n-1].Thing) {
					o.Targets = append(o.Targets, p[0]+" "+p[1])
				}
			}
		case DoLand:
			o.Targets = slices.Clone(a.lifted)
		case DoCall:
			o.Targets = Classes
		case DoRepair:
			ok = len(a.Calls) > 0 && a.Calls[len(a.Calls)-1].Class != Nothing
		}
		if ok {
			list = append(list, o)
		}
	}
	return list
}

func (a *Attempt) unasked() (list []string) {
	for n := range a.Case.Drill.Questions {
		text := strconv.Itoa(n + 1)
		if !slices.ContainsFunc(a.Log, func(e Entry) bool { return e.Act.Kind == DoAsk && e.Act.Thing == text }) {
			list = append(list, text)
		}
	}
	return list
}

// steps lists what a person can move now.
func (a *Attempt) steps() (list []string) {
	net := a.Case.Rig.Model.Net
	for i := range net.Elements {
		el := &net.Elements[i]
		if j, ok := net.Input(el.Ref); !ok || j != i || hasSpace(el.Ref) || !ByHand(el.Kind) || slices.Contains(a.locked, i) {
			continue
		}
		for _, p := range el.Kind.Positions {
			if p.Value != a.x.Input(i) {
				list = append(list, p.Verb+" "+el.Ref)
			}
		}
	}
	return list
}

// fuses lists the things with a fuse link in them.
func (c *Case) fuses() (list []string) {
	for i := range c.Rig.Model.Net.Elements {
		if owner, is := strings.CutSuffix(c.Rig.Model.Net.Elements[i].Ref, " link"); is {
			list = append(list, owner)
		}
	}
	return list
}

// Lifted lists the wire ends the learner has lifted and not landed.
func (a *Attempt) Lifted() []string { return slices.Clone(a.lifted) }

// Powered says whether any source of the panel is switched on.
func (a *Attempt) Powered() bool { return a.x.Powered() }
