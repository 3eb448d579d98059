package parts

import (
	"strconv"
	"strings"

	"halfsplit/core/circuit"
	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

// Assemble turns a panel into its network: mains, strips with their rails and
// jumpers, parts, then wires. What the document leaves unreadable is skipped or
// stands at its default, since package check reports it with its place; nothing
// panics.
func Assemble(p *panel.Panel) *Net {
	a := &assembler{
		Builder: Builder{net: roomy(len(p.Wires)), index: make(map[string]circuit.Node, 4*len(p.Wires))},
		places:  map[string]Place{},
		panel:   p,
	}
	a.Node("earth") // node 0
	for i := range p.Mains {
		a.mains(&p.Mains[i])
	}
	if len(p.Mains) > 0 {
		a.point(Point{Name: EarthPoint, Ref: EarthPoint, Node: circuit.Earth})
	}
	a.feedFrequency()
	for i := range p.Strips {
		a.strip(&p.Strips[i])
	}
	for i := range p.Parts {
		a.part(&p.Parts[i])
	}
	for i := range p.Wires {
		a.wire(i, &p.Wires[i])
	}
	return a.net
}

// roomy gives a net with room for what a panel of so many wires usually has, so
// that a large one does not grow into it by copies.
func roomy(wires int) *Net {
	return &Net{
		Nodes: make([]Node, 0, 4*wires), Branches: make([]Branch, 0, 5*wires), Modes: make([]Mode, 0, 11*wires),
		Points: make([]Point, 0, 4*wires), Ends: make([]WireEnd, 0, 2*wires), Places: make([]Place, 0, 3*wires),
		points: make(map[string]int, 5*wires), inputs: map[string]int{},
	}
}

// EarthPoint is any bonded metal of the plant: where a person in the field holds
// the black lead when the device has no return at hand (common practice).
const EarthPoint = "PE"

type assembler struct {
	Builder
	places map[string]Place // every accepted spelling of a clamp
	panel  *panel.Panel
}

func (a *assembler) mains(m *panel.Mains) {
	part := &panel.Part{Ref: m.Ref, Kind: mains.Name, Ratings: map[string]string{
		"voltage": m.Voltage, "frequency": m.Frequency, "impedance": m.Impedance}}
	a.System = m.Earthing
	a.part(part)
}

// feedFrequency takes the frequency of a panel without mains from what else feeds
// it, before anything reckons with it.
func (a *assembler) feedFrequency() {
	for i := range a.panel.Parts {
		p := &a.panel.Parts[i]
		if k, ok := Lookup(p.Kind); ok && k.Source && a.net.Frequency == 0 {
			a.net.Frequency = ratingsOf(k, p.Ratings)["frequency"]
		}
	}
}

func (a *assembler) part(p *panel.Part) {
	k, ok := Lookup(p.Kind)
	if !ok || k.Block {
		return
	}
	a.Kind, a.Part, a.Block, a.Ref = k, p, nil, p.Ref
	a.R = ratingsOf(k, p.Ratings)
	k.Build(&a.Builder)
	field := p.At == "field"
	for _, t := range k.Terminals(p) {
		name := p.Ref + ":" + t.Name
		n := a.Terminal(t.Name)
		a.point(Point{Name: name, Ref: p.Ref, Node: n, Field: field})
		a.place(Place{Name: name, Node: n, Row: p.Ref, Field: field, Pole: t.Pole, Return: k.Feeds && (t.Pole == Negative || t.Pole == Neutral), Feed: k.Feeds && (t.Pole == Positive || t.Pole == Line && k.Source)})
	}
}

func ratingsOf(k *Kind, written map[string]string) Ratings {
	r := Ratings{}
	for _, want := range k.Ratings {
		if want.Dim == 0 {
			continue
		}
		if v, err := unit.Parse(written[want.Name], want.Dim); err == nil && v > 0 {
			r[want.Name] = v
		} else if v, err := unit.Parse(want.Default, want.Dim); err == nil {
			r[want.Name] = v
		}
	}
	return r
}

// Protection reads the rating of this fuse or breaker.
func (b *Builder) Protection() unit.Fuse {
	f, err := unit.ParseFuse(b.Part.Ratings["current"])
	if err != nil {
		return unit.Fuse{Rated: 2, Class: "T"} // package check has told
	}
	return f
}

func (a *assembler) strip(s *panel.Strip) {
	built := map[string]builtBlock{}
	a.rail = -1
	for i := range s.Blocks {
		block := &s.Blocks[i]
		k, ok := Lookup(block.Type)
		if !ok || !k.Block {
			continue
		}
		a.Kind, a.Part, a.Block, a.Ref = k, nil, block, s.Ref+":"+block.No
		a.R, a.metals = nil, nil
		for _, m := range k.Metals {
			a.metals = append(a.metals, a.metal(s.Ref, a.Ref, m))
		}
		if k.OnRail && a.rail < 0 {
			a.rail = a.Node(s.Ref + ":rail")
			a.Earthing(a.rail)
			a.point(Point{Name: s.Ref + ":rail", Ref: s.Ref, Node: a.rail})
		}
		k.Build(&a.Builder)
		if e, ok := a.net.inputs[a.Ref+".2"]; ok { // the fused level answers to the block's own name too
			a.net.inputs[a.Ref] = e
		}
		if _, taken := built[block.No]; !taken {
			built[block.No] = builtBlock{k, a.metals}
		}
	}
	for i := range s.Jumpers {
		a.jumper(s, &s.Jumpers[i], built)
	}
}

// metal makes one piece of metal of a block with all its spellings.
func (a *assembler) metal(strip, ref string, m Metal) circuit.Node {
	name, row := ref, strip
	if m.Level > 0 {
		name += "." + strconv.Itoa(m.Level)
		row += "." + strconv.Itoa(m.Level)
	}
	sides := []string{"in", "out"}
	whole := name
	if m.Side != "" {
		sides, whole = []string{m.Side}, name+"/"+m.Side
	}
	n := a.Node(whole)
	a.point(Point{Name: whole, Ref: strip, Node: n})
	for _, side := range sides {
		spelt := name + "/" + side
		a.net.points[spelt] = len(a.net.Points) - 1
		a.place(Place{Name: spelt, Node: n, Row: row + "/" + side, Side: side})
	}
	return n
}

func (a *assembler) point(p Point) {
	if _, taken := a.net.points[p.Name]; taken {
		return
	}
	a.net.points[p.Name] = len(a.net.Points)
	a.net.Points = append(a.net.Points, p)
}

// strand adds the bare end of a wire as a point that is hidden while landed.
func (b *Builder) strand(name string, n circuit.Node, field bool) {
	b.net.points[name] = len(b.net.Points)
	b.net.Points = append(b.net.Points, Point{Name: name, Ref: b.Ref, Node: n, Field: field, Hidden: true})
}

func (a *assembler) place(p Place) {
	if _, taken := a.places[p.Name]; taken {
		return
	}
	a.places[p.Name] = p
	a.net.Places = append(a.net.Places, p)
}

// A builtBlock is a block's kind with its metals in the order of the kind.
type builtBlock struct {
	kind   *Kind
	metals []circuit.Node
}

// jumper makes the segments of a bridge bar, one between each two blocks it
// lands on, so that a missing or cut finger splits it where it would.
func (a *assembler) jumper(s *panel.Strip, j *panel.Jumper, built map[string]builtBlock) {
	find := func(no string) (circuit.Node, bool) {
		b, ok := built[no]
		if !ok {
			return 0, false
		}
		for m, metal := range b.kind.Metals {
			if (j.Level == 0 || metal.Level == 0 || metal.Level == j.Level) && (j.Side == "" || metal.Side == "" || metal.Side == j.Side) {
				return b.metals[m], true
			}
		}
		return 0, false
	}
	level := ""
	if j.Level > 0 {
		level = "." + strconv.Itoa(j.Level)
	}
	for i := 1; i < len(j.Blocks); i++ {
		from, ok1 := find(j.Blocks[i-1])
		to, ok2 := find(j.Blocks[i])
		if !ok1 || !ok2 {
			continue
		}
		thing := s.Ref + ":" + j.Blocks[i-1] + level + "~" + s.Ref + ":" + j.Blocks[i] + level
		k := a.Resistor(RoleJumper, thing, from, to, jumperOhms)
		a.Mode(Mode{Thing: thing, Name: "no-jumper", Class: "open", Changes: []Change{Open(k)}, Rate: rateJumper, Place: thing, Repair: "fit-jumper"})
	}
}

func (a *assembler) wire(i int, w *panel.Wire) {
	from, ok1 := a.landing(w.From, w.To)
	to, ok2 := a.landing(w.To, w.From)
	if !ok1 || !ok2 || w.No == "" || w.From == w.To {
		return
	}
	a.Kind, a.Part, a.Block, a.Ref = nil, nil, nil, w.No
	addWire(&a.Builder, i, w, from, to, from.Field || to.Field)
}

// landing finds the clamp a wire end names. On a block of one metal the side may
// be left out: the field side where the other end is in the field.
func (a *assembler) landing(at, other string) (Place, bool) {
	p, ok := panel.ParsePoint(at)
	if !ok {
		return Place{}, false
	}
	name := p.String()
	if place, ok := a.places[name]; ok {
		return place, true
	}
	side := "/in"
	if o, ok := panel.ParsePoint(other); ok && a.places[o.String()].Field {
		side = "/out"
	}
	if strings.Contains(name, "/") {
		return Place{}, false
	}
	in, ok1 := a.places[name+"/in"]
	out, ok2 := a.places[name+"/out"]
	if !ok1 || !ok2 || in.Node != out.Node {
		return Place{}, false
	}
	if side == "/in" {
		return in, true
	}
	return out, true
}
