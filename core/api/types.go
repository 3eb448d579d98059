// Package api is the one seam of the core: a request in, an answer out. The
// page's worker, the command and the server call the same Handle, so that a tap
// and a shell line get the same bytes.
//
// A Request names an operation and fills the fields that operation reads; a
// Response fills the one answer of that operation, or Error. Keys are
// lower_snake_case with the unit in the key. Sentences for people come from
// package words and stand beside their codes.
package api

import "halfsplit/core/record"

// Version is compared by page and core at start: a page never talks to another
// version's core.
const Version = "1"

// Operations of a Request. Those marked long are done in steps: while
// Response.Progress is not null, send the same request again.
const (
	OpVersion = "version" // Hello
	OpOpen    = "open"    // Text or Demo → Opened, a session with its panel
	OpClose   = "close"   // forget Session
	OpCheck   = "check"   // Text or Demo → Problems
	OpFaults  = "faults"  // Session → Faults
	OpState   = "state"   // Session, At, Faults, Onset → State
	OpWhatIf  = "whatif"  // Session, At, Faults, Onset → WhatIf
	OpSweep   = "sweep"   // long: Session, At → Sweep
	OpMeter   = "meter"   // Session, At, Faults, Onset, Mode, Red, Black, MyMeter, Load → Meter
	OpMyMeter = "mymeter" // MyMeter → MyMeter: what the meter in the hand is, a figure a row
	OpPredict = "predict" // as meter, with Each → Predict: what it would show under each fault
	OpIsolate = "isolate" // Session, At, Faults, Onset, Refs → Isolate
	OpFind    = "find"    // long: Session, At, Observations → Find
	OpEdit    = "edit"    // Text or Demo or nothing, Edits → Edited; forgets Session
	OpGuess   = "guess"   // Word → Guesses
	OpRecord  = "record"  // Job or Text, As, Paper → Record
	OpPack    = "pack"    // Text or Demo, Size → Packed
	OpUnpack  = "unpack"  // Text: a document, a link, or the texts of codes, one a line → Unpacked
	OpDiff    = "diff"    // Text, Other → Diff
	OpMerge   = "merge"   // Text, Other, Base where it is known, Choices → Merge
)

// A Request is one call.
type Request struct {
	Op      string   `json:"op"`
	Lang    string   `json:"lang,omitempty"`    // of the sentences; "en" when empty
	Session int      `json:"session,omitempty"` // from Opened
	Demo    string   `json:"demo,omitempty"`    // an embedded panel
	Name    string   `json:"name,omitempty"`    // what to call Text in problems: a file name
	Text    string   `json:"text,omitempty"`    // a panel document
	At      string   `json:"at,omitempty"`      // condition and steps: "normal; press S2; release S2"
	Onset   string   `json:"onset,omitempty"`   // "running" (when empty) or "start"
	Faults  []string `json:"faults,omitempty"`
	Mode    string   `json:"mode,omitempty"`
	Red     string   `json:"red,omitempty"`
	Black   string   `json:"black,omitempty"`
	Load    bool     `json:"load,omitempty"` // the tester's load button is pressed
	// MyMeter holds what differs from a common meter, by the key of a MeterDatum.
	MyMeter      map[string]float64 `json:"my_meter,omitempty"`
	Each         []string           `json:"each,omitempty"` // faults to predict for, one at a time; a thing's name stands for all of its faults
	Refs         []string           `json:"refs,omitempty"` // what is to be worked on: parts, strips, blocks, points, wires
	Observations *Observations      `json:"observations,omitempty"`
	Edits        []DraftEdit        `json:"edits,omitempty"`  // of a panel, in order
	Word         string             `json:"word,omitempty"`   // what a person calls a thing
	All          bool               `json:"all,omitempty"`    // every hypothesis, for find
	Budget       int                `json:"budget,omitempty"` // faults to solve before returning progress; 0: all
	Acts         []DrillAct         `json:"acts,omitempty"`   // of a drill, all so far
	Seed         int                `json:"seed,omitempty"`   // variation of a drill, or of a short form
	Form         string             `json:"form,omitempty"`   // of a short form: "possible", "predict", "choose"
	Marks        *DrillMarks        `json:"marks,omitempty"`  // a learner's answers to it
	// History is what earlier jobs at this panel found, for find: it raises priors.
	History []record.Earlier `json:"history,omitempty"`
	Job     *record.Job      `json:"job,omitempty"`
	As      string           `json:"as,omitempty"`    // of a record: "text" (when empty), "csv", "html"
	Paper   string           `json:"paper,omitempty"` // "A4" (when empty) or "letter"
	Size    int              `json:"size,omitempty"`  // of pack: characters of one code; 0 for no codes
	// Other is a second copy of Text, Base the one both came from (the one whose
	// digest both remember), Choices which side of a conflict stands, by its path.
	Other   string            `json:"other,omitempty"`
	Base    string            `json:"base,omitempty"`
	Choices map[string]string `json:"choices,omitempty"`
}

