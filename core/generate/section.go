package generate

import (
	"strconv"

	"halfsplit/core/panel"
)

// The strips of a section, by the last figure of their designations.
const (
	power    = iota // 230 V AC
	fused           // 24 V DC behind fuses
	zero            // 0 V
	loops           // 4-20 mA, fed and returned on one block
	inputs          // switches in the field
	outputs         // valves in the field
	control         // what a start-stop circuit has in the field
	signals         // 4-20 mA that the instrument drives
	earth           // PE
	sensors         // sensors of three wires
	stripsOf        // how many
)

var stripLabels = [stripsOf]string{"230 V AC", "24 V DC fused", "0 V", "4-20 mA", "inputs", "outputs", "control", "signals", "PE", "sensors"}

// A section is one DC supply and what it feeds, on strips of its own.
type section struct {
	*drawing
	number        int
	size          int     // blocks
	line, neutral string  // where the next breaker takes its power
	mains         float64 // amperes of motors and supply
	load          float64 // amperes of the DC supply
	strips        [stripsOf]strip
	homes         int   // wires landed on the 0 V strip
	instruments   int   // of which each has its loop number
	supplies      []int // parts, and wires, whose size the load decides
	supplyWires   []int
	unrated       []int // breakers likewise
	cards         [cardsOf]card
}

// A strip on its way.
type strip struct {
	ref, label string
	blocks     []panel.Block
	jumpers    []panel.Jumper
}

func (s *strip) add(b panel.Block) string {
	b.No = strconv.Itoa(len(s.blocks) + 1)
	s.blocks = append(s.blocks, b)
	return s.ref + ":" + b.No
}

// section draws a section of so many blocks, fed from line and neutral and earthed
// at the bar's terminal.
func (d *drawing) section(number, size int, line, neutral, bar string) *section {
	s := &section{drawing: d, number: number, size: size, line: line, neutral: neutral}
	for k, label := range stripLabels {
		s.strips[k] = strip{ref: "X" + strconv.Itoa(10*number+k), label: label}
	}
	s.supply(bar)
	s.circuits()
	s.spares()
	s.finish()
	return s
}

// left is how many blocks are still to be placed.
func (s *section) left() int {
	n := s.size
	for k := range s.strips {
		n -= len(s.strips[k].blocks)
	}
	return n
}

// supply draws the DC supply with its breaker, the earth strip and the link from
// 0 V to it. Its rating is chosen in finish, when the load is known.
func (s *section) supply(bar string) {
	s.wire(bar, s.ground("PE of this rail"), "4 mm2", s.metres(), "GNYE")
	t := s.dcSupply("24 V supply of section " + strconv.Itoa(s.number))
	plus := t + ":+"
	if s.size > 60 && s.chance(15) {
		plus = s.joined(t)
	}
	s.supplyWires = append(s.supplyWires, s.wire(plus, s.strips[fused].ref+":1/in", "", s.metres(), "BU"),
		s.wire(t+":-", s.home(), "", s.metres(), "WHBU"))
	s.wire(s.home(), s.ground("0 V to PE link"), "2.5 mm2", s.metres(), "GNYE")
}

// dcSupply draws a supply of 24 V behind a breaker.
func (s *section) dcSupply(label string) string {
	f, t := s.breaker("C6", "supply"), s.ref("T")
	s.supplies = append(s.supplies, s.part(panel.Part{Ref: t, Kind: "dc-supply", Label: label,
		Ratings: map[string]string{"voltage": "24 V", "class": "PELV"}, Process: "all of section " + strconv.Itoa(s.number) + " stops"}))
	s.wire(f+":2", t+":L", "1.5 mm2", s.metres(), "BK")
	s.wire(f+":4", t+":N", "1.5 mm2", s.metres(), "BU")
	s.wire(s.ground("PE of "+t), t+":PE", "2.5 mm2", s.metres(), "GNYE")
	return t
}

// breaker draws a two-pole breaker in the chain of the incoming supply.
func (s *section) breaker(rating, label string) string {
	f := s.ref("F")
	s.part(panel.Part{Ref: f, Kind: "breaker", Label: label, Ratings: map[string]string{"current": rating, "poles": "2"}})
	s.feed(s.line, f+":1", "BK")
	s.feed(s.neutral, f+":3", "BU")
	s.line, s.neutral = f+":1", f+":3"
	return f
}

// fuse adds a fuse block and gives its outgoing side.
func (s *section) fuse(rating, label string) string {
	b := panel.Block{Type: "fuse-block", Fuse: rating, Label: label}
	if s.chance(70) {
		b.Indicator = "24 V"
	}
	return s.strips[fused].add(b) + "/out"
}

// ground adds a ground block.
func (s *section) ground(label string) string {
	return s.strips[earth].add(panel.Block{Type: "ground", Label: label})
}

// home gives the next free place on the 0 V strip: two wires a clamp, two clamps
// a block.
func (s *section) home() string {
	if s.homes%4 == 0 {
		s.strips[zero].add(panel.Block{Type: "feed-through", Label: "0 V"})
	}
	at := s.strips[zero].ref + ":" + strconv.Itoa(s.homes/4+1) + []string{"/in", "/in", "/out", "/out"}[s.homes%4]
	s.homes++
	return at
}

// spares fills the section up to its size.
func (s *section) spares() {
	for k := 0; s.left() > 0; k++ {
		switch k % 3 {
		case 0:
			s.strips[zero].add(panel.Block{Type: "feed-through", Label: "spare"})
		case 1:
			s.fuse("1 A T", "spare")
		case 2:
			s.ground("spare")
		}
	}
}

// finish puts the jumper bars in, hands the strips over and chooses the supply.
func (s *section) finish() {
	s.bridge(fused, 0, "in")
	s.bridge(zero, 0, "")
	s.bridge(loops, 2, "in")
	s.bridge(inputs, 2, "")
	s.bridge(outputs, 1, "")
	s.bridge(sensors, 1, "")
	s.bridge(sensors, 3, "")
	for _, st := range s.strips {
		if len(st.blocks) > 0 {
			s.p.Strips = append(s.p.Strips, panel.Strip{Ref: st.ref, Label: st.label, Blocks: st.blocks, Jumpers: st.jumpers})
		}
	}
	chosen := ladder(s.load*1.4, supplySizes)
	for _, k := range s.supplies {
		s.p.Parts[k].Ratings["current"] = chosen.text
	}
	for _, k := range s.unrated {
		s.p.Parts[k].Ratings["current"] = chosen.link
	}
	for _, k := range s.supplyWires {
		s.p.Wires[k].Size = chosen.size
	}
	s.mains += 24 * s.load / 0.88 / 230
}

// bridge joins all blocks by bars of five to ten fingers, each sharing its last
// block with the next one: a block has two slots.
func (s *section) bridge(k, level int, side string) {
	st := &s.strips[k]
	for from := 0; from < len(st.blocks)-1; {
		to := min(from+s.between(4, 9), len(st.blocks)-1)
		j := panel.Jumper{Level: level, Side: side}
		for b := from; b <= to; b++ {
			j.Blocks = append(j.Blocks, st.blocks[b].No)
		}
		st.jumpers = append(st.jumpers, j)
		from = to
	}
}
