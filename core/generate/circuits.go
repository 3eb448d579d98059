package generate

import (
	"strconv"

	"halfsplit/core/panel"
)

// mostBlocks is more than any one circuit adds, counted with a new card, its fuse
// and a 0 V block.
const mostBlocks = 6

// circuits draws one circuit of each kind, then others as they come until the
// section is nearly full.
func (s *section) circuits() {
	s.startStop()
	for _, draw := range []func(){s.loop, s.input, s.output, s.motor, s.input, s.loop} {
		if s.left() >= mostBlocks {
			draw()
		}
	}
	for s.left() >= mostBlocks {
		switch n := s.below(100); {
		case n < 8:
			s.rare()
		case n < 36:
			s.loop()
		case n < 43:
			s.driven()
		case n < 67:
			s.input()
		case n < 85:
			s.output()
		case n < 95:
			s.lamp()
		case s.mains < 4: // a section's motors draw no more from its incoming supply
			s.motor()
		}
	}
}

// startStop draws a relay that holds itself in, and what it feeds: a running
// lamp, and a valve by its contact or by a selector, two ways side by side.
func (s *section) startStop() {
	stop, start, k := s.ref("S"), s.ref("S"), s.ref("K")
	s.part(panel.Part{Ref: stop, Kind: "button", Label: "stop", Contacts: []string{"21-22"}})
	s.part(panel.Part{Ref: start, Kind: "button", Label: "start", Contacts: []string{"13-14"}})
	s.part(panel.Part{Ref: k, Kind: "relay", Label: "running", Contacts: []string{"13-14", "23-24", "33-34", "41-42"},
		Process: "section " + strconv.Itoa(s.number) + " stops"})
	s.steps = append(s.steps, "press "+start, "release "+start)
	s.load += 0.03

	feed := s.fuse("1 A T", "control")
	if s.left() > 40 {
		isolate := s.strips[control].add(panel.Block{Type: "disconnect-block", Label: "control"})
		s.plus(feed, isolate+"/in")
		feed = isolate + "/out"
	}
	s.plus(feed, stop+":21")
	from := stop + ":22"
	if s.left() > 40 {
		from = s.interlock(from)
	}
	s.plus(from, start+":13")
	s.plus(start+":13", k+":13")
	s.plus(k+":14", k+":A1")
	s.plus(start+":14", k+":14")
	s.minus(k+":A2", s.home())
	if s.chance(50) {
		s.diode(k)
	}

	branch := s.fuse("2 A T", "fed by "+k)
	running := s.pilot("running")
	s.plus(branch, k+":23")
	s.plus(k+":24", running+":X1")
	s.plus(k+":23", k+":33")
	if s.left() < 30 {
		return
	}
	hand := s.ref("S")
	s.part(panel.Part{Ref: hand, Kind: "selector", Label: "hand", Contacts: []string{"13-14"}})
	s.normal[hand] = "on"
	valve := s.valve()
	s.plus(k+":33", hand+":13")
	s.plus(k+":34", valve)
	s.plus(hand+":14", valve)
	stopped := s.pilot("stopped")
	s.plus(branch, k+":41")
	s.plus(k+":42", stopped+":X1")
}

// interlock leads a control circuit through a level switch in the field.
func (s *section) interlock(from string) string {
	b := s.ref("B")
	s.part(panel.Part{Ref: b, Kind: "float-switch", Tag: s.tag("LSL"), At: "field", Label: "low level", Process: "the start-stop circuit drops"})
	s.both(b, "wet")
	out := s.strips[control].add(panel.Block{Type: "feed-through", Label: b + " out"})
	back := s.strips[control].add(panel.Block{Type: "feed-through", Label: b + " back"})
	s.plus(from, out+"/in")
	s.cable("0.75 mm2", core{out + "/out", b + ":13", "BN"}, core{b + ":14", back + "/out", "BU"})
	return back + "/in"
}

// diode puts a free-wheeling diode across a relay's coil.
func (s *section) diode(k string) {
	r := s.ref("R")
	s.part(panel.Part{Ref: r, Kind: "diode", Label: "across the coil of " + k})
	s.plus(r+":K", k+":A1")
	s.minus(r+":A", k+":A2")
}

// pilot adds a pilot light whose return is wired.
func (s *section) pilot(label string) string {
	p := s.ref("P")
	s.part(panel.Part{Ref: p, Kind: "pilot-light", Label: label})
	s.minus(p+":X2", s.home())
	s.load += 0.02
	return p
}

// valve adds a valve in the field on a two-level block and gives the place its
// feed lands on.
func (s *section) valve() string {
	q := s.ref("Q")
	watts := pick(&s.random, 6, 8, 11)
	s.part(panel.Part{Ref: q, Kind: "solenoid", Tag: s.tag("XV"), At: "field", Label: "valve",
		Ratings: map[string]string{"power": strconv.Itoa(watts) + " W"}, Process: "valve closes"})
	s.load += float64(watts) / 24
	block := "double-level"
	if s.chance(5) {
		block = "led-block" // it shows that the valve is switched
	}
	b := s.strips[outputs].add(panel.Block{Type: block, Label: q})
	if b == s.strips[outputs].ref+":1" {
		s.minus(b+".1/in", s.home())
	}
	s.cable("1 mm2", core{b + ".2/out", q + ":1", "BN"}, core{q + ":2", b + ".1/out", "BU"},
		core{s.ground("PE of " + q), q + ":PE", "GNYE"})
	return b + ".2/in"
}

