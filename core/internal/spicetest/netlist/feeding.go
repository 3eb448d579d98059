package netlist

import (
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// redundancy writes two inputs with a diode each to one output, and the lights
// that show the inputs.
func (w *writer) redundancy(p *panel.Part) {
	for _, t := range []string{":1", ":2"} {
		w.junction(p.Ref+t, p.Ref+t, p.Ref+":+", quantity(p.Ratings, "forward", unit.Voltage, 0.5), diodeSlope)
		w.resistor(p.Ref+t+" light", p.Ref+t, p.Ref+":-", presence)
	}
}

// balance writes an insulation monitor: equal resistances from plus and minus to
// earth, and a relay that is in while their voltages are near enough to equal. A
// fault of Rf beside one of them, R, leaves R·Rf/(R+Rf) there.
func (w *writer) balance(p *panel.Part) {
	s := w.state(p.Ref)
	r, alarm := quantity(p.Ratings, "resistance", unit.Resistance, 100e3), quantity(p.Ratings, "alarm", unit.Resistance, 25e3)
	plus := w.resistor(p.Ref+" plus", p.Ref+":+", p.Ref+":PE", r)
	minus := w.resistor(p.Ref+" minus", p.Ref+":PE", p.Ref+":-", r)
	w.contacts(p, "11-12-14", s.Mode == "watching")
	if s.Held {
		return
	}
	sum := func(v Solution) float64 { return real(w.across(v, plus) + w.across(v, minus)) }
	least := quantity(p.Ratings, "least", unit.Voltage, 12)
	if !strings.HasPrefix(s.Mode, "alarm") && s.Mode != "watching" {
		w.claim(p.Ref+" is not fed", sum, -inf, least)
		return
	}
	w.claim(p.Ref+" is fed", sum, least, inf)
	left := r * alarm / (r + alarm)
	most := (r - left) / (r + left)
	share := func(v Solution) float64 { return real(w.across(v, plus)-w.across(v, minus)) / sum(v) }
	switch s.Mode {
	case "watching":
		w.claim(p.Ref+" sees balance", share, -most, most)
	case "alarm-plus":
		w.claim(p.Ref+" sees plus on earth", share, -inf, -most)
	case "alarm-minus":
		w.claim(p.Ref+" sees minus on earth", share, most, inf)
	}
}

// beyond writes what a document states of where its drawing ends.
func (w *writer) beyond(p *panel.Part) {
	volts := quantity(p.Ratings, "voltage", unit.Voltage, 24)
	switch p.Ratings["beyond"] {
	case "feed":
		r := quantity(p.Ratings, "resistance", unit.Resistance, 0.5)
		dc, ac := Two{Ohms: r, Volts: volts}, ohms(r)
		if _, err := unit.Parse(p.Ratings["frequency"], unit.Frequency); err == nil {
			dc, ac = ac, dc
		}
		if w.state(p.Ref).Input != 0 {
			dc, ac = Two{}, Two{}
		}
		w.line(p.Ref+" line", p.Ref+":2", p.Ref+":1", dc, ac)
	case "load":
		w.resistor(p.Ref, p.Ref+":1", p.Ref+":2", quantity(p.Ratings, "resistance", unit.Resistance, 1e3))
	}
}

// transformer writes two windings: the secondary is a voltage, the primary's times
// the ratio, behind the short-circuit impedance; the primary has its iron, and draws
// the secondary's current times the ratio.
func (w *writer) transformer(p *panel.Part) {
	volts, rated := quantity(p.Ratings, "voltage", unit.Voltage, 24), quantity(p.Ratings, "primary", unit.Voltage, 230)
	power, impedance := quantity(p.Ratings, "power", unit.Power, 100), quantity(p.Ratings, "impedance", unit.Ratio, 0.08)
	ratio, r := volts/rated, impedance*volts*volts/power
	emf, draw := w.state(p.Ref).Draw, w.state(p.Ref+" primary").Draw
	whole := rated * rated / power
	in := w.line(p.Ref, p.Ref+":1", p.Ref+":2", ohms(impedance/2*whole), Two{Ohms: 1 / (0.02/whole + draw), Reactance: whole / 0.05})
	out := w.line(p.Ref+" output", p.Ref+":4", p.Ref+":3", ohms(r), Two{Ohms: r, Volts: emf})
	if w.Frequency == 0 {
		return
	}
	w.claim(p.Ref+" has its ratio", func(v Solution) float64 {
		want := 0.0
		if w.Lines[in].AC.Present() {
			want = ratio * magnitude(w.acrossAC(v, in))
		}
		return emf - want
	}, -1e-7*(1+emf), 1e-7*(1+emf))
	w.claim(p.Ref+" draws what its secondary gives", func(v Solution) float64 {
		amps := w.Lines[out].AC.Through(w.acrossAC(v, out))
		across := -w.acrossAC(v, out) // from 4 up to 3
		if own := magnitude(across + amps*complex(r, 0)); own > 1e-9*(magnitude(across)+magnitude(amps)*r) {
			return draw - ratio*ratio*min(magnitude(amps)/own, 1/r)
		}
		return draw
	}, -1e-7*(1e-6+draw), 1e-7*(1e-6+draw))
}
