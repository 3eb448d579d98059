package circuit

import (
	"math"
	"testing"
)

// Source: Wheatstone bridge, any textbook of electrical measurement (from
// memory); by hand: 10 V, arms 100 and 200, 300 and 500 ohm, no detector:
// 10·200/300 − 10·500/800 = 0.416667 V.
func TestWheatstone(t *testing.T) {
	p := NewPlan(4, []Ends{{0, 1}, {1, 2}, {2, 0}, {1, 3}, {3, 0}})
	s := p.DC([]float64{0, 1e-15, 1e-15, 1e-15}, []Value{{G: 1e6, E: 10}, {G: 1. / 100}, {G: 1. / 200}, {G: 1. / 300}, {G: 1. / 500}})
	if err := s.Solve(); err != nil {
		t.Fatal(err)
	}
	if got, want := s.V(2)-s.V(3), 10.*200/300-10.*500/800; !(math.Abs(got-want) <= 1e-6) {
		t.Errorf("open bridge: got %v V, want %v V", got, want)
	}
	if got, want := s.Z(2, 3), 100.*200/300+300.*500/800; !(math.Abs(got-want) <= 1e-4) {
		t.Errorf("bridge resistance: got %v ohm, want %v ohm", got, want)
	}
	s.Checkpoint()
	l := s.Link(2, 3, Value{G: 1. / 1000})
	if err := s.Solve(); err != nil {
		t.Fatal(err)
	}
	z := 100.*200/300 + 300.*500/800
	if got, want := s.LinkI(l), (10.*200/300-10.*500/800)/(z+1000); !(math.Abs(got-want) <= 1e-9) {
		t.Errorf("detector: got %v A, want %v A (Thevenin)", got, want)
	}
	s.Revert()
	if got, want := s.V(2)-s.V(3), 10.*200/300-10.*500/800; !(math.Abs(got-want) <= 1e-6) {
		t.Errorf("after Revert: got %v V, want %v V", got, want)
	}
}
