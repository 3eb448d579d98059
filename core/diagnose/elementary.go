package diagnose

import "math"

// expNeg is e^x for x <= 0. math.Exp differs in its last bit between hosts, and
// answers must not.
//
// Method: x = k·ln2 + r with |r| <= ln2/2, Taylor polynomial of r to the 13th
// power (remainder below 1e-16), scaled by 2^k exactly.
func expNeg(x float64) float64 {
	if x < -700 {
		return 0
	}
	const ln2Hi, ln2Lo = 6.93147180369123816490e-01, 1.90821492927058770002e-10
	k := math.Floor(x/math.Ln2 + 0.5)
	r := x - float64(k*ln2Hi)
	r -= float64(k * ln2Lo)
	sum := 1.0
	for n := 13.0; n >= 1; n-- {
		sum = 1 + float64(r*sum)/n
	}
	return math.Ldexp(sum, int(k))
}

// log2 is the binary logarithm of x > 0, the same on every host.
//
// Method: x = m·2^e exactly, m in [√½, √2); ln m = 2·artanh((m-1)/(m+1)) as a
// series to the 21st power (remainder below 1e-17).
func log2(x float64) float64 {
	m, e := math.Frexp(x)
	if m < math.Sqrt2/2 {
		m *= 2
		e--
	}
	t := (m - 1) / (m + 1)
	t2 := float64(t * t)
	sum := 0.0
	for _, k := range artanh {
		sum = k + float64(t2*sum)
	}
	return float64(e) + float64(2*float64(t*sum))/math.Ln2
}

// artanh are the coefficients of its series, the last one first.
var artanh = [...]float64{1.0 / 21, 1.0 / 19, 1.0 / 17, 1.0 / 15, 1.0 / 13, 1.0 / 11, 1.0 / 9, 1.0 / 7, 1.0 / 5, 1.0 / 3, 1}
