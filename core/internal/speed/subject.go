package main

import (
	"math/rand/v2"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/generate"
	"halfsplit/core/internal/spicetest/netlist"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
)

// A subject is one generated panel, running.
type subject struct {
	size   int
	panel  *panel.Panel
	model  *sim.Model
	base   *trace.Base
	faults *fault.Set
	random *rand.Rand
	sum    float64 // of voltages read, so that reading is not optimised away
}

func newSubject(size int, seed uint64) (*subject, error) {
	s := &subject{size: size, panel: generate.Generate(size, seed), random: rand.New(rand.NewPCG(seed, uint64(size)))}
	s.model = sim.New(s.panel)
	c, err := s.model.Condition("normal")
	if err != nil {
		return nil, err
	}
	s.base = trace.New(s.model, c)
	s.faults = fault.All(s.model.Net)
	return s, s.base.Machine.Err()
}

// network gives the direct-current network of the running panel anew: its plan,
// and what is filled into it.
func (s *subject) network() (plan *circuit.Plan, leak []float64, values []circuit.Value) {
	net := s.model.Net
	ends := make([]circuit.Ends, len(net.Branches))
	values = make([]circuit.Value, len(net.Branches))
	for k := range net.Branches {
		ends[k], values[k] = net.Branches[k].Ends, s.base.Machine.DC().Value(k)
	}
	leak = make([]float64, len(net.Nodes))
	for n := range net.Nodes {
		leak[n] = net.Nodes[n].Leak
	}
	return circuit.NewPlan(len(net.Nodes), ends), leak, values
}

// movedVolts is how far a point must be from its healthy voltage to be told: what
// is not told is known to be where it was.
const movedVolts = 1e-3

// try makes one experiment of a sweep: the panel with the fault, brought to rest;
// the voltage of every point that moved; who is affected; and back.
func (s *subject) try(f *fault.Fault) {
	x := s.base.Enter(f.Changes, sim.Running)
	v := x.View()
	for _, n := range v.Volts.Moved(nil, movedVolts) {
		s.sum += v.Volts.V(n)
	}
	if v.VoltsAC != nil {
		for _, n := range v.VoltsAC.Moved(nil, movedVolts) {
			s.sum += real(v.VoltsAC.V(n))
		}
	}
	s.sum += float64(len(s.base.Compare(x, []*fault.Fault{f})))
	s.base.Leave()
}

// tryWhole is try with the voltage of every node read, moved or not.
func (s *subject) tryWhole(f *fault.Fault) {
	x := s.base.Enter(f.Changes, sim.Running)
	for n := range s.model.Net.Nodes {
		s.sum += x.V(circuit.Node(n)) + real(x.VAC(circuit.Node(n)))
	}
	s.sum += float64(len(s.base.Compare(x, []*fault.Fault{f})))
	s.base.Leave()
}

// sample draws n faults, all where there are no more.
func (s *subject) sample(n int) []*fault.Fault {
	var list []*fault.Fault
	for _, i := range s.random.Perm(len(s.faults.Faults)) {
		if len(list) == n {
			break
		}
		list = append(list, &s.faults.Faults[i])
	}
	return list
}

// split parts faults into those that change the state of something and those
// that do not.
func (s *subject) split(list []*fault.Fault) (changing, still []*fault.Fault) {
	for _, f := range list {
		if x := s.base.Enter(f.Changes, sim.Running); len(x.Log()) > 0 {
			changing = append(changing, f)
		} else {
			still = append(still, f)
		}
		s.base.Leave()
	}
	return changing, still
}

// freeze tells the states of a settled machine by the names of what has them, for
// the netlist.
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
