package sim_test

import (
	"math"
	"math/cmplx"
	"strings"
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/sim"
)

// taken is the power that each thing takes from the network in watts, direct and
// alternating together, negative where it gives; size is what goes in and out of it.
// The channels of a card are one with it: it feeds them.
func taken(x *sim.Machine) (by, size map[string]float64) {
	by, size = map[string]float64{}, map[string]float64{}
	parts := map[string]bool{}
	for _, p := range x.Model.Panel.Parts {
		parts[p.Ref] = true
	}
	count := func(thing string, watts, of float64) {
		if ref, _, _ := strings.Cut(thing, ":"); parts[ref] {
			thing = ref
		}
		by[thing] += watts
		size[thing] += of
	}
	ac := x.AC()
	// A source is solved as a current of its own, so a branch is no more exact than
	// what it would carry with its ends shorted.
	ends := func(thing string, e circuit.Ends, amps, g, source float64, ampsAC complex128, y float64) {
		v := x.V(e.A) - x.V(e.B)
		count(thing, v*amps, math.Abs(v)*(math.Abs(amps)+g*(math.Abs(v)+source)))
		if ac != nil {
			w := x.VAC(e.A) - x.VAC(e.B)
			count(thing, real(w*cmplx.Conj(ampsAC)), cmplx.Abs(w)*(cmplx.Abs(ampsAC)+y*cmplx.Abs(w)))
		}
	}
	for k, b := range x.Model.Net.Branches {
		var amps complex128
		y := 0.0
		if ac != nil {
			amps, y = ac.I(k), cmplx.Abs(ac.Value(k).Y)
		}
		value := x.DC().Value(k)
		ends(b.Thing, b.Ends, x.DC().I(k), value.G, math.Abs(value.E), amps, y)
	}
	for i, e := range x.Links() {
		var amps complex128
		if ac != nil {
			amps = ac.LinkI(i)
		}
		ends("a new link", e, x.DC().LinkI(i), 0, 0, amps, 0)
	}
	for n := range x.Model.Net.Nodes {
		node := &x.Model.Net.Nodes[n]
		v, w := x.V(circuit.Node(n)), cmplx.Abs(x.VAC(circuit.Node(n)))
		count("insulation", node.Leak*v*v+real(node.LeakAC)*w*w, node.Leak*v*v+cmplx.Abs(node.LeakAC)*w*w)
	}
	return by, size
}

// energy checks that what is taken is what is given, and that nothing gives but what
// power comes from: a supply takes more than it gives. Sources: Tellegen's theorem and
// the first law. A thermocouple gives what it takes as heat. A current transformer is left out:
// what its secondary takes is not counted at its primary, where it is a ten
// thousandth (choice of the model).
func energy(t *testing.T, what string, x *sim.Machine) {
	t.Helper()
	net := x.Model.Net
	by, size := taken(x)
	sum, all := 0.0, 0.0
	for thing := range by {
		sum += by[thing]
		all += size[thing]
	}
	const relative = 1e-10 // of roundings of 2^-53 in what flows round
	if !(math.Abs(sum) <= relative*all+1e-12) {
		t.Errorf("%s: %g W come from nowhere, of %g", what, -sum, all)
	}
	gives := map[string]bool{}
	for i := range net.Elements {
		if k := net.Elements[i].Kind; k != nil && (k.Source || k.Drives || k.Name == "thermocouple") {
			gives[net.Elements[i].Ref] = true
		}
	}
	for _, m := range x.Model.Panel.Mains {
		gives[m.Ref] = true
	}
	for thing, watts := range by {
		if !gives[thing] && !(watts >= -relative*size[thing]-1e-12) {
			t.Errorf("%s: %s gives %g W of its own, of %g", what, thing, -watts, size[thing])
		}
	}
}
