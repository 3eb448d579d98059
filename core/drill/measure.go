package drill

import (
	"math"
	"slices"
	"strings"

	"halfsplit/core/circuit"
	"halfsplit/core/diagnose"
	"halfsplit/core/meter"
	"halfsplit/core/parts"
)

// read is one reading with the learner's meter.
func (a *Attempt) read(e *Entry) *Refusal {
	c := a.Case
	if !slices.Contains(Whys, e.Act.Why) {
		return &Refusal{Code: "drill.why-missing", Args: []string{e.Act.Why}, Choices: Whys}
	}
	mode := meter.Mode(e.Act.Mode)
	if tools := c.tools(); !slices.Contains(tools, e.Act.Mode) {
		return &Refusal{Code: "drill.no-tool", Args: []string{e.Act.Mode, strings.Join(tools, ", ")}, Choices: tools}
	}
	if mode == meter.Clamp {
		return a.clamp(e)
	}
	red, black, refused := a.pair(e)
	if refused != nil {
		return refused
	}
	if !diagnose.Permitted(diagnose.Probe{Ref: red.Ref, Field: red.Field}, diagnose.Probe{Ref: black.Ref, Field: black.Field}) {
		return &Refusal{Code: "drill.out-of-reach", Args: []string{e.Act.Red, e.Act.Black}}
	}
	e.Seconds = c.effort.Read + a.walk(red, black)
	r, no := a.meter(mode, red.Node, black.Node)
	if no != nil {
		a.abused(e, no)
		return nil
	}
	e.Reading = &r
	a.disturbs(e, &r)
	with, held := a.with()
	value := r.Value
	if r.Overload {
		value = math.MaxFloat64
	}
	e.sights = append(e.sights, sight{mode: mode, red: red.Node, black: black.Node, value: value, with: with, held: held})
	return nil
}

// meter reads in the panel as it stands, and leaves it so.
func (a *Attempt) meter(mode meter.Mode, red, black circuit.Node) (meter.Reading, *meter.Refusal) {
	defer a.x.Revert()
	if mode != meter.MA {
		return meter.Typical.Read(a.x, mode, red, black)
	}
	if b, ok := meter.Between(a.Case.Rig.Model.Net, red, black); ok {
		return meter.Typical.Series(a.x, b, false)
	}
	return meter.Reading{}, meter.Typical.Across(a.x, red, black)
}

// abused is what comes of holding a meter where it must not be held. Whether one
// survives resistance on a live circuit is luck; here it costs its fuse: choice.
func (a *Attempt) abused(e *Entry, no *meter.Refusal) {
	live := no.Code == "refused.live"
	switch {
	case live:
		e.tell("drill.meter-abused", no.Args...)
		e.Gates = append(e.Gates, OhmsOnLive)
	case no.Blows > 0:
		e.tell("drill.meter-blown", meter.Typical.Amps(no.Blows), meter.Typical.Amps(meter.Typical.Fuse))
		e.Gates = append(e.Gates, AmpsAcross)
	case no.Code == "refused.powered":
		e.tell("drill.figure-worthless")
	default:
		e.tell(no.Code, no.Args...)
	}
	if live || no.Blows > 0 {
		e.Seconds += a.Case.effort.Meter
	}
}

func (a *Attempt) disturbs(e *Entry, r *meter.Reading) {
	for _, d := range r.Disturbs {
		e.tell("meter.disturbs", a.Case.Rig.Model.Net.Devices[d.Device].Ref, "@state."+d.Was.State, "@state."+d.Now.State)
	}
}

// tools lists the meter modes allowed in this drill.
func (c *Case) tools() []string {
	if len(c.Drill.Tools) > 0 {
		return c.Drill.Tools
	}
	return modeNames()
}

// pair is where the two probes of an act touch, on two pieces of metal.
func (a *Attempt) pair(e *Entry) (red, black parts.Point, refused *Refusal) {
	if red, refused = a.probe(e.Act.Red); refused != nil {
		return
	}
	if black, refused = a.probe(e.Act.Black); refused != nil {
		return
	}
	if red.Node == black.Node {
		refused = &Refusal{Code: "drill.same-metal", Args: []string{e.Act.Red, e.Act.Black}}
	}
	return
}

// probe finds the metal a probe is held to: a strand only where it hangs free.
func (a *Attempt) probe(name string) (parts.Point, *Refusal) {
	c := a.Case
	p, ok := c.Rig.Model.Net.FindPoint(c.name(name))
	if !ok {
		if both := c.metals(name); len(both) == 1 { // one piece of metal by a shorter name
			for _, q := range c.Rig.Model.Net.Points {
				if q.Node == both[0] && !q.Hidden {
					return q, nil
				}
			}
		}
		return p, &Refusal{Code: "drill.unknown-point", Args: []string{name}, Choices: c.points(name)}
	}
	if p.Hidden && !a.free(p.Name) {
		return p, &Refusal{Code: "drill.strand-landed", Args: []string{name}}
	}
	return p, nil
}

// points lists the points whose names begin as a person wrote it.
func (c *Case) points(name string) (list []string) {
	for _, p := range c.Rig.Model.Net.Points {
		if !p.Hidden && strings.HasPrefix(p.Name, c.name(name)) && len(list) < 8 {
			list = append(list, p.Name)
		}
	}
	return list
}

// free says whether a wire end hangs free: lifted, or found so.
func (a *Attempt) free(end string) bool {
	if slices.Contains(a.lifted, end) {
		return true
	}
	for _, f := range a.present {
		if f.Thing == end && f.Visible {
			return true
		}
	}
	return false
}

// walk is the time on top of a reading: to the field and back, gloves for mains.
func (a *Attempt) walk(points ...parts.Point) int {
	c := a.Case
	to, mains := "", 0
	for _, p := range points {
		if p.Field {
			to = p.Ref
		}
		ac := c.base.VAC(p.Node)
		if math.Abs(real(ac))+math.Abs(imag(ac)) > dangerousAC {
			mains = c.effort.Mains
		}
	}
	return a.stand(to) + mains
}

// walkTo is the time to get to a thing.
func (a *Attempt) walkTo(thing string) int {
	if !a.Case.inField(thing) {
		return a.stand("")
	}
	return a.stand(partOf(atOf(a.Case.name(thing))))
}

// stand is what it takes to stand at a field device, or at the panel where to is
// empty; the way back is in the way out.
func (a *Attempt) stand(to string) int {
	if to == a.where {
		return 0
	}
	a.where = to
	if to == "" {
		return 0
	}
	return a.Case.effort.Walk
}

// atOf is where a wire end is; anything else is itself.
func atOf(thing string) string {
	if _, at, ok := strings.Cut(thing, "@"); ok {
		return at
	}
	return thing
}

// clamp reads the current of a wire without opening it.
func (a *Attempt) clamp(e *Entry) *Refusal {
	net := a.Case.Rig.Model.Net
	for k := range net.Branches {
		if b := &net.Branches[k]; b.Role == parts.RoleWire && b.Thing == a.Case.name(e.Act.Red) {
			r := meter.Typical.Current(a.x, k)
			e.Reading, e.Seconds = &r, a.Case.effort.Read
			return nil
		}
	}
	return &Refusal{Code: "drill.clamp-needs-wire", Args: []string{e.Act.Red}}
}

// Voltages to earth from which a part is dangerous to touch. Source: IEC 61140 /
// IEC 60364-4-41, 50 V AC and 120 V ripple-free DC.
const (
	dangerousAC = 50
	dangerousDC = 120
)
