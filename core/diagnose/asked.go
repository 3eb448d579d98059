package diagnose

import (
	"math"

	"halfsplit/core/meter"
	"halfsplit/core/sim"
)

// Readings that a person brings and that are never proposed: those that load the
// circuit on purpose, open it, or want another instrument. Each is solved with the
// meter in the network under every hypothesis it has to be weighed under. Signs are
// left out, since an alternating current has none, but for the diode test.
//
// floor, share and span are choices: what such instruments are good for, a few per
// cent and the play of a clamp's zero, and the range a wrong entry is spread over.
var asked = map[meter.Mode]struct{ floor, share, span float64 }{
	meter.LowZ:   {0.3, 0.05, acRange},
	meter.Tester: {0.3, 0.05, acRange},
	meter.MA:     {0.1, 0.05, 500}, // mA
	meter.Clamp:  {5e-3, 0.05, 20}, // A
	meter.Diode:  {0.05, 0.05, 3},  // V
	meter.Beep:   {0, 0, mostOhms}, // weighed as beep or silence
}

// unsigned are the modes whose readings are compared without their sign.
var unsigned = map[meter.Mode]bool{meter.VAC: true, meter.LowZ: true, meter.Tester: true, meter.MA: true, meter.Clamp: true}

// CurrentCandidate finds or adds a reading of current: by clamp, where thing is the
// branch of a wire, or in series, where it is an index into meter.Breaks.
func (e *Engine) CurrentCandidate(situation int, mode meter.Mode, thing int) int {
	if e.breaks == nil {
		e.breaks = meter.Breaks(e.Base.Model.Net)
	}
	noProbe := -1 - thing
	k := Candidate{Situation: situation, Mode: mode, Red: noProbe, Black: noProbe, Thing: thing, Minutes: minutesPanel}
	if i, ok := e.pairs[pairOf(&k)]; ok {
		return int(i)
	}
	i := e.add(k)
	e.pairs[pairOf(&k)] = i
	e.expect[i] = e.ask(0, int(i))
	return int(i)
}

// askInstrument solves such a reading under one hypothesis. A meter at a lifted
// wire has been put in with the power off.
func (e *Engine) askInstrument(i int32, k *Candidate) outcome {
	if k.Mode == meter.MA && e.breaks[k.Thing].Wire && !e.breaks[k.Thing].Earth {
		return e.askInserted(i, k, e.breaks[k.Thing])
	}
	x := e.enter(i)
	defer e.leave()
	e.hold(x, k.Situation)
	var r meter.Reading
	var refused *meter.Refusal
	switch k.Mode {
	case meter.Clamp:
		r = e.Meter.Current(x, k.Thing)
	case meter.MA:
		r, refused = e.Meter.Series(x, e.breaks[k.Thing], false)
	default:
		r, refused = e.Meter.Read(x, k.Mode, e.Probes[k.Red].Node, e.Probes[k.Black].Node)
	}
	return e.instrumentShows(k, r, refused)
}

func (e *Engine) askInserted(i int32, k *Candidate, b meter.Break) outcome {
	in := e.Meter.Inserted(b)
	running := e.onsetOf(i) == sim.Running
	if !running {
		in = append(in, e.changesOf(i)...)
	}
	e.Pace.Spend(1 + e.large(replayEffort))
	x := e.Base.Enter(in, sim.Start)
	defer e.Base.Leave()
	if running {
		x.Apply(e.changesOf(i))
		x.Settle()
	}
	e.hold(x, k.Situation)
	r, refused := e.Meter.Series(x, b, true)
	return e.instrumentShows(k, r, refused)
}

// instrumentShows is the outcome of a reading. A current that would blow the
// meter's fuse counts as what it is.
func (e *Engine) instrumentShows(k *Candidate, r meter.Reading, refused *meter.Refusal) outcome {
	v := r.Value
	switch {
	case refused != nil:
		v = refused.Blows * 1e3
	case k.Mode == meter.Diode && r.Overload:
		v = e.Meter.DiodeVolts
	case k.Mode == meter.Beep:
		v = min(v, mostOhms)
	case k.Mode != meter.Diode:
		v = math.Abs(v)
	}
	return outcome{value: v}
}

// Resistances between which one beeper sounds and another does not: choice about
// the 35 to 70 Ω of four manuals.
const (
	surelyBeeps  = 25.0
	surelySilent = 100.0
)

// beeped weighs a beep (value 1) or silence (0) against a predicted resistance.
func beeped(p outcome, value float64) fit {
	switch {
	case p.value > surelyBeeps && p.value < surelySilent:
		return fit{0.5, 0, p}
	case (p.value <= surelyBeeps) == (value != 0):
		return fit{1 - seenWrong, 0, p}
	}
	return fit{seenWrong, far, p}
}
