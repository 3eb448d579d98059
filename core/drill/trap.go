package drill

import (
	"math"
	"slices"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/meter"
	"halfsplit/core/parts"
)

// Codes of traps: what fools people at panels (common practice), each proved by a
// solved state before it is believed of a drill.
const (
	TrapTwoSided   = "two-sided"          // a blown fuse, and its dead side at Red shows voltage to Black all the same
	TrapGhost      = "ghost"              // Red to Black shows volts that a low-impedance mode takes away
	TrapEarth      = "earth-looks-good"   // Red to earthed Black is as on the sound panel, and device Ref is dead
	TrapIndicator  = "indicator-lies"     // the fuse of Ref has blown and its indicator is dark
	TrapUnloaded   = "good-unloaded"      // Red to Black is whole while the load Ref is off, and not when it draws
	TrapBackFeed   = "back-feed"          // Red to Black is live where it should be dead, or with the fuse or lever Ref out
	TrapAsMeant    = "as-meant"           // Ref is off, and is meant to be
	TrapDrawing    = "drawing"            // Red to Black is not what the drawing would make it
	TrapSecond     = "second-fault"       // Ref stays dead when either fault alone is mended
	TrapPolarity   = "polarity"           // Red to Black has the wrong sign
	TrapBetween    = "in-between"         // Red to Black is neither source nor zero
	TrapReference  = "floating-reference" // Red to earthed Black has moved, Red to its own return Ref has not
	TrapFull       = "full-and-dead"      // Ref has all the voltage it needs, and does nothing
	TrapStillOn    = "still-on"           // Ref is on, or half on, and should be off
	TrapPlausible  = "plausible"          // Ref reports a value, and a wrong one
	TrapTwoMeaning = "unmoved"            // the function runs as ever, and a fault is there: nothing shows at Ref
)

// TrapCodes lists them.
var TrapCodes = []string{TrapTwoSided, TrapGhost, TrapEarth, TrapIndicator, TrapUnloaded, TrapBackFeed, TrapAsMeant, TrapDrawing, TrapSecond,
	TrapPolarity, TrapBetween, TrapReference, TrapFull, TrapStillOn, TrapPlausible, TrapTwoMeaning}

// A scene is a case solved for asking after traps.
type scene struct {
	c           *Case
	red, black  circuit.Node
	device      int // of Ref, -1 without one
	ref         string
	sound, sick float64 // Red to Black on the sound panel and on this one, by a meter
	thin        float64 // the same on this one in a low-impedance mode
}

// Proved says whether a solved state of the case proves a trap.
func (c *Case) Proved(t Trap) bool {
	prove, known := provers[t.Code]
	if !known {
		return false
	}
	s := scene{c: c, device: -1, ref: c.name(t.Ref), red: circuit.Earth, black: circuit.Earth}
	if i, ok := c.device(t.Ref); ok {
		s.device = i
	}
	if t.Red != "" {
		red, ok1 := c.Rig.Model.Net.FindPoint(c.name(t.Red))
		black, ok2 := c.Rig.Model.Net.FindPoint(c.name(t.Black))
		if !ok1 || !ok2 {
			return false
		}
		s.red, s.black = red.Node, black.Node
		s.measure()
	}
	return prove(&s)
}

// measure reads between the two points, sound and sick.
func (s *scene) measure() {
	c := s.c
	s.sound = s.read(nil, meter.VDC)
	s.sick = s.read(changes(c.Faults), meter.VDC)
	s.thin = s.read(changes(c.Faults), meter.LowZ)
}

// read reads with some changes made.
func (s *scene) read(list []parts.Change, mode meter.Mode) float64 {
	x := s.c.base.Enter(list, s.c.onset)
	defer s.c.base.Leave()
	r, refused := meter.Typical.Read(x, mode, s.red, s.black)
	if refused != nil {
		return 0
	}
	return r.Value
}

// same says that two readings could not be told apart by their size.
func same(a, b float64) bool { return math.Abs(a-b) <= 0.1+float64(0.05*max(math.Abs(a), math.Abs(b))) }

// volts from which a person takes a point for live: choice.
const takenForLive = 5

