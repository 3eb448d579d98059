package drill_test

import (
	"slices"
	"testing"

	"halfsplit/core/drill"
)

// do plays acts that none may be refused.
func do(t testing.TB, a *drill.Attempt, acts ...drill.Act) *drill.Entry {
	t.Helper()
	var last *drill.Entry
	for _, act := range acts {
		e, refused := a.Do(act)
		if refused != nil {
			t.Fatalf("%+v: %s %v", act, refused.Code, refused.Args)
		}
		last = e
	}
	return last
}

func read(mode, red, black string) drill.Act {
	return drill.Act{Kind: drill.DoRead, Mode: mode, Red: red, Black: black, Why: "feed"}
}

// isolate switches the bench off, locks it and proves pairs dead.
func isolate(pairs ...string) []drill.Act {
	acts := []drill.Act{{Kind: drill.DoOperate, Step: "switch-off G0"}, {Kind: drill.DoLock, Thing: "G0"}, {Kind: drill.DoProveTester}}
	for i := 0; i < len(pairs); i += 2 {
		acts = append(acts, drill.Act{Kind: drill.DoProveDead, Red: pairs[i], Black: pairs[i+1]})
	}
	return append(acts, drill.Act{Kind: drill.DoProveTester})
}

func codes(e *drill.Entry) (list []string) {
	for _, f := range e.Facts {
		list = append(list, f.Code)
	}
	return list
}

// What the learner's meter shows on the bench with the conductor of the run lamp
// broken. By hand: the whole source across the open, nothing behind it.
func TestReadings(t *testing.T) {
	a := set(t, bench(t, "W17=broken"), 0).Begin()
	for _, tc := range []struct{ red, black, want string }{
		{"K1:24", "X2:1", "24.00 V"}, {"P1:X1", "X2:1", "0.00 V"}, {"K1:24", "P1:X1", "24.00 V"}, {"P1:X1", "P1:X2", "0.00 V"},
	} {
		e := do(t, a, read("vdc", tc.red, tc.black))
		if e.Reading == nil || e.Reading.Shown != tc.want {
			t.Errorf("%s to %s: %+v, want %s", tc.red, tc.black, e.Reading, tc.want)
		}
	}
}

// Each unsafe act is done, its consequence told and its gate noted; the way it is
// done right falls into none. What is right is common practice: off, locked, tester,
// every pair, tester.
func TestGates(t *testing.T) {
	pairs := []string{"K1:24", "X2:1", "P1:X1", "X2:1"}
	for _, tc := range []struct {
		name string
		acts []drill.Act
		want []drill.Gate
		end  string
	}{
		{"ohms on live", []drill.Act{read("ohms", "K1:24", "X2:1")}, []drill.Gate{drill.OhmsOnLive}, ""},
		{"continuity on live", []drill.Act{read("beep", "K1:24", "P1:X1")}, []drill.Gate{drill.OhmsOnLive}, ""},
		{"milliamps across the supply", []drill.Act{read("ma", "X1:1/in", "X2:1")}, []drill.Gate{drill.AmpsAcross}, ""},
		{"ohms where nothing is, panel on", []drill.Act{read("ohms", "P1:X1", "P1:X2")}, nil, ""},
		{"tightened live", []drill.Act{{Kind: drill.DoTighten, Thing: "W17@K1:24"}}, []drill.Gate{drill.LiveWork}, ""},
		{"hands on the mains", []drill.Act{{Kind: drill.DoTighten, Thing: "W3@F0:2"}}, []drill.Gate{drill.Shock}, "gate"},
		{"off and not proved", []drill.Act{{Kind: drill.DoOperate, Step: "switch-off G0"}, {Kind: drill.DoReplace, Thing: "W17"}}, []drill.Gate{drill.NoProof}, ""},
		{"off and proved, not locked", slices.DeleteFunc(append(isolate(pairs...), drill.Act{Kind: drill.DoReplace, Thing: "W17"}), func(x drill.Act) bool { return x.Kind == drill.DoLock }), []drill.Gate{drill.Unlocked}, ""},
		{"tester not proved first", append(isolate(pairs...)[3:], drill.Act{Kind: drill.DoOperate, Step: "switch-off G0"}, drill.Act{Kind: drill.DoReplace, Thing: "W17"}), []drill.Gate{drill.NoProof}, ""},
		{"one pair only", append(isolate(pairs[:2]...), drill.Act{Kind: drill.DoReplace, Thing: "W17"}), []drill.Gate{drill.NoProof}, ""},
		{"bypass", []drill.Act{{Kind: drill.DoBypass, Red: "K1:24", Black: "P1:X1"}}, []drill.Gate{drill.Bypassed}, "gate"},
		{"as it should be done", append(isolate(pairs...), drill.Act{Kind: drill.DoReplace, Thing: "W17"}), nil, ""},
	} {
		t.Run(tc.name, func(t *testing.T) {
			a := set(t, bench(t, "W17=broken"), 0).Begin()
			do(t, a, tc.acts...)
			var got []drill.Gate
			for _, f := range a.Fired {
				got = append(got, f.Gate)
			}
			if !slices.Equal(got, tc.want) || a.Ended != tc.end {
				t.Errorf("gates %v, ended %q; want %v, %q", got, a.Ended, tc.want, tc.end)
			}
		})
	}
}

