package netlist

import (
	"fmt"
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// A State is where a part with states was found: by the name of what has them
// ("K1", "A1:3", "X3:7.2", "X3:7.2 link").
type State struct {
	Mode  string  // "operated", "limiting", "conducting"; empty where it has none
	Input float64 // position, or process value from 0 to 1
	Draw  float64 // what a supply's power comes to at its input, siemens
	Held  bool    // by a fault: whether it wants to stay is no matter
}

// Frozen is the states of all parts that have them.
type Frozen map[string]State

// Write writes the circuit of p with its parts in the states given, and with the
// faults named. It fails on a kind or a fault it does not know: silence would
// leave something uncompared.
func Write(p *panel.Panel, frozen Frozen, faults ...string) (*Circuit, error) {
	w := &writer{
		Circuit: &Circuit{index: map[string]int{}, byID: map[string]int{}},
		panel:   p, frozen: frozen,
		states: map[string]State{}, signal: map[string]float64{}, stuck: map[string]string{}, places: map[string]place{},
	}
	w.node("earth")
	for _, f := range faults {
		if err := w.before(f); err != nil {
			return nil, err
		}
	}
	for i := range p.Mains {
		w.mains(&p.Mains[i])
	}
	for i := range p.Parts { // without mains, the frequency is that of a feed
		if hz, err := unit.Parse(p.Parts[i].Ratings["frequency"], unit.Frequency); err == nil && w.Frequency == 0 && p.Parts[i].Kind == "boundary" {
			w.Frequency = hz
		}
	}
	for i := range p.Strips {
		if err := w.strip(&p.Strips[i]); err != nil {
			return nil, err
		}
	}
	for i := range p.Parts {
		if err := w.part(&p.Parts[i]); err != nil {
			return nil, err
		}
	}
	for i := range p.Wires {
		if err := w.wire(&p.Wires[i]); err != nil {
			return nil, err
		}
	}
	for _, f := range faults {
		if err := w.after(f); err != nil {
			return nil, err
		}
	}
	for i := range w.Lines { // an edit may have left a line that leads nowhere
		if w.Lines[i].A == w.Lines[i].B {
			return nil, fmt.Errorf("netlist: %s begins and ends on %s", w.Lines[i].ID, w.Names[w.Lines[i].A])
		}
	}
	return w.Circuit, nil
}

type writer struct {
	*Circuit
	panel  *panel.Panel
	frozen Frozen
	states map[string]State   // what a fault says of a state, over frozen
	signal map[string]float64 // amperes that a failed instrument signals
	stuck  map[string]string  // "stuck-on", "stuck-off" of a sensor, whatever its function
	places map[string]place   // where a wire can land
	rail   string             // of the strip being written
}

// A place is a clamp: which metal it is, and where it stands.
type place struct {
	metal string
	field bool
	whole bool // of a block whose sides are one metal
}

func (w *writer) state(ref string) State {
	if s, ok := w.states[ref]; ok {
		return s
	}
	return w.frozen[ref]
}

// quantity reads a rating, or what stands in for it.
func quantity(ratings map[string]string, name string, d unit.Dimension, otherwise float64) float64 {
	if v, err := unit.Parse(ratings[name], d); err == nil && v > 0 {
		return v
	}
	return otherwise
}

func (w *writer) mains(m *panel.Mains) {
	ratings := map[string]string{"voltage": m.Voltage, "impedance": m.Impedance, "frequency": m.Frequency}
	volts, half := quantity(ratings, "voltage", unit.Voltage, 230), quantity(ratings, "impedance", unit.Resistance, 0.4)/2
	w.Frequency = quantity(ratings, "frequency", unit.Frequency, 50)
	star := m.Ref + " star point"
	earth := earthing[m.Earthing]
	w.resistor(m.Ref+" star", star, "earth", earth[0])
	w.resistor(m.Ref+" protective", m.Ref+":PE", "earth", earth[1])
	line, neutral := Two{Ohms: half}, Two{Ohms: half}
	live := Two{Ohms: half, Volts: volts}
	if w.state(m.Ref).Input != 0 { // switched off, both poles
		line, neutral, live = Two{}, Two{}, Two{}
	}
	w.line(m.Ref+" line", star, m.Ref+":L", line, live)
	w.line(m.Ref+" neutral", star, m.Ref+":N", neutral, neutral)
	for _, t := range []string{"L", "N", "PE"} {
		w.places[m.Ref+":"+t] = place{metal: m.Ref + ":" + t}
	}
}

func (w *writer) strip(s *panel.Strip) error {
	w.rail = ""
	for i := range s.Blocks {
		b := &s.Blocks[i]
		metals, ok := blockMetals[b.Type]
		if !ok {
			return fmt.Errorf("netlist: no block of type %q", b.Type)
		}
		ref := s.Ref + ":" + b.No
		for _, m := range metals {
			level, side, _ := strings.Cut(m, "/")
			name := ref + level
			if side != "" {
				w.places[name+"/"+side] = place{metal: name + "/" + side}
				w.node(name + "/" + side)
				continue
			}
			w.node(name)
			w.places[name+"/in"] = place{metal: name, whole: true}
			w.places[name+"/out"] = place{metal: name, whole: true}
		}
		switch b.Type {
		case "ground":
			w.resistor(ref+" foot", ref, s.Ref+":rail", footOhms)
		case "disconnect-block":
			w.joint(ref, ref, ref+"/in", ref+"/out", bladeOhms)
		case "fuse-block":
			w.fused(b, ref, ref)
		case "double-level-fused":
			w.fused(b, ref, ref+".2")
		case "triple-level-ground":
			w.resistor(ref+" foot", ref+".1", s.Ref+":rail", footOhms)
		case "diode-block":
			w.junction(ref, ref+"/in", ref+"/out", 0.7, diodeSlope)
		case "led-block": // 5 mA at 24 V, through 2 V of the diode
			w.junction(ref, ref+".2", ref+".1", 2, (24-2)/5e-3)
		case "current-transformer-block": // closed by hand
			t := Two{}
			if w.state(ref).Input != 0 {
				t = ohms(bladeOhms)
			}
			w.line(ref, ref+".2", ref+".1", t, t)
		}
	}
	for i := range s.Jumpers {
		w.bar(s, &s.Jumpers[i])
	}
	return nil
}

// blockMetals are the pieces of metal of each block, by level and side: a block
// cut by a lever or blade has two on that level.
var blockMetals = map[string][]string{
	"feed-through":       {""},
	"ground":             {""},
	"fuse-block":         {"/in", "/out"},
	"disconnect-block":   {"/in", "/out"},
	"double-level":       {".1", ".2"},
	"double-level-fused": {".1", ".2/in", ".2/out"},

	"triple-level":        {".1", ".2", ".3"},
	"triple-level-ground": {".1", ".2", ".3"},
	"diode-block":         {"/in", "/out"},
	"led-block":           {".1", ".2"},

	"current-transformer-block": {".1", ".2"},
}

// joint is a lever or blade: closed at rest.
func (w *writer) joint(id, ref, from, to string, r float64) {
	t := Two{Ohms: r}
	if w.state(ref).Input != 0 {
		t = Two{}
	}
	w.line(id, from, to, t, t)
}

// fused is a lever that carries a link; the indicator lies across the link.
func (w *writer) fused(b *panel.Block, ref, level string) {
	link := ref + " link"
	w.joint(level+" lever", level, level+"/in", link, leverOhms)
	w.link(level, level+" link", link, level+"/out", b.Fuse)
	if volts, err := unit.Parse(b.Indicator, unit.Voltage); err == nil && volts > 0 {
		w.resistor(level+" indicator", link, level+"/out", volts/lampAmps)
	}
}

// link is a fuse link: whole until it has opened.
func (w *writer) link(id, ref, from, to, rating string) {
	f, err := unit.ParseFuse(rating)
	if err != nil {
		f = unit.Fuse{Rated: 2, Class: "T"}
	}
	t := Two{Ohms: linkOhms(f.Rated)}
	s := w.state(ref)
	if s.Mode == "opened" {
		t = Two{}
	}
	k := w.line(id, from, to, t, t)
	if s.Mode != "opened" {
		w.carries(ref+" holds", k, f.Rated*holds(f.Class))
	}
}

// bar is a jumper bar: a finger between each two of its blocks.
func (w *writer) bar(s *panel.Strip, j *panel.Jumper) {
	level := ""
	if j.Level > 0 {
		level = fmt.Sprint(".", j.Level)
	}
	metal := func(no string) string {
		for _, level := range []string{level, ""} { // a block of one level has no other
			for _, side := range []string{"/in", "/out"} {
				if p, ok := w.places[s.Ref+":"+no+level+side]; ok && (j.Side == "" || p.whole || side == "/"+j.Side) {
					return p.metal
				}
			}
		}
		return ""
	}
	for i := 1; i < len(j.Blocks); i++ {
		a, b := j.Blocks[i-1], j.Blocks[i]
		from, to := metal(a), metal(b)
		if from != "" && to != "" {
			w.resistor(s.Ref+":"+a+level+"~"+s.Ref+":"+b+level, from, to, fingerOhms)
		}
	}
}

func (w *writer) wire(wire *panel.Wire) error {
	from, to := w.landing(wire.From, wire.To), w.landing(wire.To, wire.From)
	a, z := w.places[from], w.places[to]
	if a.metal == "" || z.metal == "" {
		return fmt.Errorf("netlist: wire %s from %q to %q lands nowhere", wire.No, wire.From, wire.To)
	}
	mm2 := 1.0
	if v, err := unit.Parse(wire.Size, unit.Area); err == nil && v > 0 {
		mm2 = v
	}
	metres := plainLength
	if a.field || z.field {
		metres = fieldLength
	}
	if v, err := unit.Parse(wire.Length, unit.Length); err == nil && v > 0 {
		metres = v
	}
	one, other := wire.No+"@"+from, wire.No+"@"+to
	w.resistor(wire.No, one, other, max(copperPerKM(mm2)*metres/1000, wireLeast))
	w.resistor(one, one, a.metal, clampOhms)
	w.resistor(other, other, z.metal, clampOhms)
	for _, strand := range []string{one, other} {
		w.Leaks[w.node(strand)] += wireLeak * metres / 1000 / 2
	}
	return nil
}

// landing spells out where a wire end lands. On a block of one metal the side may
// be unsaid: out towards the field, else in.
func (w *writer) landing(at, far string) string {
	name := plainName(at)
	if _, ok := w.places[name]; ok || strings.Contains(name, "/") {
		return name
	}
	if p, ok := w.places[name+"/in"]; !ok || !p.whole {
		return name
	}
	if w.places[plainName(far)].field {
		return name + "/out"
	}
	return name + "/in"
}

func plainName(at string) string {
	p, ok := panel.ParsePoint(at)
	if !ok {
		return at
	}
	return p.String()
}
