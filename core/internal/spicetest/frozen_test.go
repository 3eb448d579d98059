package spicetest

import (
	"halfsplit/core/internal/spicetest/netlist"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// freeze takes over the states our solution ended in, by the names of what has
// them. A diode has no names for its two.
func freeze(x *sim.Machine) netlist.Frozen {
	f := netlist.Frozen{}
	for i := range x.Model.Net.Elements {
		e := &x.Model.Net.Elements[i]
		s := netlist.State{Input: x.Input(i), Draw: x.State(i).X}
		if n, ok := e.Element.(parts.Namer); ok {
			s.Mode = n.ModeName(x.State(i))
		} else if x.State(i).Mode == 1 {
			s.Mode = "conducting"
		}
		f[e.Ref] = s
	}
	return f
}
