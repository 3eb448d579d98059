package trace_test

import (
	"slices"
	"testing"

	"halfsplit/core/panel"
	"halfsplit/core/sim"
	"halfsplit/core/trace"
)

// Small panels, each for one rule of isolating. Sources: the rules are common
// practice and IEC 60204-1 (isolation opens all live conductors, and a device for
// it can be locked; from memory).
func TestIsolateRules(t *testing.T) {
	const head = `{"format":"halfsplit-panel","version":1,"name":"rule",`
	mains := `"mains":[{"ref":"G0","voltage":"230 V","frequency":"50 Hz","earthing":"TN-S","impedance":"0.4 ohm","from":"Q0"}],`
	for _, tc := range []struct {
		rule, panel, target string
		open                []string
		reaches             []string // codes and refs
		mains               bool
	}{
		{"a battery behind a plain fuse: a fuse holder is no isolating point", head + `"parts":[
			{"ref":"G1","kind":"battery","ratings":{"class":"PELV","bonded":"no"}},{"ref":"F1","kind":"fuse","ratings":{"current":"2 A T"}},{"ref":"P1","kind":"pilot-light"}],
			"wires":[{"no":"1","from":"G1:+","to":"F1:1"},{"no":"2","from":"F1:2","to":"P1:X1"},{"no":"3","from":"P1:X2","to":"G1:-"}]}`,
			"P1", nil, []string{"reach.live G1"}, false},
		{"a floating supply: one lever leaves the other pole, so both are opened", head + `"strips":[{"ref":"X1","blocks":[{"no":"1","type":"disconnect-block"},{"no":"2","type":"disconnect-block"}]}],"parts":[
			{"ref":"G1","kind":"battery","ratings":{"class":"PELV","bonded":"no"}},{"ref":"P1","kind":"pilot-light"}],
			"wires":[{"no":"1","from":"G1:+","to":"X1:1/in"},{"no":"2","from":"X1:1/out","to":"P1:X1"},{"no":"3","from":"P1:X2","to":"X1:2/out"},{"no":"4","from":"X1:2/in","to":"G1:-"}]}`,
			"P1", []string{"X1:1", "X1:2"}, []string{"reach.on G1"}, false},
		{"mains behind a breaker of one pole: neutral is a live conductor, so the incoming isolator", head + mains + `"parts":[
			{"ref":"F1","kind":"breaker","ratings":{"current":"C6"}},{"ref":"R1","kind":"resistor","ratings":{"resistance":"1 kohm"}}],
			"wires":[{"no":"1","from":"G0:L","to":"F1:1"},{"no":"2","from":"F1:2","to":"R1:1"},{"no":"3","from":"R1:2","to":"G0:N"}]}`,
			"R1", []string{"G0"}, nil, true},
		{"mains behind a breaker of two poles", head + mains + `"parts":[
			{"ref":"F1","kind":"breaker","ratings":{"current":"C6","poles":"2"}},{"ref":"R1","kind":"resistor","ratings":{"resistance":"1 kohm"}}],
			"wires":[{"no":"1","from":"G0:L","to":"F1:1"},{"no":"2","from":"F1:2","to":"R1:1"},{"no":"3","from":"R1:2","to":"F1:4"},{"no":"4","from":"F1:3","to":"G0:N"}]}`,
			"R1", []string{"F1"}, []string{"reach.on G0"}, true},
		{"two supplies behind diodes: both are opened, although only one feeds at a time", head + mains + `"strips":[{"ref":"X1","blocks":[{"no":"1","type":"disconnect-block"},{"no":"2","type":"disconnect-block"}]},{"ref":"X9","blocks":[{"no":"1","type":"ground"}]}],"parts":[
			{"ref":"G1","kind":"battery","ratings":{"class":"PELV"}},{"ref":"G2","kind":"battery","ratings":{"class":"PELV","voltage":"23 V"}},{"ref":"V1","kind":"diode"},{"ref":"V2","kind":"diode"},{"ref":"P1","kind":"pilot-light"}],
			"wires":[{"no":"10","from":"G0:PE","to":"X9:1"},{"no":"11","from":"X9:1","to":"G1:-"},{"no":"1","from":"G1:+","to":"X1:1/in"},{"no":"2","from":"X1:1/out","to":"V1:A"},{"no":"3","from":"V1:K","to":"P1:X1"},
			{"no":"4","from":"G2:+","to":"X1:2/in"},{"no":"5","from":"X1:2/out","to":"V2:A"},{"no":"6","from":"V2:K","to":"P1:X1"},
			{"no":"7","from":"P1:X2","to":"G1:-"},{"no":"8","from":"G1:-","to":"G2:-"}]}`,
			"V1", []string{"X1:1", "X1:2"}, []string{"reach.on G0", "reach.on G1", "reach.on G2"}, false},
		{"behind a transformer: what feeds its primary is opened, both poles", head + mains + `"parts":[
			{"ref":"F1","kind":"breaker","ratings":{"current":"C6","poles":"2"}},{"ref":"T1","kind":"control-transformer"},{"ref":"R1","kind":"resistor","ratings":{"resistance":"100 ohm"}}],
			"wires":[{"no":"1","from":"G0:L","to":"F1:1"},{"no":"2","from":"F1:2","to":"T1:1"},{"no":"3","from":"T1:2","to":"F1:4"},{"no":"4","from":"F1:3","to":"G0:N"},
			{"no":"5","from":"T1:3","to":"R1:1"},{"no":"6","from":"R1:2","to":"T1:4"}]}`,
			"R1", []string{"F1"}, []string{"reach.on G0"}, false},
		{"a supply that is isolated keeps its output up for a while: stored energy is named", head + mains + `"strips":[{"ref":"X9","blocks":[{"no":"1","type":"ground"}]}],"parts":[
			{"ref":"F1","kind":"breaker","ratings":{"current":"C6","poles":"2"}},{"ref":"T1","kind":"dc-supply","ratings":{"class":"PELV"}},{"ref":"P1","kind":"pilot-light"}],
			"wires":[{"no":"1","from":"G0:L","to":"F1:1"},{"no":"2","from":"F1:2","to":"T1:L"},{"no":"3","from":"T1:N","to":"F1:4"},{"no":"4","from":"F1:3","to":"G0:N"},
			{"no":"5","from":"T1:+","to":"P1:X1"},{"no":"6","from":"P1:X2","to":"T1:-"},{"no":"7","from":"G0:PE","to":"X9:1"},{"no":"8","from":"X9:1","to":"T1:-"}]}`,
			"P1", []string{"F1"}, []string{"reach.stored T1", "reach.on G0"}, false},
		{"a transmitter that drives its own loop: what feeds the transmitter is opened", head + mains + `"strips":[{"ref":"X1","blocks":[{"no":"1","type":"disconnect-block"}]},{"ref":"X9","blocks":[{"no":"1","type":"ground"}]}],"parts":[
			{"ref":"G1","kind":"battery","ratings":{"class":"PELV"}},{"ref":"B1","kind":"transmitter-4wire"},{"ref":"R1","kind":"resistor","ratings":{"resistance":"250 ohm"}}],
			"wires":[{"no":"10","from":"G0:PE","to":"X9:1"},{"no":"11","from":"X9:1","to":"G1:-"},{"no":"1","from":"G1:+","to":"X1:1/in"},{"no":"2","from":"X1:1/out","to":"B1:L+"},
			{"no":"3","from":"B1:M","to":"G1:-"},{"no":"4","from":"B1:+","to":"R1:1"},{"no":"5","from":"R1:2","to":"B1:-"}]}`,
			"R1", []string{"X1:1"}, []string{"reach.on G0", "reach.on G1"}, false},
		{"what lies beyond the drawing may bring a voltage", head + `"parts":[
			{"ref":"U1","kind":"boundary","ratings":{"beyond":"feed","class":"PELV","bonded":"no"}},{"ref":"P1","kind":"pilot-light"}],
			"wires":[{"no":"1","from":"U1:1","to":"P1:X1"},{"no":"2","from":"P1:X2","to":"U1:2"}]}`,
			"P1", nil, []string{"reach.live U1", "reach.foreign U1"}, false},
	} {
		doc, err := panel.Read([]byte(tc.panel))
		if err != nil {
			t.Fatal(tc.rule, err)
		}
		m := sim.New(doc.Panel)
		c, err := m.Condition("normal")
		if err != nil {
			t.Fatal(err)
		}
		is := trace.New(m, c).Isolate(at(m.Net, tc.target), nil, sim.Running)
		var open, reaches []string
		for _, p := range is.Points {
			open = append(open, p.Ref)
		}
		for _, r := range is.Reaches {
			reaches = append(reaches, r.Code+" "+r.Ref)
		}
		slices.Sort(open)
		if is.Isolated != (tc.open != nil) || !slices.Equal(open, tc.open) || !slices.Equal(reaches, tc.reaches) || is.Mains != tc.mains {
			t.Errorf("%s: isolated %v, open %v, mains %v, reaches %q; want %v, %v, %q", tc.rule, is.Isolated, open, is.Mains, reaches, tc.open, tc.mains, tc.reaches)
		}
	}
}
