package share

import (
	"slices"

	"halfsplit/core/panel"
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

// Editions are the earlier states a panel says it came from, newest last; none of
// any other document. The error is an *Error.
func Editions(data []byte) ([]string, error) {
	kind, err := Read(data)
	if err != nil || kind != Panel {
		return nil, err
	}
	return panelOf(data).Editions, nil
}

// WithEditions gives a panel that lists more states it came from, the newest last
// and no more than panel.MaxEditions. Where there is nothing to add, and of any
// other document, it is the same bytes. The error is an *Error.
func WithEditions(data []byte, more []string) ([]byte, error) {
	kind, err := Read(data)
	if err != nil || kind != Panel {
		return data, err
	}
	p := panelOf(data)
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
	return panel.Write(p), nil
}

// panelOf is the panel of a document that Read has accepted.
func panelOf(data []byte) *panel.Panel {
	d, err := panel.Read(data)
	if err != nil {
		return &panel.Panel{}
	}
	return d.Panel
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
