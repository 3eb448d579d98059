package api_test

import (
	"testing"

	"halfsplit/core/api"
)

// A reading of any mode, as the meter shows it under the true fault, agrees with
// that fault and speaks against others that seemed as good; what the healthy panel
// shows speaks against the fault, where the two differ. The law behind it: the
// meter that predicts is the meter that reads.
func TestReadingsOfEveryMode(t *testing.T) {
	h, s := openDemo(t, "training-bench")
	const truth = "W18=broken" // the return of lamp P1
	find := func(r ...api.Reading) map[string]api.Hypo {
		a := h.Do(api.Request{Op: api.OpFind, Session: s, All: true, Observations: &api.Observations{Dead: []string{"P1"}, Readings: r}})
		if a.Error != nil {
			t.Fatal(r, a.Error.Text.Text)
		}
		all := map[string]api.Hypo{}
		for _, one := range a.Find.All {
			all[one.Fault] = one
		}
		return all
	}
	before := find()
	for _, tc := range []struct {
		mode, red, black, at string
		against              string // a fault the reading must rule out
	}{
		{"lowz", "P1:X2", "X2:1", "", "X1:2=fuse-blown"},
		{"tester", "P1:X1", "P1:X2", "", "P1=open"},
		{"clamp", "W17", "", "", ""}, // nothing flows under any of them
		{"ma", "X1:2", "", "", ""},
		{"ma", "W17@P1:X1", "", "", ""},
		{"beep", "P1:X2", "X2:2", "power-off", "P1=open"},
		{"diode", "P1:X2", "X2:2", "power-off", "X1:2=fuse-blown"},
	} {
		q := api.Request{Op: api.OpMeter, Session: s, Faults: []string{truth}, Mode: tc.mode, Red: tc.red, Black: tc.black, At: tc.at}
		m := h.Do(q)
		if m.Error != nil || m.Meter.Refused != "" {
			t.Fatal(tc, m)
		}
		r := api.Reading{Mode: tc.mode, Red: tc.red, Black: tc.black, At: tc.at, Value: m.Meter.Value}
		if tc.mode == "beep" || m.Meter.Overload {
			r.Value, r.Shown = nil, m.Meter.Shown
		}
		after := find(r)
		if !after[truth].Consistent {
			t.Errorf("%s %s: %s is at odds with its own reading %s (%.1f sigma)", tc.mode, tc.red, truth, m.Meter.Shown, after[truth].Worst)
		}
		if tc.against != "" && after[tc.against].Consistent {
			t.Errorf("%s %s shows %s, and %s still agrees", tc.mode, tc.red, m.Meter.Shown, tc.against)
		}
		q.Faults = nil
		sound := h.Do(q).Meter
		if sound.Shown == m.Meter.Shown {
			t.Errorf("%s %s shows %s either way: this shows nothing", tc.mode, tc.red, sound.Shown)
		}
		r.Value, r.Shown = sound.Value, ""
		if tc.mode == "beep" || sound.Overload {
			r.Value, r.Shown = nil, sound.Shown
		}
		if wrong := find(r); wrong[truth].Consistent {
			t.Errorf("%s %s: %s agrees with what only a sound panel shows, %s", tc.mode, tc.red, truth, sound.Shown)
		}
	}
	if !before[truth].Consistent || !before["P1=open"].Consistent || !before["X1:2=fuse-blown"].Consistent {
		t.Error("the complaint alone rules something out")
	}
}
