package diagnose

import (
	"slices"
	"testing"

	"halfsplit/core/fault"
	"halfsplit/core/internal/demo"
	"halfsplit/core/meter"
	"halfsplit/core/pace"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
)

// washLine is a search about the whole wash line, where a jumper out leaves loops
// with transmitters on insulation: the hypothesis of that, its readings unread.
func washLine(t *testing.T) (e *Engine, i int32) {
	t.Helper()
	m := sim.New(demo.Panel(t, "wash-line"))
	c, err := m.Condition("normal")
	if err != nil {
		t.Fatal(err)
	}
	e = New(trace.New(m, c), fault.All(m.Net), meter.Typical)
	e.focus(e.complaint(nil))
	e.list()
	for f := range e.Set.Faults {
		if e.Set.Faults[f].Key() == "X2:1~X2:2=no-jumper" {
			return e, e.running(int32(f))
		}
	}
	t.Fatal("the wash line has no jumper from X2:1 to X2:2")
	return nil, 0
}

// mostInAPortion is how many readings with the meter in the network a portion of the
// page's budget may take: of 0.1 ms each on a panel of 1000 terminals, five times
// that in a browser, a twentieth of the second that a search may be silent. Choice.
const (
	mostInAPortion = 100
	pageBudget     = 30
)

// However many readings of one hypothesis want the meter in the network, a search
// breathes between them; and given up there it leaves nothing that is half done.
func TestFragileReadingsBreathe(t *testing.T) {
	whole, i := washLine(t)
	whole.read(i)
	fragile := len(whole.unsure)
	if fragile < 10*mostInAPortion {
		t.Fatalf("only %d readings want the meter in the network", fragile)
	}
	e, _ := washLine(t)
	var p pace.Pace
	e.Pace = &p
	for _, portions := range []int{1, 2, 7} {
		j := pace.Start(&p, func() { e.read(i) })
		for range portions {
			if j.Next(pageBudget) {
				t.Fatalf("%d readings in %d portions", fragile, portions)
			}
		}
		j.Stop()
		if e.hyps[i].read {
			t.Errorf("given up after %d portions, and said to be read", portions)
		}
	}
	j := pace.Start(&p, func() { e.read(i) })
	portions := 1
	for !j.Next(pageBudget) {
		portions++
	}
	if portions*mostInAPortion < fragile {
		t.Errorf("%d readings in %d portions, want no more than %d in one", fragile, portions, mostInAPortion)
	}
	if !e.hyps[i].read || !slices.Equal(e.hyps[i].shows, whole.hyps[i].shows) {
		t.Error("given up and begun again, it shows something else")
	}
}

// Readings taken one after the other on a panel that is left standing are those of a
// meter put in once for each.
func TestFragileReadingsAlone(t *testing.T) {
	e, i := washLine(t)
	e.read(i)
	for n := 0; n < len(e.unsure); n += 40 {
		c := e.unsure[n]
		k := &e.Candidates[c]
		x := e.enter(i)
		e.hold(x, k.Situation)
		r, refused := e.Meter.Read(x, k.Mode, e.Probes[k.Red].Node, e.Probes[k.Black].Node)
		e.leave()
		if refused != nil {
			t.Fatalf("refused: %s", refused.Code)
		}
		want := e.expect[c]
		if kept := e.store(nil, c, outcome{value: r.Value, ghost: true}); len(kept) > 0 {
			want = kept[0].outcome()
		}
		if got := e.outcomeOf(i, int(c)); got != want {
			t.Errorf("%s to %s: %+v, alone %+v", e.Probes[k.Red].Name, e.Probes[k.Black].Name, got, want)
		}
	}
}
