package generate

import (
	"strconv"

	"halfsplit/core/panel"
)

// sensorBlock adds a block of the sensors' strip: 0 V below, the signal between,
// 24 V on top.
func (s *section) sensorBlock(label string) string {
	b := s.strips[sensors].add(panel.Block{Type: "triple-level", Label: label})
	if b == s.strips[sensors].ref+":1" {
		s.minus(b+".1/in", s.home())
		s.plus(s.fuse("1 A T", "sensors"), b+".3/in")
	}
	return b
}

// proximity draws a three-wire sensor on a block and gives its signal in the panel.
func (s *section) proximity(kind string) string {
	b, tag := s.position(kind, pick(&s.random, "ZSO", "ZSC"))
	block := s.sensorBlock(tag)
	s.cable("0.75 mm2", core{block + ".3/out", b + ":1", "BN"}, core{block + ".1/out", b + ":3", "BU"}, core{b + ":4", block + ".2/out", "BK"})
	s.load += 0.015
	return block + ".2/in"
}

// sensor draws a PNP sensor on an input that takes current. Some have a resistor
// beside the input, against leakage.
func (s *section) sensor() {
	signal, ch := s.proximity("proximity-pnp"), s.channel(digitalIn)
	s.plus(signal, ch)
	if s.chance(30) {
		r := s.ref("R")
		s.part(panel.Part{Ref: r, Kind: "resistor", Label: "beside " + ch, Ratings: map[string]string{"resistance": "4.7 kohm"}})
		s.plus(signal, r+":1")
		s.minus(r+":2", s.home())
	}
}

// sinkingSensor draws an NPN sensor on an input that gives current.
func (s *section) sinkingSensor() { s.plus(s.proximity("proximity-npn"), s.channel(sourcingIn)) }

// seriesSensor draws a two-wire sensor in series with its input, of type 3: those of
// type 1 are not meant for it.
func (s *section) seriesSensor() {
	b, tag := s.position("proximity-2wire", "ZSH")
	block := s.sensorBlock(tag)
	s.cable("0.75 mm2", core{block + ".3/out", b + ":1", "BN"}, core{b + ":4", block + ".2/out", "BK"})
	s.plus(block+".2/in", s.channel(seriesIn))
	s.load += 0.005
}

// namur draws a NAMUR sensor with its amplifier, whose contact is an input.
func (s *section) namur() {
	b, tag := s.instrument("namur-sensor", "ZSL", "position")
	k := s.ref("K")
	s.part(panel.Part{Ref: k, Kind: "namur-amplifier", Label: "amplifier of " + tag})
	block := s.strips[signals].add(panel.Block{Type: "double-level", Label: tag})
	feed := s.fuse("1 A T", "amplifier "+k)
	s.plus(feed, k+":L+")
	s.minus(k+":M", s.home())
	s.plus(k+":L+", k+":11")
	s.plus(k+":14", s.channel(digitalIn))
	s.wire(k+":S+", block+".2/in", "0.75 mm2", s.metres(), "BU")
	s.wire(k+":S-", block+".1/in", "0.75 mm2", s.metres(), "BU")
	s.cable("0.75 mm2", core{block + ".2/out", b + ":+", "BN"}, core{b + ":-", block + ".1/out", "BU"})
	s.load += 0.035
}

// threeWire draws an instrument whose signal returns with its supply.
func (s *section) threeWire() {
	b, tag := s.transmitter("transmitter-3wire", "PT", "TT")
	block := s.sensorBlock(tag)
	s.cable("0.75 mm2", core{block + ".3/out", b + ":+", "BN"}, core{b + ":-", block + ".1/out", "BU"}, core{b + ":S", block + ".2/out", "BK"},
		core{s.ground("PE of " + tag), b + ":PE", "GNYE"})
	s.plus(block+".2/in", s.channel(analogueIn))
	s.load += 0.065
}

// fedLoop draws an instrument on an input that feeds its loop, its protective
// conductor on the block.
func (s *section) fedLoop() {
	b, tag := s.transmitter("transmitter-2wire", "LT", "PT")
	block := s.strips[signals].add(panel.Block{Type: "triple-level-ground", Label: tag})
	s.wire(s.ground("PE of "+block), block+".1/in", "2.5 mm2", s.metres(), "GNYE")
	s.cable("0.75 mm2", core{block + ".3/out", b + ":+", "BN"}, core{b + ":-", block + ".2/out", "BU"}, core{block + ".1/out", b + ":PE", "GNYE"})
	s.plus(s.channel(loopFeed), block+".3/in")
	s.minus(block+".2/in", s.home())
	s.load += 0.02
}

// resistanceThermometer draws a Pt100 with three wires.
func (s *section) resistanceThermometer() {
	b, tag := s.instrument("rtd", "TE", "Pt100")
	s.somewhere(b)
	block := s.strips[signals].add(panel.Block{Type: "triple-level", Label: tag})
	ch := s.channel(rtdIn)
	for k, c := range []string{"", "b", "c"} {
		s.wire(block+"."+strconv.Itoa(k+1)+"/in", ch+c, "0.75 mm2", s.metres(), "BU")
	}
	s.cable("0.75 mm2", core{block + ".1/out", b + ":1", "RD"}, core{block + ".2/out", b + ":2", "WH"}, core{block + ".3/out", b + ":3", "WH"})
}

// couple draws a thermocouple.
func (s *section) couple() {
	b, tag := s.instrument("thermocouple", "TE", "thermocouple")
	s.somewhere(b)
	block := s.strips[signals].add(panel.Block{Type: "double-level", Label: tag})
	ch := s.channel(coupleIn)
	s.wire(block+".2/in", ch, "0.75 mm2", s.metres(), "GN")
	s.wire(block+".1/in", ch+"b", "0.75 mm2", s.metres(), "WH")
	s.cable("0.75 mm2", core{block + ".2/out", b + ":+", "GN"}, core{block + ".1/out", b + ":-", "WH"})
}
