package spicetest

import (
	"math/big"

	"halfsplit/core/internal/spicetest/netlist"
)

// digits is the precision of Exact in bits. A milliohm beside a gigohm takes
// away 42 of them.
const digits = 200

// Exact solves c with 200 binary digits by Gauss elimination on the nodes,
// smallest degree first. It is the judge where two solvers with 53 disagree.
func Exact(c *netlist.Circuit) netlist.Solution {
	var v netlist.Solution
	for _, x := range solve(c, func(l *netlist.Line) netlist.Two { return l.DC }) {
		v.DC = append(v.DC, real(x))
	}
	if c.Frequency > 0 {
		v.AC = solve(c, func(l *netlist.Line) netlist.Two { return l.AC })
	}
	return v
}

// A num is a complex number; im is nil where it is real.
type num struct{ re, im *big.Float }

func float(x float64) *big.Float { return new(big.Float).SetPrec(digits).SetFloat64(x) }

func sum(a, b *big.Float) *big.Float {
	switch {
	case a == nil:
		return b
	case b == nil:
		return a
	}
	return new(big.Float).SetPrec(digits).Add(a, b)
}

func less(a, b *big.Float) *big.Float {
	switch {
	case b == nil:
		return a
	case a == nil:
		return new(big.Float).Neg(b)
	}
	return new(big.Float).SetPrec(digits).Sub(a, b)
}

func product(a, b *big.Float) *big.Float {
	if a == nil || b == nil {
		return nil
	}
	return new(big.Float).SetPrec(digits).Mul(a, b)
}

func (a num) plus(b num) num  { return num{sum(a.re, b.re), sum(a.im, b.im)} }
func (a num) minus(b num) num { return num{less(a.re, b.re), less(a.im, b.im)} }
func (a num) times(b num) num {
	return num{less(product(a.re, b.re), product(a.im, b.im)), sum(product(a.re, b.im), product(a.im, b.re))}
}

func (a num) inverse() num {
	if a.im == nil {
		return num{re: new(big.Float).SetPrec(digits).Quo(float(1), a.re)}
	}
	size := sum(product(a.re, a.re), product(a.im, a.im))
	if a.re == nil {
		a.re = float(0)
	}
	return num{new(big.Float).SetPrec(digits).Quo(a.re, size), new(big.Float).SetPrec(digits).Quo(new(big.Float).Neg(a.im), size)}
}

func (a num) complex128() complex128 {
	re, im := 0.0, 0.0
	if a.re != nil {
		re, _ = a.re.Float64()
	}
	if a.im != nil {
		im, _ = a.im.Float64()
	}
	return complex(re, im)
}

// one over x, exactly rounded.
func reciprocal(x float64) *big.Float {
	return new(big.Float).SetPrec(digits).Quo(float(1), float(x))
}

func solve(c *netlist.Circuit, of func(*netlist.Line) netlist.Two) []complex128 {
	n := len(c.Names)
	diagonal, right := make([]num, n), make([]num, n)
	near := make([]map[int]num, n) // off the diagonal, minus what is there
	for i := range near {
		near[i] = map[int]num{}
		diagonal[i].re = float(c.Leaks[i])
	}
	for k := range c.Lines {
		l := &c.Lines[k]
		t := of(l)
		var y, i num // admittance, and the current that flows at 0 V
		if t.Ohms != 0 {
			y.re = reciprocal(t.Ohms)
			i.re = product(y.re, float(t.Volts))
		}
		if t.Reactance != 0 {
			y.im = new(big.Float).Neg(reciprocal(t.Reactance))
		}
		i.re = sum(i.re, float(t.Amps))
		if !t.Present() {
			continue
		}
		right[l.A], right[l.B] = right[l.A].minus(i), right[l.B].plus(i)
		if y == (num{}) {
			continue
		}
		diagonal[l.A], diagonal[l.B] = diagonal[l.A].plus(y), diagonal[l.B].plus(y)
		near[l.A][l.B], near[l.B][l.A] = near[l.A][l.B].plus(y), near[l.B][l.A].plus(y)
	}
	for m := range near[0] { // earth is not solved for
		delete(near[m], 0)
	}
	done := make([]bool, n)
	done[0] = true
	order := make([]int, 0, n)
	pivots := make([]num, n)
	for len(order) < n-1 {
		best := -1
		for v := 1; v < n; v++ {
			if !done[v] && (best < 0 || len(near[v]) < len(near[best])) {
				best = v
				if len(near[v]) <= 1 {
					break
				}
			}
		}
		done[best] = true
		order = append(order, best)
		pivot := diagonal[best].inverse()
		pivots[best] = pivot
		for a, ya := range near[best] {
			share := ya.times(pivot)
			diagonal[a] = diagonal[a].minus(share.times(ya))
			right[a] = right[a].plus(share.times(right[best]))
			delete(near[a], best)
			for b, yb := range near[best] {
				if b != a {
					near[a][b] = near[a][b].plus(share.times(yb))
				}
			}
		}
	}
	volts := make([]num, n)
	out := make([]complex128, n)
	for k := len(order) - 1; k >= 0; k-- {
		v := order[k]
		total := right[v]
		for a, ya := range near[v] {
			total = total.plus(ya.times(volts[a]))
		}
		volts[v] = total.times(pivots[v])
		out[v] = volts[v].complex128()
	}
	return out
}
