package share

import (
	"slices"

	"halfsplit/core/panel"
	"halfsplit/core/record"
)

// editionLength is how many digits of a Digest name an edition: 64 bits tell all
// the panels a phone will ever see apart, and twenty of them still fit a code on a
// door (a choice).
const editionLength = 16

// Edition names a state of a document that was handed over, by its content. A
// panel lists those it came from, so that two copies that were renamed and went
// different ways still find the state both began with. The error is an *Error.
func Edition(data []byte) (string, error) {
	digest, err := Digest(data)
	if err != nil {
		return "", err
	}
	return digest[:editionLength], nil
}

// Editions are the earlier states that a panel, or the panel of a job, says it
// came from, newest last; a drill has none. The error is an *Error.
func Editions(data []byte) ([]string, error) {
	kind, err := Read(data)
	if err != nil {
		return nil, err
	}
	p, _ := panelOf(kind, data)
	return p.Editions, nil
}

// WithEditions gives a panel, or a job whose panel, lists more states it came
// from, the newest last and no more than panel.MaxEditions. Where there is nothing
// to add, and of a drill, it is the same bytes. The error is an *Error.
func WithEditions(data []byte, more []string) ([]byte, error) {
	kind, err := Read(data)
	if err != nil {
		return data, err
	}
	p, write := panelOf(kind, data)
	if write == nil {
		return data, nil
	}
	have := len(p.Editions)
	for _, e := range more {
		if !slices.Contains(p.Editions, e) {
			p.Editions = append(p.Editions, e)
		}
	}
	if len(p.Editions) == have {
		return data, nil
	}
	p.Editions = p.Editions[max(0, len(p.Editions)-panel.MaxEditions):]
	return write(), nil
}

// panelOf is the panel of a document that Read has accepted, and how the document
// is written when the panel has changed; nil where it has none of its own.
func panelOf(kind Kind, data []byte) (p *panel.Panel, write func() []byte) {
	switch kind {
	case Panel:
		if d, err := panel.Read(data); err == nil {
			return d.Panel, func() []byte { return panel.Write(d.Panel) }
		}
	case Job:
		if j, err := record.Read(data); err == nil && j.Panel != nil {
			return j.Panel, func() []byte { return record.Write(j) }
		}
	}
	return &panel.Panel{}, nil
}

// descend makes a merged panel come from all that both copies came from.
func descend(merged []byte, copies ...[]byte) []byte {
	var all []string
	for _, c := range copies {
		if from, err := Editions(c); err == nil {
			all = append(all, from...)
		}
	}
	if out, err := WithEditions(merged, all); err == nil {
		return out
	}
	return merged
}
