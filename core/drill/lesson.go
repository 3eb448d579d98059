package drill

import (
	"math"
	"strconv"
	"strings"

	"halfsplit/core/circuit"
	"halfsplit/core/diagnose"
	"halfsplit/core/meter"
)

// mostLessons is how many are told: more than two are not remembered (common
// practice of trainers).
const mostLessons = 2

// lessons chooses what this attempt teaches, what matters most first.
func (a *Attempt) lessons(e *diagnose.Engine, t *trail, s *Score) (list []Fact) {
	teach := func(when bool, code string, args ...string) {
		if when && len(list) < mostLessons {
			list = append(list, Fact{code, args})
		}
	}
	seen := map[Gate]bool{}
	for _, f := range a.Fired {
		teach(!seen[f.Gate], "lesson.gate", "@gate."+string(f.Gate))
		seen[f.Gate] = true
	}
	n := a.tally(t)
	called, wrong := len(a.Calls) > 0, s.Result == NotFound || s.Result == Partly
	if called && wrong {
		known := t.known[a.Calls[0].Act]
		answer := e.Find(known)
		alive, places := living(e, &answer, nil)
		teach(alive > 1, "lesson.called-early", strconv.Itoa(alive), strings.Join(places, ", "))
	}
	red, black, shown := a.ghost(e)
	teach(red != "" && wrong, "lesson.ghost", red, black, shown)
	red, own := a.reference()
	teach(red != "", "lesson.reference", red, own)
	teach(len(a.Good) > 0, "lesson.parts", bare(strings.Join(a.Good, ", ")))
	teach(s.Result == Guessed, "lesson.proof")
	teach(n.repeats > 0, "lesson.repeat", strconv.Itoa(n.repeats))
	teach(n.look != "", "lesson.look-first", n.look)
	teach(n.useless > 1, "lesson.useless", strconv.Itoa(n.useless))
	teach(n.redundant > 1, "lesson.redundant", strconv.Itoa(n.redundant))
	teach(n.little > 1, "lesson.split", strconv.Itoa(n.little))
	teach(n.guesses > 1, "lesson.guess", strconv.Itoa(n.guesses))
	teach(red == "" && shown != "", "lesson.ghost-seen", shown)
	teach(!n.asked && a.Case.answers(), "lesson.ask")
	teach(called && !wrong && !a.checked, "lesson.function")
	teach(!called, "lesson.call")
	teach(len(list) == 0, "lesson.clean")
	return list
}

// counts of what the debrief speaks about.
type counts struct {
	repeats, useless, redundant, little, guesses int
	look                                         string // what a look would have told, where the first step was a reading
	asked                                        bool
}

func (a *Attempt) tally(t *trail) (n counts) {
	for i := range t.steps {
		s := &t.steps[i]
		act := &a.Log[s.Entry].Act
		switch s.Verdict {
		case Repeated:
			n.repeats++
		case CannotHelp:
			n.useless++
		case Redundant:
			n.redundant++
		case Little:
			n.little++
		}
		if i == 0 && act.Kind == DoRead && s.Best != nil && (s.Best.Look == diagnose.AtDevice || s.Best.Look == diagnose.AtLight) {
			n.look = a.Case.lookedAt(s.Best)
		}
	}
	for i := range a.Log {
		n.asked = n.asked || a.Log[i].Act.Kind == DoAsk
		if a.Log[i].Act.Why == "guess" {
			n.guesses++
		}
	}
	return n
}

func (c *Case) lookedAt(s *diagnose.Step) string {
	if s.Look == diagnose.AtLight {
		return c.Rig.Model.Net.Lights[s.Thing].Ref
	}
	return c.call(s.Thing)
}

func (c *Case) answers() bool {
	for _, s := range c.Answers {
		if s != "" {
			return true
		}
	}
	return false
}

// ghost finds a reading of the learner's that hung on insulation.
func (a *Attempt) ghost(e *diagnose.Engine) (red, black, shown string) {
	x := e.Base.Enter(changes(a.Case.Faults), a.Case.onset)
	defer e.Base.Leave()
	for i := range a.Log {
		act, r := &a.Log[i].Act, a.Log[i].Reading
		if r == nil || act.Kind != DoRead || len(a.Log[i].sights) == 0 || a.Log[i].epoch > 0 || math.Abs(r.Value) < 1 {
			continue
		}
		g := &a.Log[i].sights[0]
		if g.mode == meter.VDC && g.with == "" && x.DC().Z(g.red, g.black) > ghostOhms {
			return act.Red, act.Black, r.Shown
		}
	}
	return "", "", ""
}

// reference finds a reading to earth that looked as on a sound panel where the one to
// the circuit's own return would not have.
func (a *Attempt) reference() (red, own string) {
	c := a.Case
	x := c.base.Enter(changes(c.Faults), c.onset)
	defer c.base.Leave()
	for i := range a.Log {
		if a.Log[i].Act.Kind != DoRead || len(a.Log[i].sights) == 0 || a.Log[i].epoch > 0 {
			continue
		}
		g := &a.Log[i].sights[0]
		if g.mode != meter.VDC || g.with != "" || !c.earthed(g.black) {
			continue
		}
		healthy := c.base.V(g.red) - c.base.V(g.black)
		if math.Abs(x.V(g.red)-x.V(g.black)-healthy) > 0.5 || math.Abs(healthy) < 5 {
			continue
		}
		if p, bad := c.returnOf(g.red, x.V); bad {
			return a.Log[i].Act.Red, p
		}
	}
	return "", ""
}

func (c *Case) earthed(n circuit.Node) bool {
	return n == circuit.Earth || c.Rig.Model.Net.Nodes[n].Earthing
}

// returnOf names the return of a device fed from a piece of metal, where it does not
// carry what it should.
func (c *Case) returnOf(red circuit.Node, v func(circuit.Node) float64) (name string, bad bool) {
	net := c.Rig.Model.Net
	for _, d := range net.Devices {
		sense := net.Elements[d.Element].Sense
		if len(sense) < 2 || sense[0] != red {
			continue
		}
		if math.Abs(v(sense[1])-c.base.V(sense[1])) > 2 {
			for _, p := range net.Points {
				if p.Node == sense[1] && !p.Hidden {
					return p.Name, true
				}
			}
		}
	}
	return "", false
}
