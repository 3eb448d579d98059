package generate

import (
	"strconv"

	"halfsplit/core/panel"
)

// instrument draws one in the field and gives its designation and its tag.
func (s *section) instrument(kind, letters, label string) (ref, tag string) {
	ref, tag = s.ref("B"), s.tag(letters)
	s.part(panel.Part{Ref: ref, Kind: kind, Tag: tag, At: "field", Label: label})
	return ref, tag
}

// position draws a sensor that something has reached.
func (s *section) position(kind, letters string) (ref, tag string) {
	ref, tag = s.instrument(kind, letters, "position")
	s.both(ref, "reached")
	return ref, tag
}

// transmitter draws one with some of the letters, of a value somewhere in its range.
func (s *section) transmitter(kind string, letters ...string) (ref, tag string) {
	ref, tag = s.ref("B"), s.tag(pick(&s.random, letters...))
	s.part(panel.Part{Ref: ref, Kind: kind, Tag: tag, At: "field", Label: "transmitter", Process: tag + " reads nothing"})
	s.somewhere(ref)
	return ref, tag
}

// somewhere puts an instrument's value into its range.
func (s *section) somewhere(ref string) { s.both(ref, strconv.Itoa(s.between(5, 95))+" %") }

// tag gives the next instrument tag: ISA 5.1 letters and a loop number.
func (s *section) tag(letters string) string {
	s.instruments++
	return letters + "-" + strconv.Itoa(100*s.number+s.instruments)
}
