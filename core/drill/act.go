package drill

import (
	"halfsplit/core/circuit"
	"halfsplit/core/diagnose"
	"halfsplit/core/meter"
)

// An Act is one thing the learner does. Which fields count depends on its Kind.
type Act struct {
	Kind    string
	Thing   string // looked at, worked on, called
	Step    string // of operate: "press S2", "open X1:2"
	Mode    string // of a reading
	Red     string
	Black   string
	Why     string // one tap before a reading: one of Whys
	Class   string // of a call: one of Classes
	Seconds int    // since the attempt began, by the host's clock; 0 where it has none
}

// The kinds of act.
const (
	DoLook          = "look"           // Thing: state, indicator, lever, clamp
	DoAsk           = "ask"            // Thing: the number of a question, from 1
	DoOperate       = "operate"        // Step
	DoPull          = "pull"           // Thing: a fuse, out, looked at, and back
	DoRead          = "read"           // Mode, Red, Black, Why
	DoLock          = "lock"           // Thing: an isolating point that is off
	DoUnlock        = "unlock"         // Thing
	DoProveTester   = "prove-tester"   // on a known source: Red and Black, or a proving unit
	DoProveDead     = "prove-dead"     // Red, Black
	DoTighten       = "tighten"        // Thing: a wire end
	DoLift          = "lift"           // Thing: a wire end
	DoLand          = "land"           // Thing: a wire end, back where it belongs
	DoReplace       = "replace"        // Thing: a part, a fuse, a wire
	DoBypass        = "bypass"         // Red, Black
	DoCall          = "call"           // Thing, Class: where the fault is and what it is
	DoRepair        = "repair"         // mend what was called
	DoProveFunction = "prove-function" // start the plant and look at everything
	DoDone          = "done"           // hand it back
	DoGiveUp        = "give-up"
)

// Kinds lists them in the order people come to them.
var Kinds = []string{DoLook, DoAsk, DoRead, DoOperate, DoPull, DoProveTester, DoLock, DoProveDead, DoTighten, DoLift, DoLand, DoReplace, DoBypass, DoCall, DoRepair, DoUnlock, DoProveFunction, DoDone, DoGiveUp}

// Whys are the reasons for a reading, one tap each.
var Whys = []string{"feed", "return", "half-split", "what-changed", "proof", "guess"}

// Classes are the kinds of fault a person calls, as package parts has them, and
// that nothing is wrong electrically.
var Classes = []string{"open", "resistive", "short", "wrong-place", "part", Nothing}

// Nothing is the class of a call that all is as it should be electrically.
const Nothing = "nothing"

// A Fact is a code of package words with its arguments. An argument that begins with
// @ is a code itself.
type Fact struct {
	Code string
	Args []string
}

// A Refusal says why an act cannot be done. It leaves the attempt as it was.
type Refusal struct {
	Code    string
	Args    []string
	Choices []string
}

func (r *Refusal) Error() string { return r.Code }

// An Entry is one act with what came of it.
type Entry struct {
	Act     Act
	Facts   []Fact
	Reading *meter.Reading // of a reading or a proof, nil where the meter shows nothing
	Seconds int            // what it took, by the drill's effort
	Gates   []Gate         // it fell into
	sights  []sight
	epoch   int // how often something has been mended before it
}

func (e *Entry) tell(code string, args ...string) { e.Facts = append(e.Facts, Fact{code, args}) }

// A sight is what one act showed, to be weighed by an engine later.
type sight struct {
	look       diagnose.Look
	thing      int    // device or light
	place      string // of a close look
	state      string // of a look
	mode       meter.Mode
	red, black circuit.Node
	value      float64
	with       string // how the panel was held; see Attempt.with
	held       bool   // with is one an engine may know
}