// output draws a valve on a controller output.
func (s *section) output() {
	ch := s.channel(digitalOut)
	s.normal[ch] = "on"
	s.plus(ch, s.valve())
}

// lamp draws a pilot light on a controller output.
func (s *section) lamp() {
	ch := s.channel(digitalOut)
	s.normal[ch] = "on"
	s.plus(ch, s.pilot("on")+":X1")
}

// input draws a switch in the field on a two-level block.
func (s *section) input() {
	kind := pick(&s.random, "float-switch", "flow-switch", "limit-switch")
	made := map[string]string{"float-switch": "wet", "flow-switch": "flowing", "limit-switch": "reached"}[kind]
	letters := map[string]string{"float-switch": "LSL", "flow-switch": "FSL", "limit-switch": "ZSO"}[kind]
	from, to := "13", "14"
	b := s.ref("B")
	if s.chance(25) {
		from, to = "21", "22"
		letters = map[string]string{"float-switch": "LSH", "flow-switch": "FSH", "limit-switch": "ZSC"}[kind]
	} else {
		s.normal[b] = made
	}
	s.part(panel.Part{Ref: b, Kind: kind, Tag: s.tag(letters), At: "field", Label: kind, Contacts: []string{from + "-" + to}})
	block := s.strips[inputs].add(panel.Block{Type: "double-level", Label: b})
	if block == s.strips[inputs].ref+":1" {
		s.plus(s.fuse("1 A T", "switches"), block+".2/in")
	}
	s.cable("0.75 mm2", core{block + ".2/out", b + ":" + from, "BN"}, core{b + ":" + to, block + ".1/out", "BU"})
	s.plus(block+".1/in", s.channel(digitalIn))
	s.load += 0.005
}

// fedBlock adds a block of the loop strip: fused feed above, return below.
func (s *section) fedBlock(label, rating string) string {
	block := panel.Block{Type: "double-level-fused", Fuse: rating, Label: label}
	if s.chance(70) {
		block.Indicator = "24 V"
	}
	b := s.strips[loops].add(block)
	if b == s.strips[loops].ref+":1" {
		s.plus(s.fuse("2 A T", "4-20 mA loops"), b+".2/in")
	}
	return b
}

// loop draws an out-and-back 4-20 mA instrument.
func (s *section) loop() {
	b, tag := s.transmitter("transmitter-2wire", "LT", "PT", "FT", "TT")
	block := s.fedBlock(tag, "0.1 A T")
	s.cable("0.75 mm2", core{block + ".2/out", b + ":+", "BN"}, core{b + ":-", block + ".1/out", "BU"},
		core{s.ground("PE of " + tag), b + ":PE", "GNYE"})
	s.plus(block+".1/in", s.channel(analogueIn))
	s.load += 0.02
}

// driven draws an instrument with a supply of its own that drives its signal.
func (s *section) driven() {
	b, tag := s.transmitter("transmitter-4wire", "AIT", "FIT")
	block := s.fedBlock(tag+" supply", "0.5 A T")
	s.minus(block+".1/in", s.home())
	signal := s.strips[signals].add(panel.Block{Type: "double-level", Label: tag + " signal"})
	s.minus(signal+".1/in", s.home())
	s.cable("0.75 mm2", core{block + ".2/out", b + ":L+", "BN"}, core{b + ":M", block + ".1/out", "BU"},
		core{b + ":+", signal + ".2/out", "WH"}, core{b + ":-", signal + ".1/out", "GY"},
		core{s.ground("PE of " + tag), b + ":PE", "GNYE"})
	s.plus(signal+".2/in", s.channel(analogueIn))
	s.load += 0.1
}

// motor draws a single-phase motor behind a relay that a controller output pulls
// in, with a report back to an input.
func (s *section) motor() {
	k, m := s.ref("K"), s.ref("M")
	watts := pick(&s.random, 90, 180, 370)
	s.mains += float64(watts) / 0.8 / 230
	s.load += 0.035
	s.part(panel.Part{Ref: k, Kind: "relay", Label: "motor " + m, Contacts: []string{"13-14", "23-24"}, Process: m + " stops"})
	s.part(panel.Part{Ref: m, Kind: "motor", At: "field", Label: "pump", Ratings: map[string]string{"power": strconv.Itoa(watts) + " W"}, Process: "pump stops"})
	f := s.breaker("C4", "motor "+m)
	line := s.strips[power].add(panel.Block{Type: "disconnect-block", Label: m + " L"})
	neutral := s.strips[power].add(panel.Block{Type: "feed-through", Label: m + " N"})
	s.wire(f+":2", k+":13", "1.5 mm2", s.metres(), "BK")
	s.wire(k+":14", line+"/in", "1.5 mm2", s.metres(), "BK")
	s.wire(f+":4", neutral+"/in", "1.5 mm2", s.metres(), "BU")
	s.cable("1.5 mm2", core{line + "/out", m + ":L", "BN"}, core{m + ":N", neutral + "/out", "BU"},
		core{s.ground("PE of " + m), m + ":PE", "GNYE"})
	ch := s.channel(digitalOut)
	s.normal[ch] = "on"
	s.plus(ch, k+":A1")
	s.minus(k+":A2", s.home())
}