// A replay of the acts is the attempt: nothing else is kept. An act that is refused
// leaves it as it was.
func TestReplay(t *testing.T) {
	c := set(t, bench(t, "W17=broken"), 0)
	acts := []drill.Act{
		{Kind: drill.DoLook, Thing: "P1"}, read("vdc", "K1:24", "X2:1"), {Kind: drill.DoOperate, Step: "press S1"}, {Kind: drill.DoLook, Thing: "K1"},
		{Kind: drill.DoOperate, Step: "release S1"}, {Kind: drill.DoLook, Thing: "K1"}, {Kind: drill.DoPull, Thing: "X1:2"},
	}
	a, refused := c.Replay(acts)
	if refused != nil || len(a.Log) != len(acts) {
		t.Fatalf("%v after %d acts", refused, len(a.Log))
	}
	if got := a.Log[5].Facts[0].Args[1]; got != "@state.released" {
		t.Errorf("the relay is %s after stop was pressed and let go, want released: it holds itself in", got)
	}
	if got := codes(&a.Log[6]); !slices.Contains(got, "drill.fuse-whole") {
		t.Errorf("the pulled fuse tells %v, want whole", got)
	}
	b, refused := c.Replay(append(acts, drill.Act{Kind: drill.DoLook, Thing: "Q99"}, drill.Act{Kind: drill.DoDone}))
	if refused == nil || refused.Code != "drill.unknown-thing" || len(b.Log) != len(acts) || b.Ended != "" {
		t.Errorf("refused %v after %d acts, ended %q", refused, len(b.Log), b.Ended)
	}
}

// Mended, started and proved: the plant does what it should; mended in the wrong
// place it does not.
func TestRepair(t *testing.T) {
	for _, tc := range []struct {
		fault, called string
		pairs         []string
		good          bool
	}{
		{"W17=broken", "W17", []string{"K1:24", "X2:1", "P1:X1", "X2:1"}, true},
		{"W17=broken", "W16", []string{"K1:23", "X2:1", "X1:2/out", "X2:1"}, false},
		{"X1:2=lever-open", "X1:2", []string{"X1:2/in", "X2:1", "X1:2/out", "X2:1"}, true},
		{"W17@K1:24=loose:300ohm", "W17@K1:24", []string{"K1:24", "X2:1", "P1:X1", "X2:1"}, true},
	} {
		a := set(t, bench(t, tc.fault), 0).Begin()
		acts := append([]drill.Act{{Kind: drill.DoCall, Thing: tc.called, Class: "open"}}, isolate(tc.pairs...)...)
		acts = append(acts, drill.Act{Kind: drill.DoRepair}, drill.Act{Kind: drill.DoUnlock, Thing: "G0"},
			drill.Act{Kind: drill.DoOperate, Step: "switch-on G0"}, drill.Act{Kind: drill.DoProveFunction})
		want := "drill.still-wrong"
		if tc.good {
			want = "drill.function-good"
		}
		if got := codes(do(t, a, acts...)); !slices.Contains(got, want) || len(a.Fired) > 0 || a.Whole() != tc.good {
			t.Errorf("%s, %s repaired: %v, gates %v", tc.fault, tc.called, got, a.Fired)
		}
	}
}
