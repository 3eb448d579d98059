package trace

import (
	"math"
	"slices"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// An isolator is one search for points.
type isolator struct {
	b       *Base
	t       Target
	changes []parts.Change
	onset   sim.Onset
	web     *web
	points  []Point
	mains   bool
	before  []Affected // by the changes alone
	near    []int      // points that a way from the target leads over, nearest first
	driven  []bool     // branches of circuits that nobody opens
}

func newIsolator(b *Base, t Target, changes []parts.Change, onset sim.Onset) *isolator {
	s := &isolator{b: b, t: t, changes: changes, onset: onset}
	x := b.Enter(changes, onset)
	defer b.Leave()
	s.before = b.Compare(x, nil)
	s.points = isolatingPoints(x)
	s.web = newWeb(b, x, s.points, false)
	if !slices.ContainsFunc(t.Nodes, func(n circuit.Node) bool { return !s.web.earth[n] }) {
		s.web = newWeb(b, x, s.points, true)
	}
	none := func(int) bool { return false }
	own := s.web.from(t.Nodes, s.points, none, false)
	sources := own.sources
	s.driven = b.Model.Net.Driven()
	if slices.ContainsFunc(own.keeps, func(e int) bool { return b.Model.Net.Elements[e].Kind.Drives }) {
		sources = s.web.from(t.Nodes, s.points, none, true).sources // dead as its primary is
	}
	for _, e := range sources {
		s.mains = s.mains || s.web.line[e]
	}
	hops := s.web.from(t.Nodes, s.points, none, true).hops
	for i := range s.points {
		if hops[i] >= 0 && (s.points[i].Locks || !s.mains) && !s.opensDriven(i) {
			s.near = append(s.near, i)
		}
	}
	slices.SortStableFunc(s.near, func(i, j int) int { return hops[i] - hops[j] })
	return s
}

// opensDriven says that a point would open a circuit that something drives.
func (s *isolator) opensDriven(i int) bool {
	return slices.ContainsFunc(s.points[i].branches, func(k int) bool { return s.driven[k] })
}

// Bounds of the search: pairs are tried among the nearest points only, and so many
// sets are solved at most, nearest first. Choices.
const (
	nearest  = 16
	mostSets = 48
)

// choose finds the least harmful set that leaves the target dead: best, of points
// that may be opened as they are, and loaded, of others.
func (s *isolator) choose() (best, loaded *cutSet) {
	for _, points := range s.cutSets() {
		c := s.try(points)
		if c == nil {
			continue
		}
		if which := &best; c.better(*which) && !c.loaded {
			*which = c
		}
		if which := &loaded; c.better(*which) && c.loaded {
			*which = c
		}
	}
	return best, loaded
}

// cutSets lists sets of points that part the target from every source: single
// points, pairs, then what is left of all points when the farthest are closed again
// as long as the target stays parted.
func (s *isolator) cutSets() [][]int {
	var list [][]int
	single := map[int]bool{}
	for _, i := range s.near {
		if s.parts(i) {
			single[i] = true
			list = append(list, []int{i})
		}
	}
	around := s.near[:min(len(s.near), nearest)]
	for a, i := range around {
		for _, j := range around[a+1:] {
			if !single[i] && !single[j] && s.parts(i, j) {
				list = append(list, []int{i, j})
			}
		}
	}
	if len(list) > mostSets {
		list = list[:mostSets]
	}
	var breaking, isolators []int
	for _, i := range s.near {
		if !s.points[i].Loaded() {
			breaking = append(breaking, i)
		}
		if s.points[i].Source {
			isolators = append(isolators, i)
		}
	}
	for _, all := range [][]int{s.near, breaking, isolators} {
		kept := s.thin(all) // two of them may be farther than the pairs above
		if len(kept) > 1 && !slices.ContainsFunc(list, func(l []int) bool { return slices.Equal(l, kept) }) {
			list = append(list, kept)
		}
	}
	return list
}

// parts says whether the points, open, leave no way from the target to a source.
func (s *isolator) parts(open ...int) bool {
	return len(s.web.from(s.t.Nodes, s.points, func(i int) bool { return slices.Contains(open, i) }, true).sources) == 0
}

// thin closes points again, farthest first, as long as the rest parts the target;
// nil where even all do not.
func (s *isolator) thin(all []int) []int {
	if len(all) == 0 || !s.parts(all...) {
		return nil
	}
	kept := slices.Clone(all)
	for i := len(kept) - 1; i >= 0; i-- {
		without := slices.Delete(slices.Clone(kept), i, i+1)
		if s.parts(without...) {
			kept = without
		}
	}
	return kept
}

// A cutSet is a set of points that has been solved.
type cutSet struct {
	points []Point
	down   []Affected
	starts int  // what comes on by itself or becomes dangerous
	loaded bool // a point carries more than it may open
}

// less says that c does less harm than d.
func (c *cutSet) less(d *cutSet) bool {
	if c.starts != d.starts {
		return c.starts < d.starts
	}
	return len(c.down) < len(d.down)
}

// better says that c is to be preferred to d; nil is nothing.
func (c *cutSet) better(d *cutSet) bool {
	return d == nil || c.less(d) || !d.less(c) && len(c.points) < len(d.points)
}

// try solves the panel with the points open; nil where the target is not dead then.
func (s *isolator) try(open []int) *cutSet {
	c := &cutSet{}
	for _, i := range open {
		c.points = append(c.points, s.points[i])
		c.loaded = c.loaded || s.points[i].Loaded()
	}
	// What breaks load is opened first, so that levers follow without any.
	slices.SortStableFunc(c.points, func(p, q Point) int {
		return int(math.Copysign(1, float64(p.Breaks-q.Breaks)))
	})
	x := s.b.Enter(append(slices.Clone(s.changes), Opening(c.points)...), s.onset)
	defer s.b.Leave()
	if x.Err() != nil || x.Cycle() != nil || !dead(x, s.t.Nodes) {
		return nil
	}
	opened := made(c.points)
	for _, a := range s.b.Compare(x, opened) {
		if s.own(&a) || s.known(&a) || slices.ContainsFunc(c.points, func(p Point) bool { return p.Ref == a.Ref }) {
			continue
		}
		if s.starts(&a) {
			c.starts++
		}
		c.down = append(c.down, a)
	}
	s.b.explain(x, opened, c.down)
	return c
}

// made writes opened points as faults, for reasons.
func made(points []Point) []*fault.Fault {
	var list []*fault.Fault
	for i := range points {
		list = append(list, &fault.Fault{Mode: &parts.Mode{Thing: points[i].Ref, Name: "open", Changes: Opening(points[i : i+1])}, Called: points[i].Verb + " " + points[i].Ref})
	}
	return list
}

// own says that an affected device is the target itself.
func (s *isolator) own(a *Affected) bool {
	if a.Device >= 0 && s.t.Own[s.b.Model.Net.Devices[a.Device].Part] {
		return true
	}
	return s.t.Own[a.Ref]
}

// starts says that something dangerous comes of it: a dangerous voltage, or
// something of the plant comes on by itself. A lamp or a relay that comes on is
// one more thing affected; what it starts is told apart.
func (s *isolator) starts(a *Affected) bool {
	switch a.Effect {
	case Unsafe:
		return true
	case HeldOn, Chattering:
	default:
		return false
	}
	d := &s.b.Model.Net.Devices[a.Device]
	return d.Process != "" || slices.ContainsFunc(s.b.Model.Net.Frames, func(f parts.Frame) bool { return f.Ref == d.Part })
}

// known says that a device was affected so before anything was opened.
func (s *isolator) known(a *Affected) bool {
	for i := range s.before {
		if s.before[i].Ref == a.Ref && s.before[i].Effect == a.Effect {
			return true
		}
	}
	return false
}

// dead says that no two of the nodes, nor one and earth, have DeadVolts between
// them.
func dead(x *sim.Machine, nodes []circuit.Node) bool {
	all := append([]circuit.Node{circuit.Earth}, nodes...)
	for i, n := range all {
		for _, m := range all[:i] {
			if !(math.Abs(x.V(n)-x.V(m)) < DeadVolts && abs(x.VAC(n)-x.VAC(m)) < DeadVolts) {
				return false
			}
		}
	}
	return true
}

// shorting lists the links that short what the last walk met and nobody opens.
func (s *isolator) shorting() (list []Reach) {
	net := s.b.Model.Net
	for k := range net.Branches {
		br := &net.Branches[k]
		i, ok := net.Input(br.Thing)
		if ok && s.driven[k] && net.Elements[i].Kind.Shorts && s.web.met(br.Ends.A, br.Ends.B) {
			list = append(list, Reach{Code: "reach.short-first", Ref: br.Thing})
		}
	}
	return list
}

// reaches lists what reaches the target, or may, with the points of c open: of nil,
// with every point open.
func (s *isolator) reaches(c *cutSet) []Reach {
	net := s.b.Model.Net
	open := func(i int) bool { return slices.Contains(s.near, i) }
	if c != nil {
		open = func(i int) bool {
			return slices.ContainsFunc(c.points, func(p Point) bool { return p.Element == s.points[i].Element })
		}
	}
	var list []Reach
	if c == nil {
		for _, e := range s.web.from(s.t.Nodes, s.points, open, true).sources {
			list = append(list, Reach{Code: "reach.live", Ref: net.Elements[e].Ref, Prevents: true})
		}
	}
	for _, e := range s.web.from(s.t.Nodes, s.points, open, false).keeps {
		list = append(list, Reach{Code: "reach." + net.Elements[e].Kind.Keeps, Ref: net.Elements[e].Ref})
		if net.Elements[e].Kind.Drives {
			list = append(list, s.shorting()...)
		}
	}
	if c == nil {
		return list
	}
	x := s.b.Enter(append(slices.Clone(s.changes), Opening(c.points)...), s.onset)
	defer s.b.Leave()
	for i, d := range net.Devices {
		if d.Kind.Feeds && d.Kind.Keeps != "foreign" && x.Status(i).Grade != parts.Off {
			list = append(list, Reach{Code: "reach.on", Ref: d.Ref})
		}
	}
	return list
}
