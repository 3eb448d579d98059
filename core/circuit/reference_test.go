package circuit

import (
	"math"
	"math/big"
	"testing"
)

// The reference shares nothing with the package but its types: the nodal matrix
// in 256-bit arithmetic, solved by Gaussian elimination with partial pivoting.
// At 77 digits the spread from nanosiemens to kilosiemens costs nothing.

func wide(x float64) *big.Float { return new(big.Float).SetPrec(256).SetFloat64(x) }

// gauss solves a·x = b in place.
func gauss(a [][]*big.Float, b []*big.Float) []*big.Float {
	n := len(b)
	tmp := wide(0)
	for k := range n {
		best := k
		for i := k + 1; i < n; i++ {
			if new(big.Float).Abs(a[i][k]).Cmp(new(big.Float).Abs(a[best][k])) > 0 {
				best = i
			}
		}
		a[k], a[best], b[k], b[best] = a[best], a[k], b[best], b[k]
		for i := k + 1; i < n; i++ {
			if a[i][k].Sign() == 0 {
				continue
			}
			f := wide(0).Quo(a[i][k], a[k][k])
			for j := k + 1; j < n; j++ {
				if a[k][j].Sign() != 0 {
					a[i][j].Sub(a[i][j], tmp.Mul(f, a[k][j]))
				}
			}
			b[i].Sub(b[i], tmp.Mul(f, b[k]))
		}
	}
	for k := n - 1; k >= 0; k-- {
		for j := k + 1; j < n; j++ {
			if a[k][j].Sign() != 0 {
				b[k].Sub(b[k], tmp.Mul(a[k][j], b[j]))
			}
		}
		b[k].Quo(b[k], a[k][k])
	}
	return b
}

// reference solves a network as a real system of twice the size, or of the
// same size when nothing in it is imaginary: [G −B; B G]·[re im] = [re im].
func reference(leak []complex128, ends []Ends, values []ACValue) []complex128 {
	n := len(leak) - 1
	size := n
	for _, y := range leak {
		if imag(y) != 0 {
			size = 2 * n
		}
	}
	for _, v := range values {
		if imag(v.Y) != 0 || imag(v.E) != 0 || imag(v.J) != 0 {
			size = 2 * n
		}
	}
	a := make([][]*big.Float, size)
	b := make([]*big.Float, size)
	for i := range a {
		a[i], b[i] = make([]*big.Float, size), wide(0)
		for j := range a[i] {
			a[i][j] = wide(0)
		}
	}
	admit := func(i, j Node, re, im *big.Float) {
		if i == Earth || j == Earth {
			return
		}
		x, y := int(i)-1, int(j)-1
		a[x][y].Add(a[x][y], re)
		if size > n {
			a[x+n][y+n].Add(a[x+n][y+n], re)
			a[x][y+n].Sub(a[x][y+n], im)
			a[x+n][y].Add(a[x+n][y], im)
		}
	}
	inject := func(i Node, re, im *big.Float) {
		if i == Earth {
			return
		}
		b[i-1].Add(b[i-1], re)
		if size > n {
			b[int(i)-1+n].Add(b[int(i)-1+n], im)
		}
	}
	for i := 1; i <= n; i++ {
		admit(Node(i), Node(i), wide(real(leak[i])), wide(imag(leak[i])))
	}
	neg := func(x *big.Float) *big.Float { return wide(0).Neg(x) }
	for i, e := range ends {
		if e.A == e.B {
			continue
		}
		v := values[i]
		yr, yi, er, ei := wide(real(v.Y)), wide(imag(v.Y)), wide(real(v.E)), wide(imag(v.E))
		admit(e.A, e.A, yr, yi)
		admit(e.B, e.B, yr, yi)
		admit(e.A, e.B, neg(yr), neg(yi))
		admit(e.B, e.A, neg(yr), neg(yi))
		hr := wide(0).Sub(wide(0).Mul(yr, er), wide(0).Mul(yi, ei))
		hi := wide(0).Add(wide(0).Mul(yr, ei), wide(0).Mul(yi, er))
		hr.Add(hr, wide(real(v.J)))
		hi.Add(hi, wide(imag(v.J)))
		inject(e.A, neg(hr), neg(hi))
		inject(e.B, hr, hi)
	}
	x := gauss(a, b)
	out := make([]complex128, n+1)
	for i := range n {
		re, _ := x[i].Float64()
		im := 0.0
		if size > n {
			im, _ = x[i+n].Float64()
		}
		out[i+1] = complex(re, im)
	}
	return out
}

// alternating turns a DC network into the terms of the reference.
func alternating(leak []float64, values []Value) ([]complex128, []ACValue) {
	l, v := make([]complex128, len(leak)), make([]ACValue, len(values))
	for i, x := range leak {
		l[i] = complex(x, 0)
	}
	for i, x := range values {
		v[i] = ACValue{complex(x.G, 0), complex(x.E, 0), complex(x.J, 0)}
	}
	return l, v
}

// near fails the test unless got is within 1e-9 of want, in the unit at hand or
// relative to it.
func near(t testing.TB, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*max(1, math.Abs(want))) {
		t.Errorf("%s: got %.15g, want %.15g", what, got, want)
	}
}

// agree compares every voltage of s with the reference.
func agree(t testing.TB, s *DC, leak []float64, ends []Ends, values []Value) {
	t.Helper()
	l, v := alternating(leak, values)
	for n, want := range reference(l, ends, v) {
		if got := s.V(Node(n)); !(math.Abs(got-real(want)) <= 1e-9*max(1, math.Abs(real(want)))) {
			t.Fatalf("node %d: got %.15g V, reference %.15g V", n, got, real(want))
		}
	}
}

func solve(t testing.TB, s interface{ Solve() error }) {
	t.Helper()
	if err := s.Solve(); err != nil {
		t.Fatal(err)
	}
}