// A Response is the answer to one call. Exactly one field is set, but for
// Progress, which stands alone.
type Response struct {
	Error    *Error    `json:"error,omitempty"`
	Progress *Progress `json:"progress,omitempty"`
	Hello    *Hello    `json:"hello,omitempty"`
	Opened   *Opened   `json:"opened,omitempty"`
	Problems *Problems `json:"problems,omitempty"`
	Faults   *Faults   `json:"faults,omitempty"`
	State    *State    `json:"state,omitempty"`
	WhatIf   *WhatIf   `json:"whatif,omitempty"`
	Sweep    *Sweep    `json:"sweep,omitempty"`
	Meter    *Meter    `json:"meter,omitempty"`
	MyMeter  *MyMeter  `json:"my_meter,omitempty"`
	Predict  *Predict  `json:"predict,omitempty"`
	Isolate  *Isolate  `json:"isolate,omitempty"`
	Find     *Find     `json:"find,omitempty"`
	Edited   *Edited   `json:"edited,omitempty"`
	Guesses  *Guesses  `json:"guesses,omitempty"`
	Record   *Record   `json:"record,omitempty"`
	Packed   *Packed   `json:"packed,omitempty"`
	Unpacked *Unpacked `json:"unpacked,omitempty"`
	Diff     *Diff     `json:"diff,omitempty"`
	Merge    *Merge    `json:"merge,omitempty"`

	Drills        *Drills        `json:"drills,omitempty"`
	Drill         *Drill         `json:"drill,omitempty"`
	DrillState    *DrillState    `json:"drill_state,omitempty"`
	DrillDebrief  *DrillDebrief  `json:"drill_debrief,omitempty"`
	DrillAuthored *DrillAuthored `json:"drill_authored,omitempty"`
	DrillShort    *DrillShort    `json:"drill_short,omitempty"`
}

// A Text is a sentence with the code and arguments it was made from.
type Text struct {
	Code string   `json:"code"`
	Args []string `json:"args"`
	Text string   `json:"text"`
}

// An Error says what is wrong with a request and how to mend it.
type Error struct {
	Text
	Hint    string   `json:"hint,omitempty"`
	Choices []string `json:"choices,omitempty"` // what would be accepted
	Edit    int      `json:"edit,omitempty"`    // which of the request's edits, from 0, when that is what is wrong
	// Problems holds the places in the document, when that is what is wrong.
	Problems []Problem `json:"problems,omitempty"`
}

// Progress is how far a long operation has come.
type Progress struct {
	Done  int `json:"done"`
	Total int `json:"total"`
}

// Hello answers version.
type Hello struct {
	Version string   `json:"version"`
	Demos   []string `json:"demos"`
}

// Problems answers check.
type Problems struct {
	Problems []Problem `json:"problems"`
	Errors   int       `json:"errors"`
	Warnings int       `json:"warnings"`
	Notes    int       `json:"notes"`
}

// A Problem is one thing wrong in a document.
type Problem struct {
	Line     int    `json:"line"` // 1-based; 0 when unknown
	Col      int    `json:"col"`
	Path     string `json:"path"`     // "wires[3].to"
	Severity string `json:"severity"` // "error", "warning", "note"
	Text
	Hint string `json:"hint"`
}

