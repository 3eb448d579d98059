package circuit

import "math"

// complex arithmetic, by hand: Go may fuse the products of its own complex
// multiplication, and its division differs in the last digit between machines.

var complexKernel = kernel[complex128]{
	mul:     mul,
	inverse: inverse,
	size:    modulus,
	reduce:  reduceComplex,
	step:    stepComplex,
	grows:   true,
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

// reduceComplex is reduceReal with admittances for conductances. They may cancel
// in sum, which the mood reports; reach is the sum of the ratios' magnitudes, Earth
// apart. A magnitude is taken as |re| + |im|, which is never too small.
func reduceComplex(col, out []edge[complex128], ratio []complex128) (pv pivot[complex128], reach float64, m mood) {
	var sum, h complex128
	driven := false
	for i := range col {
		sum += col[i].g
		h += col[i].h
		driven = driven || col[i].h != 0
	}
	inv := inverse(sum)
	whole := 0.0
	for i := range col {
		r := mul(col[i].g, inv)
		ratio[i] = r
		reach = whole
		whole += math.Abs(real(r)) + math.Abs(imag(r))
	}
	x := 0
	for i := range col {
		r, h := ratio[i], col[i].h
		rest := col[i+1:]
		row := out[x:][:len(rest)]
		x += len(rest)
		if !driven {
			for j := range rest {
				row[j].g += mul(r, rest[j].g)
			}
			continue
		}
		share := ratio[i+1:][:len(rest)]
		for j := range rest {
			row[j].g += mul(r, rest[j].g)
			row[j].h += mul(r, rest[j].h) - mul(h, share[j])
		}
	}
	switch q := modulus(inv); {
	case !(q > 0) || q > math.MaxFloat64 || !(modulus(h) <= math.MaxFloat64):
		m = bad
	case whole > maxCancel:
		m = weak
	}
	return pivot[complex128]{sum, -mul(h, inv)}, reach, m
}

// stepComplex has the voltage of vertex t from those of its members.
func stepComplex(s *system[complex128], t int32, was complex128) float64 {
	v := &s.volts[t]
	if v.at != s.epoch {
		mem, ratio := s.row(t)
		x, volts := s.pivotOf(t).free, s.volts
		mem = mem[:len(mem)-1] // Earth is at 0 V
		ratio = ratio[:len(mem)]
		for i, m := range mem {
			x += mul(ratio[i], volts[m].x)
		}
		if s.drive != nil {
			x += s.drive[t]
		}
		v.x, v.at = x, s.epoch
	}
	return modulus(v.x - was)
}
