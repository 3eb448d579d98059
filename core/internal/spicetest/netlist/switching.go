package netlist

import (
	"math"
	"strconv"
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// namur writes a sensor of IEC 60947-5-6: the resistance that lets its current
// flow from 8.2 V through 1 kΩ, behind a guard diode.
func (w *writer) namur(p *panel.Part) {
	s := w.state(p.Ref)
	amps := quantity(p.Ratings, "free", unit.Current, 3e-3)
	if s.Input != 0 {
		amps = quantity(p.Ratings, "reached", unit.Current, 1e-3)
	}
	dc, ac, low, high := ohms(unfed), ohms(unfed), -inf, guard
	if s.Mode == "conducting" {
		r := (8.2-guard)/amps - 1000
		dc, ac, low, high = Two{Ohms: r, Volts: -guard}, ohms(r), guard, inf
	}
	k := w.line(p.Ref, p.Ref+":+", p.Ref+":-", dc, ac)
	w.claim(p.Ref+" is on its side of the guard", func(v Solution) float64 { return real(w.across(v, k)) }, low, high)
}

// transistorOutput lists the terminals of an amplifier's output that is no relay.
func transistorOutput(p *panel.Part) []string {
	if p.Ratings["output"] == "transistor" {
		return []string{"O+", "O-"}
	}
	return nil
}

// amplifier writes the other side: 8.2 V behind 1 kΩ while it is fed, and a relay
// that is in while the current is of one state. Between 1.55 and 1.75 mA it stays
// as it is.
func (w *writer) amplifier(p *panel.Part) {
	s := w.state(p.Ref)
	supply := w.resistor(p.Ref+" supply", p.Ref+":L+", p.Ref+":M", 24*24/quantity(p.Ratings, "power", unit.Power, 0.8))
	dc, ac := ohms(1e6), ohms(1e6)
	fed := s.Mode != "unfed" && s.Mode != ""
	if fed {
		dc, ac = Two{Ohms: 1000, Volts: 8.2}, ohms(1000)
	}
	k := w.line(p.Ref+" output", p.Ref+":S-", p.Ref+":S+", dc, ac)
	operated := map[string]string{"inverse": "low"}[p.Ratings["action"]]
	if operated == "" {
		operated = "high"
	}
	if transistorOutput(p) != nil {
		t := ohms(24 / quantity(p.Ratings, "leakage", unit.Current, 0.01e-3))
		if s.Mode == operated {
			t = ohms(transistor)
		}
		w.line(p.Ref+":O+", p.Ref+":O+", p.Ref+":O-", t, t)
	} else {
		w.contacts(p, "11-12-14", s.Mode == operated)
	}
	if s.Held {
		return
	}
	volts := func(v Solution) float64 { return real(w.across(v, supply)) }
	least := quantity(p.Ratings, "least", unit.Voltage, 18)
	if !fed {
		w.claim(p.Ref+" is not fed", volts, -inf, least)
		return
	}
	w.claim(p.Ref+" is fed", volts, least, inf)
	open, shut := quantity(p.Ratings, "break", unit.Current, 0.15e-3), quantity(p.Ratings, "short", unit.Current, 6.5e-3)
	bands := map[string][2]float64{"line-break": {-inf, open}, "low": {open, 1.75e-3}, "high": {1.55e-3, shut}, "line-short": {shut, inf}}
	w.claim(p.Ref+" sees its band", func(v Solution) float64 { return real(w.Lines[k].DC.Through(w.across(v, k))) }, bands[s.Mode][0], bands[s.Mode][1])
}

// switches writes a card that joins a common terminal to its channels. Off, there
// is a resistance for direct current and a snubber for alternating, told by its
// leakage at a voltage and with a hundredth of that in phase.
func (w *writer) switches(p *panel.Part, common string, on, off, leakage float64) {
	leakage = quantity(p.Ratings, "leakage", unit.Current, leakage)
	for n := range channelsOf(p) {
		ref := p.Ref + ":" + strconv.Itoa(n)
		dc, ac := Two{Ohms: off}, Two{}
		if leakage > 0 {
			x := quantity(p.Ratings, "at", unit.Voltage, 120) / leakage
			ac = Two{Ohms: 100 * x, Reactance: -x}
		}
		if w.state(ref).Input != 0 {
			dc, ac = ohms(on), ohms(on)
		}
		w.line(ref, p.Ref+":"+common, ref, dc, ac)
	}
}

// snubber writes a resistance and a capacitance in series as the two in parallel
// that are alike at the mains frequency.
func (w *writer) snubber(p *panel.Part) {
	r, c := quantity(p.Ratings, "resistance", unit.Resistance, 100), quantity(p.Ratings, "capacitance", unit.Capacitance, 100e-9)
	w.line(p.Ref, p.Ref+":1", p.Ref+":2", Two{}, w.series(r, c))
}

// series is a resistance and a capacitance in series at the mains frequency.
func (w *writer) series(r, c float64) Two {
	if w.Frequency == 0 {
		return Two{}
	}
	x := 1 / (2 * math.Pi * w.Frequency * c)
	return Two{Ohms: (r*r + x*x) / r, Reactance: -(r*r + x*x) / x}
}

// safetyRelay writes a relay of two channels. S11, S21 and S33 are plus behind a
// little resistance, S12, S22 and S34 are inputs to minus. Each safe way is two
// contacts in series, one a channel; the signalling one is closed while it is out.
func (w *writer) safetyRelay(p *panel.Part) {
	s := w.state(p.Ref)
	at := func(t string) string { return p.Ref + ":" + t }
	supply := w.resistor(p.Ref+" supply", at("A1"), at("A2"), 24*24/quantity(p.Ratings, "power", unit.Power, 2))
	inputs := map[string]int{}
	for _, c := range [][2]string{{"S11", "S12"}, {"S21", "S22"}, {"S33", "S34"}} {
		w.resistor(at(c[0]), at("A1"), at(c[0]), 10)
		inputs[c[1]] = w.resistor(at(c[1]), at(c[1]), at("A2"), 2400)
	}
	in := s.Mode == "operated"
	welded := w.stuck[p.Ref] == "one-welded"
	for _, c := range []string{"13-14", "23-24"} {
		a, b, _ := strings.Cut(c, "-")
		first, second := Two{}, Two{}
		if in || welded {
			first = ohms(contactOhm)
		}
		if in {
			second = ohms(contactOhm)
		}
		w.line(at(c), at(a), p.Ref+" "+c, first, first)
		w.line(at(c)+" second", p.Ref+" "+c, at(b), second, second)
	}
	signal := Two{}
	if !in && !welded {
		signal = ohms(contactOhm)
	}
	w.line(at("41-42"), at("41"), at("42"), signal, signal)
	if s.Held {
		return
	}
	volts := func(k int) func(Solution) float64 { return func(v Solution) float64 { return real(w.across(v, k)) } }
	least := quantity(p.Ratings, "least", unit.Voltage, 20.4)
	closed := 11.0 // V at an input
	switch s.Mode {
	case "operated", "ready", "discrepant":
		w.claim(p.Ref+" is fed", volts(supply), least, inf)
	}
	if s.Mode == "operated" || s.Mode == "ready" {
		for channel, t := range map[string]string{"channel-1-stuck": "S12", "channel-2-stuck": "S22"} {
			if w.stuck[p.Ref] != channel {
				w.claim(p.Ref+" has "+t, volts(inputs[t]), closed, inf)
			}
		}
	}
	if s.Mode == "ready" && !welded {
		w.claim(p.Ref+" is not reset", volts(inputs["S34"]), -inf, closed)
	}
}
