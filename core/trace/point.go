package trace

import (
	"strings"

	"halfsplit/core/circuit"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A Point is a place to isolate at.
type Point struct {
	Element  int
	Ref      string  // "F0", "X1:4", "X3:7.2"
	Verb     string  // the step that opens it: "switch-off", "open"
	Source   bool    // the isolator of an incoming supply
	Locks    bool    // takes a padlock
	Amps     float64 // it carries now
	Breaks   float64 // it may open; 0: any load
	open     float64
	branches []int // it opens
}

// Loaded says that the point carries more than it may open.
func (p *Point) Loaded() bool { return p.Breaks > 0 && p.Amps > p.Breaks }

// isolatingPoints lists those of a panel, with what they carry in the machine's
// present state.
func isolatingPoints(x *sim.Machine) []Point {
	net := x.Model.Net
	var list []Point
	for i := range net.Elements {
		e := &net.Elements[i]
		if e.Kind == nil || !e.Kind.Isolates || len(e.Kind.Positions) < 2 || strings.Contains(e.Ref, " ") {
			continue
		}
		shut, open := e.Kind.Positions[0].Value, e.Kind.Positions[1].Value
		p := Point{Element: i, Ref: e.Ref, Verb: e.Kind.Positions[1].Verb, Source: e.Kind.Source, Locks: e.Kind.Locks(), Breaks: e.Kind.Breaks, open: open}
		var before, after stamps
		e.Element.Stamp(parts.State{}, shut, &before)
		e.Element.Stamp(parts.State{}, open, &after)
		for k, s := range before.list {
			if s.dc.G > 0 && after.list[k].dc.G == 0 && after.list[k].dc.J == 0 {
				p.branches = append(p.branches, s.branch)
				p.Amps = max(p.Amps, x.View().Amps(s.branch))
			}
		}
		if len(p.branches) > 0 {
			list = append(list, p)
		}
	}
	return list
}

// stamps collects what an element gives its direct-current branches.
type stamps struct{ list []stamp }

type stamp struct {
	branch int
	dc     circuit.Value
}

func (s *stamps) DC(branch int, v circuit.Value) { s.list = append(s.list, stamp{branch, v}) }
func (s *stamps) AC(int, circuit.ACValue)        {}
