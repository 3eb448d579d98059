package netlist

import (
	"fmt"
	"strings"

	"halfsplit/core/unit"
)

// A fault is THING=MODE or THING=MODE:VALUE.
func cut(fault string) (thing, mode, value string) {
	thing, rest, _ := strings.Cut(fault, "=")
	mode, value, _ = strings.Cut(rest, ":")
	return thing, mode, value
}

// before reads what a fault says of states, which decides what is written.
func (w *writer) before(fault string) error {
	thing, mode, _ := cut(fault)
	s := w.frozen[thing]
	s.Held = true
	switch mode {
	case "fail-low":
		w.signal[thing] = failLow
	case "fail-high":
		w.signal[thing] = failHigh
	case "blown", "fuse-blown": // the link has a state of its own
		w.states[thing+" link"] = State{Mode: "opened", Held: true}
	case "tripped":
		s.Mode = "opened"
		w.states[thing] = s
	case "lever-open", "blade-open", "link-closed":
		w.states[thing] = State{Input: 1}
	case "stuck-on", "stuck-off":
		w.stuck[thing] = mode
		s.Input = 0
		if mode == "stuck-on" {
			s.Input = 1
		}
		w.states[thing] = s
	case "one-welded", "channel-1-stuck", "channel-2-stuck":
		w.stuck[thing] = mode
	case "dead":
		w.states[thing] = State{Mode: cold[w.kindOf(thing)], Input: s.Input, Held: true}
	case "stuck", "coil-shorted":
		w.states[thing] = State{Mode: "released", Held: true}
	case "no-output":
		if w.kindOf(thing) == "dc-supply" {
			w.states[thing] = State{Mode: "stopped", Held: true}
		}
	}
	return nil
}

// ohmsOf is the resistance that a part states.
func (w *writer) ohmsOf(ref string, otherwise float64) float64 {
	for i := range w.panel.Parts {
		if w.panel.Parts[i].Ref == ref {
			return quantity(w.panel.Parts[i].Ratings, "resistance", unit.Resistance, otherwise)
		}
	}
	return otherwise
}

func (w *writer) kindOf(ref string) string {
	for i := range w.panel.Parts {
		if w.panel.Parts[i].Ref == ref {
			return w.panel.Parts[i].Kind
		}
	}
	return ""
}

// guided opens the contacts of the other kind of a relay with forcibly guided
// contacts, IEC 61810-3.
func (w *writer) guided(contact string) error {
	ref, _, _ := strings.Cut(contact, ":")
	for i := range w.panel.Parts {
		p := &w.panel.Parts[i]
		if p.Ref != ref || p.Ratings["guided"] != "yes" {
			continue
		}
		for _, c := range contactsOf(p, "11-12-14") {
			marks := strings.Split(c, "-")
			for _, other := range marks[1:] {
				if strings.HasSuffix(other, "2") != strings.HasSuffix(contact, "2") {
					if err := w.change(ref+":"+marks[0]+"-"+other, Two{}); err != nil {
						return err
					}
				}
			}
		}
	}
	return nil
}

// opened is the line that each mode takes away, %s being the thing.
var opened = map[string]string{
	"broken": "%s", "lifted": "%s", "on-insulation": "%s", "no-jumper": "%s", "stuck-open": "%s", "open": "%s",
	"input-open": "%s", "winding-open": "%s", "foot-open": "%s foot", "coil-open": "%s coil", "no-supply": "%s line",
}

// replaced is the line that each mode turns into a plain resistance.
var replaced = map[string]struct {
	line string
	ohms float64
}{
	"coil-shorted": {"%s coil", burntCoil}, "welded": {"%s", contactOhm},
}

// cold is what a dead part is left in, by its kind.
var cold = map[string]string{"proximity-pnp": "unfed", "proximity-npn": "unfed", "insulation-monitor": "unfed", "namur-amplifier": "unfed", "safety-relay": "released"}

// states are the modes that before has dealt with, and those that no voltage
// shows.
var states = map[string]bool{
	"fail-low": true, "fail-high": true, "blown": true, "fuse-blown": true, "tripped": true, "lever-open": true,
	"blade-open": true, "link-closed": true, "stuck-on": true, "stuck-off": true, "stuck": true, "input-dead": true, "dead": true,
	"one-welded": true, "channel-1-stuck": true, "channel-2-stuck": true,
}