func (s *scene) status(faults []*fault.Fault) parts.Status { return s.c.statuses(faults)[s.device] }

func (s *scene) dead() bool {
	return s.device >= 0 && s.c.base.Healthy[s.device].Grade == parts.On && s.status(s.c.Faults).Grade != parts.On
}

var provers = map[string]func(*scene) bool{
	TrapTwoSided: func(s *scene) bool {
		return slices.ContainsFunc(s.c.Faults, opensLink) && s.sick >= takenForLive && s.sick >= 0.5*s.sound && !same(s.sick, s.thin)
	},
	TrapGhost: (*scene).ghost,
	TrapEarth: func(s *scene) bool {
		return s.c.earthed(s.black) && math.Abs(s.sound) >= takenForLive && same(s.sick, s.sound) && s.dead()
	},
	TrapIndicator: func(s *scene) bool {
		return slices.ContainsFunc(s.c.Faults, func(f *fault.Fault) bool { return opensLink(f) && f.Thing == s.ref }) && s.light(s.ref) == "dark"
	},
	TrapUnloaded: func(s *scene) bool {
		return s.device >= 0 && same(s.read(append(changes(s.c.Faults), s.unload()...), meter.VDC), s.read(s.unload(), meter.VDC)) &&
			math.Abs(s.sound) >= takenForLive && math.Abs(s.sick) < 0.9*math.Abs(s.sound)
	},
	TrapBackFeed: func(s *scene) bool {
		if s.ref == "" {
			return math.Abs(s.sick) >= takenForLive && math.Abs(s.sound) < 0.5*takenForLive
		}
		return math.Abs(s.out(changes(s.c.Faults))) >= takenForLive && math.Abs(s.out(nil)) < 0.5*takenForLive
	},
	TrapAsMeant: func(s *scene) bool {
		told, err := s.c.Rig.base(s.c.Drill.At)
		return err == nil && len(s.c.Faults) == 0 && s.device >= 0 && s.c.base.Healthy[s.device].Grade == parts.Off &&
			told.Healthy[s.device].Grade == parts.On
	},
	TrapDrawing: (*scene).misdrawn,
	TrapSecond: func(s *scene) bool {
		if len(s.c.Faults) < 2 || !s.dead() {
			return false
		}
		for i := range s.c.Faults {
			if s.status(slices.Delete(slices.Clone(s.c.Faults), i, i+1)).Grade == parts.On {
				return false
			}
		}
		return true
	},
	TrapPolarity: func(s *scene) bool {
		return float64(s.sick*s.sound) < 0 && min(math.Abs(s.sick), math.Abs(s.sound)) >= 0.5
	},
	TrapBetween: func(s *scene) bool {
		share := math.Abs(s.sick) / s.source()
		return share > 0.1 && share < 0.9 && !s.ghost()
	},
	TrapReference: func(s *scene) bool {
		own, ok := s.c.Rig.Model.Net.FindPoint(s.ref)
		if !ok || !s.c.earthed(s.black) || same(s.sick, s.sound) {
			return false
		}
		other := scene{c: s.c, red: s.red, black: own.Node}
		other.measure()
		return same(other.sick, other.sound) && math.Abs(other.sound) >= takenForLive
	},
	TrapFull: func(s *scene) bool {
		return s.dead() && s.status(s.c.Faults).Volts >= 0.9*s.c.base.Healthy[s.device].Volts && s.c.base.Healthy[s.device].Volts >= takenForLive
	},
	TrapStillOn: func(s *scene) bool {
		return s.device >= 0 && s.c.base.Healthy[s.device].Grade == parts.Off && s.status(s.c.Faults).Grade != parts.Off
	},
	TrapPlausible: func(s *scene) bool {
		if s.device < 0 {
			return false
		}
		was, now := s.c.base.Healthy[s.device], s.status(s.c.Faults)
		return was.Signal > 0 && now.Signal > 3.8 && now.Signal < 20.5 && math.Abs(now.Signal-was.Signal) > 0.5
	},
	TrapTwoMeaning: func(s *scene) bool {
		return len(s.c.Faults) > 0 && s.device >= 0 && s.status(s.c.Faults).State == s.c.base.Healthy[s.device].State
	},
}
