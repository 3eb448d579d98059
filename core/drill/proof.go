package drill

import (
	"cmp"
	"math"
	"slices"

	"halfsplit/core/circuit"
	"halfsplit/core/meter"
	"halfsplit/core/parts"
)

// A proof is one pair measured to be dead with a proved tester. It counts once the
// tester has been proved again.
type proof struct {
	red, black circuit.Node
	counts     bool
}

// deadVolts is what a tester may show between points that are dead: choice, below
// the first lamp of a two-pole tester at 12 V and above stray fractions of a volt.
const deadVolts = 1

// proveTester holds the tester to a source known to be live, or to a proving unit.
func (a *Attempt) proveTester(e *Entry) *Refusal {
	e.Seconds = a.Case.effort.Prove
	if e.Act.Red != "" || e.Act.Black != "" {
		red, refused := a.probe(e.Act.Red)
		if refused != nil {
			return refused
		}
		black, refused := a.probe(e.Act.Black)
		if refused != nil {
			return refused
		}
		r := a.tested(e, red.Node, black.Node)
		if math.Abs(r.Value) < knownVolts {
			e.tell("drill.tester-unproved", r.Shown)
			return nil
		}
	}
	e.tell("drill.tester-proved")
	a.tester = true
	for i := range a.dead {
		a.dead[i].counts = true
	}
	return nil
}

// knownVolts is the least a known source must show: choice, half of an extra-low
// control voltage.
const knownVolts = 12

// tested reads with the two-pole tester, which shows direct or alternating voltage,
// whichever there is.
func (a *Attempt) tested(e *Entry, red, black circuit.Node) meter.Reading {
	r, _ := meter.Typical.Read(a.x, meter.Tester, red, black)
	a.x.Revert()
	e.Reading = &r
	return r
}

// proveDead measures one pair.
func (a *Attempt) proveDead(e *Entry) *Refusal {
	red, black, refused := a.pair(e)
	if refused != nil {
		return refused
	}
	e.Seconds = a.Case.effort.Prove + a.walk(red, black)
	r := a.tested(e, red.Node, black.Node)
	switch {
	case math.Abs(r.Value) > deadVolts:
		e.tell("drill.still-live", red.Name, black.Name, r.Shown)
		return nil
	case !a.tester:
		e.tell("drill.proof-worthless", red.Name, black.Name)
		return nil
	}
	e.tell("drill.shows-nothing", red.Name, black.Name)
	a.dead = append(a.dead, proof{red: red.Node, black: black.Node})
	return nil
}

// hands judges work on a thing: what is live under the hands, what was not proved
// dead, what is not locked. The work is done all the same.
func (a *Attempt) hands(e *Entry, thing string) {
	c := a.Case
	nodes := c.metals(thing)
	proved := len(nodes) > 0
	dc, ac := 0.0, 0.0
	for _, n := range nodes {
		proved = proved && a.proved(n, nodes)
		for _, other := range append([]circuit.Node{circuit.Earth}, nodes...) {
			d, alt := math.Abs(a.x.V(n)-a.x.V(other)), magnitude(a.x.VAC(n)-a.x.VAC(other))
			if max(d, alt) > deadVolts && a.feeds(n) {
				dc, ac = max(dc, d), max(ac, alt)
			}
		}
	}
	e.Seconds += c.effort.Hands
	e.Seconds += a.walkTo(thing)
	switch {
	case dc >= dangerousDC || ac >= dangerousAC:
		e.Gates = append(e.Gates, Shock)
		e.tell("drill.shock", thing, meter.Volts(max(dc, ac), meter.VAC))
	case max(dc, ac) > deadVolts:
		e.Gates = append(e.Gates, LiveWork)
		e.tell("drill.live-work", thing, meter.Volts(max(dc, ac), meter.VDC))
	case !proved:
		e.Gates = append(e.Gates, NoProof)
		e.tell("drill.no-proof", thing)
	case len(a.locked) == 0:
		e.Gates = append(e.Gates, Unlocked)
		e.tell("drill.unlocked", thing)
	}
}

// proved says whether a piece of metal was proved dead against another one that is
// not of the same thing, between two proofs of the tester.
func (a *Attempt) proved(n circuit.Node, own []circuit.Node) bool {
	for _, p := range a.dead {
		if !p.counts {
			continue
		}
		other := p.black
		if p.black == n {
			other = p.red
		} else if p.red != n {
			continue
		}
		outside := true
		for _, o := range own {
			outside = outside && o != other
		}
		if outside || len(own) == 1 {
			return true
		}
	}
	return false
}

// Pairs lists what has to be proved dead before hands go in at a thing: each piece of
// its metal against earth or, on a panel without mains, against a return.
func (c *Case) Pairs(thing string) (list [][2]string) {
	net := c.Rig.Model.Net
	nodes := c.metals(c.placeOf(thing))
	black, ok := net.FindPoint(parts.EarthPoint)
	if !ok {
		for _, place := range net.Places {
			if place.Return && !slices.Contains(nodes, place.Node) {
				black, ok = net.FindPoint(place.Name)
				break
			}
		}
	}
	for _, n := range nodes {
		if name := c.nameOf(n); ok && name != "" && n != black.Node {
			list = append(list, [2]string{name, black.Name})
		}
	}
	slices.SortStableFunc(list, func(a, b [2]string) int { return cmp.Compare(c.fieldOf(a[0]), c.fieldOf(b[0])) }) // one walk a place
	return list
}

// fieldOf is the field device a point is at, empty in the panel.
func (c *Case) fieldOf(point string) string {
	if p, ok := c.Rig.Model.Net.FindPoint(point); ok && p.Field {
		return p.Ref
	}
	return ""
}

// feeds says whether what is on a piece of metal can drive a current worth
// mentioning: a voltage that hangs on insulation cannot.
func (a *Attempt) feeds(n circuit.Node) bool {
	if n == circuit.Earth {
		return false
	}
	if a.x.DC().Z(n, circuit.Earth) < ghostOhms {
		return true
	}
	return a.x.AC() != nil && magnitude(a.x.AC().Z(n, circuit.Earth)) < ghostOhms
}

// ghostOhms is the source resistance above which a voltage is a ghost, as package
// diagnose has it: insulation, humidity, the meter itself decide it.
const ghostOhms = 2e6

func magnitude(c complex128) float64 {
	return math.Sqrt(float64(real(c)*real(c)) + float64(imag(c)*imag(c)))
}
