package circuit

// real arithmetic. Products are written float64(a*b) so that no processor
// fuses them with a sum: results are the same bytes on every machine.

var realKernel = kernel[float64]{
	mul:       func(a, b float64) float64 { return a * b },
	inverse:   func(g float64) float64 { return 1 / g },
	size:      func(x float64) float64 { return max(x, -x) },
	eliminate: eliminateReal,
	back:      backReal,
}

// eliminateReal eliminates vertex t, joined to its members by conductances g
// and edge currents h counted from t:
//
//	sum     = Σ g(i)
//	g(i,j) += g(i)·g(j)/sum
//	h(i,j) += (g(i)·h(j) − h(i)·g(j))/sum     counted from i to j
//	v(t)    = Σ g(i)/sum·v(i) − Σ h(i)/sum
//
// Conductances are only ever added, so none loses digits; h is kept once for
// each pair, so what leaves i arrives at j and no charge is made.
//
// Source: star-mesh transformation, Rosen, J. IEE 62 (1924), 916-918 (from
// memory); h by hand, from Kirchhoff's current law at t.
func eliminateReal(s *system[float64], t int32) mood {
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
	for _, k := range p.kid[p.kidAt[t]:p.kidAt[t+1]] {
		from := p.pairAt[k]
		if s.page[k] != 0 {
			from += p.pairAt[n]
		}
		in := s.pairs[from:]
		slot := p.slot[p.memAt[k]+1 : p.memAt[k+1]]
		in = in[:int32(len(slot)*(len(slot)+1)/2)]
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
	var sum, h float64
	for i := range col {
		sum += col[i].g
		h += col[i].h
	}
	inv := 1 / sum
	at := first
	if s.page[t] != 0 {
		at += int32(len(p.mem))
	}
	ratio := s.ratio[at : at+m]
	for i := range col {
		ratio[i] = col[i].g * inv
	}
	x := 0
	for i := range col {
		r, h := ratio[i], col[i].h
		rest := col[i+1:]
		share := ratio[i+1:][:len(rest)]
		row := out[x:][:len(rest)]
		x += len(rest)
		for j := range rest {
			row[j].g += float64(r * rest[j].g)
			row[j].h += float64(r*rest[j].h) - float64(h*share[j])
		}
	}
	pv := &s.pivot[t+int32(s.page[t])*n]
	pv.sum, pv.free, pv.gain = sum, float64(-h*inv), 1
	if !(sum > 0) || inv == 0 || h-h != 0 {
		return bad
	}
	return well
}

// backReal is the voltage of vertex t from those of its members.
func backReal(s *system[float64], t int32) float64 {
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
		v += float64(ratio[i] * s.volts[m].x)
	}
	return v
}
