package spicetest

import (
	"fmt"
	"math"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/internal/spicetest/netlist"
	"halfsplit/core/parts"
	"halfsplit/core/words"
)

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

var catalogue = words.Catalogue("en")

func apart(a, b complex128) float64 { return math.Hypot(real(a)-real(b), imag(a)-imag(b)) }

func near(a, b complex128, relative, least float64) bool {
	return apart(a, b) <= max(relative*apart(b, 0), least) // NaN fails
}

// A tally is what was compared.
type tally struct {
	sync.Mutex
	trials, nodes, claims, judged, judgedPanels, cycles int
	worst, worstExact                                   float64 // of what is allowed
	worstAt, worstExactAt                               string
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
	t.Logf("%d generated panels and %d others, %d solutions, DC and AC: %d voltages compared with ngspice, worst %.3g of what is allowed (%s); %d more of %d solutions judged; worst against 200 bits %.3g of 1e-9 (%s)",
		*panels, len(drawn(t)), sum.trials, sum.nodes, sum.worst, sum.worstAt, sum.judged, sum.judgedPanels, sum.worstExact, sum.worstExactAt)
	t.Logf("%d states' conditions hold, %d panels in a cycle; %d modes: %s", sum.claims, sum.cycles, len(labels), strings.Join(labels, ", "))
}

// compare puts one trial to ngspice and to the exact solver.
func compare(t *testing.T, dir string, tr trial, sum *tally) {
	name := tr.panel.Name
	var faults []string
	var changes []parts.Change
	if tr.fault != nil {
		name += ", " + tr.at + ", " + tr.fault.Key()
		faults, changes = []string{tr.fault.Key()}, tr.fault.Changes
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
			if judged++; judged == 1 {
				sum.judgedPanels++
			}
			if judged == 1 && sum.judgedPanels <= 3 {
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
	said := func(code string) {
		if _, ok := catalogue[code]; !ok {
			t.Errorf("%s: nobody can say %s", name, code)
		}
	}
	for i := range tr.model.Net.Elements {
		if n, ok := tr.model.Net.Elements[i].Element.(parts.Namer); ok {
			said("event." + n.ModeName(x.State(i)))
		}
	}
	for i := range tr.model.Net.Devices {
		said("state." + x.Status(i).State)
		if st := x.Status(i); st.Grade != parts.GradeOf(st.State) {
			t.Errorf("%s: %s is %s, grade %d there and %d by its state", name, tr.model.Net.Devices[i].Ref, st.State, st.Grade, parts.GradeOf(st.State))
		}
	}
	if x.Cycle() != nil {
		sum.cycles++ // no state of a cycle is at rest
		if tr.fault == nil {
			t.Errorf("%s: sound, and in a cycle", name)
		}
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
