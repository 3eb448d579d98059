package circuit

import "math"

// real arithmetic. Products are written float64(a*b) so that no processor
// fuses them with a sum: results are the same bytes on every machine.

var realKernel = kernel[float64]{
	mul:     func(a, b float64) float64 { return a * b },
	inverse: func(g float64) float64 { return 1 / g },
	size:    math.Abs,
	reduce:  reduceReal,
	step:    stepReal,
}

// reduceReal eliminates a vertex joined to its members by the edges of col, which
// are conductances g and edge currents h counted from it:
//
//	sum     = Σ g(i)
//	g(i,j) += g(i)·g(j)/sum
//	h(i,j) += (g(i)·h(j) − h(i)·g(j))/sum     counted from i to j
//	v       = Σ g(i)/sum·v(i) − Σ h(i)/sum
//
// Conductances are only ever added, so none loses digits; h is kept once for
// each pair, so what leaves i arrives at j and no charge is made.
//
// Source: star-mesh transformation, Rosen, J. IEE 62 (1924), 916-918 (from
// memory); h by hand, from Kirchhoff's current law at the vertex.
func reduceReal(col, out []edge[float64], ratio []float64) (pv pivot[float64], reach float64, m mood) {
	var sum, h float64
	driven := false // most vertices are not: there is no source in their subtree
	for i := range col {
		sum += col[i].g
		h += col[i].h
		driven = driven || col[i].h != 0
	}
	inv := 1 / sum
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
		if !driven {
			for j := range rest {
				row[j].g += float64(r * rest[j].g)
			}
			continue
		}
		for j := range rest {
			row[j].g += float64(r * rest[j].g)
			row[j].h += float64(r*rest[j].h) - float64(h*share[j])
		}
	}
	if !(sum > 0) || inv == 0 || h-h != 0 {
		m = bad
	}
	return pivot[float64]{sum, float64(-h * inv)}, 1, m
}

// stepReal has the voltage of vertex t from those of its members.
func stepReal(s *system[float64], t int32, was float64) float64 {
	v := &s.volts[t]
	if v.at != s.epoch {
		mem, ratio := s.row(t)
		x, volts := s.pivotOf(t).free, s.volts
		mem = mem[:len(mem)-1] // Earth is at 0 V
		ratio = ratio[:len(mem)]
		for i, m := range mem {
			x += float64(ratio[i] * volts[m].x)
		}
		v.x, v.at = x, s.epoch
	}
	return math.Abs(v.x - was)
}
