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
// Method: x = m·2^e exactly, m in [1, 2); log2 m = log2 c + ln(m/c)/ln 2 with c the
// middle of one of 128 equal steps, log2 c from a table, and ln(1+r) by Taylor
// polynomial to the 5th power (|r| <= 1/256, remainder below 1e-15).
func log2(x float64) float64 {
	bits := math.Float64bits(x)
	if x == 1 {
		return 0
	}
	if bits < 1<<52 { // subnormal
		return log2(float64(x*(1<<54))) - 54
	}
	e := float64(int(bits>>52) - 1023)
	k := bits >> (52 - logSteps) & (1<<logSteps - 1)
	m := math.Float64frombits(bits&(1<<52-1) | 1023<<52)
	step := &logTable[k]
	r := float64((m - step.centre) * step.inverse)
	p := 1.0/4 - float64(r*(1.0/5))
	p = 1.0/3 - float64(r*p)
	p = 1.0/2 - float64(r*p)
	p = 1 - float64(r*p)
	return e + (step.log + float64(float64(r*p)*(1/math.Ln2)))
}

const logSteps = 7

// logTable holds the middle of each step, its inverse and its binary logarithm.
var logTable = func() (t [1 << logSteps]struct{ centre, inverse, log float64 }) {
	for k := range t {
		c := 1 + float64((float64(k)+0.5)/(1<<logSteps))
		t[k].centre, t[k].inverse, t[k].log = c, 1/c, slowLog2(c)
	}
	return t
}()

// slowLog2 is log2 of 1 <= x < 2.
//
// Method: with x or x/2 in [√½, √2), ln x = 2·artanh((x-1)/(x+1)) as a series to
// the 21st power (remainder below 1e-17).
func slowLog2(x float64) float64 {
	e := 0.0
	if x > math.Sqrt2 {
		x, e = x/2, 1
	}
	t := (x - 1) / (x + 1)
	t2 := float64(t * t)
	sum := 0.0
	for _, k := range artanh {
		sum = k + float64(t2*sum)
	}
	return e + float64(2*float64(t*sum))/math.Ln2
}

// artanh are the coefficients of its series, the last one first.
var artanh = [...]float64{1.0 / 21, 1.0 / 19, 1.0 / 17, 1.0 / 15, 1.0 / 13, 1.0 / 11, 1.0 / 9, 1.0 / 7, 1.0 / 5, 1.0 / 3, 1}
