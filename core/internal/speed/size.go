package main

import (
	"fmt"
	"math"
	"time"

	"halfsplit/core/circuit"
	"halfsplit/core/sim"
)

// sizes of the table, in terminals.
var sizes = []int{50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000}

// bySize measures the same work on panels of all sizes and fits an exponent.
func (b *bench) bySize() error {
	t := table{title: "Size against time",
		about: "Start: from cold to running, every change of state on the way. Point: one operating point, direct current. Fault: mean of up to 300. " +
			"Sweep: that mean times the number of faults. The last line is the exponent of the size, by least squares on the logarithms. Processor time.",
		head: []string{"terminals", "faults", "start", "point", "fault", "sweep"}}
	var x []float64
	y := make([][]float64, 4)
	for _, size := range sizes {
		s, err := newSubject(size, b.seed)
		if err != nil {
			return err
		}
		times, err := s.times()
		if err != nil {
			return err
		}
		row := []string{fmt.Sprint(size), fmt.Sprint(len(s.faults.Faults))}
		x = append(x, math.Log(float64(size)))
		for i, d := range times {
			y[i] = append(y[i], math.Log(d.Seconds()))
			row = append(row, short(d))
		}
		t.add(row...)
		b.log("  %d terminals", size)
	}
	last := []string{"exponent", ""}
	for i := range y {
		last = append(last, fmt.Sprintf("%.2f", slope(x, y[i])))
	}
	t.add(last...)
	b.pages = append(b.pages, t)
	return nil
}

// times are those of start, operating point, one fault and the sweep of all.
func (s *subject) times() ([]time.Duration, error) {
	plan, leak, values := s.network()
	list := s.sample(300)
	each, _, err := compete(
		contender{watch: own, n: max(1, 500/s.size), do: func(n int) error {
			for range n {
				s.model.Replay(s.base.Cond, sim.Running, nil)
			}
			return nil
		}},
		contender{watch: own, n: max(1, 5000/s.size), do: func(n int) error {
			for range n {
				dc := plan.DC(leak, values)
				if err := dc.Solve(); err != nil {
					return err
				}
				for k := range leak {
					s.sum += dc.V(circuit.Node(k))
				}
			}
			return nil
		}},
		contender{watch: own, n: len(list), do: func(n int) error {
			for _, f := range list[:n] {
				s.try(f)
			}
			return nil
		}})
	if err != nil {
		return nil, err
	}
	return append(each, each[2]*time.Duration(len(s.faults.Faults))), nil
}

// slope of the straight line through the points, by least squares.
func slope(x, y []float64) float64 {
	var mx, my, above, below float64
	for i := range x {
		mx += x[i] / float64(len(x))
		my += y[i] / float64(len(y))
	}
	for i := range x {
		above += (x[i] - mx) * (y[i] - my)
		below += (x[i] - mx) * (x[i] - mx)
	}
	return above / below
}
