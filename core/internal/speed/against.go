package main

import (
	"fmt"
	"math"
	"time"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/internal/spicetest"
	"halfsplit/core/internal/spicetest/netlist"
	"halfsplit/core/sim"
)

// trials are the panels given to both, with how many faults ngspice is given and
// what is wanted of us.
var trials = []struct {
	size, given  int
	point, fault float64 // how many times as fast
}{
	{200, 20, 10, 100},
	{1000, 10, 15, 250},
	{5000, 5, 30, 1000},
}

// most is how many faults of a panel are tried by us in one round.
const most = 600

// The largest difference between the two, as in package spicetest.
const (
	relative = 1e-5
	smallest = 10e-6 // V
)

// againstSpice compares with ngspice: one operating point, and one fault.
func (b *bench) againstSpice() error {
	points := table{title: "One operating point, against ngspice",
		about: "Direct current, states as they are in the running panel. Both start from a circuit that is loaded: ours has its elimination plan, ngspice has read its deck. " +
			"Ours: the value of every branch put into the plan, the network eliminated and solved, every node's voltage read. ngspice: the command `op`. Processor time.",
		head: []string{"terminals", "nodes", "ours", "ngspice", "ratio", "wanted", ""}}
	faults := table{title: "One fault of a sweep, against ngspice",
		about: "Ours: the fault made in the running panel, direct and alternating current and all states brought to rest again, " +
			"every voltage that moved by more than 1 mV read (the others are known to stand), the affected devices listed, and back to the sound panel; mean over a sample of the panel's faults. " +
			"ngspice is given the states we found: `op` once in each, what `alter` takes not counted; mean over a sample. " +
			"A point's voltage is known when both its direct and its alternating one are, so the verdict compares with `op` and `ac` at the mains frequency together; " +
			"`op` alone, which solves half of that, stands beside it, against all faults and against those that change no state: what finding the states would cost ngspice is not counted. The ratio is that of the medians. Processor time.",
		head: []string{"terminals", "faults", "ours", "changing states", "not", "every node read", "ngspice `op`", "`op` and `ac`", "`op` alone", "and no state changed", "ratio", "wanted", ""}}
	for _, t := range trials {
		s, err := newSubject(t.size, b.seed)
		if err != nil {
			return err
		}
		rival, err := newRival(s, t.given)
		if err != nil {
			return fmt.Errorf("%d terminals: %w", t.size, err)
		}
		compared, judged, err := rival.agree()
		if err == nil {
			b.log("  %d terminals: %d voltages in %d states agree with ngspice, %d more with 200 binary digits", t.size, compared, len(rival.deck.states), judged)
			err = rival.point(&points, t.point)
		}
		if err == nil {
			err = rival.sweep(&faults, t.fault)
		}
		rival.spice.stop()
		if err != nil {
			return fmt.Errorf("%d terminals: %w", t.size, err)
		}
	}
	b.pages = append(b.pages, points, faults)
	return nil
}

// A rival is ngspice with the circuit of a subject and some of its faults.
type rival struct {
	*subject
	spice *spice
	deck  *deck
	given []*fault.Fault // the states of the deck, but for the first
	node  []int          // ngspice's number of each of our nodes
	busy  time.Duration  // of ngspice with operating points
}

// newRival picks faults that both can solve: ours at rest and not in a cycle.
func newRival(s *subject, given int) (*rival, error) {
	r := &rival{subject: s}
	sound, err := netlist.Write(s.panel, freeze(s.base.Machine))
	if err != nil {
		return nil, err
	}
	for n := range s.model.Net.Nodes {
		k, ok := sound.Node(s.model.Net.Nodes[n].Name)
		if !ok {
			return nil, fmt.Errorf("the netlist has no node %q", s.model.Net.Nodes[n].Name)
		}
		r.node = append(r.node, k)
	}
	var states []*netlist.Circuit
	for _, f := range s.sample(len(s.faults.Faults)) {
		if len(states) == given {
			break
		}
		x := s.base.Enter(f.Changes, sim.Running)
		if x.Err() == nil && x.Cycle() == nil {
			c, err := netlist.Write(s.panel, freeze(x), f.Key())
			if err != nil {
				s.base.Leave()
				return nil, err
			}
			states, r.given = append(states, c), append(r.given, f)
		}
		s.base.Leave()
	}
	if r.deck, err = newDeck(sound, states); err != nil {
		return nil, err
	}
	r.spice, err = startSpice(r.deck.text())
	return r, err
}

