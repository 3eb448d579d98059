// Package share carries a panel, a drill or a job from one phone to another, and
// brings two copies together that went different ways.
//
// # One file
//
// Each of the three is one JSON document that a person can read; its format is
// documented in testdata/schema. Packed, the same bytes become short enough for a
// link or for a few QR codes: a header with version, length and checksum, then
// deflate. Whatever comes in is bounded before it is believed.
//
// # Two copies
//
// Diff says in what two documents differ, thing by thing. Merge brings two copies
// together with the one both came from, found by its Digest; without it every
// difference is shown and nothing is taken for granted. What both sides changed
// is a conflict: one side stands, the other is kept beside it in the answer until
// a person has chosen. Nothing is overwritten silently.
package share

import (
	"encoding/hex"
	"hash/fnv"
	"strings"

	"halfsplit/core/drill"
	"halfsplit/core/panel"
	"halfsplit/core/record"
)

// A Kind says what a document is, by its format.
type Kind string

// The kinds of documents that are shared.
const (
	Panel Kind = panel.Format
	Drill Kind = drill.Format
	Job   Kind = record.Format
)

// An Error says why something cannot be read. Problems hold the places in a
// document, when that is what is wrong.
type Error struct {
	Code     string
	Args     []string
	Problems []panel.Problem
}

// Error is for logs; people are shown the sentences of package words.
func (e *Error) Error() string {
	s := "share: " + e.Code + " " + strings.Join(e.Args, " ")
	if len(e.Problems) > 0 {
		s += ": " + (&panel.Error{Problems: e.Problems}).Error()
	}
	return s
}

// Read says what a document is, after reading it as strictly as its own package
// does. The error is an *Error.
func Read(data []byte) (Kind, error) {
	kind := Kind(panel.FormatOf(data))
	var err error
	switch kind {
	case Drill:
		_, err = drill.Read(data)
	case Job:
		_, err = record.Read(data)
	default: // also what is none of ours: its problem says so
		kind = Panel
		_, err = panel.Read(data)
	}
	if err == nil {
		return kind, nil
	}
	e := &Error{Code: "share.unread"}
	if unread, ok := err.(*panel.Error); ok {
		e.Problems = unread.Problems
	}
	return "", e
}

// Digest names the content of a document: two copies with the same digest are the
// same document, however they are spaced and whatever Editions they list. It tells copies apart; it is no defence
// against somebody who wants two documents to look alike.
//
// Source: FNV-1a, 128 bits, as in package hash/fnv.
func Digest(data []byte) (string, error) {
	kind, err := Read(data)
	if err != nil {
		return "", err
	}
	h := fnv.New128a()
	h.Write(tidy(kind, content(kind, data)))
	return hex.EncodeToString(h.Sum(nil)), nil
}
