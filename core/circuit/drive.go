package circuit

// add puts charge on vertex t. What rounding would lose goes to the low part.
func (s *system[T]) add(t int32, x T) {
	var low T
	s.hi[t], low = twoSum(s.hi[t], x)
	s.lo[t] += low
}

// pass turns the charge that arrived at t into a drive of its voltage and hands
// it on.
func (s *system[T]) pass(t int32) {
	q := s.spread(t)
	s.drive[t] = s.mul(q, s.inverse(s.pivotOf(t).sum))
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
	hi, lo := s.hi[t], s.lo[t]
	s.hi[t], s.lo[t] = 0, 0
	mem, ratio := s.row(t)
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
	s.lo[mem[big]] += low
	return hi + lo
}

// twoSum is a+b rounded, and what rounding took away.
func twoSum[T number](a, b T) (sum, low T) {
	sum = a + b
	bb := sum - a
	return sum, (a - (sum - bb)) + (b - bb)
}