// after alters the lines as a fault says.
func (w *writer) after(fault string) error {
	thing, mode, value := cut(fault)
	if mode == "winding-open" && w.kindOf(thing) == "current-transformer" { // its core too
		if err := w.change(thing+" core", Two{}); err != nil {
			return err
		}
	}
	if id, ok := opened[mode]; ok {
		return w.change(fmt.Sprintf(id, thing), Two{})
	}
	if r, ok := replaced[mode]; ok {
		if mode == "welded" {
			if err := w.guided(thing); err != nil {
				return err
			}
		}
		return w.change(fmt.Sprintf(r.line, thing), ohms(r.ohms))
	}
	a, b, _ := strings.Cut(thing, "~")
	switch mode {
	case "shorted":
		r := burntDiode
		if w.kindOf(thing) == "snubber" { // its capacitor; the resistor is left
			r = w.ohmsOf(thing, 100)
		}
		return w.change(thing, ohms(r))
	case "loose":
		r, err := unit.Parse(value, unit.Resistance)
		if err != nil {
			return err
		}
		return w.change(thing, ohms(r))
	case "moved":
		if err := w.change(thing, Two{}); err != nil {
			return err
		}
		return w.join(fault, thing, w.places[value].metal, clampOhms)
	case "swapped":
		return w.exchange(fault, a, b)
	case "reversed":
		a, b, err := w.polarised(thing)
		if err != nil {
			return err
		}
		return w.exchange(fault, a, b)
	case "short":
		return w.short(fault, a, b, value)
	case "frame-fault":
		return w.join(fault, thing+":L", thing+":PE", frameShort)
	case "no-output":
		switch w.kindOf(thing) {
		case "dc-supply":
			return nil
		case "transmitter-4wire", "transmitter-3wire":
			return w.change(thing+" signal", Two{})
		}
		return w.change(thing+" output", Two{})
	}
	if states[mode] {
		return nil
	}
	return fmt.Errorf("netlist: no fault %q", fault)
}

func (w *writer) change(id string, t Two) error {
	k, ok := w.byID[id]
	if !ok {
		return fmt.Errorf("netlist: no line %q", id)
	}
	w.Lines[k].DC, w.Lines[k].AC = t, t
	return nil
}

func (w *writer) join(id, a, b string, r float64) error {
	if _, ok := w.index[a]; !ok {
		return fmt.Errorf("netlist: %s: no metal %q", id, a)
	}
	if _, ok := w.index[b]; !ok {
		return fmt.Errorf("netlist: %s: no metal %q", id, b)
	}
	w.resistor(id+" "+a, a, b, r)
	return nil
}

// exchange lands two strands each on the other's metal.
func (w *writer) exchange(fault, a, b string) error {
	_, placeA, _ := strings.Cut(a, "@")
	_, placeB, _ := strings.Cut(b, "@")
	for _, strand := range []string{a, b} {
		if err := w.change(strand, Two{}); err != nil {
			return err
		}
	}
	if err := w.join(fault, a, w.places[placeB].metal, clampOhms); err != nil {
		return err
	}
	return w.join(fault, b, w.places[placeA].metal, clampOhms)
}

// polarised finds the strands on plus and minus of a part; of two such pairs the
// one it is fed by.
func (w *writer) polarised(ref string) (plus, minus string, err error) {
	pairs := map[string][2]string{"relay": {"A1", "A2"}, "solenoid": {"1", "2"}, "diode": {"A", "K"}, "boundary": {"1", "2"},
		"proximity-pnp": {"1", "3"}, "proximity-npn": {"1", "3"}, "proximity-2wire": {"1", "4"},
		"namur-amplifier": {"L+", "M"}, "safety-relay": {"A1", "A2"},
		"transmitter-4wire": {"L+", "M"}, "rtd-input": {"L+", "M"}, "analogue-input": {"L+", "M"}, "thermocouple-input": {"L+", "M"}, "digital-output": {"L+", "M"}}
	pair, ok := pairs[w.kindOf(ref)]
	if !ok {
		pair = [2]string{"+", "-"}
	}
	for i := range w.panel.Wires {
		wire := &w.panel.Wires[i]
		for _, end := range []string{w.landing(wire.From, wire.To), w.landing(wire.To, wire.From)} {
			switch end {
			case ref + ":" + pair[0]:
				plus = wire.No + "@" + end
			case ref + ":" + pair[1]:
				minus = wire.No + "@" + end
			}
		}
	}
	if plus == "" || minus == "" {
		return "", "", fmt.Errorf("netlist: %s has no wires on %v", ref, pair)
	}
	return plus, minus, nil
}

// short joins two cores at their far ends, a core and earth, or two terminals.
func (w *writer) short(fault, a, b, value string) error {
	far := func(no string) string {
		for i := range w.panel.Wires {
			if wire := &w.panel.Wires[i]; wire.No == no {
				return no + "@" + w.landing(wire.To, wire.From)
			}
		}
		return ""
	}
	if p, q := w.places[a], w.places[b]; p != (place{}) && q != (place{}) {
		return w.join(fault, p.metal, q.metal, strandShort)
	}
	if b != panelEarth {
		return w.join(fault, far(a), far(b), strandShort)
	}
	r := earthShort
	if value != "" {
		var err error
		if r, err = unit.Parse(value, unit.Resistance); err != nil {
			return err
		}
	}
	return w.join(fault, far(a), "earth", r)
}

const panelEarth = "PE"
