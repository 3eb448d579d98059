package api

import (
	"halfsplit/core/diagnose"
	"halfsplit/core/meter"
	"halfsplit/core/panel"
)

// infinite is what OL counts as, in ohms.
const infinite = 1e9

// reading takes a figure a person has read, in any mode.
func (s *session) reading(req Request, primary *diagnose.Engine, r Reading) (noted, *Error) {
	e, k, err := s.place(req, primary, r.At)
	if err != nil {
		return noted{}, err
	}
	mode := meter.Mode(r.Mode)
	if !known(mode) {
		return noted{}, unknownMode(req.Lang, r.Mode)
	}
	if mode.Passive() != e.Situations[k].Off {
		return noted{}, problem(req.Lang, "api.ohms-power-off", r.Mode)
	}
	value, err := s.entered(req.Lang, mode, r)
	if err != nil {
		return noted{}, err
	}
	n := noted{what: r.Red + " – " + r.Black, entered: r.Shown}
	if r.Value != nil {
		n.entered = shown(mode, *r.Value)
	}
	var c int
	switch mode {
	case meter.Clamp:
		wire := s.wireBranch(r.Red)
		if wire < 0 {
			return noted{}, problem(req.Lang, "api.clamp-needs-wire", r.Red)
		}
		c, n.what = e.CurrentCandidate(k, mode, wire), r.Red
	case meter.MA:
		if c, err = s.seriesReading(req.Lang, e, k, r); err != nil {
			return noted{}, err
		}
		if r.Black == "" {
			n.what = r.Red
		}
	default:
		if c, n.flipped, err = s.probed(req.Lang, e, k, r); err != nil {
			return noted{}, err
		}
		if n.flipped = n.flipped && mode == meter.VDC; n.flipped {
			value = -value
		}
	}
	n.Observation = diagnose.Observation{Kind: diagnose.Read, Candidate: c, Value: value, In: e}
	return n, nil
}

// probed is the candidate of a reading between two probes.
func (s *session) probed(lang string, e *diagnose.Engine, situation int, r Reading) (c int, flipped bool, err *Error) {
	red, err := s.point(lang, r.Red)
	if err != nil {
		return 0, false, err
	}
	black, err := s.point(lang, r.Black)
	if err != nil {
		return 0, false, err
	}
	p, ok1 := e.Probe(red.Node)
	q, ok2 := e.Probe(black.Node)
	if !ok1 || !ok2 || p == q {
		return 0, false, problem(lang, "api.same-metal", r.Red, r.Black)
	}
	c, flipped = e.Candidate(situation, meter.Mode(r.Mode), p, q)
	return c, flipped, nil
}

// seriesReading is the candidate of a current in series.
func (s *session) seriesReading(lang string, e *diagnose.Engine, situation int, r Reading) (int, *Error) {
	list := meter.Breaks(s.model.Net)
	name := r.Red
	if p, ok := panel.ParsePoint(name); ok {
		name = p.String()
	}
	if r.Black != "" {
		red, err := s.point(lang, r.Red)
		if err != nil {
			return 0, err
		}
		black, err := s.point(lang, r.Black)
		if err != nil {
			return 0, err
		}
		b, _ := meter.Between(s.model.Net, red.Node, black.Node)
		name = b.Thing
	}
	for i := range list {
		if list[i].Thing == name {
			return e.CurrentCandidate(situation, meter.MA, i), nil
		}
	}
	return 0, problem(lang, "api.no-break", r.Red)
}

// entered is the figure behind what a display showed.
func (s *session) entered(lang string, mode meter.Mode, r Reading) (float64, *Error) {
	switch {
	case mode == meter.Beep && r.Shown == "beep":
		return 1, nil
	case mode == meter.Beep && (r.Shown == "silent" || r.Shown == "OL"):
		return 0, nil
	case mode == meter.Ohms && r.Shown == "OL":
		return infinite, nil
	case mode == meter.Diode && r.Shown == "OL":
		return meter.Typical.DiodeVolts, nil
	case mode != meter.Beep && r.Value != nil:
		return *r.Value, nil
	}
	return 0, problem(lang, "api.value-missing", r.Red, r.Black)
}

// shown writes a figure, in the unit of its mode, as a meter does.
func shown(mode meter.Mode, v float64) string {
	m := meter.Typical
	switch mode {
	case meter.Ohms:
		return m.Resistance(v)
	case meter.MA:
		return m.Milliamps(v / 1e3)
	case meter.Clamp:
		return m.Amps(v)
	case meter.Beep:
		if v < m.BeepBelow {
			return "beep"
		}
		return "silent"
	case meter.Diode:
		return m.Drop(v)
	}
	return m.Volts(v, mode)
}
