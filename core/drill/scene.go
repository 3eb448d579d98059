package drill

import (
	"math"
	"slices"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/meter"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// ghost says that a low-impedance meter takes the reading away.
func (s *scene) ghost() bool { return math.Abs(s.sick) >= 1 && math.Abs(s.thin) < 0.2*math.Abs(s.sick) }

// source is the largest direct voltage of the panel as it is.
func (s *scene) source() float64 {
	x := s.c.base.Enter(changes(s.c.Faults), s.c.onset)
	defer s.c.base.Leave()
	most := 1.0
	for _, p := range s.c.Rig.Model.Net.Points {
		most = max(most, math.Abs(x.V(p.Node)-x.V(s.black)))
	}
	return most
}

// light is the state of the indicator of a block.
func (s *scene) light(ref string) string {
	x := s.c.base.Enter(changes(s.c.Faults), s.c.onset)
	defer s.c.base.Leave()
	for i, l := range s.c.Rig.Model.Net.Lights {
		if l.Ref == ref {
			return x.Light(i).State
		}
	}
	return ""
}

// unload takes the load of the device away.
func (s *scene) unload() (list []parts.Change) {
	net := s.c.Rig.Model.Net
	for k := range net.Branches {
		if b := &net.Branches[k]; b.Role == parts.RoleLoad && (b.Thing == net.Devices[s.device].Ref || b.Thing == net.Devices[s.device].Part) {
			list = append(list, parts.Open(k))
		}
	}
	return list
}

// out reads with the lever or fuse of Ref out.
func (s *scene) out(list []parts.Change) float64 {
	i, ok := s.c.Rig.Model.Net.Input(s.ref)
	if !ok || s.c.Rig.Model.Net.Elements[i].Kind == nil || len(s.c.Rig.Model.Net.Elements[i].Kind.Positions) < 2 {
		return 0
	}
	open := parts.Change{What: parts.FixInput, Element: i, Input: s.c.Rig.Model.Net.Elements[i].Kind.Positions[1].Value}
	return s.read(append(slices.Clone(list), open), meter.VDC)
}

// misdrawn solves the panel the drawing shows, with the same faults where it has the
// same things, and compares.
func (s *scene) misdrawn() bool {
	c := s.c
	if len(c.Drill.Hidden.Drawing) == 0 {
		return false
	}
	m := sim.New(c.Shown)
	cond, err := m.Condition(c.At)
	if err != nil {
		return false
	}
	set := fault.All(m.Net)
	var list []parts.Change
	for _, f := range c.Faults {
		if g, err := set.Parse(f.Key()); err == nil {
			list = append(list, g.Changes...)
		}
	}
	red, ok1 := m.Net.FindPoint(c.nameOf(s.red))
	black, ok2 := m.Net.FindPoint(c.nameOf(s.black))
	if !ok1 || !ok2 {
		return false
	}
	x := m.Replay(cond, c.onset, list)
	r, refused := meter.Typical.Read(x, meter.VDC, red.Node, black.Node)
	return refused == nil && !same(r.Value, s.sick)
}

// nameOf is the first point of a piece of metal.
func (c *Case) nameOf(n circuit.Node) string {
	for _, p := range c.Rig.Model.Net.Points {
		if p.Node == n && !p.Hidden {
			return p.Name
		}
	}
	return ""
}
