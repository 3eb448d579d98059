package parts

import (
	"strings"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// safetyRelay operates when both of its channels are closed and its reset is, and
// lets go when either opens. Its force-guided contacts stand two in series in each
// safe way, one of each inner relay, so that a welded one does not hold the way;
// it then does not operate again, since the welded relay's signalling contact stays
// open. The feedback of contactors behind it is wired in series with the reset.
//
// A channel that opens alone is a discrepancy: it waits until both have been open.
// The reset is taken as it stands; a relay that wants it let go again first, or one
// that finds shorts between its channels by pulses, is not told apart.
var safetyRelay = &Kind{
	Name: "safety-relay", Letters: []string{"K", "F"}, Symbol: "safety-relay",
	Ratings: []Rating{
		{Name: "power", Dim: unit.Power, Default: "2 W", Source: "choice: a small one at 24 V"},
		{Name: "least", Dim: unit.Voltage, Default: "20.4 V", Source: "24 V less 15 %, common practice"},
	},
	Terminals: func(*panel.Part) []Terminal {
		return []Terminal{{"A1", Positive}, {"A2", Negative}, {"S11", Any}, {"S12", Any}, {"S21", Any}, {"S22", Any}, {"S33", Any}, {"S34", Any},
			{"13", Any}, {"14", Any}, {"23", Any}, {"24", Any}, {"41", Any}, {"42", Any}}
	},
	Build: func(b *Builder) {
		a1, a2 := b.Terminal("A1"), b.Terminal("A2")
		r := &guard{least: b.R["least"]}
		r.supply = b.Resistor(RoleLoad, b.Ref, a1, a2, nominalVolts*nominalVolts/b.R["power"])
		sense := []circuit.Node{a1, a2}
		for i, c := range [][2]string{{"S11", "S12"}, {"S21", "S22"}, {"S33", "S34"}} {
			b.Resistor(RoleContact, b.Ref+":"+c[0], a1, b.Terminal(c[0]), testOutOhms)
			r.inputs[i] = b.Resistor(RoleLoad, b.Ref+":"+c[1], b.Terminal(c[1]), a2, channelOhms)
			sense = append(sense, b.Terminal(c[1]))
		}
		for _, c := range []string{"13-14", "23-24"} {
			from, to, _ := strings.Cut(c, "-")
			thing, mid := b.Ref+":"+c, b.Inner(c)
			r.first = append(r.first, b.Resistor(RoleContact, thing, b.Terminal(from), mid, contactOhms))
			second := b.Resistor(RoleContact, thing, mid, b.Terminal(to), contactOhms)
			r.second = append(r.second, second)
			b.Mode(Mode{Thing: thing, Name: "stuck-open", Class: "open", Changes: []Change{Open(r.first[len(r.first)-1])}, Rate: rateRelay * shareRelaySpurious / 2, Repair: "replace-part"})
		}
		r.signal = b.Resistor(RoleContact, b.Ref+":41-42", b.Terminal("41"), b.Terminal("42"), contactOhms)
		e := b.Element(b.Ref, r, guardSound, sense...)
		b.Device(b.Ref, e, r)
		b.Mode(Mode{Thing: b.Ref, Name: "dead", Changes: []Change{{What: FixState, Element: e}}, Rate: rateRelay, Repair: "replace-part"})
		for _, m := range []struct {
			name string
			in   float64
		}{{"one-welded", guardWelded}, {"channel-1-stuck", guardStuck1}, {"channel-2-stuck", guardStuck2}} {
			b.Mode(Mode{Thing: b.Ref, Name: m.name, Changes: []Change{{What: FixInput, Element: e, Input: m.in}}, Rate: rateRelay * shareRelaySpurious / 4, Repair: "replace-part"})
		}
	},
}

// Choices of the model.
const (
	testOutOhms = 10.0   // a self-resetting fuse in the outgoing test voltages
	channelOhms = 2400.0 // 10 mA a channel
	channelOn   = 11.0   // V, as an input of IEC 61131-2 type 3
	guardMS     = 20.0   // release of safety relays: 10 to 30 ms, data sheets from memory
)

// Inputs of a guard: what is wrong with it.
const (
	guardSound  = 0
	guardWelded = 1 // a contact of the first inner relay
	guardStuck1 = 2 // the first channel is taken for closed
	guardStuck2 = 3
)

// A guard is the logic of a safety relay with its contacts.
type guard struct {
	supply        int
	inputs        [3]int // two channels, reset
	least         float64
	first, second []int // of each safe way
	signal        int
}

const (
	guardOff = iota
	guardReady
	guardOperated
	guardDiscrepant
)

func (r *guard) Stamp(s State, in float64, w Writer) {
	operated := s.Mode == guardOperated
	stampContacts(w, r.first, operated || in == guardWelded, contactOhms)
	stampContacts(w, r.second, operated, contactOhms)
	stampContacts(w, []int{r.signal}, !operated && in != guardWelded, contactOhms)
}

func (r *guard) Next(s State, in float64, v View) (State, Wait) {
	next := r.next(s.Mode, in, v)
	if next == s.Mode {
		return s, Wait{}
	}
	return State{Mode: next}, Wait{guardMS, guardMS}
}

func (r *guard) next(mode int, in float64, v View) int {
	supply := v.Ends(r.supply)
	if v.DC(supply.A, supply.B) < r.least {
		return guardOff
	}
	closed := func(i int) bool {
		e := v.Ends(r.inputs[i])
		return v.DC(e.A, e.B) >= channelOn
	}
	one, two := closed(0) || in == guardStuck1, closed(1) || in == guardStuck2
	switch {
	case !one && !two:
		return guardOff
	case mode == guardDiscrepant, mode == guardOff && one != two:
		return mode
	case one != two:
		return guardDiscrepant
	case mode == guardReady && closed(2) && in != guardWelded:
		return guardOperated
	case mode == guardOff:
		return guardReady
	}
	return mode
}

func (r *guard) Status(s State, _ float64, v View) Status {
	e := v.Ends(r.supply)
	st := Status{State: [...]string{"released", "ready", "operated", "discrepant"}[s.Mode], Volts: v.DC(e.A, e.B), Amps: v.Volts.I(r.supply)}
	if s.Mode == guardOperated {
		st.Grade = On
	}
	return st
}

// ModeName implements Namer.
func (r *guard) ModeName(s State) string {
	return [...]string{"released", "ready", "operated", "discrepant"}[s.Mode]
}

// Holds implements Holder: from cold, one channel alone is no discrepancy.
func (r *guard) Holds(s State, _ View) bool { return s.Mode == guardDiscrepant }
