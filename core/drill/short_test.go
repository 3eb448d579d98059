package drill_test

import (
	"math"
	"testing"

	"halfsplit/core/diagnose"
	"halfsplit/core/drill"
	"halfsplit/core/fault"
	"halfsplit/core/meter"
	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
)

func shorts(t testing.TB, panel, at string) *diagnose.Engine {
	t.Helper()
	m := rig(t, panel).Model
	c, err := m.Condition(at)
	if err != nil {
		t.Fatal(err)
	}
	return diagnose.New(trace.New(m, c), fault.All(m.Net), meter.Typical)
}

// rightOnes answers an exercise from solved states by another way than the exercise
// is graded.
func rightOnes(t testing.TB, s *drill.Short) drill.Marks {
	t.Helper()
	var m drill.Marks
	e := s.Engine
	for _, f := range s.Faults {
		m.Each = append(m.Each, possible(e, f, s))
	}
	for _, p := range s.Points {
		x := e.Base.Enter(s.Fault.Changes, sim.Running)
		high := math.Abs(x.V(e.Probes[p.Red].Node) - x.V(e.Probes[p.Black].Node))
		z := x.DC().Z(e.Probes[p.Red].Node, e.Probes[p.Black].Node)
		e.Base.Leave()
		loaded := high * 3000 / (3000 + z) // by hand: the divider of the low-impedance mode
		switch {
		case z > 2e6 || loaded < 0.2*high && high > 1:
			m.Each = append(m.Each, "ghost")
		case high > 12:
			m.Each = append(m.Each, "source")
		default:
			m.Each = append(m.Each, "zero")
		}
	}
	best := -1.0
	for i, o := range s.Options {
		if rate := o.Bits / o.Minutes; rate > best {
			best, m.Choice = rate, i
		}
	}
	if len(s.Options) > 0 {
		for _, o := range s.Options[m.Choice].Outcomes {
			var who []int
			for _, k := range o.Suspects {
				if k < len(s.Suspects) {
					who = append(who, k)
				}
			}
			m.Means = append(m.Means, who)
		}
	}
	return m
}

// possible solves one fault, from both onsets, and compares each given observation by
// the figures alone.
func possible(e *diagnose.Engine, f *fault.Fault, s *drill.Short) string {
	for _, onset := range []sim.Onset{sim.Running, sim.Start} {
		x := e.Base.Enter(f.Changes, onset)
		fits := x.Status(s.Dead).Grade != parts.On
		e.Base.Leave()
		for _, o := range s.Known {
			k := e.Candidates[o.Candidate]
			if k.Look == diagnose.AtPlace {
				fits = fits && e.Inspect(f.Mode, k.Thing) == o.Value
				continue
			}
			x := e.Base.Enter(f.Changes, onset)
			switch k.Look {
			case diagnose.AtDevice:
				fits = fits && e.StateValue(x.Status(k.Thing).State) == o.Value
			case diagnose.AtLight:
				fits = fits && e.StateValue(x.Light(k.Thing).State) == o.Value
			default:
				red, black := e.Probes[k.Red].Node, e.Probes[k.Black].Node
				ghost := x.DC().Z(red, black) > 2e6
				r, _ := meter.Typical.Read(x, k.Mode, red, black)
				// Four of the sigmas of package diagnose: fair questions keep two off either side.
				wide := 0.12 + 0.08*math.Abs(r.Value)
				if k.Mode == meter.VAC {
					wide += 8
				}
				if ghost {
					wide = 1.6 + 2*math.Abs(r.Value)
				}
				fits = fits && math.Abs(r.Value-o.Value) < wide
			}
			e.Base.Leave()
		}
		if fits {
			return "possible"
		}
	}
	return "impossible"
}

// Each form is made for many seeds, the same seed gives the same exercise, other
// seeds others; who solves the panel gets every mark, who turns the answers round
// gets none.
func TestShortForms(t *testing.T) {
	seeds := 12
	if testing.Short() {
		seeds = 4
	}
	for _, panel := range []string{"training-bench", "dosing-skid"} {
		e := shorts(t, panel, "normal")
		for _, form := range drill.Forms {
			made := map[string]bool{}
			for seed := 1; seed <= seeds; seed++ {
				s := drill.Shorts(e, form, seed)
				if s == nil {
					t.Errorf("%s, %s, seed %d: no exercise", panel, form, seed)
					continue
				}
				if again := drill.Shorts(e, form, seed); again.Fault != s.Fault || len(again.Known) != len(s.Known) || len(again.Faults) != len(s.Faults) || len(again.Points) != len(s.Points) {
					t.Errorf("%s, %s, seed %d is another exercise the second time", panel, form, seed)
				}
				made[s.Fault.Key()] = true
				right := rightOnes(t, s)
				marks := s.Grade(right)
				for i, m := range marks {
					if !m.Right {
						t.Errorf("%s, %s, seed %d, %s: answer %d of %+v is marked wrong, wants %q", panel, form, seed, s.Fault.Key(), i, right, m.Want)
					}
				}
				for _, m := range s.Grade(turned(right, len(s.Options))) {
					if m.Right && form != drill.Choose {
						t.Errorf("%s, %s, seed %d: a wrong answer is marked right", panel, form, seed)
					}
				}
				if len(marks) < 2 {
					t.Errorf("%s, %s, seed %d: %d marks", panel, form, seed, len(marks))
				}
			}
			if len(made) < seeds/2 {
				t.Errorf("%s, %s: %d seeds make %d exercises", panel, form, seeds, len(made))
			}
		}
	}
}

func turned(m drill.Marks, options int) drill.Marks {
	other := map[string]string{"possible": "impossible", "impossible": "possible", "source": "zero", "zero": "ghost", "ghost": "source"}
	out := drill.Marks{Choice: options}
	for _, s := range m.Each {
		out.Each = append(out.Each, other[s])
	}
	return out
}
