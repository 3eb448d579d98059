// Package record keeps one job at a panel: what was called in, the panel as
// drawn, as found and as left, each step with what was read, the cause, the
// repair, what was changed for the time being and is not back yet, minutes.
//
// # Shape
//
// A Job is plain data, written as it was said: "24.1 V", "OL". Steps stand in
// the order they were done. Times are RFC 3339 texts, the host's; the core reads
// no clock. Read and Write are each other's reverse.
//
// # Export
//
// Text, CSV and HTML show the same lines, those of Sections. Sentences come through Say, so that the
// sheet may be in another language than the screen.
//
// # History
//
// Earlier gives what a job found; Weight says by how much that raises a fault's
// prior the next time.
package record

import (
	"strconv"

	"halfsplit/core/panel"
)

// Format and Version stand at the head of every job.
const (
	Format  = "halfsplit-job"
	Version = 1
)

// MaxList is how many entries a list of a job may have: a choice far beyond any
// shift.
const MaxList = 5000

// A Job is one job at one panel.
type Job struct {
	Format    string       `json:"format"`
	Version   int          `json:"version"`
	Title     string       `json:"title"`               // "B3 dead"
	Complaint string       `json:"complaint,omitempty"` // in the caller's words
	Started   string       `json:"started,omitempty"`   // RFC 3339
	Ended     string       `json:"ended,omitempty"`
	Minutes   int          `json:"minutes,omitempty"` // at work, without waiting
	Who       string       `json:"who,omitempty"`
	At        string       `json:"at,omitempty"`    // condition the plant was in
	Panel     *panel.Panel `json:"panel,omitempty"` // as drawn, with the corrections as found
	Left      []panel.Edit `json:"left,omitempty"`  // what the repair made otherwise, over the panel as found
	Dead      []string     `json:"dead,omitempty"`
	Works     []string     `json:"works,omitempty"`
	Steps     []JobStep    `json:"steps,omitempty"`
	Cause     *Cause       `json:"cause,omitempty"`
	Repair    string       `json:"repair,omitempty"`
	Temporary []Temporary  `json:"temporary,omitempty"`
	Checks    []JobCheck   `json:"checks,omitempty"`
	Photos    []Photo      `json:"photos,omitempty"`
	Notes     []JobNote    `json:"notes,omitempty"`
}

// A JobStep is one thing done and what came of it.
type JobStep struct {
	When     string `json:"when,omitempty"`
	Kind     string `json:"kind"` // "reading", "look", "operate", "power", "work"
	Mode     string `json:"mode,omitempty"`
	Red      string `json:"red,omitempty"`
	Black    string `json:"black,omitempty"`
	Ref      string `json:"ref,omitempty"`      // of a look or an operation
	With     string `json:"with,omitempty"`     // how the panel was held: "press S2"
	Shown    string `json:"shown,omitempty"`    // as read: "24.1 V", "OL", "dark"
	Expected string `json:"expected,omitempty"` // what a healthy panel shows
	Why      string `json:"why,omitempty"`      // the person's reason, or the prompt's
	Text     string `json:"text,omitempty"`     // what was done, in words
	Photo    string `json:"photo,omitempty"`    // name of one of Photos
}

// A Cause is what was wrong.
type Cause struct {
	Faults []string `json:"faults,omitempty"` // canonical names of package fault
	Place  string   `json:"place,omitempty"`
	Text   string   `json:"text,omitempty"`
}

// A Temporary is a change made for the time being. It is open until Back is
// filled in.
type Temporary struct {
	What   string `json:"what"`             // "jumper", "lifted", "lever", "forced", "removed", "other"
	Where  string `json:"where"`            // "X1:4 to X1:9", "W12@X1:4/out"
	Placed string `json:"placed,omitempty"` // when
	Back   string `json:"back,omitempty"`   // when it was put back
	Note   string `json:"note,omitempty"`
}

// A JobCheck is one line of the list to go through before leaving.
type JobCheck struct {
	Text string `json:"text"`
	Done string `json:"done,omitempty"` // when; open while empty
}

// A Photo is a picture the host keeps, by its name.
type Photo struct {
	Name  string `json:"name"`
	Of    string `json:"of,omitempty"`    // "found" or "left"
	About string `json:"about,omitempty"` // "X1 from the left, before the fuse was drawn"
}

// A JobNote is a remark.
type JobNote struct {
	When string `json:"when,omitempty"`
	Text string `json:"text"`
}

// Read reads a job. The error is a *panel.Error with every problem of the file;
// the job is then nil.
func Read(data []byte) (*Job, error) {
	j := new(Job)
	src, err := panel.Decode(data, Format, Version, j)
	if err != nil {
		return nil, err
	}
	if p := j.problems(src); len(p) > 0 {
		return nil, &panel.Error{Problems: p}
	}
	return j, nil
}

// Write gives a job as JSON for people; Read gives the same job back.
func Write(j *Job) []byte {
	q := *j
	q.Format, q.Version = Format, Version
	return panel.Encode(&q, Job{})
}

// problems refuses a job that no person could have written, and one whose panel
// is another format's.
func (j *Job) problems(src *panel.Source) (list []panel.Problem) {
	for _, l := range []struct {
		name string
		n    int
	}{{"steps", len(j.Steps)}, {"temporary", len(j.Temporary)}, {"checks", len(j.Checks)}, {"photos", len(j.Photos)}, {"notes", len(j.Notes)},
		{"left", len(j.Left)}, {"dead", len(j.Dead)}, {"works", len(j.Works)}} {
		if l.n > MaxList {
			list = append(list, src.Problem(l.name, "too-many", l.name, strconv.Itoa(l.n), strconv.Itoa(MaxList)))
		}
	}
	if text, ok := src.Raw("panel"); ok && j.Panel != nil {
		if _, err := panel.Read(text); err != nil {
			list = append(list, src.Problem("panel", "job.panel-unread", err.Error()))
		}
	}
	return list
}

// Open lists the temporary changes that are not back yet, by their place in the
// job.
func (j *Job) Open() (list []int) {
	for i := range j.Temporary {
		if j.Temporary[i].Back == "" {
			list = append(list, i)
		}
	}
	return list
}

// AsFound is the panel as it was found, AsLeft as it was left; both are nil where
// the job has no panel. Problems are those of edits that do not apply.
func (j *Job) AsFound() (*panel.Panel, []panel.Problem) {
	if j.Panel == nil {
		return nil, nil
	}
	return panel.AsFound(j.Panel)
}

// AsLeft is the panel after the repair.
func (j *Job) AsLeft() (*panel.Panel, []panel.Problem) {
	if j.Panel == nil {
		return nil, nil
	}
	p := j.Panel.Clone()
	p.Found = append(p.Found, j.Left...)
	return panel.AsFound(p)
}
