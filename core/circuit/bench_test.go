package circuit

import (
	"fmt"
	"testing"
)

var sizes = []int{600, 3000, 15000}

func each(b *testing.B, f func(b *testing.B, p *panel, plan *Plan, s *DC)) {
	for _, n := range sizes {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := synthetic(n, 1)
			plan := NewPlan(len(p.leak), p.ends)
			s := plan.DC(p.leak, p.values)
			solve(b, s)
			s.Checkpoint()
			b.ReportAllocs()
			b.ResetTimer()
			f(b, p, plan, s)
		})
	}
}

func BenchmarkPlan(b *testing.B) {
	each(b, func(b *testing.B, p *panel, plan *Plan, s *DC) {
		for b.Loop() {
			NewPlan(len(p.leak), p.ends)
		}
	})
}

// Factor, solve and read every node.
func BenchmarkFactor(b *testing.B) {
	each(b, func(b *testing.B, p *panel, plan *Plan, s *DC) {
		for b.Loop() {
			s := plan.DC(p.leak, p.values)
			solve(b, s)
			for n := range p.leak {
				s.V(Node(n))
			}
		}
	})
}

// Open a branch (every one in turn), solve, read the far side, revert.
func BenchmarkOpen(b *testing.B) {
	each(b, func(b *testing.B, p *panel, plan *Plan, s *DC) {
		i := 0
		for b.Loop() {
			i = (i + 7) % len(p.ends)
			s.Set(i, Value{})
			solve(b, s)
			s.V(p.ends[i].B)
			s.Revert()
		}
	})
}

// Open a branch, solve, list what moved by more than 0.1 V, revert.
func BenchmarkOpenMoved(b *testing.B) {
	each(b, func(b *testing.B, p *panel, plan *Plan, s *DC) {
		i, moved := 0, 0
		for b.Loop() {
			i = (i + 7) % len(p.ends)
			s.Set(i, Value{})
			solve(b, s)
			moved += len(s.Moved(nil, 0.1))
			s.Revert()
		}
		b.ReportMetric(float64(moved)/float64(b.N), "moved/op")
	})
}

// Put a meter of 10 megohms between two nodes, read it, revert.
func BenchmarkMeter(b *testing.B) {
	each(b, func(b *testing.B, p *panel, plan *Plan, s *DC) {
		i := 0
		for b.Loop() {
			i = (i + 7) % (len(p.leak) - 1)
			l := s.Link(Node(i+1), Earth, Value{G: 1e-7})
			solve(b, s)
			s.LinkI(l)
			s.Revert()
		}
	})
}

func BenchmarkZ(b *testing.B) {
	each(b, func(b *testing.B, p *panel, plan *Plan, s *DC) {
		i := 0
		for b.Loop() {
			i = (i + 7) % (len(p.leak) - 1)
			s.Z(Node(i+1), Node(1+i/2))
		}
	})
}

func BenchmarkOpenAC(b *testing.B) {
	for _, n := range sizes {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := synthetic(n, 1)
			leak, values := mains(p)
			s := NewPlan(len(p.leak), p.ends).AC(leak, values)
			solve(b, s)
			s.Checkpoint()
			b.ReportAllocs()
			i := 0
			for b.Loop() {
				i = (i + 7) % len(p.ends)
				s.Set(i, ACValue{})
				solve(b, s)
				s.V(p.ends[i].B)
				s.Revert()
			}
		})
	}
}
