package circuit

import "math"

// complex arithmetic, by hand: Go may fuse the products of its own complex
// multiplication, and its division differs in the last digit between machines.

var complexKernel = kernel[complex128]{
	mul:     mul,
	inverse: inverse,
	size:    modulus,
	reduce:  reduceComplex,
	back:    backComplex,
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
// apart.
func reduceComplex(col, out []edge[complex128], ratio []complex128) (pv pivot[complex128], reach float64, m mood) {
	var sum, h complex128
	for i := range col {
		sum += col[i].g
		h += col[i].h
	}
	inv := inverse(sum)
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
	switch q := modulus(inv); {
	case !(q > 0) || q > math.MaxFloat64 || !(modulus(h) <= math.MaxFloat64):
		m = bad
	case reach+modulus(ratio[len(ratio)-1]) > maxCancel:
		m = weak
	}
	return pivot[complex128]{sum, -mul(h, inv)}, reach, m
}

// backComplex is the voltage of vertex t from those of its members.
func backComplex(s *system[complex128], t int32) complex128 {
	mem, ratio, pv := s.row(t)
	v := pv.free
	for i, m := range mem[:len(mem)-1] { // Earth is at 0 V
		v += mul(ratio[i], s.volts[m].x)
	}
	if s.drive != nil {
		v += s.drive[t]
	}
	return v
}
