package generate

import (
	"strconv"

	"halfsplit/core/panel"
)

// joined brings a second feed beside the section's supply, each through a breaker
// and a diode: another supply, or a battery. plus is where the supply's own plus
// lands; the answer is where the section takes its 24 V from.
func (s *section) joined(supply string) (plus string) {
	v, f := s.ref("V"), s.ref("F")
	s.part(panel.Part{Ref: v, Kind: "redundancy-diode", Label: "joins the feeds of section " + strconv.Itoa(s.number)})
	s.minus(v+":-", s.home())
	link := s.part(panel.Part{Ref: f, Kind: "breaker", Label: "first feed", Ratings: map[string]string{}})
	s.unrated = append(s.unrated, link)
	s.supplyWires = append(s.supplyWires, s.wire(supply+":+", f+":1", "", s.metres(), "BU"), s.wire(f+":2", v+":1", "", s.metres(), "BU"))

	second := s.ref("F")
	s.unrated = append(s.unrated, s.part(panel.Part{Ref: second, Kind: "breaker", Label: "second feed", Ratings: map[string]string{}}))
	other := ""
	if s.chance(40) {
		other = s.ref("G")
		s.part(panel.Part{Ref: other, Kind: "battery", Label: "battery", Ratings: map[string]string{"class": "PELV"}})
	} else {
		other = s.dcSupply("second supply of section " + strconv.Itoa(s.number))
	}
	s.supplyWires = append(s.supplyWires, s.wire(other+":+", second+":1", "", s.metres(), "BU"), s.wire(second+":2", v+":2", "", s.metres(), "BU"),
		s.wire(other+":-", s.home(), "", s.metres(), "WHBU"))
	return v + ":+"
}

// unearthed draws a small circuit of 24 V that nothing holds to earth, and what
// watches its insulation.
func (s *section) unearthed() {
	f, t, a, fuse := s.breaker("C4", "unearthed supply"), s.ref("T"), s.ref("A"), s.ref("F")
	sw, k := s.ref("S"), s.ref("K")
	s.part(panel.Part{Ref: t, Kind: "dc-supply", Label: "unearthed 24 V", Ratings: map[string]string{"voltage": "24 V", "current": "1 A", "class": "SELV", "bonded": "no"}})
	s.part(panel.Part{Ref: a, Kind: "insulation-monitor", Label: "insulation of " + t})
	s.part(panel.Part{Ref: fuse, Kind: "fuse", Label: "unearthed 24 V", Ratings: map[string]string{"current": "1 A T"}})
	s.part(panel.Part{Ref: sw, Kind: "switch", Label: "pit"})
	s.part(panel.Part{Ref: k, Kind: "relay", Label: "pit"})
	s.normal[sw] = "closed"
	s.wire(f+":2", t+":L", "1.5 mm2", s.metres(), "BK")
	s.wire(f+":4", t+":N", "1.5 mm2", s.metres(), "BU")
	s.wire(s.ground("PE of "+t), t+":PE", "2.5 mm2", s.metres(), "GNYE")
	s.wire(s.ground("measuring earth of "+a), a+":PE", "2.5 mm2", s.metres(), "GNYE")
	s.plus(t+":+", fuse+":1")
	s.plus(fuse+":2", a+":+")
	s.plus(a+":+", sw+":13")
	s.plus(sw+":14", k+":A1")
	s.minus(k+":A2", a+":-")
	s.minus(a+":-", t+":-")
	s.mains += 0.05
}
