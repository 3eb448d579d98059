package circuit

import "math"

// complex arithmetic, by hand: Go may fuse the products of its own complex
// multiplication, and its division differs in the last digit between machines.

var complexKernel = kernel[complex128]{
	mul:       mul,
	inverse:   inverse,
	size:      modulus,
	eliminate: eliminateComplex,
	back:      backComplex,
}

// maxCancel is how far the admittances about a vertex may cancel (Σ|y|/|Σy|)
// before the whole solution's residual is checked. 1000 costs three digits of
// sixteen; coils against cables and motor capacitors stay far below it, a
// lossless resonance does not.
const maxCancel = 1000

// mul is a·b.
func mul(a, b complex128) complex128 {
	return complex(
		float64(real(a)*real(b))-float64(imag(a)*imag(b)),
		float64(real(a)*imag(b))+float64(imag(a)*real(b)))
}

// inverse is 1/y, for |y| between 1e-150 and 1e150.
func inverse(y complex128) complex128 {
	d := float64(real(y)*real(y)) + float64(imag(y)*imag(y))
	return complex(real(y)/d, -imag(y)/d)
}

func modulus(y complex128) float64 {
	return math.Sqrt(float64(real(y)*real(y)) + float64(imag(y)*imag(y)))
}

// eliminateComplex is eliminateReal with admittances for conductances. They may
// cancel in sum, which the mood reports.
func eliminateComplex(s *system[complex128], t int32) mood {
	p, n := s.plan, int32(s.plan.nodes)
	first, last := p.memAt[t], p.memAt[t+1]
	m := last - first
	col := s.col[:m]
	clear(col)
	for _, o := range p.own[p.ownAt[t]:p.ownAt[t+1]] {
		e := s.src[o.branch]
		c := &col[o.slot]
		c.g += e.g
		if o.flip {
			c.h -= e.h
		} else {
			c.h += e.h
		}
	}
	col[m-1].g += s.leak[p.node[t]]
	mine := p.pairAt[t]
	if s.page[t] != 0 {
		mine += p.pairAt[n]
	}
	out := s.pairs[mine : mine+p.pairAt[t+1]-p.pairAt[t]]
	clear(out)
	below := 0.0 // the largest gain among the children
	for _, k := range p.kid[p.kidAt[t]:p.kidAt[t+1]] {
		from, kv := p.pairAt[k], k
		if s.page[k] != 0 {
			from, kv = from+p.pairAt[n], kv+n
		}
		below = max(below, s.pivot[kv].gain)
		in := s.pairs[from:]
		slot := p.slot[p.memAt[k]+1 : p.memAt[k+1]]
		for x, j := range slot {
			c := &col[j]
			c.g += in[x].g
			c.h += in[x].h
		}
		in = in[len(slot):]
		for x, i := range slot {
			row := i*m - i*(i+1)/2 - i - 1
			rest := slot[x+1:]
			for y, j := range rest {
				o := &out[row+j]
				o.g += in[y].g
				o.h += in[y].h
			}
			in = in[len(rest):]
		}
	}
	var sum, h complex128
	for i := range col {
		sum += col[i].g
		h += col[i].h
	}
	inv := inverse(sum)
	at := first
	if s.page[t] != 0 {
		at += int32(len(p.mem))
	}
	ratio := s.ratio[at : at+m]
	reach := 0.0 // Σ|ratio|, Earth apart
	for i := range col {
		ratio[i] = mul(col[i].g, inv)
		if i < len(col)-1 {
			reach += modulus(ratio[i])
		}
	}
	x := 0
	for i := range col {
		r, h := ratio[i], col[i].h
		for j := i + 1; j < len(col); j++ {
			o := &out[x]
			o.g += mul(r, col[j].g)
			o.h += mul(r, col[j].h) - mul(h, ratio[j])
			x++
		}
	}
	pv := &s.pivot[t+int32(s.page[t])*n]
	pv.sum, pv.free = sum, -mul(h, inv)
	pv.gain = max(reach, float64(max(reach, 1)*below))
	switch q := modulus(inv); {
	case !(q > 0) || q > math.MaxFloat64 || !(modulus(h) <= math.MaxFloat64):
		return bad
	case reach+modulus(ratio[m-1]) > maxCancel:
		return weak
	}
	return well
}

// backComplex is the voltage of vertex t from those of its members.
func backComplex(s *system[complex128], t int32) complex128 {
	p := s.plan
	first, last := p.memAt[t], p.memAt[t+1]-1 // Earth is at 0 V
	at, pv := first, t
	if s.page[t] != 0 {
		at += int32(len(p.mem))
		pv += int32(p.nodes)
	}
	v := s.pivot[pv].free + s.volts[t].drive
	ratio := s.ratio[at : at+last-first]
	for i, m := range p.mem[first:last] {
		v += mul(ratio[i], s.volts[m].x)
	}
	return v
}
