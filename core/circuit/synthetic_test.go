package circuit

import "math/rand"

// A panel is a synthetic network shaped like a control panel's: rails of
// terminal blocks in jumper chains, and circuits that run from a fused block
// through clamps, strands, wires, contacts and a load to a block of the return
// rail. Some supplies float, some have 0 V bonded to Earth.
type panel struct {
	ends   []Ends
	values []Value
	leak   []float64
	loads  []int // branches
	wires  []int
	clamps []int
}

func (p *panel) node() Node {
	p.leak = append(p.leak, 1e-9*(1+float64(len(p.leak)%7)/100))
	return Node(len(p.leak) - 1)
}

func (p *panel) join(a, b Node, v Value) int {
	p.ends, p.values = append(p.ends, Ends{a, b}), append(p.values, v)
	return len(p.ends) - 1
}

// run is a conductor from a to a new piece of metal: clamp, strand, wire,
// strand, clamp.
func (p *panel) run(r *rand.Rand, a Node) Node {
	x, y, b := p.node(), p.node(), p.node()
	p.clamps = append(p.clamps, p.join(a, x, Value{G: 500 + 1500*r.Float64()}))
	p.wires = append(p.wires, p.join(x, y, Value{G: 5 + 100*r.Float64()}))
	p.clamps = append(p.clamps, p.join(y, b, Value{G: 500 + 1500*r.Float64()}))
	return b
}

// rail is a jumper chain of blocks that grows as circuits ask for one.
type rail struct {
	p    *panel
	last Node
}

func (l *rail) block(r *rand.Rand) Node {
	b := l.p.node()
	l.p.join(l.last, b, Value{G: 2000 + 3000*r.Float64()})
	l.last = b
	return b
}

// synthetic makes a panel of about the given number of nodes.
func synthetic(nodes int, seed int64) *panel {
	r := rand.New(rand.NewSource(seed))
	p := &panel{leak: []float64{0}}
	const perSupply = 1500 // nodes
	for s := 0; len(p.leak) < nodes; s++ {
		plus, minus := p.node(), p.node()
		p.join(minus, plus, Value{G: 100, E: 24})
		if s%3 != 1 {
			p.join(minus, Earth, Value{G: 200}) // bonded; every third floats
		}
		end := min(nodes, len(p.leak)+perSupply)
		var taps []Node
		hot, cold := rail{p, plus}, rail{p, minus}
		for len(p.leak) < end {
			out := p.node()
			p.join(hot.block(r), out, Value{G: 20}) // fuse
			group := rail{p, out}
			for c := 2 + r.Intn(8); c > 0; c-- {
				at := p.run(r, group.block(r))
				for k := r.Intn(4); k > 0; k-- { // contacts in series
					b := p.node()
					v := Value{G: 20}
					if r.Intn(4) == 0 {
						v = Value{}
					}
					p.join(at, b, v)
					at = p.run(r, b)
				}
				taps = append(taps, at)
				if r.Intn(6) == 0 { // a cross connection: seal-in, shared input
					p.join(at, taps[r.Intn(len(taps))], Value{G: 1. / float64(1+r.Intn(5000))})
				}
				b := p.node()
				p.loads = append(p.loads, p.join(at, b, Value{G: 1. / float64(50+r.Intn(5000))}))
				back := p.run(r, b)
				p.join(back, cold.block(r), Value{G: 1000})
			}
		}
	}
	return p
}
