package draft

import (
	"maps"
	"slices"
	"strconv"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// A pattern is a part with what belongs to it alone: its wires, the blocks they
// land on, the wires that go on from there, the channels they end at.
//
// A block belongs to the part where nothing else lands on it but at most one
// wire that goes on to a block or a channel. A block that also serves something
// else (a common of several loads, a fuse fed by a wire of its own) does not:
// the copies land on the same block. Where a bar feeds a block, a wire that goes
// on from it feeds the bar, and the copies do not need it.
type pattern struct {
	part     string
	wires    map[int]bool            // index into the document's wires
	numbers  map[string]map[int]bool // strip → numbers of its own blocks' markings
	marks    map[string]string       // "X1:7" → marking "7", of own blocks
	channels map[string]map[int]bool // card → channels
}

// pattern finds what belongs to a part.
func (d *drafter) pattern(ref string) *pattern {
	p := &pattern{part: ref, wires: map[int]bool{}, numbers: map[string]map[int]bool{}, marks: map[string]string{}, channels: map[string]map[int]bool{}}
	var reached []string
	for i, w := range d.p.Wires {
		from, to := onPart(w.From, ref), onPart(w.To, ref)
		if !from && !to {
			continue
		}
		p.wires[i] = true
		if !to {
			reached = append(reached, w.To)
		}
		if !from {
			reached = append(reached, w.From)
		}
	}
	for n := 0; n < len(reached); n++ { // grows as wires go on
		reached = append(reached, d.reach(p, reached[n])...)
	}
	return p
}

// reach takes in what a wire of the pattern ends at, and says where wires go on
// to from there.
func (d *drafter) reach(p *pattern, text string) (on []string) {
	s, i := d.findBlock(text)
	if s == nil || i < 0 {
		if card, n, ok := d.channel(text); ok {
			add(p.channels, card, n)
		}
		return nil
	}
	name := s.Ref + ":" + s.Blocks[i].No
	_, n, _ := number(s.Blocks[i].No)
	if n < 0 || p.marks[name] != "" {
		return nil
	}
	var others []int
	for k, w := range d.p.Wires {
		if !p.wires[k] && (d.onBlock(w.From, s, i) || d.onBlock(w.To, s, i)) {
			others = append(others, k)
		}
	}
	jumpered := slices.ContainsFunc(s.Jumpers, func(j panel.Jumper) bool { return slices.Contains(j.Blocks, s.Blocks[i].No) })
	switch {
	case len(others) > 1:
		return nil
	case len(others) == 1:
		w := d.p.Wires[others[0]]
		far := w.To
		if d.onBlock(w.To, s, i) {
			far = w.From
		}
		_, _, channel := d.channel(far)
		if _, k := d.findBlock(far); k < 0 && !channel {
			if !jumpered {
				return nil
			}
			break // it feeds the bar
		}
		p.wires[others[0]] = true
		on = append(on, far)
	}
	p.marks[name] = s.Blocks[i].No
	add(p.numbers, s.Ref, n)
	return on
}

func add(sets map[string]map[int]bool, key string, n int) {
	if sets[key] == nil {
		sets[key] = map[int]bool{}
	}
	sets[key][n] = true
}

// channel reads the end of a wire as a channel of a controller card.
func (d *drafter) channel(text string) (card string, n int, ok bool) {
	pt, is := panel.ParsePoint(text)
	if !is {
		return "", 0, false
	}
	part := d.findPart(pt.Device)
	if part == nil {
		return "", 0, false
	}
	k, known := parts.Lookup(part.Kind)
	n, err := strconv.Atoi(pt.Terminal)
	return part.Ref, n, known && !k.Block && byChannel(k) && err == nil
}

// stride is by how much a set of numbers is counted on so that the next copy
// lies beside the first: 1 for {7} and {7, 17}, 2 for {7, 8}.
func stride(set map[int]bool) int {
	numbers := slices.Collect(maps.Keys(set))
	for s := 1; ; s++ {
		if !slices.ContainsFunc(numbers, func(n int) bool { return set[n+s] }) {
			return s
		}
	}
}
