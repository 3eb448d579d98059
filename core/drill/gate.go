package drill

import (
	"iter"
	"slices"
	"strings"
)

// A Gate is something no score makes up for.
type Gate string

// The gates.
const (
	OhmsOnLive Gate = "ohms-on-live"    // resistance or continuity between points with voltage
	AmpsAcross Gate = "amps-across"     // the current range across a voltage
	LiveWork   Gate = "live-work"       // tightened, lifted or replaced with extra-low voltage on it
	Shock      Gate = "shock"           // the same with a dangerous voltage
	NoProof    Gate = "no-proof"        // hands in without proof of dead
	Unlocked   Gate = "unlocked"        // hands in with the isolating point not locked
	Bypassed   Gate = "bypass"          // something jumped out
	MarkedPost Gate = "marked-terminal" // a marked terminal opened or lifted
)

// An Effect is what a gate does to the attempt.
type Effect string

// The effects: the attempt is over; it goes on and cannot be passed; it is told.
const (
	Ends  Effect = "end"
	Caps  Effect = "cap"
	Notes Effect = "note"
)

// gates and their usual effects: common practice of assessors, for whom proving
// dead is pass or fail; which ones end the attempt at once is a choice.
var gates = map[Gate]Effect{OhmsOnLive: Caps, AmpsAcross: Caps, LiveWork: Caps, Shock: Ends, NoProof: Caps, Unlocked: Notes, Bypassed: Ends, MarkedPost: Ends}

func gateNames() string {
	var names []string
	for g := range gates {
		names = append(names, string(g))
	}
	slices.Sort(names)
	return strings.Join(names, ", ")
}

// A GateEffect is what a gate does in one drill.
type GateEffect struct {
	Gate   Gate
	Effect Effect
}

// GateEffects lists the gates by name.
func (d *Drill) GateEffects() (list []GateEffect) {
	for _, name := range strings.Split(gateNames(), ", ") {
		list = append(list, GateEffect{Gate(name), d.effect(Gate(name))})
	}
	return list
}

// effect of a gate in this drill.
func (d *Drill) effect(g Gate) Effect {
	if e, ok := d.Gates[string(g)]; ok {
		return Effect(e)
	}
	return gates[g]
}

// sortedMap walks a map by its keys.
func sortedMap(m map[string]string) iter.Seq2[string, string] {
	return func(yield func(string, string) bool) {
		keys := make([]string, 0, len(m))
		for k := range m {
			keys = append(keys, k)
		}
		slices.Sort(keys)
		for _, k := range keys {
			if !yield(k, m[k]) {
				return
			}
		}
	}
}
