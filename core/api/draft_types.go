package api

// A DraftEdit is one small change of a panel; package draft says which fields
// each Op reads. Ops: name mains strip blocks jumper remove-jumper part set
// label rename wire move-wire between remove condition remove-condition copy
// adopt-found forget-found.
type DraftEdit struct {
	Op        string            `json:"op"`
	AsFound   bool              `json:"as_found,omitempty"` // a correction at the panel: the drawing stays
	Ref       string            `json:"ref,omitempty"`      // the thing: "X1", "X1:4", "K1", a wire's number, a condition's name; empty for the next free name
	Name      string            `json:"name,omitempty"`     // of the panel or condition; the new name; the part of between
	About     string            `json:"about,omitempty"`
	Label     string            `json:"label,omitempty"`
	Word      string            `json:"word,omitempty"` // instead of kind: what a person calls it
	Kind      string            `json:"kind,omitempty"` // from Guess, or a block type
	Count     int               `json:"count,omitempty"`
	First     string            `json:"first,omitempty"` // marking of a strip's first block: "1", "PE1"
	Step      int               `json:"step,omitempty"`
	From      string            `json:"from,omitempty"` // first block of a range; where a wire begins
	To        string            `json:"to,omitempty"`   // last block; where a wire ends
	List      []string          `json:"list,omitempty"` // blocks by marking, instead of a range
	Level     int               `json:"level,omitempty"`
	Side      string            `json:"side,omitempty"` // "in" or "out"
	End       string            `json:"end,omitempty"`  // of a wire: "from" or "to"
	Fuse      string            `json:"fuse,omitempty"`
	Indicator string            `json:"indicator,omitempty"`
	Tag       string            `json:"tag,omitempty"`
	At        string            `json:"at,omitempty"` // "panel" or "field"
	Process   string            `json:"process,omitempty"`
	Ratings   map[string]string `json:"ratings,omitempty"` // an empty text takes one away
	Contacts  []string          `json:"contacts,omitempty"`
	Channels  int               `json:"channels,omitempty"`
	Clear     []string          `json:"clear,omitempty"` // fields to empty
	Size      string            `json:"size,omitempty"`
	Length    string            `json:"length,omitempty"`
	Colour    string            `json:"colour,omitempty"`
	Cable     string            `json:"cable,omitempty"`
	Core      string            `json:"core,omitempty"`
	Voltage   string            `json:"voltage,omitempty"` // with op mains, as the four below
	Frequency string            `json:"frequency,omitempty"`
	Earthing  string            `json:"earthing,omitempty"`
	Impedance string            `json:"impedance,omitempty"`
	Supply    string            `json:"supply,omitempty"`    // where it is switched off and locked
	Positions map[string]string `json:"positions,omitempty"` // of a condition: "S1": "pressed"; an empty text takes one away
	Steps     []string          `json:"steps,omitempty"`     // of a condition
	Note      string            `json:"note,omitempty"`      // of a correction, as the two below
	By        string            `json:"by,omitempty"`
	When      string            `json:"when,omitempty"` // RFC 3339
}

// Edited answers edit: the new document and how it stands. A draft with errors
// is a draft: it is kept, shown and edited on.
type Edited struct {
	Document string    `json:"document"` // canonical text, to keep
	Made     []Made    `json:"made"`     // what the edits did, in order
	Problems []Problem `json:"problems"`
	Errors   int       `json:"errors"`
	Warnings int       `json:"warnings"`
	Notes    int       `json:"notes"`
	Opened   *Opened   `json:"opened"` // to draw; its session is 0 while errors keep the panel from being solved
}

// A Made is one thing an edit did.
type Made struct {
	Edit int    `json:"edit"` // which of the request's edits
	Ref  string `json:"ref"`  // the thing; empty where it is gone
	Text
}

// Conditions answers conditions: what of the panel can stand how, and how it
// stands in each state of the plant.
type Conditions struct {
	Conditions []ConditionView `json:"conditions"` // as the drawing has them, and normal
	Things     []Movable       `json:"things"`     // by Group, then as the drawing has them
}

// A ConditionView is a state of the plant to be edited.
type ConditionView struct {
	Name  string     `json:"name"`
	About string     `json:"about"`
	Kept  bool       `json:"kept"`  // every panel has it: it keeps its name and stays
	Steps []StepView `json:"steps"` // done in order once all stands as set
}

// A StepView is a step of a condition.
type StepView struct {
	Step string `json:"step"` // "press S2"
	Text string `json:"text"` // for people
}

// A Movable is what a person, the process or the control moves.
type Movable struct {
	Ref       string         `json:"ref"`
	Tag       string         `json:"tag"`
	Label     string         `json:"label"`
	KindName  string         `json:"kind_name"` // for people
	Group     string         `json:"group"`     // "plant", "output" of a controller, "power", "strip"
	Analogue  bool           `json:"analogue"`  // takes any process value, "35 %" or "12 mA"; Positions are some
	Positions []PositionView `json:"positions"` // how it can stand, in the order of a lever
	Rest      string         `json:"rest"`      // how it stands when nothing is said
	Stands    []Stand        `json:"stands"`    // one for each condition
}

// A PositionView is one way a thing can stand.
type PositionView struct {
	Name string   `json:"name"` // as an edit's positions have it: "pressed"
	Text string   `json:"text"` // for people
	Step StepView `json:"step"` // what moves it there
}

// A Stand is how a thing stands in a condition, before its steps.
type Stand struct {
	Key      string `json:"key"` // what an edit's positions call the thing: the drawing's own spelling
	Position string `json:"position"`
}

// Guesses answers guess, the likeliest first.
type Guesses struct {
	Guesses []Candidate `json:"guesses"`
}

// A Candidate is one thing a text may mean. Its fields go into a DraftEdit.
type Candidate struct {
	Kind     string            `json:"kind"`
	KindName string            `json:"kind_name"` // for people
	Block    bool              `json:"block"`     // stands on a strip
	Ref      string            `json:"ref"`
	Tag      string            `json:"tag"`
	Label    string            `json:"label"`
	At       string            `json:"at"`
	Fuse     string            `json:"fuse"`
	Ratings  map[string]string `json:"ratings"`
	Channels int               `json:"channels"`
	Why      Text              `json:"why"`
}
