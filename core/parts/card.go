package parts

import (
	"strconv"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// channelTerminals lists before, then channels 0, 1, 2 ... (8 where unsaid).
func channelTerminals(p *panel.Part, before ...Terminal) []Terminal {
	n := 8
	if p != nil && p.Channels > 0 {
		n = min(p.Channels, 64)
	}
	for k := range n {
		before = append(before, Terminal{Name: strconv.Itoa(k)})
	}
	return before
}

func (b *Builder) channels(names []Terminal, fixed int, build func(ref string, t circuit.Node)) {
	for _, t := range names[fixed:] {
		build(b.Ref+":"+t.Name, b.Terminal(t.Name))
	}
}

var digitalOutput = &Kind{
	Name: "digital-output", Switches: Positive, Letters: []string{"A", "K"}, Symbol: "card",
	Ratings: []Rating{
		{Name: "leakage", Dim: unit.Current, Default: "0.1 mA", Source: "transistor output, module data: below 0.1 mA"},
		{Name: "least", Dim: unit.Voltage, Default: "19.2 V", Source: "controller supply range 19.2 to 30 V, module data"},
	},
	Positions: []Position{{"off", "switch-off", 0}, {"on", "switch-on", 1}},
	Terminals: func(p *panel.Part) []Terminal {
		return channelTerminals(p, Terminal{"L+", Positive}, Terminal{"M", Negative})
	},
	Build: func(b *Builder) {
		feed, m := b.Terminal("L+"), b.Terminal("M")
		b.Resistor(RoleLoad, b.Ref, feed, m, cardOhms)
		b.channels(b.Kind.Terminals(b.Part), 2, func(ref string, t circuit.Node) {
			d := &output{feed: feed, common: m, pin: t, least: b.R["least"], leak: b.R["leakage"] / 24}
			d.branch = b.Branch(RoleContact, ref, feed, t, circuit.Value{G: d.leak}, circuit.ACValue{Y: complex(d.leak, 0)})
			e := b.Element(ref, d, 0, feed, m, t)
			b.Device(ref, e, d)
			b.Mode(Mode{Thing: ref, Name: "stuck-off", Place: ref, Changes: []Change{{What: FixInput, Element: e}}, Rate: rateChannel, Repair: "replace-channel"})
			b.Mode(Mode{Thing: ref, Name: "stuck-on", Place: ref, Changes: []Change{{What: FixInput, Element: e, Input: 1}}, Rate: rateChannel / 2, Repair: "replace-channel"})
		})
	},
}

const (
	outputOhms = 0.2    // on-state: well below the 3 V drop IEC 61131-2 allows (from memory)
	cardOhms   = 1200.0 // the card's own 20 mA: choice
)

// An output is a transistor from L+ to its terminal: input 1 switches it on
// while the card is fed. Mode 1 is fed.
type output struct {
	branch            int
	feed, common, pin circuit.Node
	least, leak       float64
}

func (d *output) Stamp(s State, in float64, w Writer) {
	g := d.leak
	if s.Mode == 1 && in != 0 {
		g = 1 / outputOhms
	}
	w.DC(d.branch, circuit.Value{G: g})
	w.AC(d.branch, circuit.ACValue{Y: complex(g, 0)})
}

func (d *output) Next(s State, _ float64, v View) (State, Wait) {
	fed := v.DC(d.feed, d.common) >= d.least
	switch {
	case fed && s.Mode == 0:
		return State{Mode: 1}, Wait{outputStartMS, outputStartMS}
	case !fed && s.Mode == 1:
		return State{}, Wait{outputStopMS, outputStopMS}
	}
	return s, Wait{}
}

const (
	outputStartMS = 100 // choice: a card starts after its supply is up
	outputStopMS  = 10  // hold-up a controller is expected to ride through, common practice
)

// Status of an output that is switched off is off whatever its terminal shows: its
// leakage alone puts nearly the full voltage on a wire that ends at an open
// contact.
func (d *output) Status(s State, in float64, v View) Status {
	volts := v.DC(d.pin, d.common)
	st := Status{State: "off", Volts: volts, Amps: v.Volts.I(d.branch)}
	switch {
	case s.Mode == 0 || in == 0:
	case volts >= 15:
		st.State, st.Grade = "on", On
	case volts >= 5:
		st.State, st.Grade = "undefined", Weak
	}
	return st
}

var analogueInput = &Kind{
	Name: "analogue-input", Letters: []string{"A", "K"}, Symbol: "card",
	Ratings: []Rating{
		{Name: "resistance", Dim: unit.Resistance, Default: "250 ohm", Source: "1 to 5 V from 4 to 20 mA, the common load; 50 and 100 ohm are in use as well"},
		{Name: "form", Words: []string{"sinking", "sourcing"}, Source: "the document: a sourcing input supplies its loop from L+; sinking where unsaid"},
	},
	Terminals: func(p *panel.Part) []Terminal {
		if sourcing(p) {
			return channelTerminals(p, Terminal{"L+", Positive}, Terminal{"M", Negative})
		}
		return channelTerminals(p, Terminal{"M", Negative})
	},
	Build: func(b *Builder) {
		fixed := 1
		if sourcing(b.Part) {
			fixed = 2
		}
		common := b.Terminal(b.Kind.Terminals(b.Part)[0].Name)
		b.channels(b.Kind.Terminals(b.Part), fixed, func(ref string, t circuit.Node) {
			a := &analogue{}
			from, to := t, common
			if fixed == 2 {
				from, to = common, t
			}
			a.branch = b.Resistor(RoleLoad, ref, from, to, b.R["resistance"])
			e := b.Element(ref, a, inputSound, from, to)
			b.Device(ref, e, a)
			b.Mode(Mode{Thing: ref, Name: "input-open", Place: ref, Class: "open", Changes: []Change{Open(a.branch)}, Rate: rateChannel, Repair: "replace-channel"})
			b.Mode(Mode{Thing: ref, Name: "input-dead", Place: ref, Changes: []Change{{What: FixInput, Element: e, Input: inputDead}}, Rate: rateChannel / 2, Repair: "replace-channel"})
		})
	},
}

// sourcing says whether a card's inputs give current instead of taking it.
func sourcing(p *panel.Part) bool { return p != nil && p.Ratings["form"] == "sourcing" }

// An analogue input is a measuring resistance that reports its current.
type analogue struct{ branch int }

func (*analogue) Stamp(State, float64, Writer) {}

func (*analogue) Next(s State, _ float64, _ View) (State, Wait) { return s, Wait{} }

func (a *analogue) Status(_ State, in float64, v View) Status {
	e := v.Ends(a.branch)
	amps := v.Volts.I(a.branch)
	if in == inputDead {
		return Status{State: "no-current", Volts: v.DC(e.A, e.B), Amps: amps}
	}
	band := BandOf(amps)
	return Status{State: band, Grade: gradeOf(band), Volts: v.DC(e.A, e.B), Amps: amps, Signal: amps * 1e3}
}

// ModeName implements Namer.
func (d *output) ModeName(s State) string { return [...]string{"unfed", "fed"}[s.Mode] }
