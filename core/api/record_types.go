package api

import "halfsplit/core/record"

// Record answers record: a job put on paper, and what is still open in it.
type Record struct {
	Document string     `json:"document"` // the job as text, to keep
	Job      record.Job `json:"job"`
	As       string     `json:"as"`      // "text", "csv", "html"
	Content  string     `json:"content"` // what was asked for
	Type     string     `json:"type"`    // its media type
	Open     []Text     `json:"open"`    // temporary changes that are not back yet
	// Sections are the same lines for a screen, what is still in place first; Title,
	// Caution and Signature frame them, as on the page to print.
	Title     string           `json:"title"`
	Sections  []record.Section `json:"sections"`
	Caution   string           `json:"caution"`
	Signature string           `json:"signature"`
	// Left is the panel as left, as a document: its drawing with what was found and
	// what the repair changed. Empty where the job has no panel.
	Left    string          `json:"left"`
	Earlier *record.Earlier `json:"earlier"` // for History the next time; null without a cause known by name
}

// An Earlier is what an earlier job at a panel found.
type Earlier = record.Earlier