// Opened answers open: a session and what to draw.
type Opened struct {
	Session    int            `json:"session"`
	Name       string         `json:"name"`
	About      string         `json:"about"`
	Document   string         `json:"document"` // canonical text, to keep
	Problems   []Problem      `json:"problems"`
	Conditions []ConditionDef `json:"conditions"`
	Strips     []StripView    `json:"strips"`
	Parts      []PartView     `json:"parts"`
	Devices    []DeviceDef    `json:"devices"`
	Wires      []WireView     `json:"wires"`
	Points     []PointDef     `json:"points"`
	Cautions   []Text         `json:"cautions"` // for this panel's voltages
}

// A ConditionDef is a state of the plant a person can choose.
type ConditionDef struct {
	Name  string   `json:"name"`
	About string   `json:"about"`
	Steps []string `json:"steps"`
}

// A PointDef is a place a probe can touch.
type PointDef struct {
	Point string `json:"point"`
	Ref   string `json:"ref"`   // strip or part
	Field bool   `json:"field"` // out of the panel
}

// A StripView is a strip for drawing, blocks from the left.
type StripView struct {
	Ref    string      `json:"ref"`
	Label  string      `json:"label"`
	Blocks []BlockView `json:"blocks"`
}

// A BlockView is one block.
type BlockView struct {
	Ref     string      `json:"ref"` // "X3:7"
	No      string      `json:"no"`
	Type    string      `json:"type"`
	Symbol  string      `json:"symbol"`
	Label   string      `json:"label"`
	Fuse    string      `json:"fuse"`
	Levels  []LevelView `json:"levels"` // upper first, as seen from the front
	Faults  []string    `json:"faults"` // canonical faults of this block, for what-if
	Isolate bool        `json:"isolate"`
}

// A LevelView is one level of a block. In and Out are the points of its two
// sides, the same where it is one piece of metal.
type LevelView struct {
	Level   int       `json:"level"` // 0 where the block has one
	In      string    `json:"in"`
	Out     string    `json:"out"`
	Cut     string    `json:"cut"` // what lies between its sides: "", "fuse", "blade", "diode"
	InWires []WireEnd `json:"in_wires"`
	OutWire []WireEnd `json:"out_wires"`
	Jumper  int       `json:"jumper"` // blocks of one jumper share a number; 0 without
	// JumperSide is where the bar lies: "in" or "out" on a level whose sides are two
	// pieces of metal, empty on one piece.
	JumperSide string `json:"jumper_side"`
}

// A WireEnd is a wire as seen from one of its ends.
type WireEnd struct {
	No       string `json:"no"`
	Colour   string `json:"colour"`
	Other    string `json:"other"`     // where its other end lands
	OtherTag string `json:"other_tag"` // ISA tag of the part there
}

// A WireView is one wire.
type WireView struct {
	No     string   `json:"no"`
	From   string   `json:"from"`
	To     string   `json:"to"`
	Size   string   `json:"size"`
	Length string   `json:"length"`
	Colour string   `json:"colour"`
	Cable  string   `json:"cable"`
	Core   string   `json:"core"`
	Faults []string `json:"faults"`
}

// A PartView is one part.
type PartView struct {
	Ref       string         `json:"ref"`
	Tag       string         `json:"tag"`
	Kind      string         `json:"kind"`
	KindName  string         `json:"kind_name"` // for people
	Symbol    string         `json:"symbol"`
	Label     string         `json:"label"`
	Field     bool           `json:"field"`
	Process   string         `json:"process"`
	Terminals []TerminalView `json:"terminals"`
	Faults    []string       `json:"faults"`
}

// A TerminalView is one terminal of a part.
type TerminalView struct {
	Point string    `json:"point"`
	Wires []WireEnd `json:"wires"`
}

// A DeviceDef is something that can be dead or work.
type DeviceDef struct {
	Ref     string `json:"ref"`
	Tag     string `json:"tag"`
	Part    string `json:"part"`
	Label   string `json:"label"`
	Kind    string `json:"kind_name"`
	Process string `json:"process"`
}

// Faults answers faults.
type Faults struct {
	Faults []FaultDef `json:"faults"`
}

// A FaultDef is one fault the model knows.
type FaultDef struct {
	Fault string `json:"fault"` // canonical
	Thing string `json:"thing"`
	Class string `json:"class"`
	Name  string `json:"name"` // sentence: "the fuse of X3:7.2 has blown"
}

