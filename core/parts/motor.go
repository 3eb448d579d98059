package parts

import (
	"math"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

var motor = &Kind{
	Name: "motor", Letters: []string{"M"}, Tags: []string{"P", "M"}, Symbol: "motor",
	Ratings: []Rating{
		{Name: "voltage", Dim: unit.Voltage, Default: "230 V", Source: "IEC 60038"},
		{Name: "power", Dim: unit.Power, Default: "180 W", Source: "choice: a small pump"},
		{Name: "power-factor", Dim: unit.Ratio, Default: "0.8", Source: "common practice"},
	},
	Terminals: func(*panel.Part) []Terminal {
		return []Terminal{{"L", Line}, {"N", Neutral}, {"PE", Earth}}
	},
	Build: func(b *Builder) {
		l := &load{rated: b.R["voltage"], on: 0.85, weak: 0.3, words: [3]string{"stopped", "weak", "running"}}
		// Y = (P - jQ)/V²: resistance and inductance of the running machine. Its
		// winding's DC resistance is a tenth of the impedance (choice).
		v2 := b.R["voltage"] * b.R["voltage"]
		pf := b.R["power-factor"]
		g := b.R["power"] / v2
		q := g * math.Sqrt(1-float64(pf*pf)) / pf
		l.branch = b.Branch(RoleLoad, b.Ref, b.Terminal("L"), b.Terminal("N"), circuit.Value{G: 10 * g / pf}, circuit.ACValue{Y: complex(g, -q)})
		b.Frame(b.Terminal("PE"))
		e := b.Element(b.Ref, l, 0, b.Terminal("L"), b.Terminal("N"))
		b.Device(b.Ref, e, l)
		b.Mode(Mode{Thing: b.Ref, Name: "winding-open", Class: "open", Changes: []Change{Open(l.branch)}, Rate: rateMotor, Repair: "replace-part"})
		b.Mode(Mode{Thing: b.Ref, Name: "frame-fault", Class: "short", Changes: []Change{Join(b.Terminal("L"), b.Terminal("PE"), 1)}, Rate: rateMotor / 4, Repair: "replace-part"})
	},
}
