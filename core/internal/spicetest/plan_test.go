package spicetest

import (
	"flag"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"halfsplit/core/fault"
	"halfsplit/core/generate"
	"halfsplit/core/panel"
	"halfsplit/core/sim"
)

var panels = flag.Int("panels", 300, "how many generated panels ngspice is given")

// A trial is one panel, sound or with a fault.
type trial struct {
	panel *panel.Panel
	model *sim.Model
	fault *fault.Fault // nil: sound
	onset sim.Onset
	at    string // condition
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
		byLabel := faultsByLabel(p, m)
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
	for _, p := range drawn(t) { // each with a fault of every mode it has
		m := sim.New(p)
		byLabel := faultsByLabel(p, m)
		for _, at := range m.Conditions() {
			trials = append(trials, trial{panel: p, model: m, at: at})
		}
		for _, l := range slices.Sorted(maps.Keys(byLabel)) {
			tried[l]++
			trials = append(trials, trial{panel: p, model: m, fault: byLabel[l][random.below(len(byLabel[l]))], onset: sim.Onset(random.below(2)), at: "normal"})
		}
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

func faultsByLabel(p *panel.Panel, m *sim.Model) map[string][]*fault.Fault {
	byLabel, x := map[string][]*fault.Fault{}, panel.NewIndex(p)
	all := fault.All(m.Net)
	for i := range all.Faults {
		l := label(x, &all.Faults[i])
		byLabel[l] = append(byLabel[l], &all.Faults[i])
	}
	return byLabel
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

// A random is a multiplicative generator: Lehmer's, modulus 2^31 - 1, multiplier
// 48271 (Park & Miller, from memory), so that a seed means the same trials with
// every version of Go.
type random struct{ state uint64 }

func (r *random) below(n int) int {
	r.state = r.state * 48271 % (1<<31 - 1)
	return int(r.state % uint64(n))
}
