package parts

import (
	"math"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// Coil ratings shared by relays and solenoids.
func coilRatings(ohms, power, operate, operateSource string) []Rating {
	return []Rating{
		{Name: "voltage", Dim: unit.Voltage, Default: "24 V", Source: "IEC 61131-2 nominal control voltage"},
		{Name: "resistance", Dim: unit.Resistance, Default: ohms, Source: "catalogue data of a 24 V, 30 mA plug-in relay"},
		{Name: "power", Dim: unit.Power, Default: power, Source: "choice: a small valve"},
		{Name: "operate", Dim: unit.Ratio, Default: operate, Source: operateSource},
		{Name: "release", Dim: unit.Ratio, Default: "10 %", Source: "DC drop-out 10 to 75 %, IEC 60947-4-1 (from memory); elementary relays release by 10 %"},
		{Name: "frequency", Dim: unit.Frequency, Source: "given for an AC coil"},
	}
}

var relay = &Kind{
	Name: "relay", Letters: []string{"K", "CR"}, Symbol: "relay",
	Ratings: append(coilRatings("794 ohm", "", "75 %", "elementary relays must operate at 75 to 80 %"),
		Rating{Name: "guided", Words: []string{"yes", "no"}, Source: "the document: contacts forcibly guided, IEC 61810-3, where one that has welded keeps those of the other kind open; no where unsaid"}),
	Terminals: func(p *panel.Part) []Terminal {
		return append([]Terminal{{"A1", Positive}, {"A2", Negative}}, contactTerminals(p, "11-12-14")...)
	},
	Build: func(b *Builder) {
		c := newCoil(b)
		c.made, c.closed = addContacts(b, rateRelay*shareRelaySpurious/2, "11-12-14")
		if b.Part.Ratings["guided"] == "yes" {
			guide(b, c.made, c.closed)
			guide(b, c.closed, c.made)
		}
		e := b.Element(b.Ref, c, 0, b.Terminal("A1"), b.Terminal("A2"))
		b.Device(b.Ref, e, c)
		b.Mode(Mode{Thing: b.Ref, Name: "coil-open", Class: "open", Changes: []Change{Open(c.branch)}, Rate: rateRelay * shareRelayDead * shareCoilOpen, Repair: "replace-part"})
		b.Mode(Mode{Thing: b.Ref, Name: "coil-shorted", Class: "short", Changes: []Change{Resist(c.branch, shortedCoilOhms), {What: FixState, Element: e}}, Rate: rateRelay * shareRelayShort, Repair: "replace-part"})
		b.Mode(Mode{Thing: b.Ref, Name: "stuck", Changes: []Change{{What: FixState, Element: e}}, Rate: rateRelay * shareRelayDead * (1 - shareCoilOpen), Repair: "replace-part"})
	},
}

var solenoid = &Kind{
	Name: "solenoid", Letters: []string{"Q", "M", "Y", "SOL", "SV"}, Tags: []string{"*V", "*Y", "SOV"}, Symbol: "solenoid",
	Ratings: coilRatings("", "8 W", "85 %", "IEC 60947-4-1: 85 to 110 % (from memory)"),
	Terminals: func(*panel.Part) []Terminal {
		return []Terminal{{"1", Positive}, {"2", Negative}, {"PE", Earth}}
	},
	Build: func(b *Builder) {
		c := newCoil(b)
		b.Frame(b.Terminal("PE"))
		e := b.Element(b.Ref, c, 0, b.Terminal("1"), b.Terminal("2"))
		b.Device(b.Ref, e, c)
		b.Mode(Mode{Thing: b.Ref, Name: "coil-open", Class: "open", Changes: []Change{Open(c.branch)}, Rate: rateSolenoid * shareCoilOpen, Repair: "replace-part"})
		b.Mode(Mode{Thing: b.Ref, Name: "coil-shorted", Class: "short", Changes: []Change{Resist(c.branch, shortedCoilOhms), {What: FixState, Element: e}}, Rate: rateSolenoid * shareCoilShort, Repair: "replace-part"})
		b.Mode(Mode{Thing: b.Ref, Name: "stuck", Changes: []Change{{What: FixState, Element: e}}, Rate: rateSolenoid * (1 - shareCoilOpen - shareCoilShort), Repair: "replace-part"})
	},
}

const (
	shortedCoilOhms = 0.5 // a burnt winding: choice
	operateMinMS    = 5.0 // relay data sheets: operate 5 to 15 ms, release 2 to 10 ms
	operateMaxMS    = 15.0
	releaseMinMS    = 2.0
	releaseMaxMS    = 10.0
	pullInFactor    = 6.7 // pull-in VA over hold VA of an AC magnet: 30 to 4.5 VA, contactor data
)

// A coil is a winding with two thresholds and the contacts it moves. Mode 0 is
// released, mode 1 operated.
type coil struct {
	branch       int
	rated        float64 // volts
	operate      float64 // volts
	release      float64 // volts
	dc           circuit.Value
	pull, held   circuit.ACValue // the iron closes the magnet: less current once held
	made, closed []int
}

// newCoil makes the winding between the first two terminals of the part. An AC
// coil's DC resistance is taken as 30 % of its held impedance, power factor 0.3
// (small contactor data, from memory).
func newCoil(b *Builder) *coil {
	names := b.Kind.Terminals(b.Part)
	from, to := b.Terminal(names[0].Name), b.Terminal(names[1].Name)
	volts := b.R["voltage"]
	ohms := b.R["resistance"]
	if ohms == 0 {
		ohms = volts * volts / b.R["power"]
	}
	c := &coil{rated: volts, operate: b.R["operate"] * volts, release: b.R["release"] * volts, dc: Resistor(ohms)}
	c.held = ResistorAC(ohms)
	c.pull = c.held
	if b.R["frequency"] > 0 {
		const pf, sin = 0.3, 0.9539392014169456
		c.dc = Resistor(0.3 * ohms)
		c.held = circuit.ACValue{Y: complex(pf/ohms, -sin/ohms)}
		c.pull = circuit.ACValue{Y: complex(pullInFactor*pf/ohms, -pullInFactor*sin/ohms)}
	}
	c.branch = b.Branch(RoleLoad, b.Ref, from, to, c.dc, c.pull)
	return c
}

func (c *coil) Stamp(s State, _ float64, w Writer) {
	w.DC(c.branch, c.dc)
	if s.Mode == 1 {
		w.AC(c.branch, c.held)
	} else {
		w.AC(c.branch, c.pull)
	}
	stampContacts(w, c.made, s.Mode == 1, contactOhms)
	stampContacts(w, c.closed, s.Mode == 0, contactOhms)
}

// pulls is the voltage that would drive the present current through the sound
// winding: an open or foreign winding pulls nothing.
func (c *coil) pulls(s State, v View) (volts float64, mixed bool) {
	dc := math.Abs(v.DCAmps(c.branch)) / c.dc.G
	if v.VoltsAC == nil {
		return dc, false
	}
	y := c.pull.Y
	if s.Mode == 1 {
		y = c.held.Y
	}
	ac := v.ACAmps(c.branch) / magnitude(y)
	return larger(dc, ac)
}

func (c *coil) Next(s State, _ float64, v View) (State, Wait) {
	volts, _ := c.pulls(s, v)
	switch {
	case s.Mode == 0 && volts >= c.operate:
		return State{Mode: 1}, Wait{operateMinMS, operateMaxMS}
	case s.Mode == 1 && volts <= c.release:
		return State{}, Wait{releaseMinMS, releaseMaxMS}
	}
	return s, Wait{}
}

func (c *coil) Status(s State, _ float64, v View) Status {
	e := v.Ends(c.branch)
	volts, _ := v.Level(e.A, e.B)
	pull, mixed := c.pulls(s, v)
	st := Status{State: "released", Volts: volts, Amps: v.Amps(c.branch), Mixed: mixed}
	if s.Mode == 1 {
		st.State, st.Grade = "operated", On
	} else if pull >= 0.2*c.rated {
		st.State, st.Grade = "weak", Weak
	}
	return st
}

// ModeName implements Namer.
func (c *coil) ModeName(s State) string { return [...]string{"released", "operated"}[s.Mode] }

// Holds implements Holder. An AC magnet takes several times its held current to
// pull in, and what loses d volts on the way to the held magnet loses as many times
// d before: to be left with its operate voltage of a full supply it must have lost
// no more than that share of the difference.
func (c *coil) Holds(s State, v View) bool {
	pull, _ := c.pulls(s, v)
	least := c.operate
	if c.pull != c.held {
		least = c.rated - (c.rated-c.operate)/pullInFactor
	}
	return s.Mode == 1 && pull < least
}
