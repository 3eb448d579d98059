package fault

import (
	"strconv"
	"strings"

	"halfsplit/core/parts"
)

// A Fault is one alteration of a panel.
type Fault struct {
	*parts.Mode
	Called string // what to call something done on purpose, instead of a fault's canonical name
}

// Key is the canonical name. It is put together when it is asked for: a large panel
// has hundreds of thousands.
func (f *Fault) Key() string {
	if f.Called != "" {
		return f.Called
	}
	return f.Mode.Key()
}

// A Set is every single fault of one panel. It is read-only and may be shared.
type Set struct {
	Net    *parts.Net
	Faults []Fault // in the order of the document: things, then wires moved, swapped, shorted
	index  index
}

// All lists every single fault of a panel.
func All(net *parts.Net) *Set {
	things := make([]*parts.Mode, len(net.Modes))
	for i := range net.Modes {
		things[i] = &net.Modes[i]
	}
	lists := [][]*parts.Mode{things, misplaced(net), swapped(net), cableShorts(net), earthFaults(net), blockShorts(net)}
	most := 0 // a large panel has hundreds of thousands: room for them once, not grown into
	for _, list := range lists {
		most += len(list)
	}
	s := &Set{Net: net, Faults: make([]Fault, 0, most), index: newIndex(most)}
	for _, list := range lists {
		for _, m := range list {
			s.add(m)
		}
	}
	return s
}

// add appends a fault, unless one has its name.
func (s *Set) add(m *parts.Mode) {
	slot, taken := s.index.find(hashOf(m), func(i int32) bool {
		o := s.Faults[i].Mode
		return o.Thing == m.Thing && o.Name == m.Name && o.Value == m.Value
	})
	if taken {
		return
	}
	s.Faults = append(s.Faults, Fault{Mode: m})
	s.index.slots[slot] = int32(len(s.Faults))
}

// Index gives the place of a listed fault in Faults.
func (s *Set) Index(key string) (int, bool) {
	slot, ok := s.index.find(fold(hashOn(hashStart, key)), func(i int32) bool { return named(s.Faults[i].Mode, key) })
	return int(s.index.slots[slot]) - 1, ok
}

// Find gives a listed fault by its canonical name.
func (s *Set) Find(key string) (*Fault, bool) {
	i, ok := s.Index(key)
	if !ok {
		return nil, false
	}
	return &s.Faults[i], true
}

// Clone gives the same faults in a list of their own. What it finds by name are those
// that were listed.
func (s *Set) Clone() *Set {
	c := *s
	c.Faults = append([]Fault(nil), s.Faults...)
	return &c
}

// WithOhms is a fault with another resistance, to three digits; ok is false of one
// that has none to choose.
func (s *Set) WithOhms(f *Fault, ohms float64) (m *parts.Mode, ok bool) {
	if !(f.Name == "loose" || f.Name == "short" && strings.HasSuffix(f.Thing, "~PE")) {
		return nil, false
	}
	ohms, err := strconv.ParseFloat(strconv.FormatFloat(ohms, 'e', 2, 64), 64)
	if err != nil {
		return nil, false
	}
	if m, ok = s.build(f.Thing, f.Name, shortText(ohms)); ok {
		m.Rate, m.Place, m.Repair = f.Rate, f.Place, f.Repair
	}
	return m, ok
}

// Weighted gives the same faults with their rates multiplied, for what is known
// of this panel beyond its drawing. s stays as it is.
func (s *Set) Weighted(factor func(*Fault) float64) *Set {
	w := s.Clone()
	for i := range w.Faults {
		if f := factor(&w.Faults[i]); f != 1 {
			m := *w.Faults[i].Mode
			m.Rate = float64(m.Rate * f)
			w.Faults[i].Mode = &m
		}
	}
	return w
}
