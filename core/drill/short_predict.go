package drill

import (
	"math"

	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// askedPoints is how many points are to be marked.
const askedPoints = 6

// predict names a fault and asks what a meter shows at some points: source, zero or
// ghost. Points whose reading the fault changes come first.
func (s *Short) predict(r *random) bool {
	e := s.Engine
	black, source := s.ground()
	if black < 0 {
		return false
	}
	byKind := map[string][]Pair{}
	var moved, unmoved []Pair
	kinds := map[Pair]string{}
	for red, p := range e.Probes {
		pair := Pair{red, black}
		if red == black || p.Field || p.Mains || p.Earth || e.Probes[black].Ref == p.Ref && p.Node == e.Probes[black].Node {
			continue
		}
		sound, sick := s.kind(pair, source, false), s.kind(pair, source, true)
		kinds[pair] = sick
		switch {
		case sick == "":
		case sick != sound:
			moved = append(moved, pair)
		default:
			unmoved = append(unmoved, pair)
		}
	}
	shuffle(r, moved)
	shuffle(r, unmoved)
	for _, pair := range append(moved, unmoved...) {
		if k := kinds[pair]; len(byKind[k]) < askedPoints/2 && len(s.Points) < askedPoints {
			byKind[k] = append(byKind[k], pair)
			s.Points = append(s.Points, pair)
		}
	}
	if len(moved) == 0 || len(s.Points) < askedPoints || len(byKind) < 2 {
		return false
	}
	shuffle(r, s.Points)
	for _, pair := range s.Points {
		s.marks = append(s.marks, kinds[pair])
	}
	return true
}

// kind is what a pair shows, with the fault or without.
func (s *Short) kind(p Pair, source float64, sick bool) string {
	var list []parts.Change
	if sick {
		list = s.Fault.Changes
	}
	x := s.Engine.Base.Enter(list, sim.Running)
	defer s.Engine.Base.Leave()
	return kindOf(x, s.Engine.Meter, s.Engine, p, source)
}

// ground is the return of the first source of direct voltage, as a probe, and its
// voltage; -1 without one.
func (s *Short) ground() (probe int, volts float64) {
	e := s.Engine
	probe = -1
	for _, place := range e.Base.Model.Net.Places {
		i, ok := e.Probe(place.Node)
		if ok && place.Return && place.Pole == parts.Negative && probe < 0 {
			probe = i
		}
		if ok && place.Feed && place.Pole == parts.Positive && probe >= 0 {
			volts = max(volts, math.Abs(e.Base.V(place.Node)-e.Base.V(e.Probes[probe].Node)))
		}
	}
	if volts < takenForLive {
		for _, place := range e.Base.Model.Net.Places {
			if place.Feed && place.Pole == parts.Positive && probe >= 0 {
				volts = max(volts, math.Abs(e.Base.V(place.Node)-e.Base.V(e.Probes[probe].Node)))
			}
		}
	}
	if volts < takenForLive {
		return -1, 0
	}
	return probe, volts
}
