package meter_test

import (
	"math"
	"testing"

	"halfsplit/core/internal/demo"
	"halfsplit/core/meter"
	"halfsplit/core/panel"
	"halfsplit/core/sim"
)

func running(t testing.TB, name, condition string) *sim.Machine {
	t.Helper()
	m, c := demo.In(t, name, condition)
	x := m.Replay(c, sim.Running, nil)
	x.Checkpoint()
	return x
}

func machine(t testing.TB, document []byte, condition string) *sim.Machine {
	t.Helper()
	doc, err := panel.Read(document)
	if err != nil {
		t.Fatal(err)
	}
	m := sim.New(doc.Panel)
	c, err := m.Condition(condition)
	if err != nil {
		t.Fatal(err)
	}
	x := m.Replay(c, sim.Running, nil)
	x.Checkpoint()
	return x
}

// Swapped leads flip the sign of V DC and nothing else of V AC, at every pair of
// strip points of the bench.
func TestSwappedLeads(t *testing.T) {
	x := running(t, "training-bench", "normal")
	pts := x.Model.Net.Points
	pairs := 0
	for i := range pts {
		for j := range pts[:i] {
			if pts[i].Hidden || pts[j].Hidden || pts[i].Node == pts[j].Node {
				continue
			}
			for _, mode := range []meter.Mode{meter.VDC, meter.VAC} {
				a := read(t, x, mode, i, j)
				b := read(t, x, mode, j, i)
				want := -a
				if mode == meter.VAC {
					want = a
				}
				if !(math.Abs(b-want) <= 1e-9*math.Max(1, math.Abs(a))) {
					t.Fatalf("%s %s – %s reads %g, swapped %g", mode, pts[i].Name, pts[j].Name, a, b)
				}
				pairs++
			}
		}
	}
	if pairs == 0 {
		t.Error("no pair was read")
	}
}

func read(t testing.TB, x *sim.Machine, mode meter.Mode, i, j int) float64 {
	t.Helper()
	pts := x.Model.Net.Points
	r, refused := meter.Typical.Read(x, mode, pts[i].Node, pts[j].Node)
	x.Revert()
	if refused != nil {
		t.Fatal(refused.Code)
	}
	return r.Value
}

// divider is two resistors of 100 kΩ across a 24 V battery.
const divider = `{"format":"halfsplit-panel","version":1,"name":"divider","parts":[
 {"ref":"G1","kind":"battery","ratings":{"resistance":"1 mohm","class":"PELV","bonded":"no"}},
 {"ref":"R1","kind":"resistor","ratings":{"resistance":"100 kohm"}},
 {"ref":"R2","kind":"resistor","ratings":{"resistance":"100 kohm"}}],
 "wires":[{"no":"1","from":"G1:+","to":"R1:1"},{"no":"2","from":"R1:2","to":"R2:1"},{"no":"3","from":"R2:2","to":"G1:-"}]}`

// The meter is in the circuit while it measures. Source: by hand, 24 V across
// R1 and R2 in parallel with the input resistance.
func TestTheMeterLoads(t *testing.T) {
	x := machine(t, []byte(divider), "normal")
	red, _ := x.Model.Net.FindPoint("R2:1")
	black, _ := x.Model.Net.FindPoint("R2:2")
	for _, tc := range []struct {
		mode meter.Mode
		want float64
		how  string
	}{
		{meter.VDC, 11.9403, "24·99.0099k/199.0099k, 10 MΩ input"},
		{meter.Tester, 9.6000, "24·66.6667k/166.6667k, 200 kΩ tester"},
		{meter.LowZ, 0.6792, "24·2.91262k/102.91262k, 3 kΩ input"},
	} {
		r, refused := meter.Typical.Read(x, tc.mode, red.Node, black.Node)
		x.Revert()
		if refused != nil || !(math.Abs(r.Value-tc.want) <= 0.001) {
			t.Errorf("%s reads %.4f V, want %.4f (%s)", tc.mode, r.Value, tc.want, tc.how)
		}
	}
}

// Resistance is refused on a live circuit, on a panel that is switched on, and
// read otherwise. A beep proves nothing about a joint (common practice): 35 Ω and
// 1 Ω beep alike.
func TestResistance(t *testing.T) {
	x := running(t, "training-bench", "normal")
	plus, _ := x.Model.Net.FindPoint("X1:1/in")
	zero, _ := x.Model.Net.FindPoint("X2:1")
	if _, refused := meter.Typical.Read(x, meter.Ohms, plus.Node, zero.Node); refused == nil || refused.Code != "refused.live" {
		t.Errorf("ohms on 24 V: %v, want refused.live", refused)
	}
	dead, _ := x.Model.Net.FindPoint("X2:2")
	if _, refused := meter.Typical.Read(x, meter.Beep, dead.Node, zero.Node); refused == nil || refused.Code != "refused.powered" {
		t.Errorf("beep on a panel that is on: %v, want refused.powered", refused)
	}
	x = running(t, "training-bench", sim.PowerOff)
	a, _ := x.Model.Net.FindPoint("P1:X1")
	b, _ := x.Model.Net.FindPoint("P1:X2")
	r, refused := meter.Typical.Read(x, meter.Ohms, a.Node, b.Node)
	if refused != nil || r.Shown != "1.200 kΩ" {
		t.Errorf("the lamp reads %q, %v; want 1.200 kΩ (24 V at 20 mA)", r.Shown, refused)
	}
	if r, _ := meter.Typical.Read(x, meter.Beep, a.Node, b.Node); r.Shown != "silent" {
		t.Errorf("1.2 kΩ: %q, want silent", r.Shown)
	}
	if r, _ := meter.Typical.Read(x, meter.Beep, zero.Node, dead.Node); r.Shown != "beep" {
		t.Errorf("a jumper: %q, want beep", r.Shown)
	}
}

// inserted is a panel started with the typical meter in a break.
func inserted(t testing.TB, name, condition string, b meter.Break) *sim.Machine {
	t.Helper()
	m, c := demo.In(t, name, condition)
	x := m.Replay(c, sim.Start, meter.Typical.Inserted(b))
	if err := x.Err(); err != nil {
		t.Fatal(err)
	}
	return x
}
