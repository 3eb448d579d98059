package drill

import (
	"slices"
	"strings"

	"halfsplit/core/diagnose"
	"halfsplit/core/fault"
	"halfsplit/core/panel"
)

// A Grade of the call of one hidden fault.
type Grade struct {
	Component, Terminal, Kind, Proof bool
	Call                             int // index into Attempt.Calls, -1 without one
}

func (g *Grade) whole() bool { return g.Component && g.Terminal && g.Kind }

// grades the calls: of the calls between two repairs only the first counts, so that
// trying one place after another is no way to find anything.
func (a *Attempt) grades(e *diagnose.Engine, t *trail) []Grade {
	var first []int
	for i := range a.Calls {
		if i == 0 || a.Calls[i].epoch != a.Calls[i-1].epoch {
			first = append(first, i)
		}
	}
	if len(a.Case.Faults) == 0 {
		g := Grade{Call: -1}
		if len(first) > 0 {
			g = a.nothing(first[0])
		}
		return []Grade{g}
	}
	list := make([]Grade, len(a.Case.Faults))
	for k, f := range a.Case.Faults {
		list[k].Call = -1
		alike := a.Case.alike(e, f)
		for _, i := range first {
			if used(list[:k], i) {
				continue
			}
			g := a.Case.grade(&a.Calls[i], alike)
			g.Call, g.Proof = i, g.Component && proves(e, t.known[a.Calls[i].Act], alike)
			if g.Component && (list[k].Call < 0 || g.whole()) {
				list[k] = g
			}
		}
	}
	return list
}

func used(list []Grade, call int) bool {
	return slices.ContainsFunc(list, func(g Grade) bool { return g.Call == call })
}

// alike lists the faults nobody can tell from f on this panel, f among them.
func (c *Case) alike(e *diagnose.Engine, f *fault.Fault) []*fault.Fault {
	list := []*fault.Fault{f}
	if i, ok := c.Rig.Set.Index(f.Key()); ok {
		for _, k := range e.Alike(i, c.onset) {
			if k != i {
				list = append(list, &c.Rig.Set.Faults[k])
			}
		}
	}
	return list
}

// grade compares a call with the faults that it may mean.
func (c *Case) grade(call *Called, alike []*fault.Fault) (g Grade) {
	place := c.placeOf(call.Thing)
	for _, f := range alike {
		here := f.Place == place || f.Place == call.Thing || f.Thing == call.Thing
		g.Component = g.Component || here
		g.Terminal = g.Terminal || f.Thing == call.Thing
		g.Kind = g.Kind || here && f.Class == call.Class
	}
	return g
}

// nothing grades the call that all is as it should be electrically.
func (a *Attempt) nothing(call int) Grade {
	c := a.Case
	called := &a.Calls[call]
	because := c.name(c.Drill.Hidden.Because)
	g := Grade{Call: call, Kind: called.Class == Nothing}
	g.Component = c.placeOf(called.Thing) == c.placeOf(because) || partOf(called.Thing) == partOf(because)
	g.Terminal = g.Component
	for i := range a.Log[:called.Act] {
		act := &a.Log[i].Act
		g.Proof = g.Proof || act.Kind == DoLook && partOf(c.name(act.Thing)) == partOf(because)
	}
	return g
}

func partOf(thing string) string {
	ref, _, _ := strings.Cut(panel.Designation(thing), ":")
	return ref
}

// proves says whether what was known before a call proves it: the suspect is nearly
// sure, and something the learner saw or read is not what the sound panel shows.
func proves(e *diagnose.Engine, known []diagnose.Observation, alike []*fault.Fault) bool {
	own := false
	for _, o := range known {
		own = own || o.Kind != diagnose.Dead && o.Kind != diagnose.Works && differs(e, o)
	}
	a := e.Find(known)
	if !own || len(a.Suspects) == 0 {
		return false
	}
	top := &a.Suspects[0]
	in := slices.ContainsFunc(alike, func(f *fault.Fault) bool {
		i, ok := e.Set.Index(f.Key())
		return ok && slices.Contains(top.Faults, i)
	})
	return in && (top.Probability >= 0.95 || a.Next == nil)
}
