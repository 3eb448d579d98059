package parts

import (
	"math"

	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// insulationMonitor watches an unearthed DC circuit by balance: two equal
// resistances hold earth midway between plus and minus, and an earth fault on one
// side pulls it there. Faults alike on both sides it does not see; that is the
// known weakness of the method. Its alarm relay is operated while all is well.
var insulationMonitor = &Kind{
	Name: "insulation-monitor", Letters: []string{"B", "P", "A"}, Symbol: "insulation-monitor",
	Ratings: []Rating{
		{Name: "resistance", Dim: unit.Resistance, Default: "100 kohm", Source: "choice: each of the two to earth"},
		{Name: "alarm", Dim: unit.Resistance, Default: "25 kohm", Source: "choice: about 1 kohm a volt; the owner sets it"},
		{Name: "least", Dim: unit.Voltage, Default: "12 V", Source: "choice: it works from the circuit it watches"},
	},
	Terminals: func(p *panel.Part) []Terminal {
		return append([]Terminal{{"+", Positive}, {"-", Negative}, {"PE", Earth}}, contactTerminals(p, "11-12-14")...)
	},
	Build: func(b *Builder) {
		plus, minus, pe := b.Terminal("+"), b.Terminal("-"), b.Terminal("PE")
		m := &balance{least: b.R["least"], ratio: b.R["resistance"] / (b.R["resistance"] + float64(2*b.R["alarm"]))}
		m.plus = b.Resistor(RoleLoad, b.Ref, plus, pe, b.R["resistance"])
		m.minus = b.Resistor(RoleLoad, b.Ref, pe, minus, b.R["resistance"])
		m.made, m.closed = addContacts(b, rateRelay*shareRelaySpurious/2, "11-12-14")
		e := b.Element(b.Ref, m, 0, plus, minus, pe)
		b.Device(b.Ref, e, m)
		b.Mode(Mode{Thing: b.Ref, Name: "dead", Changes: []Change{{What: FixState, Element: e}}, Rate: rateMonitor, Repair: "replace-part"})
	},
}

// A balance compares the voltages of plus and minus to earth. With R from each to
// earth and a fault of Rf on one of them, that one has R·Rf/(R+Rf): the difference
// of the two is R/(R+2·Rf) of their sum.
type balance struct {
	plus, minus  int
	least        float64 // volts
	ratio        float64 // of difference to sum, at which it gives alarm
	made, closed []int
}

const (
	monitorOff = iota
	monitorWatching
	monitorPlus  // alarm: plus to earth
	monitorMinus // alarm: minus to earth
)

// The response time is a choice; IEC 61557-8 allows 10 s (from memory).
const monitorMS = 1000.0

func (m *balance) Stamp(s State, _ float64, w Writer) {
	stampContacts(w, m.made, s.Mode == monitorWatching, contactOhms)
	stampContacts(w, m.closed, s.Mode != monitorWatching, contactOhms)
}

func (m *balance) Next(s State, _ float64, v View) (State, Wait) {
	p, n := v.Ends(m.plus), v.Ends(m.minus)
	sum, difference := v.DC(p.A, n.B), v.DC(p.A, p.B)-v.DC(n.A, n.B)
	next := monitorWatching
	switch {
	case sum < m.least:
		next = monitorOff
	case math.Abs(difference) < m.ratio*sum:
	case difference < 0: // little is left between plus and earth
		next = monitorPlus
	default:
		next = monitorMinus
	}
	if next == s.Mode {
		return s, Wait{}
	}
	return State{Mode: next}, Wait{monitorMS, monitorMS}
}

func (m *balance) Status(s State, _ float64, v View) Status {
	p, n := v.Ends(m.plus), v.Ends(m.minus)
	st := Status{State: "off", Volts: v.DC(p.A, n.B), Amps: v.Volts.I(m.plus)}
	switch s.Mode {
	case monitorWatching:
		st.State, st.Grade = "watching", On
	case monitorPlus:
		st.State, st.Grade = "alarm-plus", Weak
	case monitorMinus:
		st.State, st.Grade = "alarm-minus", Weak
	}
	return st
}

// ModeName implements Namer.
func (m *balance) ModeName(s State) string {
	return [...]string{"unfed", "watching", "alarm-plus", "alarm-minus"}[s.Mode]
}
