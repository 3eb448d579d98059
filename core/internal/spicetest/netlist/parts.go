package netlist

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// part writes one part: its terminals, then what lies between them.
func (w *writer) part(p *panel.Part) error {
	k, ok := kinds[p.Kind]
	if !ok {
		return fmt.Errorf("netlist: no part of kind %q", p.Kind)
	}
	terminals := strings.Fields(k.terminals)
	if k.more != nil {
		terminals = append(terminals, k.more(p)...)
	}
	if k.contacts && p.Ratings["output"] != "transistor" {
		for _, c := range contactsOf(p, k.fallback) {
			terminals = append(terminals, strings.Split(c, "-")...)
		}
	}
	if k.channels {
		for n := range channelsOf(p) {
			terminals = append(terminals, strconv.Itoa(n))
		}
	}
	if p.Kind == "breaker" && p.Ratings["poles"] == "2" {
		terminals = append(terminals, "3", "4")
	}
	if p.Kind == "pe-bar" { // one bar of metal, screws from 1
		for n := range channelsOf(p) {
			w.places[p.Ref+":"+strconv.Itoa(n+1)] = place{metal: p.Ref + " bar"}
		}
		w.node(p.Ref + " bar")
	}
	for _, t := range terminals {
		w.node(p.Ref + ":" + t)
		w.places[p.Ref+":"+t] = place{metal: p.Ref + ":" + t, field: p.At == "field"}
	}
	if k.write != nil {
		k.write(w, p)
	}
	return nil
}

// A kind is what a kind of part is to electricity.
type kind struct {
	terminals string // but for contacts and channels
	contacts  bool
	fallback  string // contact where the document names none
	channels  bool
	more      func(*panel.Part) []string // terminals that hang on its ratings
	write     func(*writer, *panel.Part)
}

// switched is a part whose contacts something moves by hand or by the process.
var switched = kind{contacts: true, fallback: "13-14", write: func(w *writer, p *panel.Part) {
	w.contacts(p, "13-14", w.state(p.Ref).Input != 0)
}}

