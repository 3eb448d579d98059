package check

import (
	"halfsplit/core/circuit"
	"halfsplit/core/parts"
)

// outputs finds outputs on inputs that they can never switch on: what switches 0 V
// on an input that waits for plus, and the reverse. Source: IEC 61131-2, sinking
// and sourcing inputs; common practice.
func (g *graph) outputs() {
	type input struct {
		name  string
		wants parts.Pole
	}
	joined := g.sets(shut)
	inputs := map[circuit.Node][]input{} // by what is joined
	for i := range g.p.Parts {
		p := &g.p.Parts[i]
		if k, ok := parts.Lookup(p.Kind); ok && k.Wants != nil {
			for _, pl := range g.plain(p.Ref, k.Terminals(p)) {
				n := joined.find(pl.Node)
				inputs[n] = append(inputs[n], input{pl.Name, k.Wants(p)})
			}
		}
	}
	for i := range g.p.Parts {
		p := &g.p.Parts[i]
		k, ok := parts.Lookup(p.Kind)
		if !ok || k.Switches == parts.Any {
			continue
		}
		for _, pl := range g.plain(p.Ref, k.Terminals(p)) {
			for _, in := range inputs[joined.find(pl.Node)] {
				switch {
				case k.Switches == parts.Negative && in.wants == parts.Positive:
					g.report(item("parts", i), "output-switches-minus", pl.Name, in.name)
				case k.Switches == parts.Positive && in.wants == parts.Negative:
					g.report(item("parts", i), "output-switches-plus", pl.Name, in.name)
				}
			}
		}
	}
}

// plain lists the places of a part's terminals that belong to no pole.
func (g *graph) plain(ref string, terminals []parts.Terminal) []parts.Place {
	var list []parts.Place
	for _, t := range terminals {
		if pl, ok := g.places[ref+":"+t.Name]; ok && t.Pole == parts.Any {
			list = append(list, pl)
		}
	}
	return list
}
