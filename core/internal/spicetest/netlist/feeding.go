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
