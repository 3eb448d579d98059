package trace_test

import (
	"maps"
	"slices"
	"testing"

	"halfsplit/core/circuit"
	"halfsplit/core/fault"
	"halfsplit/core/generate"
	"halfsplit/core/internal/demo"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
)

func base(t testing.TB, name string) (*trace.Base, *fault.Set) {
	t.Helper()
	m, c := demo.In(t, name, "normal")
	return trace.New(m, c), fault.All(m.Net)
}

func whatIf(t testing.TB, b *trace.Base, set *fault.Set, names ...string) trace.WhatIf {
	t.Helper()
	var list []*fault.Fault
	for _, n := range names {
		f, err := set.Parse(n)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, f)
	}
	return b.WhatIf(list, sim.Running)
}

func effects(w trace.WhatIf) map[string]trace.Effect {
	m := map[string]trace.Effect{}
	for _, a := range w.Affected {
		m[a.Ref] = a.Effect
	}
	return m
}

// Who goes down with what, on the demo panels. Source: the drawings, followed by
// hand; the facts are common practice.
func TestWhoIsAffected(t *testing.T) {
	for _, tc := range []struct {
		panel, fault string
		want         map[string]trace.Effect
		about        string
	}{
		{"training-bench", "X1:2=fuse-blown", map[string]trace.Effect{"P1": trace.Dead}, "one fuse, one lamp"},
		{"training-bench", "X1:1=lever-open", map[string]trace.Effect{"K1": trace.Dead, "P1": trace.Dead, "P2": trace.HeldOn}, "the relay drops: one lamp out, the other on"},
		{"training-bench", "X9:2=foot-open", map[string]trace.Effect{"T1": trace.Unprotected}, "a lifted ground kills nothing and takes protection"},
		{"training-bench", "W9=broken", map[string]trace.Effect{}, "the 0 V link lifted: nothing stops"},
		{"training-bench", "X1:3=fuse-blown", map[string]trace.Effect{}, "a fuse whose lamp is off anyway"},
		{"training-bench", "K1:31-32=welded", map[string]trace.Effect{"P2": trace.HeldOn}, "a welded contact holds on"},
		{"training-bench", "W15@K1:A2=loose:300ohm", map[string]trace.Effect{}, "a held relay rides through a joint it could not pull in through"},
		{"training-bench", "W17@P1:X1=loose:1500ohm", map[string]trace.Effect{"P1": trace.Starved}, "by hand: 24 V · 1.2/2.7 leave a lamp of 24 V dim"},
		{"training-bench", "W17@P1:X1=loose:10kohm", map[string]trace.Effect{"P1": trace.Dead}, "by hand: 24 V · 1.2/11.2 leave it dark"},
		{"dosing-skid", "X3:2.2=fuse-blown", map[string]trace.Effect{"B2": trace.Dead, "A2:1": trace.Dead}, "an out-and-back instrument dies by its upper level"},
		{"dosing-skid", "W122@X3:2.1/in=lifted", map[string]trace.Effect{"B2": trace.Dead, "A2:1": trace.Dead}, "and by its lower one"},
	} {
		t.Run(tc.fault, func(t *testing.T) {
			b, set := base(t, tc.panel)
			got := effects(whatIf(t, b, set, tc.fault))
			if !maps.Equal(got, tc.want) {
				t.Errorf("%s: got %v, want %v (%s)", tc.fault, got, tc.want, tc.about)
			}
		})
	}
}

// The reason names the branch that opened, or the one that feeds; a chain of
// relays is followed to its cause.
func TestWhy(t *testing.T) {
	b, set := base(t, "training-bench")
	w := whatIf(t, b, set, "S1:21-22=stuck-open")
	var codes []string
	for _, a := range w.Affected {
		if a.Ref == "P1" {
			for _, r := range a.Why {
				codes = append(codes, r.Code+" "+r.Args[0])
			}
		}
	}
	want := []string{"why.switched K1:23-24", "why.open S1:21-22=stuck-open"}
	if !slices.Equal(codes, want) {
		t.Errorf("P1 is dead because %v, want %v", codes, want)
	}
}

// Every fault that affects anybody says why, on both panels.
func TestEverybodyHasAReason(t *testing.T) {
	for _, name := range demo.Names {
		b, set := base(t, name)
		told, silent := 0, 0
		for i := range set.Faults {
			for _, a := range b.WhatIf([]*fault.Fault{&set.Faults[i]}, sim.Running).Affected {
				if len(a.Why) == 0 {
					silent++
					if silent <= 5 {
						t.Errorf("%s: %s is %s without a reason", set.Faults[i].Key(), a.Ref, a.Effect)
					}
				} else {
					told++
				}
			}
		}
		if told == 0 {
			t.Error("nobody was affected by anything")
		}
	}
}

// A sweep is the what-if of each fault in short, and leaves the healthy panel as
// it was, bit for bit.
func TestSweepIsWhatIf(t *testing.T) {
	b, set := base(t, "training-bench")
	before := make([]float64, len(b.Model.Net.Nodes))
	for n := range before {
		before[n] = b.Machine.V(circuit.Node(n))
	}
	for i := range set.Faults {
		f := &set.Faults[i]
		short, long := slices.Clone(b.Sweep(f)), b.WhatIf([]*fault.Fault{f}, sim.Running).Affected
		if len(short) != len(long) {
			t.Fatalf("%s: sweep tells of %d, what-if of %d", f.Key(), len(short), len(long))
		}
		for k := range short {
			if short[k].Ref != long[k].Ref || short[k].Effect != long[k].Effect {
				t.Errorf("%s: sweep %v, what-if %v", f.Key(), short[k], long[k])
			}
		}
	}
	for n := range before {
		if now := b.Machine.V(circuit.Node(n)); now != before[n] {
			t.Fatalf("node %s is at %v after the sweep, was at %v", b.Model.Net.Nodes[n].Name, now, before[n])
		}
	}
}

// A start with the fault in place ends where a replay from cold ends, whatever
// short way was taken: all faults of the demo panels, some of a generated one.
func TestStartIsAReplayFromCold(t *testing.T) {
	for _, name := range demo.Names {
		b, set := base(t, name)
		startsAsFromCold(t, b, set, 1)
	}
	m := sim.New(generate.Generate(200, 901))
	c, err := m.Condition("normal")
	if err != nil {
		t.Fatal(err)
	}
	startsAsFromCold(t, trace.New(m, c), fault.All(m.Net), 40)
}

// startsAsFromCold compares every so many faults.
func startsAsFromCold(t *testing.T, b *trace.Base, set *fault.Set, every int) {
	t.Helper()
	differ := 0
	for i := 0; i < len(set.Faults); i += every {
		f := &set.Faults[i]
		x := b.Enter(f.Changes, sim.Start)
		y := b.Model.Replay(b.Cond, sim.Start, f.Changes)
		for d := range b.Model.Net.Devices {
			if got, want := x.Status(d), y.Status(d); got.State != want.State {
				t.Errorf("%s: %s is %s, from cold %s", f.Key(), b.Model.Net.Devices[d].Ref, got.State, want.State)
			}
			if y.Status(d).Grade != b.Healthy[d].Grade {
				differ++
			}
		}
		b.Leave()
	}
	if differ == 0 {
		t.Error("no fault made a difference")
	}
}
