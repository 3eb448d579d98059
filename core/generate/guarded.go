package generate

import (
	"strconv"

	"halfsplit/core/panel"
)

// emergencyStop draws a safety relay with an emergency stop of two channels, and two
// relays with guided contacts behind it, whose feedback is in its reset. Both must be
// in for the lamp.
func (s *section) emergencyStop() {
	k, stop, reset, first, second := s.ref("K"), s.ref("S"), s.ref("S"), s.ref("K"), s.ref("K")
	s.part(panel.Part{Ref: k, Kind: "safety-relay", Label: "emergency stop"})
	s.part(panel.Part{Ref: stop, Kind: "button", Label: "emergency stop", Contacts: []string{"11-12", "21-22"}})
	s.part(panel.Part{Ref: reset, Kind: "button", Label: "reset", Contacts: []string{"13-14"}})
	for _, r := range []string{first, second} {
		s.part(panel.Part{Ref: r, Kind: "relay", Label: "released by " + k, Contacts: []string{"13-14", "21-22"}, Ratings: map[string]string{"guided": "yes"}})
	}
	s.steps = append(s.steps, "press "+reset, "release "+reset)
	s.load += 0.18

	feed := s.fuse("2 A T", "emergency stop")
	s.plus(feed, k+":A1")
	s.minus(k+":A2", s.home())
	s.plus(k+":S11", stop+":11")
	s.plus(stop+":12", k+":S12")
	s.plus(k+":S21", stop+":21")
	s.plus(stop+":22", k+":S22")
	s.plus(k+":S33", reset+":13")
	s.plus(reset+":14", first+":21")
	s.plus(first+":22", second+":21")
	s.plus(second+":22", k+":S34")
	s.plus(k+":A1", k+":13")
	s.plus(k+":13", k+":23")
	s.plus(k+":14", first+":A1")
	s.plus(k+":24", second+":A1")
	s.minus(first+":A2", second+":A2")
	s.minus(second+":A2", s.home())
	lamp := s.pilot("released")
	s.plus(feed, first+":13")
	s.plus(first+":14", second+":13")
	s.plus(second+":14", lamp+":X1")
	if s.chance(50) {
		fault := s.pilot("stopped")
		s.plus(k+":23", k+":41")
		s.plus(k+":42", fault+":X1")
	}
}

// lampTest draws a lamp on an output and on a button, each through a diode, so that
// the button feeds no output.
func (s *section) lampTest() {
	test := s.ref("S")
	s.part(panel.Part{Ref: test, Kind: "button", Label: "lamp test", Contacts: []string{"13-14"}})
	own := s.strips[control].add(panel.Block{Type: "diode-block", Label: "lamp on"})
	other := s.strips[control].add(panel.Block{Type: "diode-block", Label: "lamp test"})
	ch := s.channel(digitalOut)
	s.normal[ch] = "on"
	s.plus(ch, own+"/in")
	s.plus(s.fuse("1 A T", "lamp test"), test+":13")
	s.plus(test+":14", other+"/in")
	s.plus(own+"/out", other+"/out")
	s.plus(other+"/out", s.pilot("on")+":X1")
}

// elsewhere draws a circuit that another cabinet has: a load there, behind a
// selector here.
func (s *section) elsewhere() {
	u, sw := s.ref("U"), s.ref("S")
	s.part(panel.Part{Ref: u, Kind: "boundary", Label: "cabinet of the next machine", At: "field",
		Ratings: map[string]string{"beyond": "load", "resistance": strconv.Itoa(pick(&s.random, 100, 330, 1000)) + " ohm"}})
	s.part(panel.Part{Ref: sw, Kind: "selector", Label: "for the next machine", Contacts: []string{"13-14"}})
	s.normal[sw] = "on"
	b := s.strips[signals].add(panel.Block{Type: "double-level", Label: u})
	s.plus(s.fuse("1 A T", "next machine"), sw+":13")
	s.plus(sw+":14", b+".2/in")
	s.minus(b+".1/in", s.home())
	s.cable("1 mm2", core{b + ".2/out", u + ":1", "BN"}, core{u + ":2", b + ".1/out", "BU"})
	s.load += 0.24
}
