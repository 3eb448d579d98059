package diagnose

import (
	"testing"

	"halfsplit/core/fault"
	"halfsplit/core/internal/demo"
	"halfsplit/core/meter"
	"halfsplit/core/trace"
)

func open(t *testing.T, name string) *Engine {
	t.Helper()
	m, c := demo.In(t, name, "normal")
	return New(trace.New(m, c), fault.All(m.Net), meter.Typical)
}

// Faults of different places share a class for being alike only where every
// permitted pair of probes, in every powered situation, reads the same: not just
// the pairs that are ever proposed.
func TestAlikeMeansEveryProbePair(t *testing.T) {
	e := open(t, "training-bench")
	compared := 0
	s := e.survey(nil)
	for _, class := range e.classify(s.living) {
		if len(class) < 2 || class[0] == 0 {
			continue
		}
		first := allPairs(e, class[0])
		for _, i := range class[1:] {
			if e.place(i) == e.place(class[0]) {
				continue // one repair mends both: they may differ
			}
			other := allPairs(e, i)
			for k := range first {
				compared++
				if c := first[k].candidate; e.apart(&c, first[k].outcome, other[k].outcome) {
					t.Fatalf("%s and %s share a class, but %s %s – %s reads %.3f and %.3f",
						e.Set.Faults[e.faultOf(class[0])].Key(), e.Set.Faults[e.faultOf(i)].Key(),
						c.Mode, e.Probes[c.Red].Name, e.Probes[c.Black].Name, first[k].value, other[k].value)
				}
			}
		}
	}
	t.Logf("%d readings compared", compared)
	if compared == 0 {
		t.Error("no class spans two places: nothing was compared")
	}
}

type pairReading struct {
	candidate Candidate
	outcome
}

// allPairs reads every permitted pair in every powered situation.
func allPairs(e *Engine, i int32) []pairReading {
	var list []pairReading
	x := e.enter(i)
	e.walk(x, e.scope.situations, func(k int) {
		r := e.reader(x)
		for i := range e.Probes {
			for j := range e.Probes[:i] {
				if !Permitted(e.Probes[i], e.Probes[j]) {
					continue
				}
				c := Candidate{Situation: k, Mode: meter.VDC, Red: i, Black: j}
				if e.Probes[i].Mains || e.Probes[j].Mains {
					c.Mode = meter.VAC
				}
				list = append(list, pairReading{c, r.take(&c)})
			}
		}
	})
	e.leave()
	return list
}