// State answers state.
type State struct {
	Points  []PointState  `json:"points"`
	Devices []DeviceState `json:"devices"`
	Lights  []DeviceState `json:"lights"` // blown-link indicators
	Flags   []Text        `json:"flags"`
}

// A PointState is the voltage of a point to earth.
type PointState struct {
	Point    string  `json:"point"`
	VDC      float64 `json:"vdc"`
	VAC      float64 `json:"vac"`
	VACDeg   float64 `json:"vac_deg"`
	Floating bool    `json:"floating"` // held by insulation only
}

// A DeviceState is what a device does.
type DeviceState struct {
	Ref    string   `json:"ref"`
	State  string   `json:"state"` // code
	Text   string   `json:"text"`  // for people
	Grade  string   `json:"grade"` // "off", "weak", "on"
	Volts  float64  `json:"volts"`
	Amps   float64  `json:"amps"`
	Signal *float64 `json:"signal_ma"` // null where it reports none
	// Celsius is the temperature it reports, null where it reports none.
	Celsius *float64 `json:"celsius"`
}

// WhatIf answers whatif.
type WhatIf struct {
	Faults   []FaultDef `json:"faults"`
	Affected []Affected `json:"affected"`
	Timeline []Event    `json:"timeline"`
	Points   []Moved    `json:"points"` // points whose voltage changed
	Flags    []Text     `json:"flags"`
	Cautions []Text     `json:"cautions"`
	Text     string     `json:"text"` // one sentence: what it comes to
}

// An Affected device, worst first.
type Affected struct {
	Ref     string      `json:"ref"`
	Tag     string      `json:"tag"`
	Label   string      `json:"label"`
	Effect  string      `json:"effect"` // dead starved wrong-value held-on chattering unsafe unprotected
	Text    string      `json:"text"`
	Was     DeviceState `json:"was"`
	Now     DeviceState `json:"now"`
	Why     []Text      `json:"why"`
	Process string      `json:"process"`
}

// A Moved point.
type Moved struct {
	Point string `json:"point"`
	Was   string `json:"was"` // as a meter to earth would show it
	Now   string `json:"now"`
}

// An Event of the timeline.
type Event struct {
	MSMin float64 `json:"ms_min"`
	MSMax float64 `json:"ms_max"`
	Event string  `json:"event"`
	Code  string  `json:"code"`
}

// Sweep answers sweep.
type Sweep struct {
	Rows []SweepRow `json:"rows"`
}

// A SweepRow is the what-if of one fault in short.
type SweepRow struct {
	Fault    string        `json:"fault"`
	Affected []SweepEffect `json:"affected"`
}

// A SweepEffect is one affected device in short.
type SweepEffect struct {
	Ref    string `json:"ref"`
	Effect string `json:"effect"`
}

// Meter answers meter: a reading, or Refused with its reason.
type Meter struct {
	Mode        string   `json:"mode"`
	Red         string   `json:"red"`   // of clamp: the wire
	Black       string   `json:"black"` // empty of clamp
	Value       *float64 `json:"value"` // in Unit; null on overload and when refused
	Unit        string   `json:"unit"`  // "V", "mA" (ma), "A" (clamp), "ohm"; empty when refused
	Shown       string   `json:"shown"` // "24.00 V", "OL", "beep", "silent"
	Overload    bool     `json:"overload"`
	Disturbs    []Text   `json:"disturbs"` // what the meter itself changed
	Notes       []Text   `json:"notes"`    // how to hold the meter, what makes the figure doubtful
	Cautions    []Text   `json:"cautions"`
	Refused     string   `json:"refused,omitempty"`
	Hint        string   `json:"hint,omitempty"`
	RefusedCode string   `json:"refused_code,omitempty"` // "refused.live"
	// Consequence is what would come of a refused measurement that is made all the
	// same: the meter's fuse blows. Null where nothing would.
	Consequence *Text `json:"consequence"`
}

// MyMeter answers mymeter: the whole meter, defaults filled in.
type MyMeter struct {
	Modes []MeterMode  `json:"modes"` // in the order of a selector
	Rows  []MeterDatum `json:"rows"`
}