var kinds = map[string]kind{
	"button": switched, "selector": switched, "limit-switch": switched, "float-switch": switched,
	"flow-switch": switched, "switch": switched,
	"rail":   {terminals: "PE"},
	"pe-bar": {},
	"resistor": {terminals: "1 2", write: func(w *writer, p *panel.Part) {
		w.resistor(p.Ref, p.Ref+":1", p.Ref+":2", quantity(p.Ratings, "resistance", unit.Resistance, 1e3))
	}},
	"fuse": {terminals: "1 2", write: func(w *writer, p *panel.Part) {
		w.link(p.Ref, p.Ref+" link", p.Ref+":1", p.Ref+":2", p.Ratings["current"])
	}},
	"breaker": {terminals: "1 2", write: (*writer).breaker},
	"pilot-light": {terminals: "X1 X2", write: func(w *writer, p *panel.Part) {
		w.resistor(p.Ref, p.Ref+":X1", p.Ref+":X2",
			quantity(p.Ratings, "voltage", unit.Voltage, 24)/quantity(p.Ratings, "current", unit.Current, 20e-3))
	}},
	"relay": {terminals: "A1 A2", contacts: true, fallback: "11-12-14", write: func(w *writer, p *panel.Part) {
		w.coil(p, "A1", "A2", quantity(p.Ratings, "resistance", unit.Resistance, 794), 0.75)
		w.contacts(p, "11-12-14", w.state(p.Ref).Mode == "operated")
	}},
	"solenoid": {terminals: "1 2 PE", write: func(w *writer, p *panel.Part) {
		volts := quantity(p.Ratings, "voltage", unit.Voltage, 24)
		r := volts * volts / quantity(p.Ratings, "power", unit.Power, 8)
		w.coil(p, "1", "2", quantity(p.Ratings, "resistance", unit.Resistance, r), 0.85)
	}},
	"motor":             {terminals: "L N PE", write: (*writer).motor},
	"battery":           {terminals: "+ -", write: (*writer).battery},
	"dc-supply":         {terminals: "L N PE + -", write: (*writer).supply},
	"diode":             {terminals: "A K", write: (*writer).diode},
	"transmitter-2wire": {terminals: "+ - PE", write: (*writer).twoWire},
	"transmitter-4wire": {terminals: "L+ M + - PE", write: (*writer).fourWire},
	"digital-input":     {channels: true, more: inputCommon, write: (*writer).inputs},
	"analogue-input": {terminals: "M", channels: true, more: loopFeed, write: func(w *writer, p *panel.Part) {
		for n := range channelsOf(p) {
			ref, common := p.Ref+":"+strconv.Itoa(n), p.Ref+":M"
			if p.Ratings["form"] == "sourcing" {
				common = p.Ref + ":L+"
			}
			w.resistor(ref, common, ref, quantity(p.Ratings, "resistance", unit.Resistance, 250))
		}
	}},
	"digital-output": {terminals: "L+ M", channels: true, write: (*writer).outputs},

	"proximity-pnp":   {terminals: "1 3 4", write: func(w *writer, p *panel.Part) { w.threeWire(p, "1", "4") }},
	"proximity-npn":   {terminals: "1 3 4", write: func(w *writer, p *panel.Part) { w.threeWire(p, "4", "3") }},
	"proximity-2wire": {terminals: "1 4", write: (*writer).inSeries},
	"boundary":        {terminals: "1 2", write: (*writer).beyond},

	"namur-sensor":    {terminals: "+ -", write: (*writer).namur},
	"namur-amplifier": {terminals: "L+ M S+ S-", contacts: true, fallback: "11-12-14", more: transistorOutput, write: (*writer).amplifier},
	"triac-output":    {terminals: "L", channels: true, write: func(w *writer, p *panel.Part) { w.switches(p, "L", 1, 1e7, 2e-3) }},
	"relay-output":    {terminals: "C", channels: true, write: func(w *writer, p *panel.Part) { w.switches(p, "C", contactOhm, 0, 0) }},
	"snubber":         {terminals: "1 2", write: (*writer).snubber},
	"safety-relay":    {terminals: "A1 A2 S11 S12 S21 S22 S33 S34 13 14 23 24 41 42", write: (*writer).safetyRelay},

	"control-transformer": {terminals: "1 2 3 4 PE", write: (*writer).transformer},
	"transmitter-3wire":   {terminals: "+ - S PE", write: (*writer).signalling},
	"rtd":                 {terminals: "1 2 3", write: (*writer).rtd},
	"rtd-input":           {terminals: "L+ M", more: lettered("b", "c"), write: (*writer).rtdInputs},
	"thermocouple":        {terminals: "+ -", write: (*writer).couple},
	"thermocouple-input":  {terminals: "L+ M", more: lettered("b"), write: (*writer).coupleInputs},

	"redundancy-diode":    {terminals: "1 2 + -", write: (*writer).redundancy},
	"current-transformer": {terminals: "P1 P2 S1 S2", write: (*writer).currentTransformer},
	"ammeter": {terminals: "1 2", write: func(w *writer, p *panel.Part) {
		amps := quantity(p.Ratings, "current", unit.Current, 5)
		w.resistor(p.Ref, p.Ref+":1", p.Ref+":2", quantity(p.Ratings, "power", unit.Power, 0.5)/amps/amps)
	}},

	"insulation-monitor": {terminals: "+ - PE", contacts: true, fallback: "11-12-14", write: (*writer).balance},
}

// loopFeed is the terminal from which a card supplies its loops, if it does.
func loopFeed(p *panel.Part) []string {
	if p.Ratings["form"] == "sourcing" {
		return []string{"L+"}
	}
	return nil
}

func channelsOf(p *panel.Part) int {
	if p.Channels <= 0 {
		return 8
	}
	return min(p.Channels, 64)
}

func contactsOf(p *panel.Part, fallback string) []string {
	if len(p.Contacts) > 0 {
		return p.Contacts
	}
	return []string{fallback}
}

// contacts writes the contacts of a part. EN 50005: of the last digits, 1 is the
// common, 2 is joined to it at rest, 4 when operated; 3 and 4 join when operated.
func (w *writer) contacts(p *panel.Part, fallback string, operated bool) {
	for _, c := range contactsOf(p, fallback) {
		marks := strings.Split(c, "-")
		common := marks[0]
		for _, other := range marks[1:] {
			t := Two{}
			if operated == strings.HasSuffix(other, "4") {
				t = ohms(contactOhm)
			}
			w.line(p.Ref+":"+common+"-"+other, p.Ref+":"+common, p.Ref+":"+other, t, t)
		}
	}
}

func (w *writer) breaker(p *panel.Part) {
	f, err := unit.ParseFuse(p.Ratings["current"])
	if err != nil {
		f = unit.Fuse{Rated: 2, Class: "T"}
	}
	s := w.state(p.Ref)
	t := ohms(breakerWatts / f.Rated / f.Rated)
	if s.Mode == "opened" || s.Input != 0 {
		t = Two{}
	}
	poles := [][2]string{{"1", "2"}}
	if p.Ratings["poles"] == "2" {
		poles = append(poles, [2]string{"3", "4"})
	}
	for _, pole := range poles {
		k := w.line(p.Ref+" pole "+pole[0], p.Ref+":"+pole[0], p.Ref+":"+pole[1], t, t)
		if s.Mode != "opened" {
			w.carries(p.Ref+" holds", k, f.Rated*holds(f.Class))
		}
	}
}

