package diagnose

import (
	"reflect"
	"testing"

	"halfsplit/core/fault"
	"halfsplit/core/generate"
	"halfsplit/core/meter"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
)

// sections is a generated panel with more than one supply.
func sections(t *testing.T) *Engine {
	t.Helper()
	m := sim.New(generate.Generate(200, 7))
	c, err := m.Condition("normal")
	if err != nil {
		t.Fatal(err)
	}
	return New(trace.New(m, c), fault.All(m.Net), meter.Typical)
}

// What a search leaves out cannot have caused the complaint: no fault outside a
// device's scope takes it out of its state, every device against a share of all
// faults of a panel with two supplies.
func TestNothingReachesIntoAScope(t *testing.T) {
	e := sections(t)
	scopes := map[int]*scope{} // by device
	for i, st := range e.Base.Healthy {
		if st.Grade == parts.On {
			e.focus(e.complaint([]Observation{{Kind: Dead, Candidate: e.LookCandidate(0, AtDevice, i)}}))
			s := e.scope
			scopes[i] = &s
		}
	}
	left, step := 0, 11
	if testing.Short() {
		step = 101
	}
	for f := 0; f < len(e.Set.Faults); f += step {
		x := e.Base.Enter(e.Set.Faults[f].Changes, sim.Running)
		for i, s := range scopes {
			if s.meets(e.zones.faults[f]) {
				continue
			}
			left++
			if is := x.Status(i).State; is != e.Base.Healthy[i].State {
				t.Errorf("%s makes %s %s, and is outside its scope", e.Set.Faults[f].Key(), e.Base.Model.Net.Devices[i].Ref, is)
			}
		}
		e.Base.Leave()
	}
	t.Logf("%d pairs left out of %d", left, len(scopes)*(len(e.Set.Faults)/step+1))
	if left == 0 {
		t.Error("every fault is in every scope: nothing was tried")
	}
}

// An answer does not depend on what was asked before it, nor on how far it was
// prepared.
func TestAnswersDoNotRemember(t *testing.T) {
	a, b := open(t, "training-bench"), open(t, "training-bench")
	var dead [][]Observation
	for i, st := range a.Base.Healthy {
		if st.Grade == parts.On {
			dead = append(dead, []Observation{{Kind: Dead, Candidate: a.LookCandidate(0, AtDevice, i)}})
		}
	}
	if len(dead) < 3 {
		t.Fatalf("only %d devices are on", len(dead))
	}
	for k, obs := range dead {
		for done, total := 0, 1; done < total; {
			done, total = a.Prepare(obs, 3)
		}
		got, want := a.Find(obs), b.Find(obs)
		if !reflect.DeepEqual(told(a, &got), told(b, &want)) {
			t.Errorf("complaint %d: %v, elsewhere %v", k, told(a, &got), told(b, &want))
		}
		b.Find(dead[(k*2+1)%len(dead)])
	}
}

// told is an answer without the engine's own numbers.
func told(e *Engine, a *Answer) []any {
	list := []any{a.Status}
	for i := range a.Suspects {
		list = append(list, a.Suspects[i].Places, round(a.Suspects[i].Probability))
	}
	if n := a.Next; n != nil {
		list = append(list, n.Look, n.Thing, n.Situation, n.Red, n.Black, round(n.Bits), round(n.Minutes))
	}
	return list
}
