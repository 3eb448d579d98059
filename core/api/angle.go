package api

import "math"

// degrees is the angle of a phasor in (-180, 180], to a tenth. math.Atan2 need
// not agree to the last bit on all hosts, and answers must.
//
// Method: the half-angle identity tan(a/2) = y/(|c|+x) brings a into reach, then
// atan by three more halvings and its series (remainder below 1e-12).
func degrees(c complex128) float64 {
	x, y := real(c), imag(c)
	size := math.Sqrt(float64(x*x) + float64(y*y))
	if size == 0 {
		return 0
	}
	if y == 0 && x < 0 {
		return 180
	}
	t, times := y/(size+x), 2.0
	for range 3 {
		t = t / (1 + math.Sqrt(1+float64(t*t)))
		times *= 2
	}
	t2, sum := float64(t*t), 0.0
	for n := 15; n >= 1; n -= 2 {
		sum = 1/float64(n) - float64(t2*sum)
	}
	return round(float64(times*t*sum)*180/math.Pi, 1)
}
