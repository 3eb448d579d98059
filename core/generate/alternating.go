package generate

import "halfsplit/core/panel"

// Circuits of alternating current, each behind a breaker of its own.

// field230 draws a valve of 230 V in the field, and gives the place its line lands on
// and the one its neutral does.
func (s *section) field230() (line, neutral string) {
	q := s.ref("Q")
	s.part(panel.Part{Ref: q, Kind: "solenoid", Tag: s.tag("XV"), At: "field", Label: "valve",
		Ratings: map[string]string{"voltage": "230 V", "frequency": "50 Hz", "power": "11 W"}, Process: "valve closes"})
	l := s.strips[power].add(panel.Block{Type: "feed-through", Label: q + " L"})
	n := s.strips[power].add(panel.Block{Type: "feed-through", Label: q + " N"})
	s.cable("1 mm2", core{l + "/out", q + ":1", "BN"}, core{q + ":2", n + "/out", "BU"}, core{s.ground("PE of " + q), q + ":PE", "GNYE"})
	s.mains += 0.05
	return l + "/in", n + "/in"
}

// card230 draws a card of one channel behind a breaker, whose first terminal is
// common, and a valve on it; the snubbed valve has a snubber across it in the panel.
func (s *section) card230(kind, common string, snubbed bool) {
	a, f := s.ref("A"), s.breaker("C4", "valve")
	s.part(panel.Part{Ref: a, Kind: kind, Label: "outputs of 230 V", Channels: 1})
	line, neutral := s.field230()
	s.wire(f+":2", a+":"+common, "1.5 mm2", s.metres(), "BK")
	s.wire(a+":0", line, "1.5 mm2", s.metres(), "BK")
	s.wire(f+":4", neutral, "1.5 mm2", s.metres(), "BU")
	if snubbed {
		r := s.ref("R")
		s.part(panel.Part{Ref: r, Kind: "snubber", Label: "across the valve"})
		s.wire(line, r+":1", "1.5 mm2", s.metres(), "BK")
		s.wire(r+":2", neutral, "1.5 mm2", s.metres(), "BU")
	}
	s.normal[a+":0"] = "on"
}

// triac draws a valve on a triac, contactCard one on a relay of a card.
func (s *section) triac() { s.card230("triac-output", "L", false) }

func (s *section) contactCard() { s.card230("relay-output", "C", s.chance(50)) }

// metered draws a heater whose current an ammeter shows, through a current transformer
// with a block that shorts it; one side of its secondary is earthed.
func (s *section) metered() {
	if s.mains >= 4 { // as with motors
		return
	}
	f, t, p, r := s.breaker("C6", "heater"), s.ref("T"), s.ref("P"), s.ref("R")
	s.part(panel.Part{Ref: t, Kind: "current-transformer", Label: "heater " + r, Ratings: map[string]string{"primary": "5 A", "current": "1 A"}})
	s.part(panel.Part{Ref: p, Kind: "ammeter", Label: "heater " + r, Ratings: map[string]string{"current": "1 A"}})
	s.part(panel.Part{Ref: r, Kind: "resistor", Label: "heater", At: "field", Ratings: map[string]string{"resistance": "92 ohm"}})
	l := s.strips[power].add(panel.Block{Type: "feed-through", Label: r + " L"})
	n := s.strips[power].add(panel.Block{Type: "feed-through", Label: r + " N"})
	short := s.strips[power].add(panel.Block{Type: "current-transformer-block", Label: t})
	s.wire(f+":2", t+":P1", "1.5 mm2", s.metres(), "BK")
	s.wire(t+":P2", l+"/in", "1.5 mm2", s.metres(), "BK")
	s.wire(f+":4", n+"/in", "1.5 mm2", s.metres(), "BU")
	s.cable("1.5 mm2", core{l + "/out", r + ":1", "BN"}, core{r + ":2", n + "/out", "BU"})
	s.wire(t+":S1", short+".2/in", "2.5 mm2", s.metres(), "BK")
	s.wire(t+":S2", short+".1/in", "2.5 mm2", s.metres(), "BK")
	s.wire(short+".2/out", p+":1", "2.5 mm2", s.metres(), "BK")
	s.wire(p+":2", short+".1/out", "2.5 mm2", s.metres(), "BK")
	s.wire(short+".1/in", s.ground("PE of "+t), "2.5 mm2", s.metres(), "GNYE")
	s.mains += 2.5
}

// lowVoltage draws a circuit of 24 V AC behind a transformer, one side of it
// earthed: a switch and a relay. Source: IEC 60204-1 9.4.3.1, one conductor bonded.
func (s *section) lowVoltage() {
	f, t, fuse, sw, k := s.breaker("C4", "control transformer"), s.ref("T"), s.ref("F"), s.ref("S"), s.ref("K")
	s.part(panel.Part{Ref: t, Kind: "control-transformer", Label: "24 V AC", Ratings: map[string]string{"class": "PELV"}})
	s.part(panel.Part{Ref: fuse, Kind: "fuse", Label: "24 V AC", Ratings: map[string]string{"current": "2 A T"}})
	s.part(panel.Part{Ref: sw, Kind: "switch", Label: "ventilation"})
	s.part(panel.Part{Ref: k, Kind: "relay", Label: "ventilation", Ratings: map[string]string{"frequency": "50 Hz", "resistance": "320 ohm"}})
	s.normal[sw] = "closed"
	s.wire(f+":2", t+":1", "1.5 mm2", s.metres(), "BK")
	s.wire(f+":4", t+":2", "1.5 mm2", s.metres(), "BU")
	s.wire(s.ground("PE of "+t), t+":PE", "2.5 mm2", s.metres(), "GNYE")
	s.wire(t+":3", fuse+":1", "1 mm2", s.metres(), "RD")
	s.wire(fuse+":2", sw+":13", "1 mm2", s.metres(), "RD")
	s.wire(sw+":14", k+":A1", "1 mm2", s.metres(), "RD")
	s.wire(k+":A2", t+":4", "1 mm2", s.metres(), "RD")
	s.wire(t+":4", s.ground("24 V AC to PE link"), "2.5 mm2", s.metres(), "GNYE")
	s.mains += 0.05
}