// A MeterMode is one position of the selector.
type MeterMode struct {
	Mode string `json:"mode"`
	Name string `json:"name"` // for people
	// Probes says what Red and Black name: "points"; "wire" (clamp: Red alone, a
	// wire's number); "break" (ma: two sides of what can be opened, or Red alone).
	Probes   string `json:"probes"`
	PowerOff bool   `json:"power_off"` // refused on a live circuit
}

// A MeterDatum is one figure of a meter.
type MeterDatum struct {
	Key     string  `json:"key"`  // to give in Request.MyMeter: "input_ohms"
	Name    string  `json:"name"` // for people
	Unit    string  `json:"unit"` // "ohm", "V", "A", "counts"; empty: 1 is yes, 0 is no
	Value   float64 `json:"value"`
	Typical float64 `json:"typical"`
	Least   float64 `json:"least"` // what is accepted
	Most    float64 `json:"most"`
	Source  string  `json:"source"` // where Typical comes from
}

// Predict answers predict: what the same measurement would show.
type Predict struct {
	Mode    string       `json:"mode"`
	Red     string       `json:"red"`
	Black   string       `json:"black"`
	Healthy Prediction   `json:"healthy"` // without a fault of Each
	Rows    []Prediction `json:"rows"`    // one a fault, in the order of Each
}

// A Prediction is what the display shows under one fault.
type Prediction struct {
	Fault    string   `json:"fault"` // canonical; empty: healthy
	Name     string   `json:"name"`  // sentence
	Shown    string   `json:"shown"`
	Value    *float64 `json:"value"` // null on overload and when refused
	Unit     string   `json:"unit"`
	Overload bool     `json:"overload"`
	Refused  string   `json:"refused,omitempty"`
	Differs  bool     `json:"differs"` // from what the healthy panel shows, on the display
}

// Isolate answers isolate: what to open before hands go to the target. Where no
// isolating point reaches, Isolated is false, Open is empty and Sources says why.
type Isolate struct {
	Targets  []string       `json:"targets"`  // as understood, canonical
	Isolated bool           `json:"isolated"` // with Open open, nothing solved reaches the target
	Open     []IsolatePoint `json:"open"`     // in this order
	// Instead would take less down, but carries more than it may open: see First.
	Instead  []IsolatePoint `json:"instead"`
	AlsoDown []Affected     `json:"also_down"`
	Sources  []Reach        `json:"sources"`
	Prove    []Proof        `json:"prove"`
	Cautions []Text         `json:"cautions"` // in the order of the work
	Text     string         `json:"text"`     // one sentence: what it comes to
}

// An IsolatePoint is one thing to open.
type IsolatePoint struct {
	Point    string   `json:"point"`    // "F0", "X1:4": what a step names
	How      string   `json:"how"`      // sentence: "switch off F0, lock, tag"
	Code     string   `json:"code"`     // of How
	Lockable bool     `json:"lockable"` // takes a padlock; else tag it and take the link along
	Amps     float64  `json:"amps"`     // it carries before anything is opened
	First    string   `json:"first"`    // what to do before, since it may not be opened under this load; else empty
	Points   []string `json:"points"`   // to ring on the strip picture
	Step     string   `json:"step"`     // as a condition takes it: "open X1:4"
}

// A Reach is something that reaches the target, or may, although the points are
// open.
type Reach struct {
	Ref      string `json:"ref"`
	Code     string `json:"code"` // "reach.live", "reach.on", "reach.stored" ...
	Text     string `json:"text"`
	Prevents bool   `json:"prevents"` // the target stays live through it
}

// A Proof is one pair of points to test for dead.
type Proof struct {
	Red      string   `json:"red"`
	Black    string   `json:"black"`
	RedTip   string   `json:"red_tip"`
	BlackTip string   `json:"black_tip"`
	Modes    []string `json:"modes"`  // "vdc", "vac"
	Before   []string `json:"before"` // what each mode shows before opening: "24.00 V"
	After    []string `json:"after"`  // and after
	// Live says that some mode shows a volt or more before. Where it does not, this
	// test proves nothing: Text says so.
	Live bool   `json:"live"`
	Text string `json:"text"`
}

// Observations are what a person has seen and measured, in order.
type Observations struct {
	Dead     []string  `json:"dead,omitempty"`
	Works    []string  `json:"works,omitempty"`
	Sees     []Look    `json:"sees,omitempty"`
	Readings []Reading `json:"readings,omitempty"`
}

