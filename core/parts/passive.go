package parts

import (
	"strconv"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

var resistor = &Kind{
	Name: "resistor", Letters: []string{"R"}, Symbol: "resistor",
	Ratings:   []Rating{{Name: "resistance", Dim: unit.Resistance, Must: true, Source: "the document"}},
	Terminals: func(*panel.Part) []Terminal { return []Terminal{{Name: "1"}, {Name: "2"}} },
	Build: func(b *Builder) {
		ohms := b.R["resistance"]
		if ohms == 0 {
			ohms = 1e3 // package check has told; the model must stand
		}
		k := b.Resistor(RoleLoad, b.Ref, b.Terminal("1"), b.Terminal("2"), ohms)
		b.Mode(Mode{Thing: b.Ref, Name: "open", Class: "open", Changes: []Change{Open(k)}, Rate: ratePassive, Repair: "replace-part"})
	},
}

var diode = &Kind{
	Name: "diode", Letters: []string{"R", "V"}, Symbol: "diode",
	Ratings:   []Rating{{Name: "forward", Dim: unit.Voltage, Default: "0.7 V", Source: "silicon junction, textbook value"}},
	Terminals: func(*panel.Part) []Terminal { return []Terminal{{"A", Positive}, {"K", Negative}} },
	Build:     func(b *Builder) { addDiode(b, b.Ref, b.Terminal("A"), b.Terminal("K"), b.R["forward"]) },
}

// addDiode makes a diode between two nodes with its modes.
func addDiode(b *Builder, thing string, anode, cathode circuit.Node, forward float64) *junction {
	d := &junction{forward: forward}
	d.branch = b.Branch(RoleContact, thing, anode, cathode, circuit.Value{G: diodeLeak}, circuit.ACValue{Y: diodeLeak})
	b.Element(thing, d, 0, anode, cathode)
	b.Mode(Mode{Thing: thing, Name: "open", Class: "open", Changes: []Change{Open(d.branch)}, Rate: rateDiode * 0.36, Repair: "replace-part"})
	b.Mode(Mode{Thing: thing, Name: "shorted", Class: "short", Changes: []Change{Resist(d.branch, burntOhms)}, Rate: rateDiode * 0.49, Repair: "replace-part"})
	return d
}

const (
	burntOhms  = 0.05 // a burnt-through semiconductor: choice
	diodeLeak  = 1e-9 // S reverse: choice
	diodeSlope = 20.0 // S forward beyond the knee: choice, 50 mΩ
)

// A junction conducts one way above its forward voltage: mode 1.
type junction struct {
	branch  int
	forward float64
}

func (d *junction) Stamp(s State, _ float64, w Writer) {
	if s.Mode == 1 {
		w.DC(d.branch, circuit.Value{G: diodeSlope, E: -d.forward})
		w.AC(d.branch, circuit.ACValue{Y: diodeSlope})
		return
	}
	w.DC(d.branch, circuit.Value{G: diodeLeak})
	w.AC(d.branch, circuit.ACValue{Y: diodeLeak})
}

func (d *junction) Next(s State, _ float64, v View) (State, Wait) {
	e := v.Ends(d.branch)
	if on := v.DC(e.A, e.B) > d.forward; on != (s.Mode == 1) {
		return State{Mode: 1 - s.Mode}, Wait{}
	}
	return s, Wait{}
}

// peBar is one bar of metal with numbered screws.
var peBar = &Kind{
	Name: "pe-bar", Letters: []string{"W", "X"}, Symbol: "pe-bar",
	Terminals: func(p *panel.Part) []Terminal {
		n := 8
		if p != nil && p.Channels > 0 {
			n = min(p.Channels, 64)
		}
		var ts []Terminal
		for k := range n {
			ts = append(ts, Terminal{strconv.Itoa(k + 1), Earth})
		}
		return ts
	},
	Build: func(b *Builder) {
		bar := b.Inner("bar")
		b.Earthing(bar)
		for _, t := range b.Kind.Terminals(b.Part) {
			b.index[b.Ref+":"+t.Name] = bar
		}
	},
}

// rail is a mounting rail, plate or door: touchable metal with one terminal, bonded
// by a wire.
var rail = &Kind{
	Name: "rail", Letters: []string{"U"}, Symbol: "rail",
	Terminals: func(*panel.Part) []Terminal { return []Terminal{{"PE", Earth}} },
	Build: func(b *Builder) {
		b.Earthing(b.Terminal("PE"))
		b.Frame(b.Terminal("PE"))
	},
}
