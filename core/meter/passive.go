package meter

import (
	"math"

	"halfsplit/core/circuit"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// passive measures with the meter's own source: resistance, continuity, the drop
// of a junction. The source is in the network as a voltage behind a resistance,
// the simplest one with the meter's open-circuit voltage and short-circuit
// current, and the panel settles with it: a junction conducts where the test
// voltage exceeds its drop and else is not there, and every other way from red to
// black carries its share.
func (m Meter) passive(x *sim.Machine, mode Mode, red, black circuit.Node) (Reading, *Refusal) {
	dc, ac := between(x, red, black)
	if volts := max(math.Abs(dc), ac); volts > m.LiveVolts {
		return Reading{}, &Refusal{Code: "refused.live", Args: []string{m.Volts(volts, VDC)}}
	}
	if x.Powered() {
		return Reading{}, &Refusal{Code: "refused.powered"}
	}
	r := Reading{Mode: mode, Unit: "ohm"}
	was := statuses(x)
	switch mode {
	case Ohms:
		r.Value = m.ohms(x, red, black)
		if r.Shown = m.Resistance(r.Value); r.Value > m.MostOhms {
			r.Overload, r.Shown = true, overload
		}
	case Beep:
		s := m.apply(x, red, black, m.BeepVolts, m.BeepAmps)
		r.Value = s.ohms() + m.Leads
		r.Overload = r.Value > m.MostOhms
		if r.Shown = "silent"; r.Value < m.BeepBelow {
			r.Shown = "beep"
		}
	case Diode:
		s := m.apply(x, red, black, m.DiodeVolts, m.DiodeAmps)
		r.Unit, r.Value = "V", s.volts()+float64(s.amps()*m.Leads)
		if r.Shown = m.Drop(r.Value); r.Value > m.DiodeMost {
			r.Overload, r.Shown = true, overload
		}
	}
	r.Disturbs = compare(x, was)
	return r, nil
}

// Drop writes the voltage of a junction as the diode range does.
func (m Meter) Drop(v float64) string { return m.figure(v, stepDiode, 1) + " V" }

// stepDiode is the last digit of the diode range, in volts: common practice.
const stepDiode = 1e-3

// ohms takes the lowest range in which the figure fits, as a meter does by itself.
// Each range drives a tenth of the current of the one below.
func (m Meter) ohms(x *sim.Machine, red, black circuit.Node) float64 {
	s := m.apply(x, red, black, m.OhmsVolts, m.OhmsAmps)
	for step := m.StepOhms; ; step *= 10 {
		ohms := s.ohms() + m.Leads
		if math.Round(math.Abs(ohms)/step) <= m.Counts || float64(step*m.Counts) >= m.MostOhms {
			return ohms
		}
		s.weaken()
	}
}

// A source is the meter's own, connected.
type source struct {
	x          *sim.Machine
	red, black circuit.Node
	open       float64 // volts
	inner      float64 // ohms
	link       int
}

func (m Meter) apply(x *sim.Machine, red, black circuit.Node, volts, amps float64) *source {
	s := &source{x: x, red: red, black: black, open: volts, inner: volts / amps, link: len(x.Links())}
	x.Apply([]parts.Change{parts.Join(black, red, s.inner)})
	x.DC().SetLink(s.link, s.value())
	x.Settle()
	return s
}

func (s *source) value() circuit.Value { return circuit.Value{G: 1 / s.inner, E: s.open} }

// weaken goes one range up: the same voltage behind ten times the resistance.
func (s *source) weaken() {
	s.inner *= 10
	s.x.DC().SetLink(s.link, s.value())
	s.x.Settle()
}

func (s *source) volts() float64 { return s.x.V(s.red) - s.x.V(s.black) }

func (s *source) amps() float64 { return (s.open - s.volts()) / s.inner }

// ohms is what the meter makes of it: volts by amperes. Nothing flows into an open
// circuit but the meter's last digit, which is more than any range shows.
func (s *source) ohms() float64 {
	const least = 1e-15 // amperes
	return s.volts() / max(s.amps(), least)
}
