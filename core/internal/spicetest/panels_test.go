package spicetest

import (
	"flag"
	"fmt"
	"math"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/generate"
	"halfsplit/core/internal/spicetest/netlist"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

var panels = flag.Int("panels", 300, "how many generated panels ngspice is given")

// The circuits are written from the document alone: what writes them must not
// reach the code that is tested.
func TestNetlistStandsAlone(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "./netlist").Output()
	if err != nil {
		t.Fatal(err)
	}
	var own []string
	for line := range strings.Lines(string(out)) {
		if line = strings.TrimSpace(line); strings.HasPrefix(line, "halfsplit/") {
			own = append(own, strings.TrimPrefix(line, "halfsplit/core/"))
		}
	}
	slices.Sort(own)
	if want := []string{"internal/spicetest/netlist", "panel", "unit"}; !slices.Equal(own, want) {
		t.Errorf("the netlist is made of %v, want %v", own, want)
	}
}

// How far our voltages may be from those of another solver.
const (
	relative = 1e-5
	least    = 10e-6 // V
	// and from the exact ones
	relativeExact = 1e-9
	leastExact    = 1e-9 // V
)

func apart(a, b complex128) float64 { return math.Hypot(real(a)-real(b), imag(a)-imag(b)) }

func near(a, b complex128, relative, least float64) bool {
	return apart(a, b) <= max(relative*apart(b, 0), least) // NaN fails
}

// A trial is one panel, sound or with a fault.
type trial struct {
	panel *panel.Panel
	model *sim.Model
	fault *fault.Fault // nil: sound
	onset sim.Onset
	at    string // condition
}

// A tally is what was compared.
type tally struct {
	sync.Mutex
	trials, nodes, claims, judged, cycles int
	worst, worstExact                     float64 // of what is allowed
	worstAt, worstExactAt                 string
}

// Every voltage of 300 generated panels of 20 to 400 terminals, sound and with a
// fault of each mode that any of them can have, is what ngspice makes of the same
// drawing. Where the two differ, 200 binary digits decide.
func TestGeneratedPanels(t *testing.T) {
	trials, labels := plan(t)
	var sum tally
	var wg sync.WaitGroup
	queue := make(chan trial)
	for range 2 {
		dir := t.TempDir()
		wg.Add(1)
		go func() {
			defer wg.Done()
			for tr := range queue {
				compare(t, dir, tr, &sum)
			}
		}()
	}
	for _, tr := range trials {
		queue <- tr
	}
	close(queue)
	wg.Wait()
	t.Logf("%d panels, %d solutions, DC and AC: %d voltages compared with ngspice, worst %.3g of what is allowed (%s); %d more judged, none against us; worst against 200 bits %.3g of 1e-9 (%s)",
		*panels, sum.trials, sum.nodes, sum.worst, sum.worstAt, sum.judged, sum.worstExact, sum.worstExactAt)
	t.Logf("%d states' conditions hold, %d panels in a cycle; %d modes: %s", sum.claims, sum.cycles, len(labels), strings.Join(labels, ", "))
}

// plan draws the panels and chooses the faults: of the modes a panel can have,
// the one tried least so far, and any fault of it.
func plan(t *testing.T) (trials []trial, labels []string) {
	random := random{1}
	tried := map[string]int{}
	for k := range *panels {
		size := int(20 * math.Pow(20, float64(random.below(1001))/1000)) // as many small as large ones
		p := generate.Generate(size, uint64(k))
		m := sim.New(p)
		byLabel, x := map[string][]*fault.Fault{}, panel.NewIndex(p)
		all := fault.All(m.Net)
		for i := range all.Faults {
			f := &all.Faults[i]
			l := label(x, f)
			byLabel[l] = append(byLabel[l], f)
		}
		best := ""
		for l := range byLabel {
			if n, found := tried[l]; !found {
				tried[l] = 0
			} else if best != "" && n > tried[best] {
				continue
			}
			if best == "" || tried[l] < tried[best] || tried[l] == tried[best] && l < best {
				best = l
			}
		}
		tried[best]++
		f := byLabel[best][random.below(len(byLabel[best]))]
		trials = append(trials, trial{panel: p, model: m, at: "normal"},
			trial{panel: p, model: m, fault: f, onset: sim.Onset(random.below(2)), at: []string{"normal", "normal", "normal", "stopped"}[random.below(4)]})
	}
	for l, n := range tried {
		if n == 0 && *panels >= 100 {
			t.Errorf("no panel was given a fault %q", l)
		}
		labels = append(labels, l)
	}
	slices.Sort(labels)
	return trials, labels
}

