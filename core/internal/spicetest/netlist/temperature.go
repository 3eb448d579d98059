package netlist

import (
	"strconv"

	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// signalling instruments of three wires draw a supply and let their signal out of it: like an
// instrument on a loop, with a lesser voltage, between plus and the signal's
// terminal.
func (w *writer) signalling(p *panel.Part) {
	supply := w.resistor(p.Ref+" supply", p.Ref+":+", p.Ref+":-", 24*24/quantity(p.Ratings, "power", unit.Power, 1))
	s := w.state(p.Ref)
	fed := func(v Solution) float64 { return real(w.across(v, supply)) }
	least := quantity(p.Ratings, "least", unit.Voltage, 15)
	blocked := s.Mode == "unpowered" || s.Mode == ""
	if !blocked {
		w.claim(p.Ref+" is fed", fed, least, inf)
	}
	k := w.loopCurve(p, p.Ref+" signal", p.Ref+":+", p.Ref+":S", quantity(p.Ratings, "headroom", unit.Voltage, 4))
	if blocked { // for want of a supply, or of a voltage for its signal
		room := quantity(p.Ratings, "headroom", unit.Voltage, 4)
		w.claim(p.Ref+" cannot signal", func(v Solution) float64 { return min(fed(v)/least, real(w.across(v, k))/room) }, -inf, 1)
	}
}

// pt100 is the resistance of IEC 60751 from 0 °C up.
func pt100(t float64) float64 { return 100 + 0.39083*t - 5.775e-5*t*t }

// rtd writes a Pt100 with one lead at its near end and two at its far one.
func (w *writer) rtd(p *panel.Part) {
	w.resistor(p.Ref, p.Ref+":1", p.Ref+":2", pt100(w.state(p.Ref).Input*quantity(p.Ratings, "span", unit.Ratio, 100)))
	w.resistor(p.Ref+":3", p.Ref+":2", p.Ref+":3", 10e-3)
}

// lettered lists the terminals of a temperature card: its channels' numbers, and
// each with letters.
func lettered(letters ...string) func(*panel.Part) []string {
	return func(p *panel.Part) (ts []string) {
		n := 4
		if p.Channels > 0 {
			n = min(p.Channels, 64)
		}
		for k := range n {
			for _, l := range append([]string{""}, letters...) {
				ts = append(ts, strconv.Itoa(k)+l)
			}
		}
		return ts
	}
}

// rtdInputs writes channels that drive a current through a thermometer, up to 5 V
// behind 100 Ω.
func (w *writer) rtdInputs(p *panel.Part) {
	amps := quantity(p.Ratings, "current", unit.Current, 1e-3)
	w.temperatures(p, lettered()(p), func(ref string, mode string) {
		dc := ohms(unfed)
		switch mode {
		case "measuring":
			dc = Two{Amps: amps}
		case "line-break":
			dc = Two{Ohms: 100, Volts: 5}
		}
		k := w.line(ref, ref+"b", ref, dc, ohms(unfed))
		w.resistor(ref+" pull", ref, ref+"c", 10e6)
		w.resistor(ref+" hold", ref+"b", p.Ref+":M", 100e3)
		volts := func(v Solution) float64 { return -real(w.across(v, k)) }
		switch mode {
		case "measuring":
			w.claim(ref+" drives its current", volts, -inf, 5-amps*100)
		case "line-break":
			w.claim(ref+" is at its compliance", volts, 5-amps*100, inf)
		}
	})
}

// coupleInputs writes voltmeters of 10 MΩ with a little current of their own.
func (w *writer) coupleInputs(p *panel.Part) {
	burnout := quantity(p.Ratings, "burnout", unit.Current, 0.1e-6)
	w.temperatures(p, lettered()(p), func(ref string, mode string) {
		dc := ohms(10e6)
		if mode == "fed" {
			dc.Amps = burnout
		}
		w.line(ref, ref+"b", ref, dc, ohms(10e6))
		w.resistor(ref+" hold", ref+"b", p.Ref+":M", 1e6)
	})
}

// temperatures writes a card's own load and its channels, and claims that they are
// fed or not.
func (w *writer) temperatures(p *panel.Part, channels []string, write func(ref, mode string)) {
	feed, m := p.Ref+":L+", p.Ref+":M"
	w.resistor(p.Ref+" card", feed, m, cardOhms)
	least := quantity(p.Ratings, "least", unit.Voltage, 19.2)
	fed := func(v Solution) float64 { return v.DC[w.index[feed]] - v.DC[w.index[m]] }
	for _, c := range channels {
		ref := p.Ref + ":" + c
		mode := w.state(ref).Mode
		write(ref, mode)
		if mode == "unfed" || mode == "" {
			w.claim(ref+" is not fed", fed, -inf, least)
		} else {
			w.claim(ref+" is fed", fed, least, inf)
		}
	}
}

// Type K, IEC 60584-1: mV against 0 °C, on straight lines between.
var coupleK = [][2]float64{
	{-200, -5.891}, {-100, -3.554}, {-70, -2.587}, {-50, -1.889}, {0, 0}, {20, 0.798}, {50, 2.023}, {100, 4.096}, {150, 6.138}, {200, 8.138}, {250, 10.153},
	{300, 12.209}, {400, 16.397}, {500, 20.644}, {600, 24.905}, {700, 29.129}, {800, 33.275}, {900, 37.326}, {1000, 41.276}, {1100, 45.119}, {1200, 48.838}, {1300, 52.410},
}

// couple writes a type K couple whose other end is at 20 °C.
func (w *writer) couple(p *panel.Part) {
	t := w.state(p.Ref).Input * quantity(p.Ratings, "span", unit.Ratio, 500)
	k := 1
	for k < len(coupleK)-1 && t > coupleK[k][0] {
		k++
	}
	a, b := coupleK[k-1], coupleK[k]
	share := (t - a[0]) / (b[0] - a[0])
	r := quantity(p.Ratings, "resistance", unit.Resistance, 10)
	w.line(p.Ref, p.Ref+":-", p.Ref+":+", Two{Ohms: r, Volts: (a[1]*(1-share) + b[1]*share - 0.798) * 1e-3}, ohms(r))
}
