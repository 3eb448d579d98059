package circuit

// drive sends the link currents into the network as charge, and marks the
// voltages they change.
func (s *system[T]) drive() {
	p, l := s.plan, &s.links
	l.grow(p.nodes)
	s.merged = s.merged[:0]
	for i := range l.list {
		k := &l.list[i]
		a, b := p.at[k.ends.A], p.at[k.ends.B]
		s.add(a, -k.i)
		s.add(b, k.i)
		l.driven = append(l.driven, a, b)
	}
	l.driven = append(l.driven[:0], s.climb(l.driven)...)
	for _, t := range l.driven {
		s.pass(t)
	}
	l.hi[p.nodes-1], l.lo[p.nodes-1] = 0, 0
	s.epoch++
}

// undrive takes all drives back.
func (s *system[T]) undrive() {
	l := &s.links
	for _, t := range l.driven {
		s.volts[t].drive = 0
	}
	l.driven, l.everywhere = l.driven[:0], false
}

// add puts charge on vertex t. What rounding would lose goes to the low part.
func (s *system[T]) add(t int32, x T) {
	l := &s.links
	var low T
	l.hi[t], low = twoSum(l.hi[t], x)
	l.lo[t] += low
}

// pass turns the charge that arrived at t into a drive of its voltage and hands
// it on.
func (s *system[T]) pass(t int32) {
	q := s.spread(t)
	s.volts[t].drive = s.mul(q, s.inverse(s.pivot[int(t)+int(s.page[t])*s.plan.nodes].sum))
}

// spread hands the charge that arrived at t on to its members, in the ratio of
// their conductances, and returns it.
//
// A piece of metal that floats on insulation turns a lost 1e-15 A into volts,
// so no charge may be lost: the member with the largest share gets what the
// others leave, and the low parts whole.
//
// Source: the error-free sum is Knuth, The Art of Computer Programming, vol. 2,
// section 4.2.2, theorem B (from memory).
func (s *system[T]) spread(t int32) T {
	p, l := s.plan, &s.links
	hi, lo := l.hi[t], l.lo[t]
	l.hi[t], l.lo[t] = 0, 0
	first, last := p.memAt[t], p.memAt[t+1]
	page := int32(0)
	if s.page[t] != 0 {
		page = int32(len(p.mem))
	}
	ratio, mem := s.ratio[page+first:page+last], p.mem[first:last]
	big, most := 0, s.size(ratio[0])
	for i, r := range ratio[1:] {
		if z := s.size(r); z > most {
			big, most = i+1, z
		}
	}
	rest, low := hi, lo
	for i, m := range mem {
		if i != big {
			x := s.mul(ratio[i], hi)
			var e T
			rest, e = twoSum(rest, -x)
			low += e
			s.add(m, x)
		}
	}
	s.add(mem[big], rest)
	l.lo[mem[big]] += low
	return hi + lo
}

// twoSum is a+b rounded, and what rounding took away.
func twoSum[T number](a, b T) (sum, low T) {
	sum = a + b
	bb := sum - a
	return sum, (a - (sum - bb)) + (b - bb)
}