// A Look is a state seen on a device or on a blown-link indicator.
type Look struct {
	Ref   string `json:"ref"`   // device, its tag, or the block of an indicator
	State string `json:"state"` // code: "lit", "dark", "on", "measuring"
	At    string `json:"at,omitempty"`
}

// A Reading is one entered figure.
type Reading struct {
	Mode  string   `json:"mode"`            // any of the meter
	Red   string   `json:"red"`             // of clamp the wire, of ma perhaps what is opened
	Black string   `json:"black"`           // empty then
	Value *float64 `json:"value"`           // volts, ohms, mA (ma) or amperes (clamp); null with Shown
	Shown string   `json:"shown,omitempty"` // "OL" (ohms, diode), "beep", "silent"
	// At is how the panel was held, where that differs from the request's
	// condition: Next.With as it was prompted ("press S2", "power-off"), or the
	// name of another condition.
	At string `json:"at,omitempty"`
}

// Find answers find.
type Find struct {
	Status   string    `json:"status"` // continue found cannot-separate nothing-wrong nothing-explains
	Text     string    `json:"text"`   // one sentence: where the search stands
	Suspects []Suspect `json:"suspects"`
	Next     *Next     `json:"next"`
	// Misfit names the observation that disagrees most, with nothing-explains.
	Misfit *Text `json:"misfit"`
	// Checklist is what to do once found: repair, cautions, checks after it.
	Checklist []Text `json:"checklist"`
	All       []Hypo `json:"all,omitempty"`
}

// A Suspect is a group of faults that one repair at one place mends, or that no
// permitted reading tells apart.
type Suspect struct {
	Faults      []string `json:"faults"`
	Names       []string `json:"names"`  // sentences, one a fault
	Repair      string   `json:"repair"` // sentence
	Place       string   `json:"place"`  // "X3:7.2", "W12"
	Points      []string `json:"points"` // to ring on the strip picture
	Probability float64  `json:"probability"`
	Consistent  bool     `json:"consistent"`
	Silent      bool     `json:"silent"` // nothing in this condition would show it: what was seen dead may work
	Evidence    []Text   `json:"evidence"`
}

// Next is the best next step.
type Next struct {
	Kind     string    `json:"kind"` // "reading", "look", "repair"
	Mode     string    `json:"mode"` // of a reading: vdc, vac, ohms
	Red      string    `json:"red"`
	Black    string    `json:"black"`
	RedTip   string    `json:"red_tip"`   // where that is, for people: "X3:7, upper level, field side, LT-1 +"
	BlackTip string    `json:"black_tip"` // the same of the black probe
	Ref      string    `json:"ref"`       // of a look: the device, or the block of an indicator
	RefTip   string    `json:"ref_tip"`   // what that is, for people
	With     string    `json:"with"`      // to give back as At: "", "press S2", "power-off"
	WithText string    `json:"with_text"` // what to have on, for people
	Expect   string    `json:"expect"`    // what a healthy panel shows: "24.00 V", "lit"
	Minutes  float64   `json:"minutes"`
	Bits     float64   `json:"bits"`
	Outcomes []Outcome `json:"outcomes"`
	Cautions []Text    `json:"cautions"`
	Text     string    `json:"text"`
}

// An Outcome is one thing the next step may show.
type Outcome struct {
	Value       *float64 `json:"value"` // typical, to enter by one tap; null of a look
	State       string   `json:"state"` // of a look, to enter by one tap
	Low         float64  `json:"low"`   // the band it stands for
	High        float64  `json:"high"`
	Unit        string   `json:"unit"`
	Shown       string   `json:"shown"`       // "24.00 V", "about 0 V", "dark"
	Text        string   `json:"text"`        // what it would mean
	Probability float64  `json:"probability"` // of seeing it
	Healthy     bool     `json:"healthy"`     // a healthy panel shows this
	Suspects    []int    `json:"suspects"`    // indices into Find.Suspects that predict it
}

// A Hypo is one hypothesis, for --all.
type Hypo struct {
	Fault       string  `json:"fault"`
	Probability float64 `json:"probability"`
	Consistent  bool    `json:"consistent"`
	Worst       float64 `json:"worst_sigma"` // of its observations
}
