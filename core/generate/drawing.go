package generate

import (
	"strconv"

	"halfsplit/core/panel"
)

// A drawing is a panel on its way.
type drawing struct {
	random
	p      *panel.Panel
	last   map[string]int    // the last number given to each letter
	normal map[string]string // where the condition "normal" sets things
	idle   map[string]string // and "stopped"
	steps  []string

	unsized []int // wires of the group before the sections' breakers
}

// ref gives the next designation of a letter.
func (d *drawing) ref(letter string) string {
	d.last[letter]++
	return letter + strconv.Itoa(d.last[letter])
}

// part adds a part and gives its index, since a later append moves the slice.
func (d *drawing) part(p panel.Part) int {
	d.p.Parts = append(d.p.Parts, p)
	return len(d.p.Parts) - 1
}

// wire adds a wire and gives its index.
func (d *drawing) wire(from, to, size, length, colour string) int {
	d.p.Wires = append(d.p.Wires, panel.Wire{No: d.ref("W"), From: from, To: to, Size: size, Length: length, Colour: colour})
	return len(d.p.Wires) - 1
}

// feed adds a wire before the sections' breakers; its size comes later.
func (d *drawing) feed(from, to, colour string) {
	d.unsized = append(d.unsized, d.wire(from, to, "", d.metres(), colour))
}

// plus adds a 24 V wire inside the panel, minus one of 0 V. Colour: IEC 60204-1
// 13.2.4, blue for DC control circuits.
func (d *drawing) plus(from, to string) { d.wire(from, to, d.thin(), d.metres(), "BU") }

func (d *drawing) minus(from, to string) { d.wire(from, to, "1 mm2", d.metres(), "WHBU") }

func (d *drawing) thin() string { return pick(&d.random, "0.75 mm2", "1 mm2", "18 AWG") }

// metres is a length of wire inside a panel.
func (d *drawing) metres() string {
	return strconv.FormatFloat(float64(d.between(3, 20))/10, 'f', -1, 64) + " m"
}

// A core of a cable to the field.
type core struct{ from, to, colour string }

// cable adds the cores of one cable of 5 to 40 m.
func (d *drawing) cable(size string, cores ...core) {
	no, length := d.ref("C"), strconv.Itoa(d.between(5, 40))+" m"
	for k, c := range cores {
		d.p.Wires = append(d.p.Wires, panel.Wire{No: d.ref("W"), From: c.from, To: c.to,
			Size: size, Length: length, Colour: c.colour, Cable: no, Core: strconv.Itoa(k + 1)})
	}
}

// both sets something in the running plant and in the stopped one.
func (d *drawing) both(ref, position string) { d.normal[ref], d.idle[ref] = position, position }
