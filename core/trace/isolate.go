package trace

import (
	"halfsplit/core/circuit"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A Target is what hands go to.
type Target struct {
	Nodes []circuit.Node  // all of its metal, but for protective conductors
	Own   map[string]bool // parts that are worked on: that they go down is meant
}

// An Isolation says what to open before work on a target.
//
// Only isolating points count. Contacts, buttons, emergency stops and controller
// outputs may close at any moment, so all of them are taken as closed, and fuses as
// whole: a target that is dead because something else stands open is not isolated.
type Isolation struct {
	Isolated bool    // with Points open, nothing that was solved reaches the target
	Points   []Point // in the order to open them; empty where no set of points does it
	Down     []Affected
	// Instead would take less down, but one of its points carries more than it may
	// open: only once that load is off. Empty without.
	Instead []Point
	Reaches []Reach
	Mains   bool // the target hangs on mains: only points that lock count, on all poles
}

// A Reach is a source that reaches the target, or may, although the points are
// open.
type Reach struct {
	Code     string // of package words
	Ref      string
	Prevents bool // the target stays live through it
}

// DeadVolts is what any two conductors of an isolated target may show, direct or
// alternating: choice, above stray readings and far below anything that hurts.
const DeadVolts = 1

// Isolate finds the points that, open, leave the target dead with the least harm:
// the fewest things that come on by themselves, then the fewest that go down, then
// the fewest points. changes are faults in place; the base is left as it was.
func (b *Base) Isolate(t Target, changes []parts.Change, onset sim.Onset) Isolation {
	if len(t.Nodes) == 0 {
		return Isolation{Reaches: []Reach{{Code: "reach.earth", Prevents: true}}}
	}
	s := newIsolator(b, t, changes, onset)
	is := Isolation{Mains: s.mains}
	best, loaded := s.choose()
	if best == nil && s.parts() { // nothing drawn reaches it anyway
		best = s.try(nil)
	}
	switch {
	case best != nil:
		is.Isolated, is.Points, is.Down = true, best.points, best.down
		if loaded != nil && loaded.less(best) {
			is.Instead = loaded.points
		}
	case loaded != nil:
		is.Instead = loaded.points
	}
	is.Reaches = s.reaches(best)
	return is
}

// Opening are the changes of opening points.
func Opening(points []Point) []parts.Change {
	var list []parts.Change
	for _, p := range points {
		list = append(list, parts.Change{What: parts.FixInput, Element: p.Element, Input: p.open})
	}
	return list
}

// Standing is a machine of its own in the base's condition with changes made, at
// its checkpoint.
func (b *Base) Standing(changes []parts.Change, onset sim.Onset) (*sim.Machine, error) {
	x := b.Model.Replay(b.Cond, onset, changes)
	if err := x.Err(); err != nil {
		return nil, err
	}
	x.Checkpoint()
	return x, nil
}

// OnMains says whether any of the nodes hangs on incoming mains, switched on or
// off, when every contact is closed.
func (b *Base) OnMains(x *sim.Machine, nodes ...circuit.Node) bool {
	w := newWeb(b, x, nil, false)
	clear(w.off)
	for _, e := range w.from(nodes, nil, nil, false).sources {
		if w.line[e] {
			return true
		}
	}
	return false
}
