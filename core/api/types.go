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
	OpVersion    = "version"    // Hello
	OpOpen       = "open"       // Text or Demo → Opened, a session with its panel
	OpClose      = "close"      // forget Session
	OpCheck      = "check"      // Text or Demo → Problems
	OpFaults     = "faults"     // Session → Faults
	OpState      = "state"      // Session, At, Faults, Onset → State
	OpWhatIf     = "whatif"     // Session, At, Faults, Onset → WhatIf
	OpSweep      = "sweep"      // long: Session, At → Sweep
	OpMeter      = "meter"      // Session, At, Faults, Onset, Mode, Red, Black, MyMeter, Load → Meter
	OpMyMeter    = "mymeter"    // MyMeter → MyMeter: what the meter in the hand is, a figure a row
	OpPredict    = "predict"    // as meter, with Each → Predict: what it would show under each fault
	OpIsolate    = "isolate"    // Session, At, Faults, Onset, Refs → Isolate
	OpFind       = "find"       // long: Session, At, Observations → Find
	OpEdit       = "edit"       // Text or Demo or nothing, Edits → Edited; forgets Session
	OpGuess      = "guess"      // Word → Guesses
	OpConditions = "conditions" // Text or Demo → Conditions
	OpRecord     = "record"     // Job or Text, As, Paper → Record
	OpPack       = "pack"       // Text or Demo, Editions, Size → Packed
	OpUnpack     = "unpack"     // Text: a document, a link, or the texts of codes, one a line → Unpacked
	OpDiff       = "diff"       // Text, Other → Diff
	OpMerge      = "merge"      // Text, Other, Base where it is known, Choices → Merge
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
	History  []record.Earlier `json:"history,omitempty"`
	Job      *record.Job      `json:"job,omitempty"`
	As       string           `json:"as,omitempty"`       // of a record: "text" (when empty), "csv", "html"
	Paper    string           `json:"paper,omitempty"`    // "A4" (when empty) or "letter"
	Size     int              `json:"size,omitempty"`     // of pack: characters of one code; 0 for no codes
	Editions []string         `json:"editions,omitempty"` // of pack: the states Text was handed over in before, newest last
	// Other is a second copy of Text, Base the one both came from (the one whose
	// digest both remember), Choices which side of a conflict stands, by its path.
	Other   string            `json:"other,omitempty"`
	Base    string            `json:"base,omitempty"`
	Choices map[string]string `json:"choices,omitempty"`
}

// A Response is the answer to one call. Exactly one field is set, but for
// Progress, which stands alone.
type Response struct {
	Error             *Error    `json:"error,omitempty"`
	Progress          *Progress `json:"progress,omitempty"`
	Hello             *Hello    `json:"hello,omitempty"`
	Opened            *Opened   `json:"opened,omitempty"`
	Problems          *Problems `json:"problems,omitempty"`
	Faults            *Faults   `json:"faults,omitempty"`
	State             *State    `json:"state,omitempty"`
	WhatIf            *WhatIf   `json:"whatif,omitempty"`
	Sweep             *Sweep    `json:"sweep,omitempty"`
	Meter             *Meter    `json:"meter,omitempty"`
	MyMeter           *MyMeter  `json:"my_meter,omitempty"`
	Predict           *Predict  `json:"predict,omitempty"`
	Isolate           *Isolate  `json:"isolate,omitempty"`
	Find              *Find     `json:"find,omitempty"`
	answersAtTheBench           // the workshop's: Edited, Record, Packed, Drill and so on
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
