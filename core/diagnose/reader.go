package diagnose

import (
	"math"

	"halfsplit/core/circuit"
	"halfsplit/core/meter"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

// A sight is what the probes meet in one state of the panel, all at once.
type sight struct {
	volts  []float64      // by probe
	ac     []complex128   // by probe
	island []circuit.Node // by probe: what it is joined to well enough to hold a meter
}

// A reader takes steps on one settled machine.
type reader struct {
	e     *Engine
	x     *sim.Machine
	knees bool // readings between islands cannot be told without the meter
	stiff []circuit.Node
	z     map[apart]complex128
	sight
}

// reader meets all that probes can meet.
func (e *Engine) reader(x *sim.Machine) *reader {
	r := e.blank(x)
	for i := range e.Probes {
		r.meet(i)
	}
	return r
}

// readerOf meets only what some steps ask for.
func (e *Engine) readerOf(x *sim.Machine, steps ...int) *reader {
	r := e.blank(x)
	for _, c := range steps {
		if k := &e.Candidates[c]; k.Look == NoLook && k.Red >= 0 {
			r.meet(k.Red)
			r.meet(k.Black)
		}
	}
	return r
}

func (e *Engine) blank(x *sim.Machine) *reader {
	n := len(e.Probes)
	return &reader{e: e, x: x, knees: x.Knees(), stiff: x.Islands(sim.Stiff), z: map[apart]complex128{},
		sight: sight{make([]float64, n), make([]complex128, n), make([]circuit.Node, n)}}
}

func (r *reader) meet(probe int) {
	n := r.e.Probes[probe].Node
	r.volts[probe], r.ac[probe], r.island[probe] = r.x.V(n), r.x.VAC(n), r.stiff[n]
}

// differs says whether a probe meets something else than in another sight.
func (s *sight) differs(o *sight, probe int) bool {
	return math.Abs(s.volts[probe]-o.volts[probe]) > movedVolts || s.island[probe] != o.island[probe] ||
		magnitude(s.ac[probe]-o.ac[probe]) > movedVolts
}

// movedVolts is the change of a probe's voltage below which no reading at it is
// taken anew: two probes together stay below a tenth of any reading's spread.
const movedVolts = 1e-3

// take is the outcome of a candidate on this machine.
func (r *reader) take(c *Candidate) outcome {
	switch c.Look {
	case AtDevice:
		return outcome{value: r.e.stateCode(r.x.Status(c.Thing))}
	case AtLight:
		return outcome{value: r.e.stateCode(r.x.Light(c.Thing))}
	}
	if c.Mode == meter.Ohms {
		return r.ohms(c)
	}
	return r.voltage(c)
}

// voltage is what the meter shows: the open-circuit voltage, held down by the
// meter's own resistance where the two probes are not stiffly joined.
func (r *reader) voltage(c *Candidate) outcome {
	dc := r.volts[c.Red] - r.volts[c.Black]
	ac := r.ac[c.Red] - r.ac[c.Black]
	input := r.e.Meter.Input
	if r.island[c.Red] == r.island[c.Black] {
		if c.Mode == meter.VAC {
			return outcome{value: magnitude(ac)}
		}
		return outcome{value: dc}
	}
	if c.Mode == meter.VAC {
		if r.x.AC() == nil {
			return outcome{}
		}
		z := r.between(r.island[c.Red], r.island[c.Black], true)
		return outcome{magnitude(ac) * input / magnitude(complex(input, 0)+z), magnitude(z) > ghostOhms}
	}
	z := real(r.between(r.island[c.Red], r.island[c.Black], false))
	return outcome{dc * input / (input + z), z > ghostOhms}
}

// between is the impedance between two islands, from where each is named after:
// within one it is so small that no reading tells.
func (r *reader) between(a, b circuit.Node, ac bool) complex128 {
	key := apart{min(a, b), max(a, b), ac}
	z, ok := r.z[key]
	if !ok {
		if ac {
			z = r.x.AC().Z(key.a, key.b)
		} else {
			z = complex(r.x.DC().Z(key.a, key.b), 0)
		}
		r.z[key] = z
	}
	return z
}

type apart struct {
	a, b circuit.Node
	ac   bool
}

// ghostOhms is the source resistance above which a voltage reading depends on
// what nobody knows: insulation, humidity, the meter.
const ghostOhms = 2e6

// ohms saturates at the meter's range, so that all open circuits read alike.
func (r *reader) ohms(c *Candidate) outcome {
	z := r.x.DC().Z(r.e.Probes[c.Red].Node, r.e.Probes[c.Black].Node)
	return outcome{value: math.Min(z, mostOhms)}
}

// mostOhms is what an open circuit counts as when resistances are compared.
const mostOhms = 1e6

// stateCode numbers the states people can tell apart by looking.
func (e *Engine) stateCode(s parts.Status) float64 { return e.StateValue(s.State) }

// StateValue is the value of a look that shows this state.
func (e *Engine) StateValue(state string) float64 {
	code, ok := e.codes[state]
	if !ok {
		code = len(e.states)
		e.codes[state] = code
		e.states = append(e.states, state)
	}
	return float64(code)
}

// StateName gives back the state behind the value of a look.
func (e *Engine) StateName(value float64) string {
	if i := int(value); i >= 0 && i < len(e.states) {
		return e.states[i]
	}
	return ""
}

func magnitude(c complex128) float64 {
	return math.Sqrt(float64(real(c)*real(c)) + float64(imag(c)*imag(c)))
}