// coil writes a winding. That of an AC magnet has 30 % of its held impedance as
// DC resistance, a power factor of 0.3, and 6.7 times the current until its iron
// has closed.
func (w *writer) coil(p *panel.Part, from, to string, r, operate float64) {
	rated := quantity(p.Ratings, "voltage", unit.Voltage, 24)
	operate = quantity(p.Ratings, "operate", unit.Ratio, operate) * rated
	release := quantity(p.Ratings, "release", unit.Ratio, 0.10) * rated
	dc, ac := ohms(r), ohms(r)
	s := w.state(p.Ref)
	if _, err := unit.Parse(p.Ratings["frequency"], unit.Frequency); err == nil {
		dc = ohms(0.3 * r)
		ac = Two{Ohms: r / 0.3, Reactance: r / math.Sqrt(1-0.3*0.3)}
		if s.Mode != "operated" {
			ac.Ohms, ac.Reactance = ac.Ohms/6.7, ac.Reactance/6.7
		}
	}
	k := w.line(p.Ref+" coil", p.Ref+":"+from, p.Ref+":"+to, dc, ac)
	volts := func(v Solution) float64 {
		l := &w.Lines[k] // an open or foreign winding pulls with what it carries
		u := math.Abs(real(l.DC.Through(w.across(v, k)))) * dc.Ohms
		if v.AC != nil {
			u = max(u, magnitude(l.AC.Through(w.acrossAC(v, k)))/magnitude(ac.Through(1)))
		}
		return u
	}
	switch {
	case s.Held:
	case s.Mode == "operated":
		w.claim(p.Ref+" stays in", volts, release, inf)
	default:
		w.claim(p.Ref+" stays out", volts, 0, operate)
	}
}

func (w *writer) motor(p *panel.Part) {
	volts, watts := quantity(p.Ratings, "voltage", unit.Voltage, 230), quantity(p.Ratings, "power", unit.Power, 180)
	pf := quantity(p.Ratings, "power-factor", unit.Ratio, 0.8)
	r := volts * volts / watts // of the power, in parallel with that of the field
	w.line(p.Ref, p.Ref+":L", p.Ref+":N", ohms(r*pf/10), Two{Ohms: r, Reactance: r * pf / math.Sqrt(1-pf*pf)})
}

func (w *writer) battery(p *panel.Part) {
	r, volts := quantity(p.Ratings, "resistance", unit.Resistance, 50e-3), quantity(p.Ratings, "voltage", unit.Voltage, 24)
	dc, ac := Two{Ohms: r, Volts: volts}, ohms(r)
	if w.state(p.Ref).Input != 0 {
		dc, ac = Two{}, Two{}
	}
	w.line(p.Ref+" output", p.Ref+":-", p.Ref+":+", dc, ac)
}

func (w *writer) diode(p *panel.Part) {
	w.junction(p.Ref, p.Ref+":A", p.Ref+":K", quantity(p.Ratings, "forward", unit.Voltage, 0.7), diodeSlope)
}

// junction writes what conducts from one metal to another above a voltage.
func (w *writer) junction(ref, anode, cathode string, forward, slope float64) {
	s := w.state(ref)
	dc, ac := ohms(diodeReverse), ohms(diodeReverse)
	if s.Mode == "conducting" {
		dc, ac = Two{Ohms: slope, Volts: -forward}, ohms(slope)
	}
	k := w.line(ref, anode, cathode, dc, ac)
	volts := func(v Solution) float64 { return real(w.across(v, k)) }
	if s.Mode == "conducting" {
		w.claim(ref+" conducts", volts, forward, inf)
	} else {
		w.claim(ref+" blocks", volts, -inf, forward)
	}
}

func (w *writer) outputs(p *panel.Part) {
	feed, m := p.Ref+":L+", p.Ref+":M"
	w.resistor(p.Ref+" card", feed, m, cardOhms)
	least := quantity(p.Ratings, "least", unit.Voltage, 19.2)
	fed := func(v Solution) float64 { return v.DC[w.index[feed]] - v.DC[w.index[m]] }
	for n := range channelsOf(p) {
		ref := p.Ref + ":" + strconv.Itoa(n)
		s := w.state(ref)
		t := ohms(outputRated / quantity(p.Ratings, "leakage", unit.Current, 0.1e-3))
		if s.Mode == "fed" && s.Input != 0 {
			t = ohms(outputOhms)
		}
		w.line(ref, feed, ref, t, t)
		if s.Mode == "fed" {
			w.claim(ref+" is fed", fed, least, inf)
		} else {
			w.claim(ref+" is not fed", fed, -inf, least)
		}
	}
}
