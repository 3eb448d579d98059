package parts

import (
	"math"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// controlTransformer parts a control circuit from the mains: 1 and 2 are its
// primary winding, 3 and 4 its secondary one. The secondary is a voltage behind the
// short-circuit impedance, taken as resistance; the primary takes the secondary's
// current times the ratio, as if in phase, and the current of its iron.
var controlTransformer = &Kind{
	Name: "control-transformer", Letters: []string{"T"}, Symbol: "transformer", Feeds: true,
	Ratings: []Rating{
		{Name: "primary", Dim: unit.Voltage, Default: "230 V", Source: "IEC 60038"},
		{Name: "voltage", Dim: unit.Voltage, Default: "24 V", Source: "choice: of the secondary, without load"},
		{Name: "power", Dim: unit.Power, Default: "100 VA", Source: "choice: a common size"},
		{Name: "impedance", Dim: unit.Ratio, Default: "8 %", Source: "short-circuit voltage of small transformers, 5 to 10 %, from memory"},
		{Name: "class", Words: []string{"PELV", "SELV", "none"}, Source: "the document: PELV, SELV or none"},
	},
	Terminals: func(*panel.Part) []Terminal {
		return []Terminal{{"1", Line}, {"2", Neutral}, {"3", Line}, {"4", Neutral}, {"PE", Earth}}
	},
	Build: func(b *Builder) {
		one, two, three, four := b.Terminal("1"), b.Terminal("2"), b.Terminal("3"), b.Terminal("4")
		rated := b.R["primary"]
		t := &windings{ratio: b.R["voltage"] / rated, ohms: b.R["impedance"] * b.R["voltage"] * b.R["voltage"] / b.R["power"], rated: b.R["voltage"]}
		own := b.R["power"] / (rated * rated) // S of its whole power
		t.iron = complex(ironLoss*own, -ironField*own)
		t.primary = b.Branch(RoleLoad, b.Ref, one, two, circuit.Value{G: own / (0.5 * b.R["impedance"])}, circuit.ACValue{Y: t.iron})
		t.secondary = b.Branch(RoleSource, b.Ref, four, three, Resistor(t.ohms), ResistorAC(t.ohms))
		b.Frame(b.Terminal("PE"))
		e := b.Element(b.Ref, t, 0, one, two, three, four)
		b.Element(b.Ref+" primary", &reflected{windings: t}, 0, one, two, three, four)
		b.Device(b.Ref, e, t)
		b.Mode(Mode{Thing: b.Ref, Name: "winding-open", Class: "open", Changes: []Change{Open(t.primary)}, Rate: rateTransformer * shareCoilOpen, Repair: "replace-part"})
		b.Mode(Mode{Thing: b.Ref, Name: "no-output", Class: "open", Changes: []Change{Open(t.secondary)}, Rate: rateTransformer * shareCoilOpen, Repair: "replace-part"})
	},
}

// ownRounding is a voltage that is none: what a dying transformer's two sides would
// hand to and fro, ever less of it, without an end.
const ownRounding = 1e-9

// Shares of a small transformer's power that its iron takes: choices.
const (
	ironLoss  = 0.02
	ironField = 0.05
)

// windings are the two of a transformer. State.X is the voltage of the secondary
// without load.
type windings struct {
	primary, secondary int
	ratio, ohms, rated float64
	iron               complex128
}

func (t *windings) Stamp(s State, _ float64, w Writer) {
	w.AC(t.secondary, circuit.ACValue{Y: complex(1/t.ohms, 0), E: complex(s.X, 0)})
}

// Next follows the primary's voltage; a primary that is open has none.
func (t *windings) Next(s State, _ float64, v View) (State, Wait) {
	e := v.Ends(t.primary)
	x := t.ratio * v.AC(e.A, e.B)
	if v.VoltsAC == nil || v.VoltsAC.Value(t.primary).Y == 0 || x < ownRounding {
		x = 0
	}
	if math.Abs(x-s.X) > 1e-9*(x+1e-3) {
		s.X = x
	}
	return s, Wait{}
}

func (t *windings) Status(_ State, _ float64, v View) Status {
	e := v.Ends(t.secondary)
	st := Status{State: "off", Volts: v.AC(e.B, e.A), Amps: v.ACAmps(t.secondary)}
	switch {
	case st.Volts >= 0.85*t.rated:
		st.State, st.Grade = "on", On
	case st.Volts >= 0.2*t.rated:
		st.State, st.Grade = "weak", Weak
	}
	return st
}

// reflected is what the secondary's load is to the primary. State.X is its
// conductance.
type reflected struct{ *windings }

func (r *reflected) Stamp(s State, _ float64, w Writer) {
	w.AC(r.primary, circuit.ACValue{Y: r.iron + complex(s.X, 0)})
}

// ownLeast is the share of the secondary's own voltage in what is across it, below
// which it is rounding: something else feeds the secondary. The model does not
// carry that back to the primary.
const ownLeast = 1e-9

// Next takes the load's admittance as seen from the secondary's own voltage, times
// the square of the ratio, and no more than that of a dead short.
func (r *reflected) Next(s State, _ float64, v View) (State, Wait) {
	x := 0.0
	if v.VoltsAC != nil {
		e, i := v.Ends(r.secondary), v.VoltsAC.I(r.secondary)
		d := v.VoltsAC.V(e.B) - v.VoltsAC.V(e.A)
		drop := complex(float64(real(i)*r.ohms), float64(imag(i)*r.ohms))
		if own := magnitude(d + drop); own > ownLeast*(magnitude(d)+magnitude(drop)) {
			x = r.ratio * r.ratio * min(magnitude(i)/own, 1/r.ohms)
		}
	}
	if math.Abs(x-s.X) > 1e-9*x {
		s.X = x
	}
	return s, Wait{}
}
