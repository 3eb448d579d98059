package parts

import (
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// A Kind is one entry of the catalogue.
type Kind struct {
	Name      string                         // "fuse-block": what a panel document writes
	Block     bool                           // stands on a strip; otherwise a part
	Letters   []string                       // usual designation letters, IEC 81346-2 first, older and American ones (NFPA 79, from memory) after
	Tags      []string                       // letters of instrument tags it usually carries, ISA 5.1; * is any measured variable
	Symbol    string                         // name of its picture, after IEC 60617
	Ratings   []Rating                       // the ratings it reads, in the order they are shown
	Positions []Position                     // what a condition may set it to; the first is its rest position
	Feeds     bool                           // a source for what is behind it: supply, battery, mains
	Source    bool                           // power comes from here; its second position is off
	Analogue  bool                           // takes a process value instead of a position: "50 %", "12 mA"
	Keeps     string                         // what it keeps when isolated, a code after "reach.": "stored"; empty: nothing
	Drives    bool                           // its source drives a current whatever stands in the way: nobody opens its circuit
	Shorts    bool                           // its second position shorts such a circuit
	OnRail    bool                           // a block bonded to its rail
	Fused     bool                           // a block that takes the fields fuse and indicator
	Isolates  bool                           // a point to isolate at: its second position opens it
	Breaks    float64                        // amperes such a point may be opened under; 0: any load
	Metals    []Metal                        // pieces of metal of a block
	Switches  Pole                           // what the outputs on its terminals of no pole join their loads to; Any without outputs
	Wants     func(p *panel.Part) Pole       // what must be joined to the inputs on its terminals of no pole to switch them on; nil without inputs
	Terminals func(p *panel.Part) []Terminal // of a part; nil for blocks
	Build     func(b *Builder)
}

// Locks says whether an isolating point takes a padlock. Levers and blades of
// terminal blocks do not (common practice): they are tagged, and the link is taken
// along.
func (k *Kind) Locks() bool { return k.Isolates && !k.Block }

// A Rating is one number a kind reads, with what stands in for it.
type Rating struct {
	Name    string         // "voltage"
	Dim     unit.Dimension // its quantity
	Default string         // as a person would write it; empty: the document must give it
	Source  string         // where the default comes from
	Must    bool           // the document has to give it
	Link    bool           // written as a fuse or breaker is, "2 A T": unit.ParseFuse reads it
	Words   []string       // the texts it may be, where it is no quantity
}

// A Position is one place a lever, button, selector, switch or process value can
// be in.
type Position struct {
	Name  string  // "pressed"
	Verb  string  // the step that moves it there: "press"
	Value float64 // what the elements of the kind see
}

// A Metal is one piece of metal of a terminal block.
type Metal struct {
	Level int    // 1 is the lower level; 0 where the block has one
	Side  string // "in" or "out"; empty where both sides are this one piece
}

// A Terminal is one terminal of a part.
type Terminal struct {
	Name string // marking: "A1", "13", "+"
	Pole Pole
}

// A Pole says what belongs on a terminal, for checks of the drawing and for the
// faults a person makes with it.
type Pole int

// The poles.
const (
	Any      Pole = iota
	Positive      // DC plus, of a supply or of a polarised load
	Negative      // DC minus
	Line          // live AC conductor
	Neutral       // AC neutral
	Earth         // protective earth
)

// Ratings are the values of one instance, in SI units, defaults filled in.
type Ratings map[string]float64
