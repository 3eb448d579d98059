// Package panel is the document: what the drawing of a control panel says, and
// nothing else. Voltages come from package sim, faults from package fault.
//
// # Names
//
// Things carry IEC 81346 reference designations without the leading dash (K1
// relay, F2 fuse, S3 push-button, X1 terminal strip). A terminal adds its
// marking after a colon: K1:A1, F2:2, X1:4. A block's metal has two sides,
// X1:4/in towards the panel and X1:4/out towards the field; a block of several
// levels counts them from the rail up, X3:7.1/in is the lower level.
//
// # Shape
//
// A Panel is plain data, one field for one thing a person reads on paper.
// Quantities stay as written ("0,75 mm2", "18 AWG", "2 A T"); package unit
// reads them. Read gives a Panel with the position of every value, Write gives
// the same document back, AsFound applies the corrections made at the panel.
package panel

// Format and Version stand at the head of every document.
const (
	Format  = "halfsplit-panel"
	Version = 1
)

// A Panel is one control panel as drawn, with the corrections found at it.
type Panel struct {
	Format     string      `json:"format"`
	Version    int         `json:"version"`
	Name       string      `json:"name"`
	About      string      `json:"about,omitempty"`      // what the panel does, one or two sentences
	Editions   []string    `json:"editions,omitempty"`   // earlier states that were handed over, newest last, by share.Edition
	Mains      []Mains     `json:"mains,omitempty"`      // incoming supplies
	Strips     []Strip     `json:"strips,omitempty"`     // terminal strips
	Parts      []Part      `json:"parts,omitempty"`      // everything that is not a block on a strip
	Wires      []Wire      `json:"wires,omitempty"`      // every conductor
	Conditions []Condition `json:"conditions,omitempty"` // named states of the plant; "normal" first
	Found      []Edit      `json:"found,omitempty"`      // as-found corrections, in order, over the drawing
}

// Mains is an incoming supply. Its terminals are REF:L, REF:N and REF:PE;
// REF:PE is earth, the reference of every voltage.
type Mains struct {
	Ref       string `json:"ref"`
	Voltage   string `json:"voltage"`             // line to neutral, "230 V"
	Frequency string `json:"frequency"`           // "50 Hz"
	Earthing  string `json:"earthing"`            // IEC 60364 system: "TN-S", "TN-C-S", "TT", "IT"
	Impedance string `json:"impedance,omitempty"` // of the loop up to these terminals, "0.4 ohm"
	From      string `json:"from,omitempty"`      // where it is switched off and locked: "main switch Q0, distribution board 2"
}

// A Strip is one terminal strip on its rail.
type Strip struct {
	Ref     string   `json:"ref"`
	Label   string   `json:"label,omitempty"`
	Blocks  []Block  `json:"blocks"` // in order, from the left
	Jumpers []Jumper `json:"jumpers,omitempty"`
}

// A Block is one terminal block. Type is a kind of the catalogue in package
// parts.
type Block struct {
	No        string `json:"no"` // marking: "4", "PE1"
	Type      string `json:"type"`
	Fuse      string `json:"fuse,omitempty"`      // the link in it, "2 A T"
	Indicator string `json:"indicator,omitempty"` // blown-link indicator and its nominal voltage, "24 V"
	Label     string `json:"label,omitempty"`     // function: "LT-1 +"
}

// A Jumper is one bridge bar in the jumper slots of some blocks of a strip.
type Jumper struct {
	Blocks []string `json:"blocks"`          // markings, in strip order
	Level  int      `json:"level,omitempty"` // 1 is the lower one; 0 where the blocks have one level
	Side   string   `json:"side,omitempty"`  // "in" or "out" on blocks whose sides are two pieces of metal
}

// A Part is a device: in the panel or in the field.
type Part struct {
	Ref     string            `json:"ref"`
	Kind    string            `json:"kind"`          // of the catalogue in package parts
	Tag     string            `json:"tag,omitempty"` // ISA 5.1: "LT-101"
	Label   string            `json:"label,omitempty"`
	At      string            `json:"at,omitempty"`      // "panel" (when empty) or "field"
	Ratings map[string]string `json:"ratings,omitempty"` // as written; the names each kind knows are in the catalogue
	// Contacts of a relay, button or switch by their markings, after EN 50005:
	// "13-14" normally open, "21-22" normally closed, "11-12-14" changeover.
	Contacts []string `json:"contacts,omitempty"`
	Channels int      `json:"channels,omitempty"` // of a controller card; its terminals are 0, 1, 2 ...
	Process  string   `json:"process,omitempty"`  // what happens to the plant when it drops: "dosing stops, tank keeps its level"
}

// A Wire is one conductor between two terminals.
type Wire struct {
	No     string `json:"no"` // number on its ferrules; unique
	From   string `json:"from"`
	To     string `json:"to"`
	Size   string `json:"size,omitempty"`   // "0.75 mm2", "18 AWG"
	Length string `json:"length,omitempty"` // "12 m"
	Colour string `json:"colour,omitempty"` // IEC 60757 letters
	Cable  string `json:"cable,omitempty"`  // the cable it is a core of
	Core   string `json:"core,omitempty"`
}

// A Condition is a named state of the plant: positions of what people and the
// process move, then steps done in order once the power is on.
type Condition struct {
	Name  string            `json:"name"`
	About string            `json:"about,omitempty"`
	Set   map[string]string `json:"set,omitempty"`   // REF → position: "S1": "pressed", "B3": "50 %", "A3:0": "on"
	Steps []string          `json:"steps,omitempty"` // "press S2", "release S2", "set S1 auto"
}

// An Edit is one correction made at the panel. Drawing and edits stay apart, so
// that as drawn and as found can both be shown.
type Edit struct {
	Op    string  `json:"op"` // one of the Op constants
	Wire  string  `json:"wire,omitempty"`
	End   string  `json:"end,omitempty"`   // "from" or "to", for move-wire
	Point string  `json:"point,omitempty"` // terminal the edit is about
	Add   *Wire   `json:"add,omitempty"`   // for add-wire
	Part  *Part   `json:"part,omitempty"`  // for add-part
	Strip string  `json:"strip,omitempty"` // for the jumper and block edits
	Jump  *Jumper `json:"jump,omitempty"`  // for add-jumper and remove-jumper
	Block *Block  `json:"block,omitempty"` // for set-block: replaces the block of the same marking, or stands at the end
	Note  string  `json:"note,omitempty"`
	By    string  `json:"by,omitempty"`
	When  string  `json:"when,omitempty"` // RFC 3339
}

// What an Edit does.
const (
	OpMoveWire     = "move-wire"     // Wire's End lands on Point
	OpAddWire      = "add-wire"      // Add exists
	OpRemoveWire   = "remove-wire"   // Wire does not exist
	OpAddPart      = "add-part"      // Part exists
	OpRemovePart   = "remove-part"   // the part named by Point does not exist
	OpAddJumper    = "add-jumper"    // Jump exists on Strip
	OpRemoveJumper = "remove-jumper" // Jump does not exist on Strip
	OpSetBlock     = "set-block"     // Block of Strip is so
	OpRemoveBlock  = "remove-block"  // the block named by Point does not exist
)
