package fault

import (
	"halfsplit/core/parts"
)

// A Fault is one alteration of a panel with its canonical name.
type Fault struct {
	parts.Mode
	Key string
}

// A Set is every single fault of one panel. It is read-only and may be shared.
type Set struct {
	Net    *parts.Net
	Faults []Fault // in the order of the document: things, then wires moved, swapped, shorted
	index  map[string]int
}

// All lists every single fault of a panel.
func All(net *parts.Net) *Set {
	lists := [][]parts.Mode{net.Modes, misplaced(net), swapped(net), cableShorts(net), earthFaults(net), blockShorts(net)}
	most := 0 // a large panel has hundreds of thousands: room for them once, not grown into
	for _, list := range lists {
		most += len(list)
	}
	s := &Set{Net: net, Faults: make([]Fault, 0, most), index: make(map[string]int, most)}
	for _, list := range lists {
		for i := range list {
			s.add(list[i])
		}
	}
	return s
}

func (s *Set) add(m parts.Mode) {
	f := Fault{Mode: m, Key: m.Key()}
	if _, taken := s.index[f.Key]; taken {
		return
	}
	s.index[f.Key] = len(s.Faults)
	s.Faults = append(s.Faults, f)
}

// Index gives the place of a listed fault in Faults.
func (s *Set) Index(key string) (int, bool) {
	i, ok := s.index[key]
	return i, ok
}

// Find gives a listed fault by its canonical name.
func (s *Set) Find(key string) (*Fault, bool) {
	i, ok := s.Index(key)
	if !ok {
		return nil, false
	}
	return &s.Faults[i], true
}

// Weighted gives the same faults with their rates multiplied, for what is known
// of this panel beyond its drawing. s stays as it is.
func (s *Set) Weighted(factor func(*Fault) float64) *Set {
	w := *s
	w.Faults = append([]Fault(nil), s.Faults...)
	for i := range w.Faults {
		w.Faults[i].Rate = float64(w.Faults[i].Rate * factor(&w.Faults[i]))
	}
	return &w
}
