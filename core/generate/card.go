package generate

import (
	"strconv"

	"halfsplit/core/panel"
)

// The cards of the controller.
const (
	digitalIn = iota
	analogueIn
	digitalOut
)

var cardKinds = [3]struct {
	kind string
	most int // channels
}{{"digital-input", 16}, {"analogue-input", 8}, {"digital-output", 8}}

// A card under way; its channels are those that are used.
type card struct {
	ref  string
	part int
	used int
}

// channel gives the next channel of a card, of a new one where that is full.
func (s *section) channel(k int) string {
	c := &s.cards[k]
	if c.ref == "" || c.used == cardKinds[k].most {
		*c = card{ref: s.ref("A")}
		c.part = s.part(panel.Part{Ref: c.ref, Kind: cardKinds[k].kind, Label: cardKinds[k].kind + "s of section " + strconv.Itoa(s.number)})
		s.minus(c.ref+":M", s.home())
		if k == digitalOut {
			s.wire(s.fuse("4 A T", "outputs of "+c.ref), c.ref+":L+", "1.5 mm2", s.metres(), "BU")
			s.load += 0.02
		}
	}
	c.used++
	s.p.Parts[c.part].Channels = c.used
	return c.ref + ":" + strconv.Itoa(c.used-1)
}
