package generate

import (
	"maps"
	"strconv"

	"halfsplit/core/panel"
)

// The cards of the controller.
const (
	digitalIn = iota
	analogueIn
	digitalOut
	sourcingIn
	seriesIn
	loopFeed
	rtdIn
	coupleIn
	cardsOf // how many
)

// A cardKind is what a card is and how it is fed: by M alone, or by the terminal
// fed from a fuse, and by M unless bare.
type cardKind struct {
	kind    string
	most    int // channels
	ratings map[string]string
	label   string
	fed     string // the terminal that a fuse feeds; empty without
	fuse    string
	bare    bool // it has no M
}

var cardKinds = [cardsOf]cardKind{
	digitalIn:  {kind: "digital-input", most: 16, label: "digital-inputs"},
	analogueIn: {kind: "analogue-input", most: 8, label: "analogue-inputs"},
	digitalOut: {kind: "digital-output", most: 8, label: "digital-outputs", fed: "L+", fuse: "4 A T"},
	sourcingIn: {kind: "digital-input", most: 8, label: "sourcing inputs", ratings: map[string]string{"form": "sourcing"}, fed: "L+", fuse: "1 A T", bare: true},
	seriesIn:   {kind: "digital-input", most: 8, label: "inputs for two-wire sensors", ratings: map[string]string{"type": "3"}},
	loopFeed:   {kind: "analogue-input", most: 4, label: "inputs that feed their loops", ratings: map[string]string{"form": "sourcing"}, fed: "L+", fuse: "1 A T"},
	rtdIn:      {kind: "rtd-input", most: 4, label: "resistance thermometers", fed: "L+", fuse: "1 A T"},
	coupleIn:   {kind: "thermocouple-input", most: 4, label: "thermocouples", fed: "L+", fuse: "1 A T"},
}

// A card under way; its channels are those that are used.
type card struct {
	ref  string
	part int
	used int
}

// channel gives the next channel of a card, of a new one where that is full.
func (s *section) channel(k int) string {
	c, kind := &s.cards[k], &cardKinds[k]
	if c.ref == "" || c.used == kind.most {
		*c = card{ref: s.ref("A")}
		c.part = s.part(panel.Part{Ref: c.ref, Kind: kind.kind, Label: kind.label + " of section " + strconv.Itoa(s.number), Ratings: maps.Clone(kind.ratings)})
		if !kind.bare {
			s.minus(c.ref+":M", s.home())
		}
		if kind.fed != "" {
			s.wire(s.fuse(kind.fuse, kind.label+" "+c.ref), c.ref+":"+kind.fed, "1.5 mm2", s.metres(), "BU")
			s.load += 0.02
		}
	}
	c.used++
	s.p.Parts[c.part].Channels = c.used
	return c.ref + ":" + strconv.Itoa(c.used-1)
}
