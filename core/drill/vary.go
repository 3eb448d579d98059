package drill

import (
	"strings"

	"halfsplit/core/fault"
	"halfsplit/core/parts"
)

// vary makes the case the seed-th variation: the same kind of fault elsewhere, with
// the call that goes with it.
func (s *setter) vary(seed int) {
	c := s.c
	list := s.elsewhere()
	if len(list) == 0 {
		c.Seed = 0 // nothing of this kind elsewhere: the drill as written
		return
	}
	c.Faults = list[(seed%len(list)+len(list)-1)%len(list)]
	c.Dead, c.Works, c.Sees, c.Reads = nil, nil, nil, nil
	var names []string
	now := c.statuses(c.Faults)
	told, err := c.Rig.base(c.Drill.At)
	if err != nil {
		return
	}
	for i, st := range now {
		if told.Healthy[i].Grade == parts.On && st.Grade != parts.On && len(c.Dead) < mostTold {
			c.Dead = append(c.Dead, c.Rig.Model.Net.Devices[i].Ref)
			names = append(names, c.call(i))
		}
	}
	again := c.Drill.Hidden.Again
	if again == "" {
		again = "{dead}"
	}
	c.Complaint = strings.ReplaceAll(again, "{dead}", strings.Join(names, ", "))
}

// mostTold is how many dead things a caller names: choice.
const mostTold = 2

// elsewhere lists the variations; the last list is kept, since finding them solves
// every fault of the kind.
func (s *setter) elsewhere() [][]*fault.Fault {
	if s.doc.varied == nil || s.doc.variedOn != s.c.Rig {
		s.doc.varied, s.doc.variedOn = s.variations(), s.c.Rig
	}
	return s.doc.varied
}

// variations lists the variations in an order that the drill's name decides: what is
// written down, or every fault of the same kind that stops something, at another
// place.
func (s *setter) variations() (list [][]*fault.Fault) {
	c, h := s.c, s.c.Drill.Hidden
	for i, text := range h.Elsewhere {
		var one []*fault.Fault
		for _, key := range strings.Split(text, " + ") {
			f, err := c.Rig.Set.Parse(key)
			if err != nil {
				s.tell(at("hidden.elsewhere", i), "drill-elsewhere", key)
				continue
			}
			one = append(one, f)
		}
		list = append(list, one)
	}
	if len(h.Elsewhere) > 0 || len(c.Faults) != 1 {
		return list
	}
	is := c.Faults[0] // as written: nothing has been varied yet
	for i := range c.Rig.Set.Faults {
		f := &c.Rig.Set.Faults[i]
		if f.Name != is.Name || f.Value != is.Value && f.Name != "moved" || f.Place == is.Place || f.Class != is.Class {
			continue
		}
		one := []*fault.Fault{f}
		if c.stops(one) {
			list = append(list, one)
		}
	}
	r := random(seedOf(c.Drill.Name))
	for i := len(list) - 1; i > 0; i-- {
		j := r.upTo(i + 1)
		list[i], list[j] = list[j], list[i]
	}
	return list
}

// stops says whether faults stop a device that works without them.
func (c *Case) stops(faults []*fault.Fault) bool {
	for i, st := range c.statuses(faults) {
		if c.base.Healthy[i].Grade == parts.On && st.Grade != parts.On {
			return true
		}
	}
	return false
}

func seedOf(text string) uint64 {
	n := uint64(0)
	for _, b := range sum([]byte(text)) {
		n = n<<8 | uint64(b)
	}
	return n
}
