package drill

import (
	"halfsplit/core/diagnose"
	"halfsplit/core/meter"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// told checks that the caller tells what is so: what is said to be dead is on in
// the healthy panel as he thinks it runs, and is not on now.
func (s *setter) told() {
	c := s.c
	told, err := c.Rig.base(c.Drill.At)
	if err != nil {
		return // told already
	}
	now := c.statuses(c.Faults)
	for i, ref := range c.Dead {
		d, ok := c.device(ref)
		if !ok {
			continue
		}
		if told.Healthy[d].Grade != parts.On || now[d].Grade == parts.On {
			s.tell(at("dead", i), "drill-not-dead", ref, now[d].State)
		}
	}
	for i, ref := range c.Works {
		if d, ok := c.device(ref); ok && now[d].State != told.Healthy[d].State {
			s.tell(at("works", i), "drill-not-working", ref, now[d].State)
		}
	}
	for ref, state := range sortedMap(c.Sees) {
		if d, ok := c.device(ref); ok && now[d].State != state {
			s.tell(panel.Key("sees", ref), "drill-not-seen", ref, now[d].State)
		}
	}
	for i, m := range c.Reads {
		if r, ok := c.measured(&m); ok && r.Shown != m.Shown {
			s.tell(at("reads", i), "drill-reads-otherwise", m.Red, m.Black, r.Shown)
		}
	}
}

// measured takes a reading of the call on the panel as it is.
func (c *Case) measured(m *Measured) (meter.Reading, bool) {
	red, ok1 := c.Rig.Model.Net.FindPoint(c.name(m.Red))
	black, ok2 := c.Rig.Model.Net.FindPoint(c.name(m.Black))
	if !ok1 || !ok2 {
		return meter.Reading{}, false
	}
	x := c.base.Enter(changes(c.Faults), c.onset)
	defer c.base.Leave()
	r, refused := meter.Typical.Read(x, meter.Mode(m.Mode), red.Node, black.Node)
	return r, refused == nil
}

// toldTo gives the observations that the call itself holds, for an engine of the
// case's condition.
func (c *Case) toldTo(e *diagnose.Engine) (list []diagnose.Observation) {
	for _, ref := range c.Dead {
		if i, ok := c.device(ref); ok && e.Healthy(0, i).Grade == parts.On {
			list = append(list, diagnose.Observation{Kind: diagnose.Dead, Candidate: e.LookCandidate(0, diagnose.AtDevice, i)})
		}
	}
	for _, ref := range c.Works {
		if i, ok := c.device(ref); ok {
			list = append(list, diagnose.Observation{Kind: diagnose.Works, Candidate: e.LookCandidate(0, diagnose.AtDevice, i)})
		}
	}
	for ref, state := range sortedMap(c.Sees) {
		if i, ok := c.device(ref); ok {
			list = append(list, diagnose.Observation{Kind: diagnose.Saw, Candidate: e.LookCandidate(0, diagnose.AtDevice, i), Value: e.StateValue(state)})
		}
	}
	for i := range c.Reads {
		r, ok := c.measured(&c.Reads[i])
		red, _ := c.Rig.Model.Net.FindPoint(c.name(c.Reads[i].Red))
		black, _ := c.Rig.Model.Net.FindPoint(c.name(c.Reads[i].Black))
		g := sight{mode: meter.Mode(c.Reads[i].Mode), red: red.Node, black: black.Node, value: r.Value, held: true}
		if o, judged := observation(e, &g); ok && judged {
			list = append(list, o)
		}
	}
	return list
}