// label is the mode of a fault with the kind of thing that has it.
func label(x *panel.Index, f *fault.Fault) string {
	what := ""
	ref, rest, _ := strings.Cut(f.Thing, ":")
	part := x.Part(ref)
	switch {
	case strings.Contains(f.Thing, "~"):
		what = "cores"
		if _, b, _ := strings.Cut(f.Thing, "~"); b == "PE" {
			what = "core to earth"
		} else if strings.Contains(f.Thing, ":") {
			what = "terminals"
		}
	case strings.Contains(f.Thing, "@"):
		what = "clamp"
	case x.Wire(f.Thing) != nil:
		what = "wire"
	case x.MainsByRef(f.Thing) != nil:
		what = "mains"
	case part != nil && strings.Contains(rest, "-"):
		what = part.Kind + " contact"
	case part != nil:
		what = part.Kind
	default:
		if b, _, ok := x.Split(panel.Point{Device: ref, Terminal: rest}); ok {
			what = b.Type
		}
	}
	l := what + " " + f.Name
	if f.Name == "loose" {
		l += ":" + f.Value
	}
	return l
}

func compare(t *testing.T, dir string, tr trial, sum *tally) {
	name := tr.panel.Name
	var faults []string
	var changes []parts.Change
	if tr.fault != nil {
		name += ", " + tr.at + ", " + tr.fault.Key
		faults, changes = []string{tr.fault.Key}, tr.fault.Changes
	}
	c, err := tr.model.Condition(tr.at)
	if err != nil {
		t.Error(err)
		return
	}
	x := tr.model.Replay(c, tr.onset, changes)
	if x.Err() != nil {
		t.Errorf("%s: %v", name, x.Err())
		return
	}
	net, err := netlist.Write(tr.panel, freeze(x), faults...)
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return
	}
	if len(net.Names) != len(tr.model.Net.Nodes) {
		t.Errorf("%s: the drawing has %d pieces of metal, the model %d", name, len(net.Names), len(tr.model.Net.Nodes))
	}
	decks := []Deck{DC(net)}
	if net.Frequency > 0 {
		decks = append(decks, AC(net))
	}
	spice, err := Run(dir, decks)
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return
	}
	exact := Exact(net)

	sum.Lock()
	defer sum.Unlock()
	sum.trials++
	judged := 0
	check := func(what, node string, ours, theirs, exact complex128) {
		sum.nodes++
		if w := apart(ours, exact) / max(relativeExact*apart(exact, 0), leastExact); w > sum.worstExact {
			sum.worstExact, sum.worstExactAt = w, name+" "+node
		}
		if near(ours, theirs, relative, least) {
			if w := apart(ours, theirs) / max(relative*apart(theirs, 0), least); w > sum.worst {
				sum.worst, sum.worstAt = w, name+" "+node
			}
		} else {
			sum.judged++
			if !near(ours, exact, relative, least) {
				t.Errorf("%s: %s of %s is %v V, ngspice has %v, in truth it is %v", name, what, node, ours, theirs, exact)
				return
			}
			judged++
			if judged == 1 {
				t.Logf("%s: %s of %s: ngspice has %v, we %v, in truth it is %v", name, what, node, theirs, ours, exact)
			}
		}
		if !near(ours, exact, relativeExact, leastExact) {
			t.Errorf("%s: %s of %s is %v V, in truth it is %v", name, what, node, ours, exact)
		}
	}
	for n := range tr.model.Net.Nodes {
		node := tr.model.Net.Nodes[n].Name
		k, ok := net.Node(node)
		if !ok {
			t.Errorf("%s: the drawing has no %q", name, node)
			continue
		}
		if k == 0 {
			continue // earth
		}
		v := fmt.Sprintf("v(%d)", k)
		check("V DC", node, complex(x.V(circuit.Node(n)), 0), spice[0][v], complex(exact.DC[k], 0))
		if net.Frequency > 0 {
			check("V AC", node, x.VAC(circuit.Node(n)), spice[1][v], exact.AC[k])
		}
	}
	if x.Cycle() != nil {
		sum.cycles++ // no state of a cycle is at rest
		return
	}
	for _, claim := range net.Claims {
		sum.claims++
		const slack = 1e-8
		if v := claim.Value(exact); !(v >= claim.Low-slack*math.Abs(claim.Low)-1e-12 && v <= claim.High+slack*math.Abs(claim.High)+1e-12) {
			t.Errorf("%s: %s: %g is not between %g and %g", name, claim.What, v, claim.Low, claim.High)
		}
	}
}

// A random is a multiplicative generator: Lehmer's, modulus 2^31 - 1, multiplier
// 48271 (Park & Miller, from memory), so that a seed means the same trials with
// every version of Go.
type random struct{ state uint64 }

func (r *random) below(n int) int {
	r.state = r.state * 48271 % (1<<31 - 1)
	return int(r.state % uint64(n))
}
