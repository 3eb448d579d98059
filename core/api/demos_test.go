package api_test

import (
	"os"
	"strings"
	"testing"

	"halfsplit/core/api"
)

// What fools a technician can be shown on the demo panels: each row of the table in
// DEVELOPERS.md has what it shows here. The figures are worked by hand beside the
// vectors; here it is who is affected, and why.
func TestDemosShowWhatFools(t *testing.T) {
	table, err := os.ReadFile(root + "DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	hosts := map[string]*api.Host{}
	for _, tc := range []struct {
		demo, at string
		faults   string // as the table has them
		want     string // REF EFFECT WHY, one of those affected
	}{
		{"wash-line", "", "X2:5~X2:6=no-jumper", "K1 dead why.both-live"},
		{"training-bench", "", "W18=broken", "P1 dead why.open-return"},
		{"wash-line", "", "W240=broken", "B1 dead why.both-live"},
		{"wash-line", "", "W102=broken", "T1 dead why.both-live"},
		{"wash-line", "", "T1=no-output", "T3:1 dead why.source-fault"},
		{"wash-line", "", "X7:1=shorted, W257~PE=short", "P2 held-on why.closed"},
		{"wash-line", "", "X10:1=fuse-blown", ""},
		{"wash-line", "", "X1:2=fuse-blown", "B2 dead why.leak"},
		{"dosing-skid", "", "W12@K2:13=loose:300ohm", "M1 dead why.resistive"},
		{"wash-line", "", "W112@F3:1=loose:300ohm", "P5 starved why.resistive"},
		{"wash-line", "", "W257~PE=short", "B9 wrong-value why.new-path"},
		{"wash-line", "", "W257~PE=short, W258~PE=short", "K5 held-on why.new-path"},
		{"wash-line", "", "W136=broken", "U2 unprotected why.earth"},
		{"dosing-skid", "", "X9:1=foot-open", "B1 unprotected why.earth"},
		{"dosing-skid", "", "B1=reversed", "B1 dead why.own"},
		{"wash-line", "", "B6=fail-low", "A2:0 wrong-value why.follows"},
		{"wash-line", "", "B5:3=open", "A5:0 wrong-value why.shared"},
		{"wash-line", "", "B4=open", "K4 wrong-value why.open"},
		{"wash-line", "", "W154=broken", "K9 dead why.open"},
	} {
		faults := strings.Split(tc.faults, ", ")
		for _, f := range faults {
			if !strings.Contains(string(table), "`"+f+"`") {
				t.Errorf("DEVELOPERS.md has no %s", f)
			}
		}
		h := hosts[tc.demo]
		if h == nil {
			h, _ = openDemo(t, tc.demo)
			hosts[tc.demo] = h
		}
		r := h.Do(api.Request{Op: api.OpWhatIf, Session: 1, At: tc.at, Faults: faults})
		if r.Error != nil {
			t.Errorf("%s: %s", tc.faults, r.Error.Text.Text)
			continue
		}
		var said []string
		shown := tc.want == "" && len(r.WhatIf.Affected) == 0
		for _, a := range r.WhatIf.Affected {
			is := a.Ref + " " + a.Effect
			said = append(said, is+" "+strings.Join(codesOf(a.Why), " "))
			for _, why := range codesOf(a.Why) {
				shown = shown || is+" "+why == tc.want
			}
		}
		if !shown {
			t.Errorf("%s %s shows %q, want %q", tc.demo, tc.faults, said, tc.want)
		}
	}
	h, s := openDemo(t, "wash-line")
	r := h.Do(api.Request{Op: api.OpMeter, Session: s, At: "too-hot; switch-off A4:0", Mode: "vac", Red: "X0:5", Black: "G0:N"})
	if r.Error != nil || r.Meter.Value == nil || *r.Meter.Value < 200 {
		t.Errorf("an output that is off and leaks shows %+v", r.Meter)
	}
}
