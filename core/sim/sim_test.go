package sim_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/internal/demo"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
)

func open(t testing.TB, name string) *sim.Model {
	t.Helper()
	return sim.New(demo.Panel(t, name))
}

// draw makes a small panel of parts and of wires "FROM TO", so short and thick
// that they do not count. A part is "REF KIND", then "at field", contacts
// ("13-14"), "channels=2" and ratings ("voltage=12 V"), apart by commas. Batteries
// have 1 mΩ unless they say otherwise.
func draw(drawn []string, wires ...string) *panel.Panel {
	p := &panel.Panel{Format: panel.Format, Version: panel.Version, Name: "test"}
	for _, text := range drawn {
		fields := strings.Split(text, ",")
		ref, kind, _ := strings.Cut(strings.TrimSpace(fields[0]), " ")
		part := panel.Part{Ref: ref, Kind: kind, Ratings: map[string]string{}}
		if kind == "battery" {
			part.Ratings["resistance"] = "1 mohm"
		}
		for _, f := range fields[1:] {
			f = strings.TrimSpace(f)
			name, value, rating := strings.Cut(f, "=")
			switch {
			case f == "at field":
				part.At = "field"
			case name == "channels":
				fmt.Sscan(value, &part.Channels)
			case rating:
				part.Ratings[name] = value
			default:
				part.Contacts = append(part.Contacts, f)
			}
		}
		p.Parts = append(p.Parts, part)
	}
	for i, w := range wires {
		f := strings.Fields(w)
		p.Wires = append(p.Wires, panel.Wire{No: fmt.Sprintf("W%d", i+1), From: f[0], To: f[1], Size: "16 mm2", Length: "0.1 m"})
	}
	return p
}

// run replays a condition with faults, by name, and fails the test when the panel
// cannot be solved.
func run(t testing.TB, m *sim.Model, at string, onset sim.Onset, faults ...string) *sim.Machine {
	t.Helper()
	c, err := m.Condition(at)
	if err != nil {
		t.Fatal(err)
	}
	x := m.Replay(c, onset, changes(t, m, faults...))
	if x.Err() != nil {
		t.Fatal(x.Err())
	}
	return x
}

func changes(t testing.TB, m *sim.Model, faults ...string) []parts.Change {
	t.Helper()
	var list []parts.Change
	if len(faults) == 0 {
		return nil
	}
	set := fault.All(m.Net)
	for _, text := range faults {
		f, err := set.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, f.Changes...)
	}
	return list
}

func node(t testing.TB, m *sim.Model, name string) circuit.Node {
	t.Helper()
	p, ok := m.Net.FindPoint(name)
	if !ok {
		t.Fatalf("no point %s", name)
	}
	return p.Node
}

// volts is the direct voltage between two points.
func volts(t testing.TB, x *sim.Machine, red, black string) float64 {
	t.Helper()
	return x.V(node(t, x.Model, red)) - x.V(node(t, x.Model, black))
}

// status of a device by its name.
func status(t testing.TB, x *sim.Machine, ref string) parts.Status {
	t.Helper()
	for i, d := range x.Model.Net.Devices {
		if d.Ref == ref {
			return x.Status(i)
		}
	}
	t.Fatalf("no device %s", ref)
	return parts.Status{}
}

// wantStates checks "REF state" pairs.
func wantStates(t *testing.T, x *sim.Machine, pairs ...string) {
	t.Helper()
	for _, p := range pairs {
		ref, want, _ := strings.Cut(p, " ")
		if got := status(t, x, ref).State; got != want {
			t.Errorf("%s is %s, want %s", ref, got, want)
		}
	}
}

// near says that got is want to an absolute tolerance; NaN is not.
func near(got, want, tol float64) bool { return math.Abs(got-want) <= tol }