// agree compares every hundredth voltage of every state. Where a part of a panel hangs
// on insulation ngspice loses digits: there 200 of them judge, as in package spicetest.
func (r *rival) agree() (compared, judged int, err error) {
	var ours []circuit.Node
	var theirs []int
	for _, n := range r.random.Perm(len(r.node)) {
		if r.node[n] == 0 {
			continue // earth
		}
		ours, theirs = append(ours, circuit.Node(n)), append(theirs, r.node[n])
		if len(ours) >= max(20, len(r.node)/100) {
			break
		}
	}
	for k := range r.deck.states {
		if _, err := r.spice.do(r.deck.alter(max(0, k-1), k) + "op\n"); err != nil {
			return compared, judged, err
		}
		volts, err := r.spice.volts(theirs)
		if err != nil {
			return compared, judged, err
		}
		x, what := r.base.Machine, "the sound panel"
		if k > 0 {
			what = r.given[k-1].Key()
			x = r.base.Enter(r.given[k-1].Changes, sim.Running)
		}
		var exact netlist.Solution
		for i, n := range ours {
			v := x.V(n)
			if near(v, volts[i]) {
				compared++
				continue
			}
			if exact.DC == nil {
				exact = spicetest.Exact(r.deck.states[k])
			}
			if truth := exact.DC[theirs[i]]; !near(v, truth) {
				return compared, judged, fmt.Errorf("%s: %s is at %.9g V, ngspice has %.9g V, in truth it is %.9g V", what, r.model.Net.Nodes[n].Name, v, volts[i], truth)
			}
			judged++
		}
		if k > 0 {
			r.base.Leave()
		}
	}
	_, err = r.spice.do(r.deck.alter(len(r.given), 0) + "destroy all\n")
	return compared, judged, err
}

func near(v, w float64) bool { return math.Abs(v-w) <= max(relative*math.Abs(w), smallest) }

func (r *rival) tidy() error {
	_, err := r.spice.do("destroy all\n")
	return err
}

// point compares one operating point.
func (r *rival) point(t *table, want float64) error {
	plan, leak, values := r.network()
	each, ratio, err := compete(
		contender{watch: r.spice.watch(), tidy: r.tidy, do: func(n int) error {
			_, err := r.spice.do(fmt.Sprintf("repeat %d\nop\nend\n", n))
			return err
		}},
		contender{watch: own, do: func(n int) error {
			for range n {
				dc := plan.DC(leak, values)
				if err := dc.Solve(); err != nil {
					return err
				}
				for k := range leak {
					r.sum += dc.V(circuit.Node(k))
				}
			}
			return nil
		}})
	if err != nil {
		return err
	}
	t.add(append([]string{fmt.Sprint(r.size), fmt.Sprint(len(leak)), short(each[1]), short(each[0])}, atLeast(ratio[1], want)...)...)
	return nil
}

// sweep compares one fault.
func (r *rival) sweep(t *table, want float64) error {
	list := r.sample(most)
	changing, still := r.split(list)
	few := list[:min(len(list), 60)]
	all := func(faults []*fault.Fault, try func(*fault.Fault)) contender {
		return contender{watch: own, n: max(1, len(faults)), do: func(n int) error {
			for _, f := range faults[:min(n, len(faults))] {
				try(f)
			}
			return nil
		}}
	}
	operating := contender{watch: func() time.Duration { return r.busy }, n: len(r.given), tidy: r.tidy, do: r.operate}
	alternating, err := newAlternating(r)
	if err != nil {
		return err
	}
	defer alternating.stop()
	each, _, err := compete(operating,
		contender{watch: alternating.watch(), n: 2, do: func(n int) error {
			_, err := alternating.do(fmt.Sprintf("repeat %d\nac lin 1 50 50\nend\n", n))
			return err
		}, tidy: func() error { _, err := alternating.do("destroy all\n"); return err }},
		all(changing, r.try), all(still, r.try), all(few, r.tryWhole))
	if err != nil {
		return err
	}
	share := float64(len(changing)) / float64(len(list))
	ours := time.Duration(share*float64(each[2]) + (1-share)*float64(each[3]))
	both := each[0] + each[1]
	times := float64(both) / float64(ours)
	t.add(append([]string{fmt.Sprint(r.size), fmt.Sprintf("%d of %d", len(list), len(r.faults.Faults)), short(ours),
		fmt.Sprintf("%s (%.0f %%)", short(each[2]), 100*share), short(each[3]), short(each[4]),
		short(each[0]), short(both), fmt.Sprintf("%.0f×", float64(each[0])/float64(ours)), fmt.Sprintf("%.0f×", float64(each[0])/float64(each[3]))}, atLeast(times, want)...)...)
	return nil
}

// operate has ngspice solve the first n of its states with a fault.
func (r *rival) operate(n int) error {
	watch := r.spice.watch()
	for k := 1; k <= n; k++ {
		if _, err := r.spice.do(r.deck.alter(k-1, k)); err != nil {
			return err
		}
		before := watch()
		if _, err := r.spice.do("op\n"); err != nil {
			return err
		}
		r.busy += watch() - before
	}
	_, err := r.spice.do(r.deck.alter(n, 0))
	return err
}

// newAlternating loads the sound panel at the mains frequency. What is altered in
// it does not change how long it takes.
func newAlternating(r *rival) (*spice, error) {
	return startSpice(spicetest.AC(r.deck.states[0]).Text)
}
