package parts

import (
	"math"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// addWire makes a wire: its strands at both ends are nodes of their own, joined
// to the metal they land on by clamps, so that each joint can fail apart.
func addWire(b *Builder, index int, w *panel.Wire, from, to Place, field bool) {
	mm2, err := unit.Parse(w.Size, unit.Area)
	if err != nil || mm2 <= 0 {
		mm2 = 1 // choice where the document is silent; package check has told
	}
	metres, err := unit.Parse(w.Length, unit.Length)
	if err != nil || metres <= 0 {
		metres = 1
		if field {
			metres = 20
		}
	}
	ohms := OhmsPerKM(mm2) * metres / 1000
	a, z := b.Node(w.No+"@"+from.Name), b.Node(w.No+"@"+to.Name)
	leak := float64(insulationKM * metres / 1000 / 2)
	for _, n := range []circuit.Node{a, z} {
		b.net.Nodes[n].Leak += leak
		b.net.Nodes[n].LeakAC += complex(leak, 0)
	}
	body := b.Resistor(RoleWire, w.No, a, z, math.Max(ohms, 1e-5))
	rate := rateWire
	if field {
		rate = rateWirePerM * metres
	}
	b.Mode(Mode{Thing: w.No, Name: "broken", Class: "open", Changes: []Change{Open(body)}, Rate: rate, Place: w.No, Repair: "replace-wire"})
	for _, end := range []struct {
		at     Place
		strand circuit.Node
	}{{from, a}, {to, z}} {
		thing := b.net.Nodes[end.strand].Name
		b.strand(thing, end.strand, end.at.Field)
		clamp := b.Resistor(RoleClamp, thing, end.strand, end.at.Node, clampOhms)
		b.net.Ends = append(b.net.Ends, WireEnd{Cable: w.Cable, Wire: index, No: w.No, At: end.at.Name, Strand: end.strand, Metal: end.at.Node, Clamp: clamp, Place: end.at})
		clampModes(b, w.No, thing, clamp, end.at.Field)
	}
}

// clampModes are the ways one joint fails: out, on the insulation, loose.
func clampModes(b *Builder, wire, thing string, clamp int, field bool) {
	rate := rateClamp
	if field {
		rate = rateClampField
	}
	open := []Change{Open(clamp)}
	b.Mode(Mode{Thing: thing, Name: "lifted", Class: "open", Changes: open, Rate: rate * shareOpen, Place: wire, Repair: "land-wire", Visible: true})
	b.Mode(Mode{Thing: thing, Name: "on-insulation", Class: "open", Changes: open, Rate: rateInsulation, Place: wire, Repair: "strip-and-land-wire"})
	for _, l := range looseOhms {
		b.Mode(Mode{Thing: thing, Name: "loose", Value: l.text, Class: "resistive", Changes: []Change{Resist(clamp, l.ohms)}, Rate: rate * shareResistive / float64(len(looseOhms)), Place: wire, Repair: "tighten-clamp"})
	}
}
